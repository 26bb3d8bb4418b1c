"""Half-circles and crescents: their closed conditions, and what their rows keep."""

import math

import numpy as np
import pytest
from halfhank.model.outline.solvers.level_wings import middle_turn
from halfhank.model.outline.solvers.strip import settled
from scipy.optimize import brentq
from shapely import LineString

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import (
    STRAIGHT,
    Line,
    Run,
    crescent_lines,
    doublings,
    garter,
    knitted_cm2,
    laid,
    layout,
    pinned_to,
    stockinette,
)

COUNTS = [9, 17, 29, 53, 101, 197]
"""rhyflowerknits.com: a half-circle with doublings; plain rows between them 3, 7, 15, 31, 63."""


def pi_shawl(run: Run) -> tuple[str, int, list[Run], list[Line]]:
    lines = doublings(COUNTS, [4, 8, 16, 32, 64])
    return "half-circle", 9, [run], [line._replace(first=line.first + 3) for line in lines]


@pytest.mark.parametrize(("run", "degrees", "word"), [(garter(127), 214, "rise"), (stockinette(127), 153, "hang")])
def test_doublings_make_more_or_less_than_a_half_circle(run: Run, degrees: float, word: str) -> None:
    """Counts as published; degrees by the area of the rows, with an inner arc as long as the first 2 cm of rows on
    average."""
    outline = laid(layout(*pi_shawl(run)))
    assert outline.fan_degrees == pytest.approx(degrees, abs=2)
    assert outline.fan_words is not None and word in outline.fan_words
    pinned = laid(layout(*pi_shawl(run), pinned=STRAIGHT))
    assert pinned.fan_words == f"knits to {outline.fan_degrees:.0f}°; pinned to a straight top edge"


def test_half_circle_is_a_sector_of_a_ring() -> None:
    """The line through the rows begins higher than their first 2 cm (8 rows) are long, so that is where it is held."""
    told = layout(*pi_shawl(garter(127)))
    outline, rows = laid(told), told.rows
    height, fan = 127 * 0.25, math.radians(outline.fan_degrees or 0)
    inner = sum(rows.stitches[1:9]) / 8 * 0.5
    assert row_cm(outline, 0) == pytest.approx(inner, rel=1e-3)
    assert row_cm(outline, 127) == pytest.approx(inner + fan * height, rel=1e-4)
    assert inner * height + fan * height**2 / 2 == pytest.approx(knitted_cm2(rows))
    assert polygon(outline, 127).area == pytest.approx(knitted_cm2(rows), rel=1e-3)
    assert outline.size.top_cm == pytest.approx(2 * height + 2 * inner / fan * math.sin(fan / 2), rel=1e-3)


def test_half_circle_worked_inwards_has_its_end_inside() -> None:
    lines = [Line(-100, "evenly", 0, 41), Line(-96, "evenly", 0, 81), Line(-50, "evenly", 0, 110)]
    told = layout("half-circle", 289, [garter(120)], lines)
    outline = laid(told)
    middles = [(120 - row + 0.5) * 0.25 for row in range(1, 121)]
    slope, start = np.polyfit(middles, [n * 0.5 for n in told.rows.stitches[1:]], 1)
    assert 0 < start < 43 * 0.5
    assert row_cm(outline, 120) == pytest.approx(start, rel=1e-3)
    assert row_cm(outline, 0) == pytest.approx(start + slope * 30, rel=1e-3)
    assert polygon(outline, 120).area == pytest.approx(knitted_cm2(told.rows), rel=1e-3)


def test_an_even_half_circle_is_level() -> None:
    outline = laid(layout("half-circle", 60, [garter(60)]))
    assert outline.fan_degrees == pytest.approx(0, abs=1e-6)
    assert outline.size.wingspan_cm == pytest.approx(30, abs=0.02)
    assert outline.size.depth_cm == pytest.approx(15, abs=0.02)
    assert outline.problems == ()


def test_too_many_stitches_ruffle() -> None:
    told = layout("half-circle", 9, [garter(100)], [Line(8, "evenly", 2)])
    outline = laid(told)
    assert [(one.code, one.span) for one in outline.problems] == [("ruffles", told.shape_span)]
    assert outline.fan_degrees is not None and outline.fan_degrees > 350
    drawn = polygon(outline, 100)
    assert drawn.is_valid and drawn.area < knitted_cm2(told.rows)
    assert outline.size.area_cm2 == pytest.approx(knitted_cm2(told.rows))


def test_too_many_decreases_ruffle() -> None:
    (advice,) = laid(layout("half-circle", 300, [garter(50)], [Line(-10, "evenly", 2)])).problems
    assert advice.code == "ruffles" and "shrink so fast" in advice.message
    assert advice.hint == "decrease less, or less often"


