"""What stands on and around the fabric: names of parts, numbers of contours, depth and spine, picots at a tip."""

import math
import re

import pytest
from halfhank.renderer.paper.scene import Circle, Label, Path, Scene
from halfhank.renderer.plane.text_boxes import text_box
from halfhank.renderer.schematic.annotations.dimensions import EXTENSION, LINE
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from shapely import LineString, Point, Polygon, unary_union

from tests.outside.pieces import part, piece
from tests.renderer import checks
from tests.renderer.pieces import Boundary, Piece, bow, chevron, fan, level, scaled, shawl_of, upright
from tests.renderer.scenes import DIMENSIONS, PIECES, SCENES, every
from tests.whole import shawl

BIAS = "increase 1 at lower edge every 2 rows\ndecrease 1 at upper edge every 2 rows"
CONTOURED = ["triangle", "rectangle", "tip-to-tip", "half-circle", "crescent", "thin parts", "scarf"]


def fabric_of(scene: Scene) -> Polygon:
    return unary_union([Polygon(checks.points_of(strip)).buffer(0.001) for strip in checks.strips(scene)])


def labels_in(scene: Scene, name: str) -> list[Label]:
    return [item for item in checks.leaves(checks.group(scene, name).items) if isinstance(item, Label)]


@pytest.mark.parametrize("name", CONTOURED)
def test_numbers_of_contours_stand_on_theirs_and_inside_the_fabric(name: str) -> None:
    shawl = shawl_of(PIECES[name])
    scene = draw_schematic(shawl, Options(contours=True))
    lines = [LineString(checks.points_of(i)) for i in checks.group(scene, "contours").items if isinstance(i, Path)]
    (note,) = [text for text in checks.texts(scene) if text.startswith("A fine line")]
    step = float(note.split("each ")[1].split(" g")[0].replace(",", ""))
    fabric, numbers = fabric_of(scene), labels_in(scene, "contour-numbers")
    for label in numbers:
        count = round(float(label.text.removesuffix(" g").replace(",", "")) / step)
        room = Polygon(text_box(label).corners)
        assert room.intersects(lines[count - 1]) and fabric.contains(room)
    assert len(numbers) >= len(lines) // 2 - 1
    assert not checks.meetings(scene)


def test_numbers_of_contours_keep_off_badges_and_marks() -> None:
    scene = draw_schematic(shawl_of(PIECES["triangle"]), Options(contours=True))
    plates = [Polygon(text_box(label).corners) for label in labels_in(scene, "contour-numbers")]
    discs = [i for i in checks.leaves(checks.group(scene, "badges").items) if isinstance(i, Circle)]
    marks = [i for i in checks.leaves(checks.group(scene, "marks").items) if isinstance(i, Path)]
    for plate in plates:
        assert all(plate.distance(Point(disc.x, disc.y)) > disc.radius for disc in discs)
        assert all(plate.distance(LineString(checks.points_of(mark))) > mark.style.width / 2 for mark in marks)


@every
def test_names_of_parts_keep_off_the_fabric(name: str) -> None:
    scene = SCENES[name]
    fabric = fabric_of(scene)
    assert not [
        label for label in labels_in(scene, "part-names") if fabric.intersects(Polygon(text_box(label).corners))
    ]


def test_names_of_parts_stand_at_the_height_of_their_bands() -> None:
    """Beside the edge of a level piece: inside the rows of the part."""
    scene = draw_schematic(shawl_of(PIECES["rectangle"]), Options(scale=8))
    names = {label.text: label.y for label in labels_in(scene, "part-names")}
    assert list(names) == ["1 first", "2 face"]
    bands = checks.group(scene, "fabric").items
    rows = [[y for path in checks.leaves((band,)) for _, y in checks.points_of(path)] for band in bands]
    assert min(rows[0]) < names["1 first"] < max(rows[0]) + 1.2
    assert min(rows[1]) < names["2 face"] < max(rows[-1])


