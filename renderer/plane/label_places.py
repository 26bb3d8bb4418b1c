"""Finds room for a text near a point of a plot: beside the point first, then further out, never over another text."""

from collections.abc import Iterable, Iterator

from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.house_style import SMALL
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.plane.text_boxes import label_box

AROUND = ((1.0, -1.0), (0.0, -1.0), (-1.0, -1.0), (1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 1.0), (-1.0, 1.0))
"""Directions from the point, the best first; a diagonal one starts (or ends) the text beside it."""
NEAR = (1.4, 2.6, 4.2, 6.5, 10.0, 15.0, 22.0, 30.0, 40.0)
FAR = 4.0
"""A label further from its point than this has a leader, mm."""


def near(point: Point, text: str, ink: str, directions: tuple[Point, ...], steps: int = len(NEAR)) -> Iterator[Label]:
    """The text at all places around a point, nearest first, so many steps away at most."""
    x, y = point
    for distance in NEAR[:steps]:
        for across, down in directions:
            anchor = "start" if across > 0 else "end" if across < 0 else "middle"
            drop = CAP_HEIGHT * SMALL * (1.0 if down > 0 else 0.5 if down == 0 else 0.0)
            yield Label(x + 0.7 * across * distance, y + 0.7 * down * distance + drop, text, SMALL, ink, anchor=anchor)


def above(point: Point, text: str, ink: str, room: Box) -> Iterator[Label]:
    """The text straight above a point, lowest first: beside its upright leader, over it, or as far right as it fits."""
    x, y = point
    width = text_width(text, SMALL)
    lefts = (x + 1.0, x - width / 2, room.right - 1.0 - width, x - 1.0 - width)
    for lift in range(2, max(3, int(y - room.top)), 2):
        for left in lefts:
            yield Label(left, y - lift, text, SMALL, ink)


def free_label(obstacles: Obstacles, room: Box, places: Iterable[Label]) -> Label | None:
    """The first of the places inside `room` where nothing lies yet; its room is then taken."""
    for label in places:
        box = label_box(label)
        if _holds(room, box) and obstacles.free(box, 0.4):
            obstacles.add_box(box)
            return label
    return None


def some_label(obstacles: Obstacles, room: Box, places: list[Label], least: list[Points]) -> Label | None:
    """As `free_label`; failing that the text may lie over lines, over the `least` ones at last, never over a text."""
    label = free_label(obstacles, room, places)
    for lines in (least, []):
        if label is None:
            fewer = Obstacles(room)
            fewer.boxes, fewer.lines = obstacles.boxes, lines
            label = free_label(fewer, room, places)
    return label


def leader(point: Point, label: Label) -> Points | None:
    """An upright line from a point up to the label's height, None where they are close enough without."""
    box = label_box(label)
    beside = point[0] < box.left or point[0] > box.right
    end = (box.top + box.bottom) / 2 if beside else box.bottom
    return [point, (point[0], end)] if point[1] - end > FAR else None


def _holds(room: Box, box: Box) -> bool:
    return room.left <= box.left and box.right <= room.right and room.top <= box.top and box.bottom <= room.bottom
