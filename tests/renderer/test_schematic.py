"""The page as a whole: nothing meets, nothing leaves it, and the piece is drawn as the model has it."""

import itertools
import math
from dataclasses import replace
from typing import Any

import pytest
from halfhank.model.outline.curve import Curve
from halfhank.renderer.bind_off import overhang_of
from halfhank.renderer.boxes import text_boxes
from halfhank.renderer.frame import Frame
from halfhank.renderer.options import OptionError, Options, scales
from halfhank.renderer.scene import Circle, Group, Label, Path, Scene, Style
from halfhank.renderer.schematic import CONTENT_MM, schematic
from halfhank.renderer.sheet import surround, with_dimensions
from halfhank.renderer.style import INK, MARGIN
from halfhank.renderer.svg import to_svg
from halfhank.renderer.textures import patterns_of
from shapely import LineString, Point, Polygon, unary_union

from tests.pipe import svg_files
from tests.renderer import checks
from tests.renderer.pieces import (
    NECK_DOWN,
    Piece,
    bow,
    bulging,
    chevron,
    fan,
    hollow,
    level,
    scaled,
    shawl_of,
    upright,
)

LONG = "An exceedingly long title with Ünïcödé, кружево и メッシュ that a designer might yet give to a shawl, " * 3
TURNED = [("growing", [("garter", 40), ("drop", 2)] * 4), ("panel", [("mesh", 24)]), ("back", [("garter", 168)])]
LEVELS = [("first", [("garter", 20)]), ("face", [("stockinette", 30), ("drop", 2), ("mesh", 20)] * 3)]


THIN_PARTS = [("a", [("garter", 20)]), *[(name, [("garter", 2)]) for name in "bcdef"], ("g", [("garter", 102)])]


def many(count: int, rows: int = 6) -> list[tuple[str, list[tuple[str, int]]]]:
    return [(f"part {k}", [("garter", rows)]) for k in range(1, count + 1)]


PIECES = {
    "triangle": Piece(NECK_DOWN, chevron, spine=True),
    "rectangle": Piece(LEVELS, level),
    "tip-to-tip": Piece(TURNED, upright, sideways=True),
    "half-circle": Piece(NECK_DOWN, bow),
    "crescent": Piece(NECK_DOWN, fan),
    "bulging sides": Piece([("only", [("garter", 240)])], bulging, sides=True),
    "hollow sides": Piece([("only", [("garter", 240)])], hollow, sides=True),
    "thin parts": Piece(THIN_PARTS, chevron, spine=True),
    "one row": Piece([("only", [("garter", 1)])], level),
    "three rows": Piece([("only", [("garter", 3)])], chevron, spine=True),
    "two rows sideways": Piece([("only", [("garter", 2)])], upright, sideways=True),
    "five centimetres": Piece([("a", [("garter", 4)]), ("b", [("mesh", 2)])], scaled(chevron, 0.5), spine=True),
    "three metres": Piece(NECK_DOWN, scaled(chevron, 3.2), spine=True),
    "wide and thin": Piece([("only", [("garter", 3)])], scaled(level, 6.6)),
    "scarf": Piece([("only", [("garter", 720)])], level),
    "12 parts": Piece(many(12), chevron, spine=True),
    "40 parts": Piece(many(40, 4), chevron, spine=True),
    "40 parts sideways": Piece(many(40), upright, sideways=True),
    "40 parts level": Piece(many(40), level),
    "long names": Piece(
        [(LONG, [("garter", 32)]), ("メッシュ" * 40, [("mesh", 8)]), ("x" * 200, [("garter", 4)])], chevron
    ),
    "many fabrics": Piece([("all", [(f"stitch-{k}-with-a-long-name", 6) for k in range(14)])], level),
}
OPTIONS = {
    "inches": Options(units="in"),
    "little ink with contours": Options(ramp="haze", contours=True),
    "full size": Options(scale=1),
    "very small": Options(scale=1000),
    "narrow": Options(width_mm=100),
    "wide": Options(width_mm=420),
}
DIMENSIONS = {"wingspan", "depth", "spine", "side", "left-side", "right-side"}
DIMENSIONS |= {"last-edge", "upper-edge", "lower-edge", "long-edge"}
YARNS: dict[str, dict[str, Any]] = {
    "too little yarn": {"skein_g": 50.0, "total_g": 82.0},
    "small skein": {"skein_g": 7.5, "total_g": 6.0, "keep_g": 0.1},
    "large skein": {"skein_g": 1234.5, "total_g": 82.0},
    "mark beyond the end": {"spare_rows": -10},
    "turning a row later": {"turn_row": 87},
    "marks on one row": {"turn_row": 86},
    "nothing kept": {"keep_g": 0.0},
}


