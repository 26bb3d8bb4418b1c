"""Textures stay calm, follow the rows and tell fabrics apart."""

import itertools
import math

import pytest
from halfhank.renderer.paper.scene import Group, Path, Scene
from halfhank.renderer.plane.polylines import at_length, length_of
from halfhank.renderer.schematic.fabric.textures import (
    DOT_LENGTHS,
    LINE_DASHES,
    RUNG_GAPS,
    Texture,
    texture_rows,
    textures_of,
)
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from hypothesis import given
from hypothesis import strategies as st

from tests.renderer import checks
from tests.renderer.pieces import Piece, bow, chevron, fan, level, shawl_of, upright

NEAREST = 1.5


def subpaths(path: Path) -> list[list[checks.Point]]:
    """The subpaths of a path as polylines."""
    found: list[tuple[tuple[str, tuple[float, ...]], ...]] = []
    for command in path.data:
        if command[0] == "M":
            found.append(())
        found[-1] = (*found[-1], command)
    return [checks.flattened(data) for data in found]


def marks(path: Path) -> list[checks.Point]:
    """The middles of all dashes of a path."""
    stroke, gap = path.style.dash
    points = []
    for line in subpaths(path):
        place = stroke / 2
        while place <= length_of(line):
            points.append(at_length(line, place)[0])
            place += stroke + gap
    return points


def textured(scene: Scene) -> list[Path]:
    return [i for i in checks.leaves(checks.group(scene, "fabric").items) if isinstance(i, Path) and not i.style.fill]


def nearest(points: list[checks.Point]) -> float:
    """The least distance of two points."""
    ordered = sorted(points)
    best = math.inf
    for k, point in enumerate(ordered):
        for other in ordered[k + 1 :]:
            if other[0] - point[0] >= best:
                break
            best = min(best, math.dist(point, other))
    return best


@pytest.mark.parametrize(
    ("boundary", "sideways", "spine"),
    [(chevron, False, True), (level, False, False), (upright, True, False), (bow, False, False), (fan, False, False)],
)
@pytest.mark.parametrize("scale", [5, 10, 20])
def test_no_two_dots_of_a_band_are_near(boundary: checks.Boundary, sideways: bool, spine: bool, scale: int) -> None:
    piece = Piece([("all", [("mesh", 100)])], boundary, spine, sideways)
    dotted = [p for p in textured(draw_schematic(shawl_of(piece), Options(scale=scale))) if p.style.cap == "round"]
    points = [point for path in dotted for point in marks(path)]
    assert points
    assert nearest(points) >= NEAREST


@given(st.integers(1, 20000), st.integers(1, 300), st.floats(0.01, 400), st.floats(1, 5))
def test_texture_rows_are_even_and_apart(first: int, rows: int, height: float, pitch: float) -> None:
    from halfhank.renderer.schematic.fabric.drawn_bands import DrawnBand

    found = texture_rows(DrawnBand(first, first + rows - 1, ()), height, pitch)
    assert all(first - 1 < row < first + rows - 1 for row in found)
    steps = {b - a for a, b in itertools.pairwise(found)}
    assert len(steps) <= 1
    assert all(step * height / rows >= pitch * 0.999 for step in steps)


@pytest.mark.parametrize("row_mm", [0.37, 0.49, 0.74, 1.48])
def test_no_two_lines_of_a_band_are_near(row_mm: float) -> None:
    """Rows of 2.5 mm drawn at such a size that one, two, three or four of them are just less than 1.5 mm."""
    piece = Piece([("all", [("garter", 120)])], level)
    paths = textured(draw_schematic(shawl_of(piece), Options(scale=2.5 / row_mm)))
    heights = sorted(line[0][1] for path in paths for line in subpaths(path))
    assert len(heights) > 15
    assert all(b - a >= NEAREST for a, b in itertools.pairwise(heights))


def test_a_high_band_is_filled_with_texture() -> None:
    from halfhank.renderer.schematic.fabric.drawn_bands import DrawnBand

    assert len(texture_rows(DrawnBand(1, 100, ()), 100.0, 1.75)) >= 45


def test_rungs_cross_the_elongated_row_from_edge_to_edge() -> None:
    piece = Piece([("all", [("garter", 20), ("drop", 2), ("garter", 20)])], level)
    scene = draw_schematic(shawl_of(piece), Options(scale=5))
    (rungs,) = [p for p in textured(scene) if p.style.width > 1]
    assert rungs.style.width == pytest.approx(7.5 / 5)
    (group,) = [
        g for g in checks.groups(checks.group(scene, "fabric").items) if isinstance(g, Group) and "drop" in str(g.title)
    ]
    strip = checks.points_of(group.items[0])
    top = min(y for _, y in strip)
    assert checks.points_of(rungs)[0][1] == pytest.approx(top + 7.5 / 5 / 2)


@pytest.mark.parametrize("gaps", [RUNG_GAPS, [dash[-1] for dash in LINE_DASHES if dash]])
def test_dashes_leave_room(gaps: list[float]) -> None:
    assert all(gap >= NEAREST for gap in gaps)


def test_variations_differ() -> None:
    assert len(set(LINE_DASHES)) == len(LINE_DASHES) == len(set(RUNG_GAPS)) == len(DOT_LENGTHS)


def test_fabrics_of_one_kind_take_turns() -> None:
    piece = Piece([("all", [("garter", 6), ("mesh", 6), ("stockinette", 6), ("garter", 6)])], level)
    patterns = textures_of(shawl_of(piece))
    assert patterns == {
        ("garter", 1): Texture("plain", 0),
        ("mesh", 1): Texture("openwork", 0),
        ("stockinette", 1): Texture("plain", 1),
    }
