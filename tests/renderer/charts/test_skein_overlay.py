"""The outlines of several skeins over each other: nested, to one scale, with entries on leaders."""

import math
from collections.abc import Iterator
from itertools import combinations

import pytest
from halfhank.model.planning.skeins import SkeinPlan, skein_plans
from halfhank.model.shawl import Shawl
from halfhank.renderer.charts.skein_overlay import SkeinOutline, direction, overlay
from halfhank.renderer.paper.house_style import INK
from halfhank.renderer.paper.scene import Circle, Group, Path, Scene, Style
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.plane.crossings import lines_meet
from halfhank.renderer.plane.polylines import at_length, distance_to, length_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

from tests.model.weighings.knits import BANDED, PLAIN, plan_of
from tests.pipe.drawing.svg_files import check
from tests.renderer.checks import group, leaves, meetings, strays, texts


def overlaid(text: str, metres: list[float]) -> Scene:
    made = plan_of(text)
    shawl = made.shawl
    plans = skein_plans(made, metres)
    return overlay(shawl, [(f"{one.metres_per_100g:g} m", one.shawl) for one in plans if one.shawl is not None])


def sound(scene: Scene) -> None:
    """What every page must be."""
    assert meetings(scene) == []
    assert strays(scene) == []
    check(to_svg(scene))
    assert to_svg(scene) == to_svg(scene)


def _ends(path: Path) -> list[tuple[float, float]]:
    return [(numbers[0], numbers[1]) for _, numbers in path.data if numbers]


SHAPES = {
    "triangle": "",
    "crescent": "increase 3 at each edge every 2 rows",
    "half-circle": "increase 6 evenly every 4 rows",
    "asymmetric": "increase 1 at lower edge every 2 rows",
    "tip-to-tip": "increase 1 at upper edge every 2 rows",
}


@pytest.mark.parametrize("shape", SHAPES)
def test_overlays_are_sound_and_to_one_scale(shape: str) -> None:
    text = BANDED.replace("shape triangle", f"shape {shape}")
    if SHAPES[shape]:
        text = text.replace("increase 1 at each edge and 1 at spine every 2 rows", SHAPES[shape])
    metres = [280.0, 320.0, 350.0, 400.0, 420.0, 500.0]
    scene = overlaid(text, metres)
    sound(scene)
    sizes = {}
    for one in skein_plans(plan_of(text), metres):
        sizes[one.shawl.rows.count] = one.shawl.outline.size
    outlines = group(scene, "outlines").items
    assert len(outlines) == len(sizes)
    scale = [
        _width(outline.items[0]) / size.wingspan_cm for outline, size in zip(outlines, _falling(sizes), strict=True)
    ]
    assert scale == pytest.approx([scale[0]] * len(scale), rel=0.01)


def _falling(sizes):
    return sorted(sizes.values(), key=lambda size: -size.area_cm2)


def _width(path: Path) -> float:
    xs = [x for _, numbers in path.data for x in numbers[::2]]
    return max(xs) - min(xs)


def test_skeins_that_give_the_same_share_an_outline() -> None:
    told = texts(overlaid(PLAIN, [320.0, 350.0, 400.0]))
    assert "320 m (350 yd) to 400 m (437 yd)" in told and "128 rows" in told


def test_outlines_say_repeats_and_rows_and_what_the_scale_shows_at_half() -> None:
    shawl = skein_plans(plan_of(BANDED), [350.0])[0].shawl
    assert shawl is not None and shawl.marks.halfway is not None
    told = texts(overlaid(BANDED, [350.0, 420.0]))
    assert f"{shawl.allowed} repeats, {shawl.rows.count} rows" in told
    half = told.index(f"after row {shawl.marks.halfway.row}: {shawl.marks.halfway.left_g:.1f} g")
    assert told[half - 1] == "on the scale at half of the yarn,"
    assert "Margin: 4 %, in addition to the yarn of the bind-off." in told
    assert not any("as yarn allows" in text for text in told)


def test_the_shawls_own_skein_is_marked_and_lengths_are_in_both_units() -> None:
    """PLAIN has 380 m in 100 g, BANDED 390 m."""
    told = texts(overlaid(BANDED, [300.0, 390.0, 500.0]))
    assert "300 m (328 yd)" in told and "390 m (427 yd), this skein" in told and "500 m (547 yd)" in told
    several = texts(overlaid(PLAIN, [350.0, 380.0, 400.0]))
    half = plan_of(PLAIN).shawl.marks.halfway
    assert half is not None and "380 m is this skein" in several
    assert f"after row {half.row}: {half.left_g:.1f} g" in several
    assert not any("this skein" in text for text in texts(overlaid(BANDED, [300.0, 385.0, 500.0])))
    made = plan_of(BANDED)
    (in_yards,) = skein_plans(made, [427 * 0.9144])
    assert in_yards.shawl is not None
    assert "427 yd (390 m), this skein" in texts(overlay(made.shawl, [("427 yd", in_yards.shawl)]))


