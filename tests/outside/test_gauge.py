"""Gauges against published pairs."""

import pytest

from tests.outside.pieces import part, piece
from tests.whole import shawl


def strip(fabric: str, *bands: str, cast_on: int = 20) -> str:
    return piece(shape="rectangle", start=f"cast on {cast_on} sts", fabric=fabric, parts=part(*bands))


def test_stockinette_from_garter() -> None:
    """DROPS 253-28: with one yarn and needle 17 sts 22 rows in stockinette, 17 sts 33 rows in garter in 10 cm."""
    found = shawl(strip("stitch garter\n  gauge 17 sts 33 rows over 10 cm", "stockinette 22 rows"))
    assert found.rows.width_cm[1] == pytest.approx(10 / 17)
    assert sum(found.rows.height_cm[1:]) == pytest.approx(10)


def test_garter_from_stockinette() -> None:
    """The same pair, the other way round."""
    found = shawl(strip("stitch stockinette\n  gauge 17 sts 22 rows over 10 cm", "garter 33 rows"))
    assert found.rows.width_cm[1] == pytest.approx(10 / 17)
    assert sum(found.rows.height_cm[1:]) == pytest.approx(10)


@pytest.mark.parametrize(("stitches", "rows", "square"), [(20, 40, True), (25, 46, False)])
def test_which_garter_is_square(stitches: int, rows: int, square: bool) -> None:
    """gettinghookedagain.blogspot.com, October 2010: 20 sts by 40 rows of garter knit up truly square, 25 by 46
    do not.
    """
    found = shawl(strip("stitch garter\n  gauge 20 sts 40 rows over 10 cm", f"garter {rows} rows", cast_on=stitches))
    size = found.outline.size
    assert (size.wingspan_cm == pytest.approx(size.depth_cm, rel=0.01)) is square


def test_square_garter_makes_a_straight_top() -> None:
    """By arithmetic: with two rows to the width of a stitch, +4 every 2 rows makes two right angles, so the top
    is straight and the wingspan twice the depth; 9 sts and 128 rows of 20 by 40 cover 2,224 cm2.
    """
    found = shawl(
        piece(
            shape="triangle",
            start="garter tab 3 sts 6 rows",
            shaping="increase 1 at each edge and 1 at spine every 2 rows",
            parts=part("garter 64 ridges"),
        )
    )
    assert found.outline.fan_degrees == pytest.approx(180)
    size = found.outline.size
    assert size.wingspan_cm == pytest.approx(2 * size.depth_cm, rel=0.001)
    assert size.wingspan_cm == pytest.approx(94.4, abs=0.06)
    assert size.area_cm2 == pytest.approx(2224, abs=0.5)


def test_edges_every_row_and_spine_every_third_lift_the_wings() -> None:
    """By arithmetic: phi = atan(1/3 x 0.5 / 0.25), psi = atan(1 x 0.5 / 0.25), 2 (phi + psi) = 194 degrees."""
    found = shawl(
        piece(
            shape="triangle",
            start="cast on 9 sts",
            shaping="increase 1 at each edge every row\nincrease 1 at spine every 3 rows",
            parts=part("garter 60 ridges"),
        )
    )
    assert found.outline.fan_degrees == pytest.approx(194, abs=0.5)
