"""Triangles: fans, levels, pinning, against sums on paper."""

import math

import pytest
from halfhank.grammar.problems.problem import MISTAKE, Problem
from halfhank.model.outline import lay_out
from halfhank.model.outline.outline import Size

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import (
    STRAIGHT,
    Line,
    Run,
    from_neck,
    garter,
    knitted_cm2,
    laid,
    layout,
    pinned_to,
    stockinette,
)

WINGS = [Line(1, "each", 1), Line(1, "spine", 3)]


def test_worked_example() -> None:
    """9 sts, +4 every 2 rows, 128 rows of 20 x 40: worked by hand, sizes about."""
    size = laid(layout("triangle", 9, [garter(128)], from_neck())).size
    want = Size(94.4, 47.2, 45.3, 94.4, (66.25, 66.25), 132.5, 2224.0)
    assert size.sides_cm == pytest.approx(want.sides_cm, abs=0.05)
    found = [value for value in size if not isinstance(value, tuple)]
    assert found == pytest.approx([value for value in want if not isinstance(value, tuple)], abs=0.05)
    assert size.last_row_cm == pytest.approx(265 * 0.5)
    assert size.area_cm2 == pytest.approx(2224)


def test_spine_runs_from_start_to_point() -> None:
    """By arithmetic: 32 cm across the fabric at 45 degrees."""
    outline = laid(layout("triangle", 9, [garter(128)], from_neck()))
    assert outline.size.spine_cm == pytest.approx(32 * math.sqrt(2))
    assert outline.spine is not None and len(outline.spine) == 129
    for row in (0, 64, 128):
        assert outline.regions[0].boundary(row).end == pytest.approx(outline.spine[row])


@pytest.mark.parametrize(
    ("runs", "lines", "fan", "words"),
    [
        ([garter(60)], from_neck(), 180, "straight"),
        ([garter(60)], WINGS, 2 * math.degrees(math.atan(2 / 3) + math.atan(2)), "rise"),
        ([stockinette(60)], from_neck(), 4 * math.degrees(math.atan(0.7)), "hang"),
        ([garter(60)], [Line(1, "spine", 2)], 90, "hang"),
        ([stockinette(60)], from_neck(2, 2, 2), 4 * math.degrees(math.atan(1.4)), "rise"),
        ([garter(60)], [Line(2, "upper", 2), Line(1, "spine", 2)], 180, "straight"),
    ],
)
def test_fan_is_made_by_the_rates(runs: list[Run], lines: list[Line], fan: float, words: str) -> None:
    outline = laid(layout("triangle", 9, runs, lines))
    assert outline.fan_degrees == pytest.approx(fan)
    assert outline.fan_words is not None and words in outline.fan_words


def test_fan_of_194_degrees_lifts_the_tips_above_the_neck() -> None:
    outline = laid(layout("triangle", 9, [garter(150)], WINGS))
    assert outline.fan_degrees == pytest.approx(194.25, abs=0.01)
    tip, neck = outline.ends(150)[1], outline.ends(0)[1]
    assert tip[1] == 0 and neck[1] > 8
    rise = math.degrees(math.atan2(neck[1] - tip[1], tip[0] - neck[0]))
    assert rise == pytest.approx(194.25 / 2 - 90, abs=0.3)


def test_a_row_rises_from_the_spine_at_phi() -> None:
    (left, right), spine = (outline := laid(layout("triangle", 9, [garter(150)], WINGS))).ends(100), outline.spine
    assert spine is not None
    assert math.atan2(spine[100][1] - right[1], right[0] - spine[100][0]) == pytest.approx(math.atan(2 / 3))
    assert left[0] - spine[100][0] == pytest.approx(spine[100][0] - right[0])


