"""The fan of half-circles: against a relaxed membrane, and against sums on paper."""

import math

import pytest

from tests.model.outline.measuring import row_cm
from tests.model.outline.pieces import Line, garter, laid, layout
from tests.outside.pieces import part, piece
from tests.whole import shawl

FABRICS = """stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch stockinette
  gauge 20 sts 28 rows over 10 cm
stitch lace
  multiple of 2 sts + 1
  gauge 18 sts 26 rows over 10 cm
  row 1: k1, *yo, k2tog*
  row 2: purl"""

BANDS = ("repeat 4 times", "  garter 8 ridges", "  stockinette 10 rows", "  lace 8 rows", "garter 4 ridges")


def half_circle(gain: int, every: int, *bands: str) -> str:
    return piece(
        shape="half-circle",
        start="garter tab 3 sts 6 rows",
        shaping=f"edge 3 sts garter\nincrease {gain} evenly every {every} rows",
        fabric=FABRICS,
        skein="2000 g 8000 m",
        parts=part(*bands),
    )


@pytest.mark.parametrize(
    ("text", "membrane"),
    [
        (half_circle(10, 8, "garter 60 ridges"), 142),
        (half_circle(12, 8, "garter 60 ridges"), 171),
        (half_circle(16, 8, "garter 60 ridges"), 228),
        (half_circle(11, 6, *BANDS), 170),
    ],
)
def test_fan_is_that_of_a_relaxed_membrane(text: str, membrane: float) -> None:
    """Relaxed membrane (orthotropic, free at all edges), computed for this project."""
    assert shawl(text).outline.fan_degrees == pytest.approx(membrane, abs=5)


def test_a_steady_growth_of_two_cm_a_cm_makes_two_radians() -> None:
    """By arithmetic: 8 sts in 8 rows, a stitch of 0.5 cm over a row of 0.25 cm."""
    outline = laid(layout("half-circle", 9, [garter(120)], [Line(8, "evenly", 8)]))
    assert outline.fan_degrees == pytest.approx(math.degrees(2), abs=2)
    assert outline.stretch is None


@pytest.mark.parametrize(
    ("line", "held"), [(Line(3, "evenly", 1, 9, 24), 4.5), (Line(1, "evenly", 1, 30), 0.0)], ids=["early", "late"]
)
def test_inner_arc_is_held_between_nothing_and_the_first_rows(line: Line, held: float) -> None:
    """Of early growth the line begins above the 9 sts of the first 2 cm, of late growth below nought; the area is
    kept."""
    told = layout("half-circle", 9, [garter(120)], [line])
    outline = laid(told)
    height, area = 30.0, sum(told.rows.stitches[1:]) * 0.5 * 0.25
    assert row_cm(outline, 0) == pytest.approx(held, abs=1e-3)
    assert math.radians(outline.fan_degrees or 0) == pytest.approx(2 * (area - held * height) / height**2, rel=1e-3)


def test_doublings_are_stretched_before_they_come_and_pressed_after_them() -> None:
    """The published doublings come on at once where the circle grows steadily: rows before one are short of it."""
    lines = [Line(12, "evenly", 0, 8), Line(24, "evenly", 0, 16), Line(48, "evenly", 0, 32), Line(96, "evenly", 0, 64)]
    outline = laid(layout("half-circle", 17, [garter(127)], lines))
    assert outline.stretch is not None
    assert outline.stretch.along > 0.25 and outline.stretch.along_least < -0.1
    assert outline.problems == ()


def test_the_last_row_of_a_stretched_half_circle_is_as_long_as_it_is_drawn() -> None:
    """120 stitches of 0.5 cm that nothing is made in for 60 rows lie on a longer arc."""
    outline = laid(layout("half-circle", 9, [garter(120)], [Line(111, "evenly", 0, 60)]))
    assert outline.stretch is not None and outline.stretch.along > 0.02
    assert outline.size.last_row_cm == pytest.approx(row_cm(outline, 120), rel=1e-4) and outline.size.last_row_cm > 61