def test_the_page_says_the_gauge_and_for_which_width_the_scale_is() -> None:
    told = texts(overlaid(BANDED, [300.0, 500.0]))
    assert any(text.startswith("all at the same gauge, ") for text in told)
    assert any(text.endswith(" at this width") for text in told)


def test_the_description_has_each_entry_in_one_sentence() -> None:
    scene = overlaid(BANDED, [390.0])
    assert "390 m (427 yd), this skein, 7 repeats, " in scene.description
    assert "on the scale at half of the yarn, after row " in scene.description and ",," not in scene.description


@pytest.mark.parametrize("shape", SHAPES)
def test_an_arrow_shows_the_direction_of_work(shape: str) -> None:
    text = BANDED.replace("shape triangle", f"shape {shape}")
    if SHAPES[shape]:
        text = text.replace("increase 1 at each edge and 1 at spine every 2 rows", SHAPES[shape])
    assert len(_arrow(overlaid(text, [280.0, 350.0, 420.0, 500.0]))) == 2


def test_the_arrow_keeps_off_leaders() -> None:
    outline = SkeinOutline(("380 m",), DrawnPiece(plan_of(PLAIN).shawl, 1.0), (20.0, 30.0))
    (free,) = direction(outline, ())
    tail, tip, *_ = _ends(free.items[0])
    x, y = (tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2
    across = Path((("M", (x - 5, y)), ("L", (x + 40, y))), Style(stroke=INK))
    (moved,) = direction(outline, (Group("leaders", (across,)),))
    assert not lines_meet(_ends(moved.items[0]), _ends(across))


def _arrow(scene: Scene) -> list[Path]:
    found = [item for item in scene.items if isinstance(item, Group) and item.name == "direction"]
    return [item for one in found for item in leaves(one.items) if isinstance(item, Path)]


@pytest.mark.parametrize("shape", SHAPES)
def test_leaders_run_through_no_dot_and_cross_no_leader(shape: str) -> None:
    text = BANDED.replace("shape triangle", f"shape {shape}")
    if SHAPES[shape]:
        text = text.replace("increase 1 at each edge and 1 at spine every 2 rows", SHAPES[shape])
    items = group(overlaid(text, [280.0, 320.0, 350.0, 400.0, 420.0, 500.0]), "leaders").items
    lines = [_ends(item) for item in items if isinstance(item, Path) and item.style.stroke == INK]
    dots = [(item.x, item.y) for item in items if isinstance(item, Circle)]
    assert len(lines) == len(dots) > 2
    assert not any(lines_meet(one, other) for one, other in combinations(lines, 2))
    for line in lines:
        assert sum(distance_to(dot, line) < 0.7 for dot in dots) == 1


@pytest.mark.parametrize("shape", ["crescent", "half-circle", "triangle"])
def test_outlines_lie_start_on_start(shape: str) -> None:
    """The middles of all starts, along them, are one point; no smaller piece reaches lower than a larger one."""
    text = BANDED.replace("shape triangle", f"shape {shape}")
    if SHAPES[shape]:
        text = text.replace("increase 1 at each edge and 1 at spine every 2 rows", SHAPES[shape])
    outlines = group(overlaid(text, [280.0, 350.0, 420.0, 500.0]), "outlines").items
    lowest = [max(y for _, numbers in one.items[0].data for y in numbers[1::2]) for one in outlines]
    assert lowest == sorted(lowest, reverse=True)
    starts = [_middle_of_start(plan.shawl, path) for plan, path in _drawn_plans(text, outlines)]
    assert all(math.dist(start, starts[0]) < 0.05 for start in starts)


def _drawn_plans(text: str, outlines: tuple[Group, ...]) -> Iterator[tuple[SkeinPlan, Path]]:
    plans = {one.shawl.rows.count: one for one in skein_plans(plan_of(text), [280.0, 350.0, 420.0, 500.0])}
    ordered = sorted(plans.values(), key=lambda one: -one.shawl.outline.size.area_cm2)
    for one, outline in zip(ordered, outlines, strict=True):
        yield one, outline.items[0]


def _middle_of_start(shawl: Shawl, path: Path) -> tuple[float, float]:
    """The middle of the path's first boundary, from the model's own length of it."""
    mm = _width(path) / shawl.outline.size.wingspan_cm
    points = [(x * mm, y * mm) for x, y in shawl.outline.boundary(0, True).flattened(0.003)]
    (x, y), _ = at_length(points, length_of(points) / 2)
    return x - points[0][0] + path.data[0][1][0], y - points[0][1] + path.data[0][1][1]


def test_an_overlay_of_very_different_skeins_is_sound() -> None:
    sound(overlaid(BANDED, [90.0 * 1.45**k for k in range(8)]))
