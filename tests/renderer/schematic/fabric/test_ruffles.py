"""Ruffled edges and spines that are panels, as they are drawn."""

import math
from itertools import pairwise

import pytest
from halfhank.model.outline.curve import Curve
from halfhank.renderer.plane.polylines import length_of
from halfhank.renderer.schematic.annotations.edge_lengths import edge_lengths
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.ruffled_edge import RISE_MM, folds, waved, waves_along
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from shapely import LineString, Point, Polygon

from tests.outside.pieces import part, piece
from tests.pipe.drawing.outlines import border
from tests.renderer import checks
from tests.whole import shawl

LINE = Curve((0.0, 0.0), (((58.0, 0.0),),))
FROM_NECK = "increase 1 at each edge and 1 at spine every 2 rows"
PARTS = part("garter 60 ridges") + "\n" + part("increase evenly to 600 sts", "garter 6 ridges", name="ruffle")
SHAPING = {
    "triangle": FROM_NECK,
    "half-circle": "increase 12 evenly every 8 rows",
    "crescent": "increase 1 at each edge every row",
    "tip-to-tip": "increase 1 at lower edge every 2 rows",
}
RUFFLED = {
    shape: piece(shape=shape, start="cast on 9 sts", shaping=line, parts=PARTS) for shape, line in SHAPING.items()
}


@pytest.mark.parametrize("side", [1, -1])
def test_waves_stand_out_to_one_side_and_end_where_the_curve_does(side: int) -> None:
    found = waved(LINE, waves_along(58.0), RISE_MM, side)
    points = found.flattened(0.001)
    heights = [y * side for _, y in points]
    assert (points[0], points[-1]) == ((0.0, 0.0), (58.0, 0.0))
    assert min(heights) > -0.02 and max(heights) == pytest.approx(RISE_MM, abs=0.02)
    crests = [k for k in range(1, len(heights) - 1) if heights[k - 1] < heights[k] >= heights[k + 1] and heights[k] > 1]
    assert len(crests) == 10


def test_waves_are_smooth() -> None:
    """No corner: the direction turns by little from each short step to the next."""
    points = waved(LINE, 10, RISE_MM, 1).flattened(0.0005)
    ways = [math.atan2(q[1] - p[1], q[0] - p[0]) for p, q in pairwise(points)]
    assert max(abs(a - b) for a, b in pairwise(ways)) < 0.2


def test_folds_run_from_the_hollows_into_the_fabric() -> None:
    lines = folds(LINE, 10, 1.0, 1)
    assert len(lines) == 9
    assert all(edge[1] == pytest.approx(0) and inner[1] == pytest.approx(-1.0) for edge, inner in lines)


@pytest.mark.parametrize("shape", RUFFLED)
def test_a_ruffle_grows_from_the_fabric_to_the_edge(shape: str) -> None:
    drawn = DrawnPiece(shawl(RUFFLED[shape]), 1.0)
    assert drawn.ruffle == 121
    body = Polygon(drawn.region(0, 120))
    whole = Polygon(drawn.region(0, drawn.last))
    assert body.is_valid and whole.is_valid
    assert whole.area > Polygon(border(drawn.shawl)).area * drawn.mm**2
    plain = LineString([point for curve in drawn.ruffle_edge for point in curve.flattened(0.001)])
    off = [plain.distance(Point(point)) for point in drawn.points(drawn.last)]
    assert max(off) == pytest.approx(RISE_MM, abs=0.05)
    halfway = LineString(drawn.points(126))
    assert halfway.length > LineString(drawn.points(120)).length
    for row in (121, 126, drawn.last):
        assert (drawn.curve(row).start, drawn.curve(row).end) == (drawn.end(0, row), drawn.end(1, row))


@pytest.mark.parametrize("shape", ["triangle", "tip-to-tip"])
def test_a_ruffled_piece_keeps_its_page(shape: str) -> None:
    scene = draw_schematic(shawl(RUFFLED[shape]), Options())
    assert not checks.meetings(scene) and not checks.strays(scene)
    assert checks.group(scene, "folds").items


def test_a_flat_piece_has_no_folds() -> None:
    text = piece(shape="triangle", start="cast on 9 sts", shaping=FROM_NECK, parts=part("garter 30 ridges"))
    scene = draw_schematic(shawl(text), Options())
    assert not [group for group in checks.groups(scene.items) if group.name == "folds"]


@pytest.mark.parametrize(("spine", "seams"), [(1, 1), (3, 1), (15, 2)])
def test_a_wide_spine_is_drawn_between_two_lines(spine: int, seams: int) -> None:
    text = piece(
        shape="triangle",
        start=f"cast on {spine + 10} sts",
        shaping=f"spine {spine} sts\n{FROM_NECK}",
        parts=part("garter 30 ridges"),
    )
    drawn = DrawnPiece(shawl(text), 1.0)
    scene = draw_schematic(drawn.shawl, Options())
    assert len(checks.group(scene, "spine").items) == 2 * len(drawn.seams) == 2 * seams
    gaps = [math.dist(one, other) for one, other in zip(drawn.seams[0], drawn.seams[-1], strict=True)]
    assert gaps == pytest.approx([spine * 0.5 / math.sqrt(2) if seams == 2 else 0.0] * len(gaps), abs=1e-6)
    assert not checks.meetings(scene) and not checks.strays(scene)


def test_a_side_stands_along_an_edge_of_its_length() -> None:
    """By arithmetic: half of 30 sts without a spine of 15, 5 mm each, are 3.75 cm; the edge beside them is 16 cm."""
    text = piece(
        shape="triangle",
        start="cast on 30 sts",
        shaping="spine 15 sts\ndecrease 1 at spine every 2 rows\nincrease 1 at each edge every 2 rows",
        parts=part("garter 30 ridges"),
    )
    drawn = DrawnPiece(shawl(text), 20.0)
    (side,) = [edge for edge in edge_lengths(drawn) if edge[0] == "side"]
    assert side[1] == pytest.approx(3.75, rel=0.01)
    assert length_of(side[2][0]) == pytest.approx(side[1] * drawn.mm, rel=0.03)


def test_stitches_drawn_together_are_a_dot() -> None:
    text = piece(
        shape="triangle",
        start="cast on 60 sts",
        shaping="spine 0 sts\ndecrease 1 at each edge every 2 rows until 6 sts",
        parts=part("garter 27 ridges"),
        end="bind off draw through",
    )
    scene = draw_schematic(shawl(text), Options())
    (dot,) = checks.group(scene, "bind-off").items
    assert len({(round(x, 6), round(y, 6)) for x, y in checks.points_of(dot)}) == 1
    assert not checks.strays(scene)