def test_neck_is_on_top_of_a_triangle_that_shrinks() -> None:
    """Worked from its two lower sides: the last row is the neck, and the size is that of the same piece worked down."""
    down = laid(layout("triangle", 9, [garter(160)], from_neck()))
    up = laid(layout("triangle", 329, [garter(160)], [Line(-1, "each", 2), Line(-1, "spine", 2)]))
    assert up.fan_degrees == pytest.approx(180)
    assert up.words == "triangle from its lower edge"
    assert up.spine is not None and up.spine[0][1] > up.spine[-1][1]
    assert up.size.wingspan_cm == pytest.approx(down.size.wingspan_cm, abs=1.5)
    assert up.size.sides_cm is not None and sum(up.size.sides_cm) == pytest.approx(329 * 0.5)
    assert up.size.top_cm == pytest.approx(up.size.wingspan_cm, rel=0.001)


def test_triangle_from_its_long_edge() -> None:
    """Gruendl, Cotton Quick Print: 20/22, 334 cast on, -4 every 2 rows from row 5, 6 sts left; finished 168 x 75,
    width 167 by arithmetic."""
    outline = laid(layout("triangle", 334, [Run(168, 0.5, 10 / 22)], [Line(-2, "each", 2, 5)]))
    assert outline.words == "triangle from its long edge"
    assert outline.size.wingspan_cm == pytest.approx(167, abs=0.6)
    assert outline.size.depth_cm == pytest.approx(75, rel=0.02)
    assert outline.fan_degrees is None and outline.spine is None and outline.size.spine_cm is None
    assert outline.size.top_cm == pytest.approx(334 * 0.5)
    (_, y), (_, other) = outline.ends(90)
    assert y == other == pytest.approx(90 * 10 / 22)


def test_long_edge_is_on_top_where_it_comes_last() -> None:
    outline = laid(layout("triangle", 5, [garter(120)], [Line(1, "each", 2)]))
    assert outline.ends(120)[0][1] == 0
    assert outline.size.top_cm == pytest.approx(125 * 0.5)
    assert outline.words == "triangle from its point"


def test_triangle_that_turns_back_has_level_rows() -> None:
    lines = [Line(1, "each", 2, 1, 80), Line(1, "spine", 2, 1, 80), Line(-1, "each", 2, 81), Line(-1, "spine", 2, 81)]
    told = layout("triangle", 9, [garter(160)], lines, back=True)
    outline = laid(told)
    assert [(one.code, one.span) for one in outline.problems] == [("not-flat", told.shape_span)]
    assert outline.fan_degrees is None
    assert outline.size.depth_cm == pytest.approx(40)
    assert outline.size.spine_cm == pytest.approx(40)
    assert outline.size.wingspan_cm == pytest.approx(85, abs=1)


def test_nothing_is_said_of_a_flat_triangle_that_turns_back() -> None:
    lines = [Line(1, "each", 2, 1, 80), Line(-1, "each", 2, 81)]
    assert laid(layout("triangle", 9, [garter(160)], lines, back=True)).problems == ()


def test_a_fan_does_not_hang_on_the_height() -> None:
    """One stitch of 0.5 cm in two rows of 0.25 cm at each of four places: 4 x 45 degrees, from the first rows on."""
    for rows in (2, 4, 100):
        assert laid(layout("triangle", 9, [garter(rows)], from_neck())).fan_degrees == pytest.approx(180)


def test_pinned_straight_levels_the_top() -> None:
    outline = laid(layout("triangle", 9, [stockinette(150)], from_neck(), pinned=STRAIGHT))
    free = laid(layout("triangle", 9, [stockinette(150)], from_neck()))
    assert outline.pinned and not free.pinned
    heights = [outline.ends(row)[1][1] for row in range(30, 151)]
    assert max(heights) - min(heights) < 0.1
    assert outline.size.spine_cm == pytest.approx(free.size.spine_cm)
    assert outline.size.wingspan_cm == pytest.approx(free.size.wingspan_cm / math.sin(2 * math.atan(0.7)))
    assert outline.fan_degrees == free.fan_degrees


