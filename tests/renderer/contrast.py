"""What a scene's lines and texts stand out from, by the formula of WCAG 2.2, in colour and in grey.

Contrast ratio and relative luminance: W3C, Web Content Accessibility Guidelines 2.2 (2023), "contrast ratio"; 4.5:1 for
text is its success criterion 1.4.3, 3:1 for lines that carry meaning its 1.4.11. Grey is the luma of ITU-R BT.601.
"""

from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from halfhank.renderer.paper.house_style import LIGHT, RULE
from halfhank.renderer.paper.ramp import contrast
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, PathData, Rect, Scene
from halfhank.renderer.plane.text_boxes import text_box
from shapely import LineString, Polygon

from tests.renderer import checks

TEXT, LINE = 4.5, 3.0
BESIDE = 0.06
PAST = 0.5
STEPS = 6
DECORATION = {"edge-behind", "parts", "contour-numbers"}
"""Groups whose light strokes only fill the inside of dark ones, or are the ground of a text."""

Point = tuple[float, float]


class Seen(NamedTuple):
    """An item to be seen: its inks (a cased line has two), the contrast wanted, the number of its first paint.

    Each of its places is the points beside it that show what is behind.
    """

    words: str
    inks: tuple[str, ...]
    places: list[list[Point]]
    wanted: float
    order: int


class Paint(NamedTuple):
    """What an item covers, in which colour."""

    shape: shapely.Geometry
    colour: str


def grey(colour: str) -> str:
    """The colour as a grey."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + 3 * f"{round(0.299 * red + 0.587 * green + 0.114 * blue):02x}"


def failures(scene: Scene, tone: Callable[[str], str], page: str = LIGHT) -> list[str]:
    """What does not stand out enough on a page, with its contrast; `tone` changes every colour but the page's."""
    paints, seen = _taken_apart(scene)
    tree = shapely.STRtree([paint.shape for paint in paints])
    found = []
    for item in seen:
        points = [point for place in item.places for point in place]
        behind = iter(_colours(points, item.order, paints, tree))
        for place in item.places:
            around = [tone(colour) if colour else page for colour in (next(behind) for _ in place)]
            ratio = max(contrast(tone(ink), colour) for ink in item.inks for colour in around)
            if item.wanted == TEXT:
                ratio = min(contrast(tone(item.inks[0]), colour) for colour in around)
            if ratio < item.wanted:
                found.append(f"{item.words}: {ratio:.2f} at {place[0][0]:.1f}, {place[0][1]:.1f}")
                break
    return found


def _colours(points: list[Point], order: int, paints: list[Paint], tree: shapely.STRtree) -> list[str]:
    """The topmost colour painted before `order` at each point; none is the page."""
    if not points:
        return []
    tops = np.full(len(points), -1)
    at, paint = tree.query(shapely.points(points), predicate="intersects")
    earlier = paint < order
    np.maximum.at(tops, at[earlier], paint[earlier])
    return ["" if top < 0 else paints[top].colour for top in tops]


def _taken_apart(scene: Scene) -> tuple[list[Paint], list[Seen]]:
    paints: list[Paint] = []
    seen: list[Seen] = []
    before, first = None, 0
    for group, item in _by_group(scene.items, Group("", ())):
        order = len(paints)
        if isinstance(before, Path) and _cases(before, item):
            seen[-1] = _line(group, item, first, before)
        elif not (group.name in DECORATION and isinstance(item, Path) and item.style.stroke == LIGHT):
            seen += _seen(group, item, order)
        paints += _paints(item)
        before, first = item, order
    return paints, seen


def _by_group(items: tuple[Element, ...], group: Group) -> Iterator[tuple[Group, Element]]:
    """The items that are no groups, each with its group, in drawing order."""
    for item in items:
        if isinstance(item, Group):
            yield from _by_group(item.items, item)
        else:
            yield group, item


def _cases(one: Element, other: Element) -> bool:
    return isinstance(one, Path) and isinstance(other, Path) and one.data == other.data and one.style.stroke == LIGHT


