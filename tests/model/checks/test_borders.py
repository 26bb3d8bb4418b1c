"""Checks begin and end where README says: rows to a stitch, yarn of a stitch in its widths, the margin, wraps."""

import pytest

from tests.model.texts import GARTER, text
from tests.model.weighings.knits import planned


def told(code: str, stitches: str, band: str = "garter 2 rows") -> bool:
    return code in [problem.code for problem in planned(text(band, stitches=stitches)).problems]


@pytest.mark.parametrize(
    ("fabric", "rows", "odd"),
    [
        ("garter", 33.9, True), ("garter", 34, False), ("garter", 44, False), ("garter", 44.1, True),
        ("stockinette", 24.9, True), ("stockinette", 25, False), ("stockinette", 31, False),
        ("stockinette", 31.1, True),
    ],
)  # fmt: skip
def test_a_gauge_is_odd_beyond_its_fabrics_bounds(fabric: str, rows: float, odd: bool) -> None:
    """20 stitches: garter from 34 to 44 rows, 1.7 and 2.2 times as many; stockinette from 25 to 31, 1.25 and 1.55."""
    assert told("odd-gauge", f"stitch {fabric}\n  gauge 20 sts {rows} rows over 10 cm") == odd


@pytest.mark.parametrize(("widths", "odd"), [(3.19, True), (3.21, False), (4.99, False), (5.01, True)])
def test_a_swatch_is_odd_beyond_32_and_5_widths_in_a_stitch(widths: float, odd: bool) -> None:
    """25 stitches over 10 cm before blocking are 4 mm each; the swatch is 40 x 62.62 of them."""
    measures = "gauge 20 sts 40 rows over 10 cm\n  before blocking 25 sts 40 rows over 10 cm"
    metres = widths * 0.004 * 40 * 62.62
    assert told("odd-swatch", f"stitch garter\n  {measures}\n  swatch 40 sts 60 rows takes {metres:.4f} m") == odd


@pytest.mark.parametrize(("keep", "whole"), [("98.9 g", False), ("99 g", True)])
def test_a_margin_of_all_that_was_weighed_leaves_nothing(keep: str, whole: bool) -> None:
    weighed = text("garter 2 rows", keep=f"keep {keep}", tail="weighed\n  before cast on 99 g")
    assert ("keep-too-large" in [problem.code for problem in planned(weighed).problems]) == whole


@pytest.mark.parametrize(("wraps", "many"), [(100, False), (101, True)])
def test_a_stitch_has_at_most_a_hundred_wraps(wraps: int, many: bool) -> None:
    assert told("too-many-wraps", GARTER, f"drop {wraps} wraps") == many


@pytest.mark.parametrize(
    ("lines", "codes"), [((), []), (("edge 1 st",), ["wide-edges"]), (("spine 2 sts",), ["narrow-start"])]
)
def test_without_a_word_a_triangle_has_no_edges_and_a_spine_of_one(lines: tuple[str, ...], codes: list[str]) -> None:
    """One stitch is cast on: it is the spine."""
    shaped = text("garter 8 rows", start="cast on 1 st", lines=("increase 1 at spine every 2 rows", *lines))
    assert [problem.code for problem in planned(shaped).problems] == codes