REMARK = "Slip the first stitch of every row."
METHODS = ("standard", "elastic", "picot", "i-cord", "draw through", "measured")


def drawn() -> dict[str, Scene]:
    scenes = {name: schematic(shawl_of(piece, title=name)) for name, piece in PIECES.items()}
    triangle = PIECES["triangle"]
    scenes |= {name: schematic(shawl_of(triangle, method="picot"), options) for name, options in OPTIONS.items()}
    scenes |= {name: schematic(shawl_of(triangle, **yarn)) for name, yarn in YARNS.items()}
    scenes |= {f"{name} level": schematic(shawl_of(PIECES["rectangle"], **yarn)) for name, yarn in YARNS.items()}
    scenes |= {f"{method} edge": schematic(shawl_of(triangle, method=method)) for method in METHODS}
    scenes["remarks"] = schematic(shawl_of(triangle, remarks=[REMARK, LONG, "x" * 900]))
    scenes["long title"] = schematic(shawl_of(triangle, title=LONG))
    return scenes


SCENES = drawn()
every = pytest.mark.parametrize("name", SCENES)


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
    for k, disc in enumerate(discs):
        assert all(math.dist((disc.x, disc.y), (o.x, o.y)) >= disc.radius + o.radius for o in discs[:k])
        for box in text_boxes(scene):
            if not box.label.text.isdigit():
                assert Polygon(box.corners).distance(LineString([(disc.x, disc.y)] * 2)) > disc.radius - 0.01


@every
def test_leaders_cross_no_text_and_not_each_other(name: str) -> None:
    scene = SCENES[name]
    leaders = [i for i in checks.group(scene, "flags").items if isinstance(i, Path)]
    lines = [LineString(checks.points_of(leader)) for leader in leaders]
    for k, line in enumerate(lines):
        assert not any(line.crosses(other) for other in lines[:k])
        for box in text_boxes(scene):
            assert not line.intersects(Polygon(box.corners)), box.label.text


@every
def test_badges_leaders_do_not_cross(name: str) -> None:
    paths = [i for i in checks.group(SCENES[name], "badges").items if isinstance(i, Path) and i.style.stroke == INK]
    lines = [LineString(checks.points_of(path)) for path in paths]
    assert not any(a.crosses(b) for k, a in enumerate(lines) for b in lines[:k])


@pytest.mark.parametrize("name", ["thin parts", "12 parts", "40 parts level", "40 parts sideways"])
def test_no_part_is_left_without_a_badge(name: str) -> None:
    badges = [i for i in checks.group(SCENES[name], "badges").items if isinstance(i, Label)]
    assert len(badges) == len(PIECES[name].parts)


@every
def test_part_bounds_leave_the_fabric_to_be_seen(name: str) -> None:
    """A third of a part's height at most is taken by each line at its ends."""
    bounds = [i for i in checks.group(SCENES[name], "part-bounds").items if isinstance(i, Path)]
    lines = [LineString(checks.points_of(path)) for path in bounds]
    for k in range(len(lines) - 1):
        apart = lines[k].hausdorff_distance(lines[k + 1])
        assert max(bounds[k].style.width, bounds[k + 1].style.width) <= apart / 3 + 1e-6


def test_part_bounds_are_bold_where_there_is_room() -> None:
    items = checks.group(SCENES["triangle"], "part-bounds").items
    assert [item.style.width for item in items if isinstance(item, Path)] == [0.5, 0.5]


@every
def test_dimension_lines_cross_neither_texts_nor_badges(name: str) -> None:
    scene = SCENES[name]
    texts = [(box.label.text, Polygon(box.corners)) for box in text_boxes(scene)]
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
    scene = schematic(shawl_of(PIECES[name], spare_rows=-10))
    assert checks.group(scene, "side")