def _paints(item: Element) -> list[Paint]:
    match item:
        case Path(data, style):
            found = [Paint(Polygon(checks.flattened(data, STEPS)).buffer(0), style.fill)] if style.fill else []
            if style.stroke and not style.dash:
                lines = [LineString(stroke).buffer(style.width / 2, cap_style="flat") for stroke in _strokes(data)]
                found += [Paint(line, style.stroke) for line in lines]
            return found
        case Circle(x, y, radius, style):
            return [Paint(shapely.Point(x, y).buffer(radius), style.fill)] if style.fill else []
        case Rect(x, y, width, height, style):
            return [Paint(shapely.box(x, y, x + width, y + height), style.fill)] if style.fill else []
    return []


def _seen(group: Group, item: Element, order: int) -> list[Seen]:
    match item:
        case Label(fill=ink, text=text):
            box = text_box(item).corners
            return [Seen(f"text {text!r}", (ink,), [_inside(box)], TEXT, order)]
        case Path(style=style) if style.stroke and style.stroke != RULE:
            return [_line(group, item, order)]
        case Circle(x, y, radius, style) if style.fill:
            far = radius + style.width / 2 + BESIDE
            around = [(x + far, y), (x - far, y), (x, y + far), (x, y - far)]
            inks = (style.fill, style.stroke) if style.stroke else (style.fill,)
            return [Seen(f"dot in {group.name}", inks, [around], LINE, order)]
        case Rect(x=x, y=y, height=height, style=style) if style.stroke:
            sides = [[(x - 0.3, y + height / 2), (x + 0.3, y + height / 2)]]
            return [Seen(f"frame in {group.name}", (style.stroke,), sides, LINE, order)]
    return []


def _line(group: Group, item: Element, order: int, casing: Path | None = None) -> Seen:
    assert isinstance(item, Path) and item.style.stroke
    inks = (item.style.stroke,) if casing is None else (item.style.stroke, LIGHT)
    wide = item.style.width if casing is None else casing.style.width
    reach = 0.3 * wide if item.style.dash and casing is None else wide / 2 + BESIDE
    places = [place for stroke in _strokes(item.data) for place in _beside(stroke, reach)]
    if group.clip is not None:
        room = Polygon(checks.flattened(group.clip, STEPS)).buffer(-BESIDE)
        places = [place for place in places if all(room.contains(shapely.Point(point)) for point in place)]
    return Seen(f"line {item.style.stroke} {item.style.width:.2f} in {group.name}", inks, places, LINE, order)


def _strokes(data: PathData) -> list[list[Point]]:
    """The path's runs from one move to the next, as polylines."""
    starts = [k for k, (letter, _) in enumerate(data) if letter == "M"]
    runs = [checks.flattened(data[a:b], STEPS) for a, b in pairwise([*starts, len(data)])]
    return [points for points in runs if len(points) > 1]


def _beside(stroke: list[Point], reach: float) -> list[list[Point]]:
    """Places along a stroke, each as the points at both of its sides, here and past a line that crosses it here."""
    line = LineString(stroke)
    if line.length == 0:
        return []
    places = []
    for share in (0.08, 0.27, 0.46, 0.64, 0.91):
        one, other = (line.interpolate(line.length * share + d) for d in (-0.01, 0.01))
        dx, dy = other.x - one.x, other.y - one.y
        far = (dx * dx + dy * dy) ** 0.5 or 1.0
        nx, ny = -dy / far * reach, dx / far * reach
        x, y = (one.x + other.x) / 2, (one.y + other.y) / 2
        past = line.interpolate(line.length * share + PAST)
        places.append([(a + side * nx, b + side * ny) for a, b in ((x, y), (past.x, past.y)) for side in (1, -1)])
    return places


def _inside(box: tuple[Point, ...]) -> list[Point]:
    (ax, ay), (bx, by), _, (dx, dy) = box
    return [
        (ax + (bx - ax) * s + (dx - ax) * t, ay + (by - ay) * s + (dy - ay) * t)
        for s in (0.03, 0.25, 0.5, 0.75, 0.97)
        for t in (0.3, 0.5, 0.7)
    ]
