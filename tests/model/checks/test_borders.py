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


@pytest.mark.parametrize(
    ("swatch", "said"),
    [
        ("weighs 1.8 g", "very light for this yarn: a swatch of 40 sts x 60 rows usually weighs 9.5 to 14.9 g. Is a"),
        ("weighs 9 g", "light for this yarn: a swatch of 40 sts x 60 rows usually weighs 9.5 to 14.9 g."),
        ("weighs 4.7 g", "usually weighs 9.5 to 14.9 g. Is a digit missing?"),
        (
            "weighs 30 g",
            "very heavy for this yarn: a swatch of 40 sts x 60 rows usually weighs 9.5 to 14.9 g. Is there a digit",
        ),
        (
            "weighs 120 g",
            "very heavy for this yarn: a swatch of 40 sts x 60 rows usually weighs 9.5 to 14.9 g. Is there a digit too",
        ),
        ("weighs 16 g", "is heavy for this yarn"),
        ("weighs 0.042 oz", "usually weighs 0.34 to 0.53 oz. Is a digit missing?"),
        ("takes 20 m", "light for this yarn: a swatch of 40 sts x 60 rows usually takes 38.2 to 59.6 m."),
    ],
)
def test_an_odd_swatch_says_what_is_usual(swatch: str, said: str) -> None:
    """Stitches 4.76 mm wide before blocking: 40 x 62.62 take 38.2 m at 3.2 widths and 59.6 m at 5; 4 m weigh 1 g."""
    stitch = f"stitch garter\n  gauge 20 sts 40 rows over 10 cm\n  swatch 40 sts 60 rows {swatch}"
    found = planned(text("garter 2 rows", stitches=stitch, skein="100 g 400 m")).problems
    (message,) = [problem.message for problem in found if problem.code == "odd-swatch"]
    assert said in message
    assert ("Is " in message) == ("Is " in said), message


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