@pytest.mark.parametrize("name", ["triangle", "rectangle", "tip-to-tip", "half-circle", "crescent", "three metres"])
def test_piece_is_as_large_and_as_formed_as_the_model_says(name: str) -> None:
    shawl = shawl_of(PIECES[name])
    scene = schematic(shawl, Options(scale=10))
    areas = [Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)]
    whole = unary_union(areas)
    left, top, right, bottom = whole.bounds
    assert right - left == pytest.approx(shawl.outline.size.wingspan_cm, abs=0.1)
    assert bottom - top == pytest.approx(shawl.outline.size.depth_cm, abs=0.1)
    ring = [(x + left, y + top) for x, y in checks.outline(Frame(shawl, 1))]
    silhouette = Polygon(ring).buffer(0)
    assert whole.symmetric_difference(silhouette).area < 0.001 * silhouette.area
    assert not whole.buffer(0.001).interiors


@pytest.mark.parametrize("name", ["triangle", "tip-to-tip", "half-circle"])
def test_strips_reach_under_their_successors(name: str) -> None:
    """A seam is never bare: each strip but the last shares at least 0.15 mm of height with the next one."""
    scene = schematic(shawl_of(PIECES[name]), Options(scale=10))
    areas = [Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)]
    for one, other in itertools.pairwise(areas):
        shared = one.intersection(other)
        assert shared.area > 0.15 * shared.length / 2 * 0.9 - 0.05


def test_strips_are_about_a_hundredth_of_the_yarn() -> None:
    piece = Piece([("only", [("garter", 4000)])], scaled(level, 10))
    scene = schematic(shawl_of(piece))
    assert 90 <= len(checks.strips(scene)) <= 101


def test_every_band_says_what_it_is() -> None:
    scene = SCENES["triangle"]
    bands = checks.group(scene, "fabric").items
    assert len(bands) == 17
    used = shawl_of(PIECES["triangle"]).bands[1].used_g
    assert isinstance(bands[1], Group)
    assert bands[1].title == f"rows 33–40: mesh, to 88 sts, {used:.1f} g"


def test_page_says_what_must_be_said() -> None:
    words = " ".join(checks.texts(SCENES["triangle"]))
    for told in (
        "half the yarn:",
        "bind off by row 120",
        "g left",
        "as knitted",
        "1:8",
        "garter 20 × 40",
        "4 mm needles",
    ):
        assert told in words


def edge_styles(method: str) -> list[Style]:
    """How the bound-off edge is stroked, behind the fabric and on it."""
    scene = SCENES[f"{method} edge"]
    items = checks.group(scene, "edge-behind").items + checks.group(scene, "bind-off").items
    return [item.style for item in items if isinstance(item, Path)]


def test_each_bind_off_has_an_edge_of_its_own() -> None:
    assert len({tuple(edge_styles(method)) for method in METHODS}) == len(METHODS)


@pytest.mark.parametrize("method", METHODS)
def test_scallops_are_of_a_picot_alone(method: str) -> None:
    scallops = [style for style in edge_styles(method) if style.cap == "round" and style.dash]
    assert bool(scallops) == (method == "picot")


@pytest.mark.parametrize("method", METHODS)
def test_an_edge_keeps_within_its_overhang(method: str) -> None:
    assert max(style.width for style in edge_styles(method)) / 2 <= overhang_of(method) + 1e-9


@pytest.mark.parametrize("method", METHODS)
def test_the_table_shows_the_edge(method: str) -> None:
    """Beside the bind-off's name stands a piece of its edge."""
    items = checks.group(SCENES[f"{method} edge"], "parts").items
    styles = {item.style._replace(dash=()) for item in items if isinstance(item, Path)}
    assert {style._replace(dash=()) for style in edge_styles(method)} <= styles


def test_remarks_stand_at_the_foot_and_in_the_description() -> None:
    scene = SCENES["remarks"]
    feet = [label for label in labels(scene) if label.text == REMARK]
    assert len(feet) == 1 and REMARK in scene.description
    assert feet[0].y > max(label.y for label in labels(scene) if label.text == "garter 20 × 40")
    assert " ".join(checks.texts(scene)).count("кружево") == 3


