"""The page as a whole: nothing meets, nothing leaves it, and the piece is drawn as the model has it."""

import itertools
import math
import re
from collections.abc import Iterable

import pytest
from halfhank.model.outline.curve import Curve
from halfhank.model.shawl import Marks
from halfhank.renderer.paper.house_style import INK, LIGHT, MARGIN
from halfhank.renderer.paper.page_sizes import scales
from halfhank.renderer.paper.scene import Circle, Label, Path
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.detail import PLAINER
from halfhank.renderer.schematic.drawing_layout import place_annotations, with_dimensions
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.options import OptionError, Options
from halfhank.renderer.schematic.page import draw_schematic
from halfhank.renderer.schematic.page_fit import CONTENT_MM
from shapely import LineString, Point, Polygon, distance, unary_union

from tests.pipe.drawing import svg_files
from tests.renderer import checks
from tests.renderer.pieces import (
    Piece,
    level,
    scaled,
    shawl_of,
    upright,
)
from tests.renderer.scenes import (
    DIMENSIONS,
    LEVELS,
    PIECES,
    SCENES,
    every,
)


@every
def test_no_text_meets_another(name: str) -> None:
    assert not checks.meetings(SCENES[name])


@every
def test_nothing_leaves_the_page(name: str) -> None:
    assert not checks.strays(SCENES[name])


@every
def test_files_are_valid_and_small(name: str) -> None:
    data = to_svg(SCENES[name])
    svg_files.check(data)
    assert len(data) < 150_000


@every
def test_badges_meet_neither_texts_nor_each_other(name: str) -> None:
    scene = SCENES[name]
    discs = [i for i in checks.leaves(checks.group(scene, "badges").items) if isinstance(i, Circle)]
    words = [Polygon(box.corners) for box in checks.text_boxes(scene) if not box.label.text.isdigit()]
    for k, disc in enumerate(discs):
        assert all(math.dist((disc.x, disc.y), (o.x, o.y)) >= disc.radius + o.radius for o in discs[:k])
        assert all(distance(words, Point(disc.x, disc.y)) > disc.radius - 0.01)


@every
def test_leaders_cross_no_text_and_not_each_other(name: str) -> None:
    scene = SCENES[name]
    leaders = [i for i in checks.group(scene, "flags").items if isinstance(i, Path)]
    lines = [LineString(checks.points_of(leader)) for leader in leaders]
    texts = [(box.label.text, Polygon(box.corners)) for box in checks.text_boxes(scene)]
    for k, line in enumerate(lines):
        assert not any(line.crosses(other) for other in lines[:k])
        assert not [text for text, room in texts if line.intersects(room)]


@every
def test_badges_leaders_do_not_cross(name: str) -> None:
    paths = [i for i in checks.group(SCENES[name], "badges").items if isinstance(i, Path) and i.style.stroke == INK]
    lines = [LineString(checks.points_of(path)) for path in paths]
    assert not any(a.crosses(b) for k, a in enumerate(lines) for b in lines[:k])


@every
def test_badges_outside_keep_off_the_fabric(name: str) -> None:
    """Inside or outside: none sits across the fabric's edge."""
    scene = SCENES[name]
    piece = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    for disc in checks.leaves(checks.group(scene, "badges").items):
        if isinstance(disc, Circle) and not piece.contains(Point(disc.x, disc.y)):
            assert piece.distance(Point(disc.x, disc.y)) > disc.radius


def numbers_in(texts: Iterable[str]) -> list[int]:
    """The numbers that badges show, ranges in full."""
    found: list[int] = []
    for text in texts:
        if re.fullmatch(r"\d+(–\d+)?", text):
            first, _, last = text.partition("–")
            found += range(int(first), int(last or first) + 1)
    return found


@every
@pytest.mark.parametrize("where", ["badges", "ruler-badges"])
def test_no_part_is_left_without_a_number(name: str, where: str) -> None:
    """On the drawing and on the skein each part has its number once; in words where it is too thin for a badge."""
    scene = SCENES[name]
    labels = [i.text for i in checks.leaves(checks.group(scene, where).items) if isinstance(i, Label)]
    words = [text for text in checks.texts(scene) if "oo thin to be numbered" in text] if where == "badges" else []
    in_words = [int(number) for text in words for number in text.split("numbered: ")[1].split(",")]
    parts = [
        i for i in checks.group(scene, "parts").items if isinstance(i, Label) and i.text.isdigit() and i.size < 3.1
    ]
    assert sorted(numbers_in(labels) + in_words) == list(range(1, len(parts) + 1))