def test_half_circle_pinned_straight_makes_180_degrees() -> None:
    told = layout(*pi_shawl(garter(127)), pinned=STRAIGHT)
    outline = laid(told)
    (left, right) = outline.ends(127)
    assert left[1] == pytest.approx(right[1]) == pytest.approx(0, abs=1e-9)
    assert outline.size.wingspan_cm == pytest.approx(2 * outline.size.depth_cm)
    assert outline.size.wingspan_cm == pytest.approx(68.4, abs=0.1)
    inner = sum(told.rows.stitches[1:9]) / 8 * 0.5
    assert outline.size.area_cm2 == pytest.approx(inner * 31.75 + math.pi * 31.75**2 / 2, rel=1e-3)
    assert outline.pinned and outline.stretch is not None and outline.stretch.across == 0
    assert outline.fan_degrees == pytest.approx(213.8, abs=0.1)


def test_stretch_of_a_half_circle_is_told_at_its_least_and_its_most() -> None:
    """60 sts (30 cm) and 120 sts (60 cm), each for 10 cm: by hand the line through them rises by 2.25 cm a cm from 22.5
    cm. Pinned to a half-circle it rises by pi; stretch is against what the rows settle to."""
    told = layout("half-circle", 60, [garter(80)], [Line(60, "evenly", 0, 41)], pinned=STRAIGHT)
    outline, lies = laid(told), settled(told.rows).strip.before
    assert outline.stretch is not None
    by_row = [(22.5 + math.pi * row * 0.25) / lies[row] - 1 for row in range(8, 81)]
    assert outline.stretch.along == pytest.approx(max(by_row), abs=0.01)
    assert outline.stretch.along_least == pytest.approx(min(by_row), abs=0.01)
    assert outline.stretch.along > outline.stretch.along_least + 0.25
    assert [one.code for one in outline.problems] == ["overstretched"]


@pytest.mark.parametrize("growth", [3.2, 4, 6, 8, 20, 400])
def test_middle_turns_by_half_the_root(growth: float) -> None:
    root = brentq(lambda t: math.tan(t) * (growth - 2 * t) - 2, 1e-9, math.pi / 2 - 1e-9, xtol=1e-14)
    assert middle_turn(growth) == pytest.approx(root / 2, rel=1e-9)


CRESCENTS = {
    "six in two rows": (9, [garter(120)], crescent_lines(6)),
    "four in two rows": (9, [garter(160)], crescent_lines(4)),
    "every row": (9, [Run(160, 0.36, 0.18)], [Line(2, "each", 1)]),
    "from a long start": (334, [garter(80)], crescent_lines(4)),
    "from 60 sts": (60, [garter(96)], crescent_lines(6)),
    "fan": (9, [garter(160)], crescent_lines(2)),
    "two rates": (9, [garter(140)], [Line(1, "each", 2, 1, 60), Line(2, "each", 1, 61)]),
    "even border": (9, [garter(120)], [Line(2, "each", 1, 1, 100)]),
}


@pytest.mark.parametrize("name", CRESCENTS)
def test_rows_of_a_crescent_keep_length_and_distance(name: str) -> None:
    told = layout("crescent", *CRESCENTS[name])
    outline, strip = laid(told), settled(told.rows).strip
    for row in range(0, told.rows.count + 1, 10):
        assert row_cm(outline, row) == pytest.approx(strip.before[row], rel=1e-3)
    upper = LineString(outline.boundary(40).flattened(0.001))
    lower = LineString(outline.boundary(60).flattened(0.001))
    apart = strip.along_cm[60] - strip.along_cm[40]
    assert upper.distance(lower) == pytest.approx(apart, rel=1e-3)
    shorter = upper if upper.length < lower.length else lower
    for share in (0.3, 0.5, 0.8):
        point = shorter.interpolate(share, normalized=True)
        assert point.distance(lower if shorter is upper else upper) == pytest.approx(apart, rel=2e-3)


@pytest.mark.parametrize("name", [name for name in CRESCENTS if name != "fan"])
def test_wings_come_up_level_with_the_start(name: str) -> None:
    told = layout("crescent", *CRESCENTS[name])
    outline = laid(told)
    longest = max(row_cm(outline, row) for row in range(told.rows.count + 1))
    wings = [row for row in range(1, told.rows.count + 1) if row_cm(outline, row) > longest / 2]
    highest = min(outline.ends(row)[1][1] for row in wings)
    assert highest == pytest.approx(outline.ends(0)[1][1], abs=1e-3 * outline.size.wingspan_cm)
    assert outline.fan_degrees is None


