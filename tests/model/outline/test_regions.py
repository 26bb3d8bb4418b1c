"""Regions: the stretches that rows consist of, seam to seam; the spine is where the two wings of a triangle meet, or
the panel between them."""

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest
from halfhank.grammar.description import PinnedStraight, PinnedTo
from halfhank.model.outline.curve import joined
from halfhank.model.outline.outline import Outline
from halfhank.model.outline.region import LEFT, RIGHT

from tests.model.outline.measuring import polygon
from tests.model.outline.pieces import STRAIGHT, Line, crescent_lines, from_neck, garter, lace, laid, layout, pinned_to

ROWS = 60
BACK = [Line(1, "each", 2, 1, 30), Line(1, "spine", 2, 1, 30), Line(-1, "each", 2, 31), Line(-1, "spine", 2, 31)]
WINGED: dict[str, Outline] = {
    "from the neck": laid(layout("triangle", 9, [garter(ROWS)], from_neck())),
    "from its lower edge": laid(layout("triangle", 149, [garter(ROWS)], [Line(-1, "each", 2), Line(-1, "spine", 2)])),
    "and back": laid(layout("triangle", 9, [garter(ROWS)], BACK, back=True)),
    "pinned straight": laid(layout("triangle", 9, [garter(ROWS)], from_neck(2, 1, 2), pinned=STRAIGHT)),
    "pinned to": laid(layout("triangle", 9, [garter(ROWS)], from_neck(), pinned=pinned_to(60, 30))),
    "with teeth": laid(layout("triangle", 9, [garter(ROWS)], [*from_neck(), Line(-4, "each", 12, 13, 0, True)])),
}


def _whole(shape: str, lines: Sequence[Line], pinned: PinnedStraight | PinnedTo | None = None) -> Outline:
    return laid(layout(shape, 40, [garter(ROWS)], lines, pinned=pinned))


WHOLE: dict[str, Outline] = {
    "triangle": _whole("triangle", [Line(-1, "each", 4)]),
    "rectangle": _whole("rectangle", []),
    "crescent": _whole("crescent", crescent_lines(6)),
    "half-circle": _whole("half-circle", [Line(20, "evenly", 12)]),
    "half-circle pinned straight": _whole("half-circle", [Line(20, "evenly", 12)], STRAIGHT),
    "tip-to-tip": _whole("tip-to-tip", [Line(1, "lower", 2)]),
    "asymmetric": _whole("asymmetric", [Line(1, "upper", 2), Line(-4, "lower", 12, 13, 0, True)], pinned_to(50, 30)),
}
BOUNDARIES = [(row, after) for row in range(ROWS + 1) for after in (False, True)]


@pytest.mark.parametrize("outline", (WINGED | WHOLE).values(), ids=(WINGED | WHOLE).keys())
def test_a_boundary_is_its_regions_joined(outline: Outline) -> None:
    for row, after in BOUNDARIES:
        curves = [region.boundary(row, after) for region in outline.regions]
        assert all(one.end == other.start for one, other in pairwise(curves))
        assert joined(curves) == outline.boundary(row, after)
        assert (outline.regions[0].ends(row, after)[LEFT], outline.regions[-1].ends(row, after)[RIGHT]) == outline.ends(
            row, after
        )
        for region, curve in zip(outline.regions, curves, strict=True):
            assert region.ends(row, after) == (curve.start, curve.end)


@pytest.mark.parametrize("outline", WINGED.values(), ids=WINGED.keys())
def test_the_wings_meet_at_the_spine(outline: Outline) -> None:
    left, right = outline.regions
    assert (left.name, right.name) == ("left wing", "right wing")
    assert (left.spine_end, right.spine_end) == (RIGHT, LEFT)
    assert outline.spine is not None and len(outline.spine) == ROWS + 1
    for row, after in BOUNDARIES:
        assert left.ends(row, after)[RIGHT] == outline.spine[row] == right.ends(row, after)[LEFT]


def test_a_jump_at_the_edges_leaves_the_spine_alone() -> None:
    left, right = WINGED["with teeth"].regions
    assert left.ends(12)[LEFT] != left.ends(12, after=True)[LEFT]
    assert right.ends(12)[RIGHT] != right.ends(12, after=True)[RIGHT]
    assert left.ends(12)[RIGHT] == left.ends(12, after=True)[RIGHT]


PANELS: dict[str, Outline] = {
    "from the neck": laid(layout("triangle", 25, [garter(ROWS)], from_neck())._replace(spine=15)),
    "from its lower edge": laid(
        layout("triangle", 149, [garter(ROWS)], [Line(-1, "each", 2), Line(-1, "spine", 2)])._replace(spine=15)
    ),
    "and back": laid(layout("triangle", 25, [garter(ROWS)], BACK, back=True)._replace(spine=15)),
    "pinned straight": laid(
        layout("triangle", 25, [garter(ROWS)], from_neck(2, 1, 2), pinned=STRAIGHT)._replace(spine=15)
    ),
    "of two gauges": laid(layout("triangle", 25, [garter(30), lace(30)], from_neck())._replace(spine=15)),
}


@pytest.mark.parametrize("outline", PANELS.values(), ids=PANELS.keys())
def test_a_wide_spine_is_a_panel_between_the_wings(outline: Outline) -> None:
    left, panel, right = outline.regions
    assert (left.name, panel.name, right.name) == ("left wing", "spine panel", "right wing")
    assert (left.spine_end, panel.spine_end, right.spine_end) == (RIGHT, None, LEFT)
    assert outline.spine is not None
    for row, after in BOUNDARIES:
        one, other = panel.ends(row, after)
        assert left.ends(row, after)[RIGHT] == one and right.ends(row, after)[LEFT] == other
        assert one[1] == other[1] == outline.spine[row][1]
        assert (one[0] + other[0]) / 2 == pytest.approx(outline.spine[row][0])
        assert left.ends(row, after)[LEFT] == outline.ends(row, after)[LEFT]


@pytest.mark.parametrize("name", PANELS)
def test_a_panel_keeps_the_area_of_the_rows(name: str) -> None:
    outline = PANELS[name]
    if not outline.pinned:
        assert polygon(outline, ROWS).area == pytest.approx(outline.size.area_cm2, rel=2e-3)


def test_a_panel_is_drawn_out_along_the_spine_and_narrows() -> None:
    """By arithmetic: the wings rise at 45 degrees and take sqrt(2) of the spine for each cm of height; 15 sts are 7.5
    cm."""
    one, other = PANELS["from the neck"].regions[1].ends(40)
    assert other[0] - one[0] == pytest.approx(7.5 / math.sqrt(2), rel=1e-6)
    assert PANELS["from the neck"].size.spine_cm == pytest.approx(15 * math.sqrt(2))
    one, other = PANELS["and back"].regions[1].ends(40)
    assert other[0] - one[0] == pytest.approx(7.5, rel=1e-6)


@pytest.mark.parametrize("spine", [0, 1, 3])
def test_a_narrow_spine_stays_a_seam(spine: int) -> None:
    told = layout("triangle", 9, [garter(ROWS)], from_neck())
    outline, wide = laid(told._replace(spine=spine)), laid(told._replace(spine=4))
    assert len(outline.regions) == 2 and len(wide.regions) == 3
    assert outline.ends(ROWS) == WINGED["from the neck"].ends(ROWS)


@pytest.mark.parametrize("outline", WHOLE.values(), ids=WHOLE.keys())
def test_a_piece_without_a_spine_is_one_panel(outline: Outline) -> None:
    (region,) = outline.regions
    assert (region.name, region.spine_end, outline.spine) == ("whole", None, None)
