"""What a crescent's curve costs, and which growth makes it."""

import math

import pytest
from halfhank.model.outline.outline import Outline
from halfhank.model.outline.shapes.crescent import growth_of, spread_cm
from halfhank.model.outline.solvers.strip import cells_of, settled
from shapely import LineString

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import STRAIGHT, Line, crescent_lines, garter, knitted_cm2, laid, layout, pinned_to

SIX_IN_TWO = (9, [garter(100)], crescent_lines(6))


def turn_of(outline: Outline, row: int) -> float:
    """The angle between a row's middle and its end, by the drawn curve."""
    points = outline.boundary(row).flattened(0.0001)
    (px, py), (qx, qy) = points[-2:]
    return abs(math.atan2(qy - py, qx - px))


def test_wales_at_the_ends_are_stretched_by_the_turn_of_their_row() -> None:
    """By arithmetic: a wale that slips by phi for each cm from row to row is sqrt(1 + phi^2) as long. Measured on the
    drawing: where the stitch at the end of row 90 lies in row 91."""
    outline = laid(layout("crescent", *SIX_IN_TWO))
    turns = [turn_of(outline, row) for row in range(1, 101)]
    assert outline.stretch is not None
    assert outline.stretch.across == pytest.approx(math.hypot(1, max(turns)) - 1, abs=2e-3)
    later = LineString(outline.boundary(91).flattened(0.0001))
    same_stitch = later.interpolate(later.length / 2 + row_cm(outline, 90) / 2)
    wale = math.dist((same_stitch.x, same_stitch.y), outline.ends(90)[1])
    assert wale / 0.25 == pytest.approx(math.hypot(1, turn_of(outline, 90)), rel=0.01)


def test_a_curve_is_spoken_of_and_is_flat_as_a_triangle() -> None:
    told = layout("crescent", *SIX_IN_TWO)
    outline = laid(told)
    assert outline.words == "crescent, blocked to a curve" and outline.curved
    assert outline.fan_words == "without blocking, the same rows lie flat as a triangle with straight edges"
    assert [(one.code, one.span) for one in outline.problems] == [("overstretched", told.shape_span)]
    assert "across its rows at the ends of row 100" in outline.problems[0].message
    assert not outline.pinned


def test_openwork_bears_the_curve_that_plain_fabric_does_not() -> None:
    """13 % in garter; the same rows of openwork bear 15 %."""
    start, _, lines = SIX_IN_TWO
    plain = laid(layout("crescent", *SIX_IN_TWO))
    openwork = laid(layout("crescent", start, [garter(100)._replace(openwork=True)], lines))
    assert plain.stretch == openwork.stretch is not None
    assert 0.10 < plain.stretch.across < 0.15
    assert openwork.problems == ()


def test_faster_growth_is_a_flatter_curve() -> None:
    outline = laid(layout("crescent", 9, [garter(100)], [Line(2, "each", 1)]))
    assert outline.stretch is not None and outline.stretch.across < 0.1
    assert outline.problems == ()


def test_pinning_counts_the_curve() -> None:
    """Pinned to the size that it has anyway, the wales are stretched as by the curve alone."""
    free = laid(layout("crescent", *SIX_IN_TWO))
    pinned = laid(layout("crescent", *SIX_IN_TWO, pinned=pinned_to(*free.size[:2])))
    assert free.stretch is not None and pinned.stretch is not None
    assert pinned.stretch == pytest.approx(free.stretch)
    assert [one.code for one in pinned.problems] == ["overstretched"]
    assert "Pinned so" in pinned.problems[0].message


def test_pinned_straight_in_vain_still_tells_of_the_curve() -> None:
    outline = laid(layout("crescent", *SIX_IN_TWO, pinned=STRAIGHT))
    assert sorted(one.code for one in outline.problems) == ["overstretched", "pinned-in-vain"]


def test_even_increases_alone_make_a_sector_without_stretch() -> None:
    """By arithmetic: 8 sts in 8 rows of 20 x 40 are two radians; nothing is gained at the edges, so nothing slips."""
    told = layout("crescent", 9, [garter(120)], [Line(8, "evenly", 8)])
    outline = laid(told)
    half = laid(layout("half-circle", 9, [garter(120)], [Line(8, "evenly", 8)]))
    assert not outline.curved and outline.words == "crescent"
    assert outline.size[:2] == pytest.approx(half.size[:2])
    assert outline.problems == () and outline.fan_words is None


def test_growth_is_parted_into_that_of_the_edges_and_that_inside_the_rows() -> None:
    """By arithmetic: 3 sts of 0.5 cm in each row of 0.25 cm are 6 cm a cm; 40 sts over 25 cm of height are 0.8."""
    rows = layout("crescent", 9, [garter(100)], [*crescent_lines(6), Line(40, "evenly", 0, 41)]).rows
    growth = growth_of(settled(rows).strip, spread_cm(rows, cells_of(rows)))
    assert growth == pytest.approx((6, 0.8), abs=0.2)


def test_even_increases_are_no_growth_of_the_edges() -> None:
    """Edges of 3 sts in each row, and 40 sts spread over row 41: what is spread needs no slipping of the wales."""
    edges = crescent_lines(6)
    plain = laid(layout("crescent", 9, [garter(100)], edges))
    told = layout("crescent", 9, [garter(100)], [*edges, Line(40, "evenly", 0, 41)])
    spread = laid(told)
    assert spread.curved and spread.stretch is not None and plain.stretch is not None
    turn = max(turn_of(spread, row) for row in range(1, 101))
    assert spread.stretch.across < math.hypot(1, turn) - 1 - 0.02
    assert spread.fan_words is None
    assert polygon(spread, 100).area == pytest.approx(knitted_cm2(told.rows), rel=2e-3)