def test_six_in_two_rows_makes_a_crescent() -> None:
    """craftsy.com, ponderosaguild.org: +6 every 2 rows. Its wings spread twice as far as it is long from row to row."""
    size = laid(layout("crescent", *CRESCENTS["six in two rows"])).size
    assert (size.wingspan_cm, size.depth_cm) == pytest.approx((173.4, 30.2), abs=0.5)


def test_slow_growth_makes_a_fan() -> None:
    """By arithmetic: one stitch of 0.5 cm in each row of 0.25 cm is 2 radians."""
    outline = laid(layout("crescent", *CRESCENTS["fan"]))
    assert outline.fan_degrees == pytest.approx(math.degrees(2), abs=1)
    assert outline.fan_words is not None and "curve through" in outline.fan_words


def test_crescent_ends_in_72_inches() -> None:
    """rhyflowerknits.com: 72 in along the last row at 5.5 sts/in; from 9, +2 every row, 194 rows end at 397."""
    inch = 2.54
    told = layout("crescent", 9, [Run(194, inch / 5.5, inch / 11)], [Line(1, "each", 1)])
    assert told.rows.stitches[-1] == 397
    assert laid(told).size.last_row_cm == pytest.approx(72 * inch, rel=0.01)


def test_crescent_that_shrinks_has_its_end_on_top() -> None:
    outline = laid(layout("crescent", 334, [garter(108)], [Line(-2, "each", 2), Line(-1, "each", 2, 2)]))
    assert outline.ends(108)[0][1] < 1 and outline.boundary(0).flattened()[0][1] < 2
    assert max(y for _, y in outline.boundary(0).flattened()) == pytest.approx(outline.size.depth_cm)
    sides = [LineString([outline.ends(row)[side] for row in range(109)]).length for side in (0, 1)]
    assert outline.size.top_cm == pytest.approx(sum(sides) + row_cm(outline, 108), rel=1e-4)


def test_crescent_that_turns_back_begins_on_top() -> None:
    lines = [Line(1, "each", 1, 1, 60), Line(-1, "each", 1, 61)]
    outline = laid(layout("crescent", 9, [garter(120)], lines, back=True))
    assert outline.words == "crescent, second half mirrored, blocked to a curve"
    assert outline.ends(0)[0][1] < 2
    assert outline.ends(120)[0][1] > 25


@pytest.mark.parametrize(
    ("rows", "lines"), [(60, [Line(300, "evenly", 0, 3)]), (80, [Line(20, "each", 1, 1, 10), Line(1, "each", 4, 11)])]
)
def test_crescent_without_level_wings_is_laid_as_a_sector(rows: int, lines: list[Line]) -> None:
    """It widens early, so wings would stand above the start whatever their radius: rows of one angle, as in a ring."""
    told = layout("crescent", 9, [garter(rows)], lines)
    outline = laid(told)
    height, inner = rows * 0.25, sum(told.rows.stitches[1:9]) / 8 * 0.5
    fan = min(2 * (knitted_cm2(told.rows) - inner * height) / height**2, math.radians(350))
    for row in (0, rows // 3, rows):
        assert row_cm(outline, row) == pytest.approx(inner + fan * row * 0.25, rel=1e-3)
    assert outline.words == "crescent" and outline.fan_degrees is None
    assert polygon(outline, rows).is_valid


def test_a_long_start_bends_as_a_whole() -> None:
    """The circle through a row's ends and its middle goes through its quarter points too."""
    outline = laid(layout("crescent", *CRESCENTS["from a long start"]))
    for row in (0, 80):
        points = LineString(outline.boundary(row).flattened(0.001))
        quarter, middle = points.interpolate(0.25, normalized=True), points.interpolate(0.5, normalized=True)
        (x, y), chord = outline.ends(row)[1], math.dist(*outline.ends(row))
        sag = middle.y - y
        radius = (chord**2 / 4 + sag**2) / (2 * sag)
        centre = middle.y - radius
        assert math.hypot(quarter.x - middle.x, quarter.y - centre) == pytest.approx(radius, rel=5e-4)
        assert x - middle.x == pytest.approx(chord / 2)


def test_pinned_crescent() -> None:
    told = layout("crescent", *CRESCENTS["six in two rows"], pinned=pinned_to(190, 34))
    outline = laid(told)
    across, down = 190 / 173.4, 34 / 30.2
    assert outline.stretch is not None
    turn = laid(told._replace(pinned=None)).stretch
    assert turn is not None and turn.across > 0.1
    assert outline.stretch.along == pytest.approx(across - 1, abs=0.01)
    assert outline.stretch.across == pytest.approx(down * (1 + turn.across) - 1, abs=0.01)
    assert outline.size.area_cm2 == pytest.approx(knitted_cm2(told.rows) * across * down, rel=0.01)