def test_many_thin_parts_are_numbered_in_one_ordered_row() -> None:
    badges = [i for i in checks.group(SCENES["40 parts"], "badges").items if isinstance(i, Label)]
    assert len({round(label.y, 3) for label in badges}) == 1
    starts = [numbers_in([label.text])[0] for label in sorted(badges, key=lambda label: -label.x)]
    assert len(starts) > 3 and starts == sorted(starts)


@every
def test_part_bounds_leave_the_fabric_to_be_seen(name: str) -> None:
    """A third of a part's height at most is taken by each line at its ends."""
    bounds = [i for i in checks.group(SCENES[name], "part-bounds").items[::2] if isinstance(i, Path)]
    lines = [LineString(checks.points_of(path)) for path in bounds]
    for k in range(len(lines) - 1):
        apart = lines[k].hausdorff_distance(lines[k + 1])
        assert max(bounds[k].style.width, bounds[k + 1].style.width) <= apart / 3 + 1e-6


def test_part_bounds_are_bold_where_there_is_room() -> None:
    items = checks.group(draw_schematic(shawl_of(PIECES["triangle"]), Options(scale=5)), "part-bounds").items
    styles = [item.style for item in items if isinstance(item, Path)]
    assert [(style.stroke, round(style.width, 2)) for style in styles] == 2 * [(LIGHT, 0.9), (INK, 0.3)]


@every
def test_dimension_lines_cross_neither_texts_nor_badges(name: str) -> None:
    scene = SCENES[name]
    texts = [(box.label.text, Polygon(box.corners)) for box in checks.text_boxes(scene)]
    discs = [i for i in checks.leaves(checks.group(scene, "badges").items) if isinstance(i, Circle)]
    for dimension in [g for g in checks.groups(scene.items) if g.name in DIMENSIONS]:
        for path in [item for item in dimension.items if isinstance(item, Path)]:
            line = LineString(checks.points_of(path))
            assert not [text for text, room in texts if line.intersects(room)], dimension.name
            assert all(line.distance(Point(disc.x, disc.y)) > disc.radius for disc in discs), dimension.name


@every
def test_dimensions_stay_off_the_fabric(name: str) -> None:
    scene = SCENES[name]
    piece = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    for dimension in [g for g in checks.groups(scene.items) if g.name in DIMENSIONS and g.name != "spine"]:
        for path in [item for item in dimension.items if isinstance(item, Path)]:
            assert LineString(checks.points_of(path)).intersection(piece).length < 0.01, dimension.name


@pytest.mark.parametrize("name", ["bulging sides", "hollow sides"])
def test_a_side_that_bends_a_little_has_its_dimension(name: str) -> None:
    shawl = shawl_of(PIECES[name])._replace(marks=Marks(None, None, None))
    assert checks.group(draw_schematic(shawl), "side")


@pytest.mark.parametrize("name", ["triangle", "rectangle", "tip-to-tip", "half-circle", "crescent", "three metres"])
def test_piece_is_as_large_and_as_formed_as_the_model_says(name: str) -> None:
    shawl = shawl_of(PIECES[name])
    scene = draw_schematic(shawl, Options(scale=10))
    areas = [Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)]
    whole = unary_union(areas)
    left, top, right, bottom = whole.bounds
    assert right - left == pytest.approx(shawl.outline.size.wingspan_cm, abs=0.1)
    assert bottom - top == pytest.approx(shawl.outline.size.depth_cm, abs=0.1)
    ring = [(x + left, y + top) for x, y in checks.outline(DrawnPiece(shawl, 1))]
    silhouette = Polygon(ring).buffer(0)
    assert whole.symmetric_difference(silhouette).area < 0.001 * silhouette.area
    assert not whole.buffer(0.001).interiors


@pytest.mark.parametrize("name", ["triangle", "tip-to-tip", "half-circle"])
def test_strips_reach_under_their_successors(name: str) -> None:
    """A seam is never bare: each strip but the last shares at least 0.15 mm of height with the next one."""
    scene = draw_schematic(shawl_of(PIECES[name]), Options(scale=10))
    areas = [Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)]
    for one, other in itertools.pairwise(areas):
        shared = one.intersection(other)
        assert shared.area > 0.15 * shared.length / 2 * 0.9 - 0.05


