"""Inks that hold on pages of any colour: what lies on the page itself takes the colour of the page's text."""

import math
from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.house_style import LIGHT, RULE
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene, Style
from halfhank.renderer.plane.boxes import Box, box_of
from halfhank.renderer.plane.path_data import strokes_of
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of
from halfhank.renderer.plane.text_boxes import label_box

PAGE_INK = "currentColor"
KEPT = (None, LIGHT, RULE)
"""Paints that are seen on any page, or are the ground of something."""
BESIDE = 0.1
"""How far beside a line or a frame it is looked at what lies there, mm."""
ALONG = (0.1, 0.3, 0.5, 0.7, 0.9)
HEAVY_MM, RIM = 0.9, 0.18
"""A line from so wide on keeps its ink inside a rim of the page's, so that it is seen on light fabric too, mm."""


class Cover(NamedTuple):
    """What a shape hides of the page: the inside of a polygon, or all that is near a line."""

    box: Box
    points: Points
    reach: float

    def hides(self, point: Point) -> bool:
        x, y = point
        if not (self.box.left <= x <= self.box.right and self.box.top <= y <= self.box.bottom):
            return False
        return distance_to(point, self.points) <= self.reach if self.reach else inside(point, self.points)


def page_inks(scene: Scene) -> Scene:
    """The scene with `currentColor` for texts, lines and frames that lie on the page and not on the fabric, a swatch, a
    badge or another shape."""
    return scene._replace(items=_inked(scene.items, []))


def _inked(items: tuple[Element, ...], covers: list[Cover]) -> tuple[Element, ...]:
    """The items in their inks, given what was drawn before; what they hide is added to that."""
    found: list[Element] = []
    for item in items:
        if isinstance(item, Group):
            found.append(item._replace(items=_inked(item.items, covers)))
        elif isinstance(item, Label):
            found.append(item._replace(fill=PAGE_INK) if _bare(_middle(item), covers) else item)
        else:
            on_page = item.style.stroke not in KEPT and _lies_on_page(item, covers)
            found += _on_page(item) if on_page else [item]
            covers += _covers(item)
    return tuple(found)


def _on_page(item: Path | Circle | Rect) -> list[Element]:
    """A line or a frame in the page's ink; with a core of its own where it is heavy."""
    style = item.style
    drawn: list[Element] = [item._replace(style=style._replace(stroke=PAGE_INK))]
    if style.width >= HEAVY_MM and not style.dash:
        drawn.append(item._replace(style=style._replace(width=style.width - 2 * RIM)))
    return drawn


def _bare(point: Point, covers: list[Cover]) -> bool:
    return not any(cover.hides(point) for cover in covers)


def _middle(label: Label) -> Point:
    box = label_box(label)
    return (box.left + box.right) / 2, (box.top + box.bottom) / 2


def _lies_on_page(item: Path | Circle | Rect, covers: list[Cover]) -> bool:
    """Whether at half of the places along its line or more the page is bare at one of its sides."""
    places = list(_sides(item))
    bare = sum(any(_bare(point, covers) for point in place) for place in places)
    return 2 * bare >= len(places)


def _sides(item: Path | Circle | Rect) -> Iterator[tuple[Point, Point]]:
    """Points at both sides of a line or a frame, in a few places along it."""
    off = item.style.width / 2 + BESIDE
    for line in _lines(item):
        length = length_of(line)
        for share in ALONG if length else ():
            (x, y), (dx, dy) = at_length(line, share * length)
            yield (x - dy * off, y + dx * off), (x + dy * off, y - dx * off)


def _lines(item: Path | Circle | Rect) -> list[Points]:
    match item:
        case Path(data):
            return list(strokes_of(data))
        case Circle(x, y, radius):
            turns = [math.tau * k / 24 for k in range(25)]
            return [[(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]]
        case Rect(x, y, width, height):
            return [[(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)]]


def _covers(item: Path | Circle | Rect) -> list[Cover]:
    """What the item hides: its filled shapes, and light lines without gaps."""
    lines, style = _lines(item), item.style
    if style.fill is not None:
        return [Cover(box_of(line), line, 0.0) for line in lines if len(line) > 2]
    return [_band(line, style) for line in lines] if style.stroke == LIGHT and not style.dash else []


def _band(line: Points, style: Style) -> Cover:
    reach = style.width / 2
    return Cover(box_of(line).grown(reach), line, reach)