@pytest.mark.parametrize("name", PIECES)
@pytest.mark.parametrize("width", [None, 125])
def test_all_parts_are_named_or_none_is_clear_of_the_flags(name: str, width: float | None) -> None:
    shawl = shawl_of(PIECES[name])
    scene = draw_schematic(shawl, Options(width_mm=width))
    named = labels_in(scene, "part-names")
    flags = checks.leaves(checks.group(scene, "flags").items) if named else ()
    words = [Polygon(text_box(item).corners) for item in flags if isinstance(item, Label)]
    dots = [Point(item.x, item.y).buffer(item.radius) for item in flags if isinstance(item, Circle)]
    assert all(Polygon(text_box(label).corners).distance(room) > 1.9 for label in named for room in words + dots)
    assert len(named) in (0, len(shawl.parts))


@pytest.mark.parametrize("name", ["triangle", "half-circle", "crescent", "thin parts", "three metres"])
@pytest.mark.parametrize("width", [110, 120, 130, 150, 180])
def test_words_of_flags_stand_beside_the_extension_lines_of_the_wingspan(name: str, width: float) -> None:
    scene = draw_schematic(shawl_of(PIECES[name]), Options(width_mm=width))
    lines = [i for i in checks.group(scene, "wingspan").items if isinstance(i, Path) and i.style == EXTENSION]
    places = [checks.points_of(line)[0][0] for line in lines]
    rooms = [Polygon(text_box(label).corners).bounds for label in labels_in(scene, "flags")]
    assert places and not [room for room in rooms for x in places if room[0] - 0.7 < x < room[2] + 0.7]


def test_names_without_room_for_all_are_left_to_the_table() -> None:
    """A part whose name is too long to stand anywhere takes the others' names with it."""
    parts = PIECES["rectangle"].parts
    for name, count in (("face", 2), ("x" * 60, 0)):
        made = PIECES["rectangle"]._replace(parts=[parts[0], (name, parts[1][1])])
        assert len(labels_in(draw_schematic(shawl_of(made), Options(scale=8)), "part-names")) == count
    for width, names in ((109, []), (110, ["1 growing", "panel", "3 back"])):
        scene = draw_schematic(shawl_of(PIECES["tip-to-tip"]), Options(width_mm=width))
        assert [label.text for label in labels_in(scene, "part-names")] == names


@pytest.mark.parametrize(("share", "given"), [(0.96, False), (1.0, False), (1.04, False), (0.94, True), (0.7, True)])
def test_depth_is_named_and_the_spine_given_only_where_it_differs(share: float, given: bool) -> None:
    """A spine within 5 % of the depth says the same again, and is neither drawn nor said."""
    made = shawl_of(PIECES["triangle"])
    size = made.outline.size
    vars(made.outline)["size"] = size._replace(spine_cm=share * size.depth_cm)
    texts = checks.texts(draw_schematic(made))
    assert any(text.startswith(f"depth {size.depth_cm:.0f} cm (") for text in texts)
    assert bool(re.search(r"[Ss]pine \d", " ".join(texts))) == given


@pytest.mark.parametrize(
    ("shape", "start", "bands", "shaping", "name"),
    [
        ("rectangle", "cast on 60 sts", "garter 200 ridges", "", "length"),
        ("rectangle", "cast on 300 sts", "garter 40 ridges", "", "width"),
        ("asymmetric", "cast on 40 sts", "garter 200 ridges", BIAS, "width"),
        ("asymmetric", "cast on 3 sts", "garter 60 ridges", "increase 1 at lower edge every 2 rows", "depth"),
    ],
)
@pytest.mark.parametrize("width", [None, 70])
def test_strips_have_a_length_and_a_width_other_shapes_a_depth(
    shape: str, start: str, bands: str, shaping: str, name: str, width: float | None
) -> None:
    """Drawn or in words; a long rectangle lies on its side, and its box is then as high as it is wide."""
    made = shawl(piece(shape=shape, start=start, shaping=shaping, parts=part(bands)))
    texts = " ".join(checks.texts(draw_schematic(made, Options(width_mm=width)))).lower()
    lies = name == "length" and "width " in texts
    assert [word for word in ("depth", "length", "width") if re.search(rf"\b{word} (\d|$)", texts)] == [
        "width" if lies else name
    ]