def test_units_lead_as_asked() -> None:
    assert "95 cm (37 in), as knitted" in checks.texts(SCENES["triangle"])
    assert "37 in (95 cm), as knitted" in checks.texts(SCENES["inches"])


def test_yarn_that_does_not_last_is_said_in_words() -> None:
    words = checks.texts(SCENES["too little yarn"])
    assert "The yarn does not last: 32 g are missing." in words
    assert not [text for text in words if "−" in text and "left" in text]
    assert [text for text in words if text.endswith("g short")]


@pytest.mark.parametrize("total_g", [82.0, 8200.0])
@pytest.mark.parametrize("scale", [10, 60])
def test_contours_leave_the_fabric_to_be_seen(total_g: float, scale: float) -> None:
    """At least 1.5 mm apart, at whole multiples of the grams that the note tells."""
    shawl = shawl_of(PIECES["triangle"], skein_g=1.2 * total_g, total_g=total_g)
    scene = schematic(shawl, Options(scale=scale, contours=True))
    lines = [LineString(checks.points_of(i)) for i in checks.group(scene, "contours").items if isinstance(i, Path)]
    assert all(a.distance(b) >= 1.4 for a, b in itertools.pairwise(lines))
    (note,) = [text for text in checks.texts(scene) if text.startswith("A fine line")]
    step = int(note.split("each ")[1].split(" g")[0].replace(",", ""))
    assert shawl.used_g[-1] // step - len(lines) in (0, 1) and lines  # one may lie in the last row


def test_a_mark_beyond_the_end_is_a_note() -> None:
    scene = SCENES["mark beyond the end"]
    assert not [text for text in checks.texts(scene) if text.startswith("bind off by")]
    assert any("row 130" in text for text in checks.texts(scene))


def test_an_end_that_leaves_yarn_says_how_much() -> None:
    """82 g of 100 g, 5 g kept: told where more than two ridges, here of 2 g, could still be worked."""
    told = "The piece ends with row 120: 18 g are left, 5 g of them kept back."
    assert told in checks.texts(SCENES["triangle"])
    nearly = schematic(shawl_of(PIECES["triangle"], total_g=91.5))
    assert not [text for text in checks.texts(nearly) if text.startswith("The piece ends")]


def test_the_designers_name_stays_together() -> None:
    summary = "triangle from the neck, pinned to 160 cm by 55 cm, elastic bind-off, by Nell Ottershaw-Quill"
    shawl = replace(shawl_of(PIECES["triangle"]), summary=summary)
    lines = [label.text for label in checks.group(schematic(shawl, Options(scale=10)), "heading").items[1:]]
    assert lines[-1] == "by Nell Ottershaw-Quill" and " ".join(lines) == summary


def test_a_narrow_piece_stands_in_the_middle() -> None:
    scene = schematic(shawl_of(Piece(LEVELS, scaled(level, 0.5), sideways=True)), Options(scale=8))
    whole = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    left, _, right, _ = whole.bounds
    assert (left + right) / 2 == pytest.approx(scene.width / 2, abs=0.1)


def test_each_fabric_has_a_texture_of_its_own() -> None:
    patterns = patterns_of(shawl_of(PIECES["rectangle"]))
    assert len(set(patterns.values())) == len(patterns) == 4
    assert {pattern.kind for pattern in patterns.values()} == {"plain", "openwork", "drop"}


def test_small_drawing_has_the_width_asked_for() -> None:
    assert SCENES["narrow"].width == 100
    assert SCENES["wide"].width == 420


@pytest.mark.parametrize("name", PIECES)
def test_scale_of_its_own_choice(name: str) -> None:
    """The largest of the row at which the page is at most 180 mm wide and the piece 150 mm high."""
    shawl = shawl_of(PIECES[name])
    scene = schematic(shawl)
    assert scene.width <= 180
    (told,) = [text for text in checks.texts(scene) if ", 1:" in text]
    scale = float(told.split(", 1:")[1])
    row = []
    for step in scales():
        row.append(step)
        if step >= scale:
            break
    assert row[-1] == scale
    if len(row) > 1:
        larger = schematic(shawl, Options(scale=row[-2]))
        high = 10 * shawl.outline.size.depth_cm / row[-2]
        without = with_dimensions(surround(shawl, row[-2], CONTENT_MM), edges_too=False)
        assert larger.width > 180 or high > 150 or without.bounds.width + 2 * MARGIN > 180


