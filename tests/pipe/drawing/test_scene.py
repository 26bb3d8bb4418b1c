"""The schematic of random shawls: nothing meets, nothing leaves the page, and the piece is drawn as large as it is."""

import math
from itertools import pairwise

import pytest
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Circle, Element, Label, Path, Rect, Scene
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from hypothesis import given, settings
from shapely import Polygon, unary_union

from tests.pipe.drawing import pictures, svg_files
from tests.pipe.drawing.outlines import border
from tests.pipe.random_shawls.making import descriptions, seeded_plan
from tests.whole import planned

STEP = 15
SCALE = 10
MM = 10 / SCALE
Drawn = list[tuple[int, Shawl, Scene]]


def drawn(numbers: range) -> Drawn:
    found = [(number, seeded_plan(number).shawl) for number in numbers]
    return [(number, one, draw_schematic(one, Options(scale=SCALE))) for number, one in found if one is not None]


@pytest.fixture(scope="module", params=range(0, 120, STEP))
def some(request: pytest.FixtureRequest) -> Drawn:
    made = drawn(range(request.param, request.param + STEP))
    assert len(made) > STEP // 2
    return made


def meeting(scene: Scene) -> list[tuple[Label, Label]]:
    """Pairs of texts that share room."""
    boxes = sorted((pictures.text_box(label) for label in pictures.labels(scene)), key=lambda box: box.left)
    found = []
    for i, one in enumerate(boxes):
        for other in boxes[i + 1 :]:
            if other.left >= one.right:
                break
            if one.meets(other):
                found.append((one.label, other.label))
    return found


def outside(scene: Scene) -> list[Element]:
    """Items that leave the page."""
    found: list[Element] = []
    for item, clipped in pictures.walk(scene.items):
        left, top, right, bottom = pictures.extent(item)
        if not clipped and not (left >= 0 and top >= 0 and right <= scene.width and bottom <= scene.height):
            found.append(item)
    return found


def test_no_text_meets_another(some: Drawn) -> None:
    for number, _, scene in some:
        assert not meeting(scene), number


def test_nothing_leaves_the_page(some: Drawn) -> None:
    for number, _, scene in some:
        assert not outside(scene), number


def test_every_number_is_finite(some: Drawn) -> None:
    for number, _, scene in some:
        for item, _ in pictures.walk(scene.items):
            assert all(math.isfinite(value) for value in pictures.extent(item)), number


def test_piece_is_as_large_as_the_model_says(some: Drawn) -> None:
    for number, shawl, scene in some:
        boxes = [pictures.extent(strip) for strip in pictures.strips(scene)]
        wide = max(box[2] for box in boxes) - min(box[0] for box in boxes)
        high = max(box[3] for box in boxes) - min(box[1] for box in boxes)
        assert wide == pytest.approx(shawl.outline.size.wingspan_cm * MM, abs=0.1), number
        assert high == pytest.approx(shawl.outline.size.depth_cm * MM, abs=0.1), number


def test_strips_leave_no_gap(some: Drawn) -> None:
    for number, shawl, scene in some:
        strips = pictures.areas(pictures.strips(scene))
        whole = unary_union(strips)
        left = min(pictures.extent(strip)[0] for strip in pictures.strips(scene))
        top = min(pictures.extent(strip)[1] for strip in pictures.strips(scene))
        ring = [(left + x * MM, top + y * MM) for x, y in border(shawl)]
        silhouette = Polygon(ring).buffer(0)
        bare = silhouette.difference(whole.buffer(0.03))
        assert bare.area < 1e-3 * silhouette.area + 0.05, number
        assert whole.difference(silhouette.buffer(0.05)).area < 1e-3 * silhouette.area + 0.05, number


def test_strips_darken_in_working_order(some: Drawn) -> None:
    for number, _, scene in some:
        inks = [str(strip.style.fill) for strip in pictures.strips(scene)]
        light = [sum(int(ink[k : k + 2], 16) * w for k, w in ((1, 0.2126), (3, 0.7152), (5, 0.0722))) for ink in inks]
        assert all(after <= before + 0.6 for before, after in pairwise(light)), number


def test_files_are_sound(some: Drawn) -> None:
    for _, _, scene in some:
        svg_files.check(to_svg(scene))


def test_scale_of_its_own_choice_keeps_the_rules(some: Drawn) -> None:
    for number, shawl, _ in some:
        scene = draw_schematic(shawl)
        assert scene.width <= 180 + 1e-6, number
        assert not meeting(scene) and not outside(scene), number


@settings(max_examples=25)
@given(descriptions())
def test_any_description_is_drawn(text: str) -> None:
    made = planned(text)
    found, problems = made.shawl, made.problems
    if found is None:
        assert problems
        return
    scene = draw_schematic(found)
    assert not meeting(scene)
    assert not outside(scene)
    svg_files.check(to_svg(scene))
    assert all(isinstance(item, Label | Path | Circle | Rect) for item, _ in pictures.walk(scene.items))