def test_strips_are_about_a_hundredth_of_the_yarn() -> None:
    piece = Piece([("only", [("garter", 4000)])], scaled(level, 10))
    scene = draw_schematic(shawl_of(piece))
    assert 90 <= len(checks.strips(scene)) <= 101


@pytest.mark.parametrize("total_g", [82.0, 8200.0])
@pytest.mark.parametrize("scale", [10, 60])
def test_contours_leave_the_fabric_to_be_seen(total_g: float, scale: float) -> None:
    """At least 1.5 mm apart, at whole multiples of the grams that the note tells."""
    shawl = shawl_of(PIECES["triangle"], skein_g=1.2 * total_g, total_g=total_g)
    scene = draw_schematic(shawl, Options(scale=scale, contours=True))
    lines = [LineString(checks.points_of(i)) for i in checks.group(scene, "contours").items if isinstance(i, Path)]
    assert all(a.distance(b) >= 1.4 for a, b in itertools.pairwise(lines))
    (note,) = [text for text in checks.texts(scene) if text.startswith("A fine line")]
    step = int(note.split("each ")[1].split(" g")[0].replace(",", ""))
    assert shawl.used_g[-1] // step - len(lines) in (0, 1) and lines  # one may lie in the last row


def test_a_narrow_piece_stands_in_the_middle() -> None:
    shawl = shawl_of(Piece(LEVELS, scaled(level, 0.5), sideways=True))._replace(marks=Marks(None, None, None))
    scene = draw_schematic(shawl, Options(scale=8))
    whole = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    left, _, right, _ = whole.bounds
    assert (left + right) / 2 == pytest.approx(scene.width / 2, abs=0.1)


def test_small_drawing_has_the_width_asked_for() -> None:
    assert SCENES["narrow"].width == 100
    assert SCENES["wide"].width == 420


@pytest.mark.parametrize("name", PIECES)
def test_scale_of_its_own_choice(name: str) -> None:
    """The largest of the row at which the page is at most 180 mm wide and the piece 150 mm high."""
    shawl = shawl_of(PIECES[name])
    scene = draw_schematic(shawl)
    assert scene.width <= 180
    (told,) = [text for text in checks.texts(scene) if ", 1:" in text]
    scale = float(told.split(", 1:")[1].removesuffix(" at this width"))
    row = []
    for step in scales():
        row.append(step)
        if step >= scale:
            break
    assert row[-1] == scale
    if len(row) > 1:
        larger = draw_schematic(shawl, Options(scale=row[-2]))
        high = 10 * shawl.outline.size.depth_cm / row[-2]
        without = with_dimensions(place_annotations(shawl, row[-2], CONTENT_MM), PLAINER)
        assert larger.width > 180 or high > 150 or without.bounds.width + 2 * MARGIN > 180


def test_scales_go_on_evenly() -> None:
    steps = scales()
    first = [next(steps) for _ in range(16)]
    assert first == [4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120]


@pytest.mark.parametrize(
    "options",
    [
        Options(scale=0),
        Options(scale=math.nan),
        Options(scale=math.inf),
        Options(width_mm=20),
        Options(width_mm=math.nan),
        Options(scale=10, width_mm=150),
        Options(scale=10, height_mm=150),
        Options(height_mm=math.nan),
        Options(only="table"),
        Options(without="skein"),
        Options(ramp="none"),
        Options(units="ell"),
    ],
)
def test_options_that_cannot_be_followed(options: Options) -> None:
    with pytest.raises(OptionError):
        draw_schematic(shawl_of(PIECES["one row"]), options)


def test_jumps_at_an_edge_are_drawn() -> None:
    """Stitches bound off at the lower edge: the step is part of the outline."""

    def teeth(h: float, whole: float) -> tuple[Curve, Curve]:
        before = upright(h, whole)
        if round(h / 0.25) % 16 or h == 0 or h == whole:
            return before, before
        (x, y) = before.pieces[0][0]
        return before, Curve(before.start, (((x, y - 2.0),),))

    shawl = shawl_of(Piece([("teeth", [("garter", 120)])], teeth, sideways=True))
    scene = draw_schematic(shawl, Options(scale=4))
    whole = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    silhouette = Polygon(checks.outline(DrawnPiece(shawl, 2.5))).buffer(0)
    assert whole.area == pytest.approx(silhouette.area, rel=0.001)
    assert not checks.meetings(scene) and not checks.strays(scene)