def test_scales_go_on_evenly() -> None:
    steps = scales()
    first = [next(steps) for _ in range(16)]
    assert first == [4, 5, 8, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 250]


@pytest.mark.parametrize(
    "options",
    [
        Options(scale=0),
        Options(scale=math.nan),
        Options(scale=math.inf),
        Options(width_mm=20),
        Options(width_mm=math.nan),
        Options(scale=10, width_mm=150),
        Options(ramp="none"),
        Options(units="ell"),
    ],
)
def test_options_that_cannot_be_followed(options: Options) -> None:
    with pytest.raises(OptionError):
        schematic(shawl_of(PIECES["one row"]), options)


def test_jumps_at_an_edge_are_drawn() -> None:
    """Stitches bound off at the lower edge: the step is part of the outline."""

    def teeth(h: float, whole: float) -> tuple[Curve, Curve]:
        before = upright(h, whole)
        if round(h / 0.25) % 16 or h == 0 or h == whole:
            return before, before
        (x, y) = before.pieces[0][0]
        return before, Curve(before.start, (((x, y - 2.0),),))

    shawl = shawl_of(Piece([("teeth", [("garter", 120)])], teeth, sideways=True))
    scene = schematic(shawl, Options(scale=4))
    whole = unary_union([Polygon(checks.points_of(strip)).buffer(0) for strip in checks.strips(scene)])
    silhouette = Polygon(checks.outline(Frame(shawl, 2.5))).buffer(0)
    assert whole.area == pytest.approx(silhouette.area, rel=0.001)
    assert not checks.meetings(scene) and not checks.strays(scene)


def labels(scene: Scene) -> list[Label]:
    return [item for item in checks.leaves(scene.items) if isinstance(item, Label)]


def test_ruler_shows_the_grams_left() -> None:
    """Ticks lie where the skein's grams say, from its left end to its right."""
    scene = SCENES["triangle"]
    ticks = [item for item in labels(scene) if item in checks.group(scene, "ticks").items]
    assert [tick.text for tick in sorted(ticks, key=lambda t: t.x)] == [
        "100 g", "90", "80", "70", "60", "50", "40", "30", "20", "10", "0",
    ]  # fmt: skip


def test_thin_parts_share_a_number_above_the_skein() -> None:
    """The bracket reaches over their yarn: from the first part's start to the last one's end."""
    scene = SCENES["thin parts"]
    assert "1–6" in checks.texts(scene)
    badges = checks.group(scene, "ruler-badges").items
    bracket = next(checks.points_of(item) for item in badges if isinstance(item, Path))
    shawl = shawl_of(PIECES["thin parts"])
    width = scene.width - 2 * MARGIN
    wanted = [MARGIN, MARGIN + width * (1 - shawl.parts[5].left_g / shawl.yarn.skein_g)]
    assert [bracket[0][0], bracket[3][0]] == pytest.approx(wanted, abs=0.01)


def test_names_have_a_line_of_their_own_in_a_narrow_column() -> None:
    assert {"neck", "body", "border", "cast-on of 8 sts"} <= set(checks.texts(SCENES["narrow"]))


def test_every_length_is_told_once() -> None:
    """Drawn as a dimension or said in words: wingspan, depth, side, last edge."""
    words = "\n".join(checks.texts(SCENES["triangle"]))
    for told in ("95 cm (37 in), as knitted", "47 cm (19 in)", "side 67 cm (26 in)", "ast edge 134 cm (53 in)"):
        assert words.count(told) == 1, told


def test_table_sums_to_all_of_the_yarn() -> None:
    from halfhank.renderer.parts import table_lines

    lines = table_lines(shawl_of(PIECES["triangle"]))
    assert sum(float(line.cells[2]) for line in lines) == pytest.approx(82, abs=0.3)