@pytest.mark.parametrize("boundary", [chevron, bow, fan, level])
@pytest.mark.parametrize(("neck", "rest"), [(2, 12), (6, 4), (10, 12), (16, 4)])
@pytest.mark.parametrize("width", [None, 110])
def test_badges_of_a_small_neck_keep_off_the_words_of_flags(
    boundary: Boundary, neck: int, rest: int, width: float | None
) -> None:
    small = Piece(
        [("neck", [("garter", neck)]), ("body", [("garter", rest)])], scaled(boundary, 0.6), boundary is chevron
    )
    scene = draw_schematic(shawl_of(small), Options(width_mm=width))
    discs = [i for i in checks.leaves(checks.group(scene, "badges").items) if isinstance(i, Circle)]
    words = [Polygon(text_box(label).corners) for label in labels_in(scene, "flags")]
    assert all(room.distance(Point(disc.x, disc.y)) - disc.radius > 0.75 for disc in discs for room in words)


def test_an_edge_that_bends_has_no_line_to_cross_others() -> None:
    scene = draw_schematic(shawl_of(PIECES["half-circle"]))
    items = checks.group(scene, "bind-off-edge").items
    assert [type(item) for item in items] == [Label]


@pytest.mark.parametrize("name", ["half-circle", "crescent"])
def test_words_along_a_bent_edge_are_level_or_clearly_turned(name: str) -> None:
    found = []
    for width in range(100, 200, 10):
        scene = draw_schematic(shawl_of(PIECES[name]), Options(width_mm=width))
        groups = [group for group in checks.groups(scene.items) if group.name in ("bind-off-edge", "side")]
        found += [i.turn for group in groups for i in group.items if isinstance(i, Label) and len(group.items) == 1]
    assert found and not [turn for turn in found if 0 < abs(turn) < 8]


def test_picots_stay_below_the_top_edge_at_a_tip() -> None:
    """What of a scallop would rise over the other edge is cut off: on the page nothing light or dark shows there."""
    text = piece(
        shape="crescent",
        start="garter tab 3 sts 6 rows",
        shaping="increase 2 at each edge every 2 rows",
        parts=part("garter 40 ridges"),
        end="bind off picot",
    )
    scene = draw_schematic(shawl(text), Options())
    edge = checks.group(scene, "edge-behind")
    assert edge.clip is not None
    room = Polygon(checks.flattened(edge.clip)).buffer(0)
    scallops = next(item for item in edge.items if isinstance(item, Path))
    shown = LineString(checks.points_of(scallops)).buffer(scallops.style.width / 2).intersection(room)
    top = fabric_of(scene).bounds[1]
    assert shown.area > 10 and shown.bounds[1] >= top - 0.2


def test_short_upright_dimensions_name_the_depth_in_lines_beside_it() -> None:
    scene = draw_schematic(shawl_of(Piece([("only", [("garter", 60)])], scaled(upright, 0.5), sideways=True)))
    words = " ".join(label.text for label in labels_in(scene, "depth"))
    assert words.startswith("depth ") and words.endswith(" in)")


def test_stitches_drawn_together_along_an_edge_are_pleated_and_have_no_length() -> None:
    scene = draw_schematic(shawl_of(PIECES["triangle"], method="draw through"))
    pleats = [LineString(checks.points_of(i)) for i in checks.group(scene, "gathers").items if isinstance(i, Path)]
    fabric = fabric_of(scene).buffer(0.05)
    assert len(pleats) > 50 and all(fabric.contains(pleat) for pleat in pleats)
    assert not [text for text in checks.texts(scene) if "off edge" in text]
    assert "gathers" not in [group.name for group in checks.groups(SCENES["triangle"].items)]


@every
def test_extension_lines_are_square_to_their_dimension(name: str) -> None:
    for dimension in [group for group in checks.groups(SCENES[name].items) if group.name in DIMENSIONS]:
        paths = [item for item in dimension.items if isinstance(item, Path)]
        along = [checks.points_of(path) for path in paths if path.style == LINE]
        across = [checks.points_of(path) for path in paths if path.style == EXTENSION]
        assert not across or along
        for (px, py), (qx, qy) in across:
            (ax, ay), (bx, by) = along[0][0], along[0][-1]
            dot = (qx - px) * (bx - ax) + (qy - py) * (by - ay)
            assert abs(dot) < 0.02 * math.dist((px, py), (qx, qy)) * math.dist((ax, ay), (bx, by)), dimension.name