def test_stretch_of_pinning_straight_is_the_drawn_rows() -> None:
    """Rows and wales of a patch of the wing, measured on the drawing."""
    told = layout("triangle", 9, [stockinette(150)], from_neck(), pinned=STRAIGHT)
    outline, free = laid(told), laid(told._replace(pinned=None))
    assert outline.stretch is not None
    along = row_cm(outline, 100) / row_cm(free, 100) - 1
    assert outline.stretch.along == pytest.approx(along)
    growth = polygon(outline, 150).area / polygon(free, 150).area
    assert outline.size.area_cm2 == pytest.approx(knitted_cm2(told.rows) * growth, rel=1e-5)


@pytest.mark.parametrize(("every", "fan"), [(6, 56), (1, 253), (2, 180)])
def test_only_moderate_fans_are_pinned_straight(every: int, fan: float) -> None:
    found = lay_out(layout("triangle", 9, [garter(60)], from_neck(every), pinned=STRAIGHT))
    if 100 <= fan <= 260:
        assert not isinstance(found, Problem) and found.fan_degrees == pytest.approx(fan, abs=1)
    else:
        assert isinstance(found, Problem)
        assert (found.code, found.severity, found.span) == ("fan-not-straight", MISTAKE, STRAIGHT.span)


def test_nothing_to_pin_straight_without_a_spine() -> None:
    told = layout("triangle", 100, [garter(80)], [Line(-1, "each", 2)], pinned=STRAIGHT)
    outline = laid(told)
    assert not outline.pinned and outline.stretch is None
    assert [one.code for one in outline.problems] == ["pinned-in-vain"]


def test_pinned_to_measures() -> None:
    outline = laid(layout("triangle", 9, [garter(128)], from_neck(), pinned=pinned_to(100, 55)))
    size = outline.size
    assert (size.wingspan_cm, size.depth_cm) == pytest.approx((100, 55))
    assert size.area_cm2 == pytest.approx(2224 * 100 / 94.378 * 55 / 47.21, rel=1e-4)
    across, down = 100 / 94.3779, 55 / 47.2098
    stretch = math.hypot(across, down) / math.sqrt(2) - 1
    assert size.last_row_cm == pytest.approx(132.5 * (1 + stretch), rel=1e-4)
    assert outline.stretch == pytest.approx((stretch, stretch, stretch), abs=1e-4)
    assert [one.code for one in outline.problems] == ["overstretched"]


@pytest.mark.parametrize(
    ("lines", "codes"),
    [
        (WINGS, ["winged-triangle"]),
        ([Line(1, "each", 1), Line(1, "spine", 4)], ["winged-triangle"]),
        ([Line(1, "each", 1), Line(1, "spine", 5)], []),
        ([Line(1, "each", 1), Line(1, "spine", 6)], []),
        ([Line(1, "each", 1), Line(1, "spine", 16)], []),
        ([Line(1, "each", 1), Line(1, "spine", 2)], []),
        ([Line(1, "each", 2), Line(1, "spine", 8)], []),
        ([Line(1, "each", 1)], []),
        (from_neck(), []),
    ],
)
def test_wings_that_grow_on_every_row_are_a_crescents(lines: list[Line], codes: list[str]) -> None:
    """Where the spine is shaped every 6 rows or more seldom, a crescent of the same counts comes out narrower."""
    told = layout("triangle", 9, [garter(138)], lines)
    outline = laid(told)
    assert [one.code for one in outline.problems] == codes
    assert all(one.span == told.shape_span and "`shape crescent`" in (one.hint or "") for one in outline.problems)


@pytest.mark.parametrize(("every", "codes"), [(3, ["winged-triangle"]), (6, [])])
def test_wings_are_compared_as_knitted_though_they_are_pinned(every: int, codes: list[str]) -> None:
    lines = [Line(1, "each", 1), Line(1, "spine", every)]
    for pinned in (STRAIGHT, pinned_to(150, 60)):
        outline = laid(layout("triangle", 9, [garter(138)], lines, pinned=pinned))
        assert [one.code for one in outline.problems if one.code == "winged-triangle"] == codes
