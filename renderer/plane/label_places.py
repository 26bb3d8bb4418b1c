"""Finds room for a text near a point of a plot: beside the point first, then further out, never over another text."""

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import reduce

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
LEADING = 1.3 * SMALL
TextLines = tuple[Label, ...]
TETHERED = 1.6
"""The same for a name beside its curve and for a weighing's figure."""


def near(point: Point, text: str, ink: str, directions: tuple[Point, ...], steps: int = len(NEAR)) -> Iterator[Label]:
    """The text at all places around a point, nearest first, so many steps away at most."""
    x, y = point
    for distance in NEAR[:steps]:
        for across, down in directions:
            anchor = "start" if across > 0 else "end" if across < 0 else "middle"
            drop = CAP_HEIGHT * SMALL * (1.0 if down > 0 else 0.5 if down == 0 else 0.0)
            yield Label(x + 0.7 * across * distance, y + 0.7 * down * distance + drop, text, SMALL, ink, anchor=anchor)


def above(point: Point, lines: Sequence[str], ink: str, room: Box) -> Iterator[TextLines]:
    """Lines of text above a point, lowest first: beside their upright leader, or over it. They always touch that."""
    x, y = point
    width = max(text_width(line, SMALL) for line in lines)
    over = max(room.left + 1.0, min(x - width / 2, room.right - 1.0 - width))
    for lift in range(2, max(3, int(y - room.top)), 2):
        for left, anchor in ((x + 1.0, "start"), (over, "start"), (x - 1.0, "end")):
            first = y - lift - LEADING * (len(lines) - 1)
            yield tuple(
                [Label(left, first + LEADING * k, line, SMALL, ink, anchor=anchor) for k, line in enumerate(lines)]
            )


def tethered_label(
    obstacles: Obstacles, room: Box, places: Iterable[tuple[Point, Label]]
) -> tuple[Label, Points | None] | None:
    """The first place that is free and whose line to its point meets no text; the room of both is then taken."""
    for point, label in places:
        line, box = tether(point, label), label_box(label)
        if _holds(room, box) and obstacles.free(box, 0.4) and (line is None or obstacles.line_free(line, 0.3)):
            obstacles.add_box(box)
            if line is not None:
                obstacles.add_line(line)
            return label, line
    return None


def free_lines(obstacles: Obstacles, room: Box, places: Iterable[TextLines]) -> TextLines | None:
    """The first of the places inside `room` where nothing lies yet; its room is then taken."""
    for labels in places:
        boxes = [label_box(label) for label in labels]
        if all(_holds(room, box) and obstacles.free(box, 0.4) for box in boxes):
            for box in boxes:
                obstacles.add_box(box)
            return labels
    return None


def some_lines(
    obstacles: Obstacles, room: Box, places: Sequence[TextLines], least: Sequence[Points]
) -> TextLines | None:
    """As `free_lines`; failing that a text may lie over lines, over the `least` ones at last, never over a text."""
    found = free_lines(obstacles, room, places)
    for lines in (least, []):
        if found is None:
            fewer = Obstacles(room)
            fewer.boxes, fewer.lines = obstacles.boxes, [*lines]
            found = free_lines(fewer, room, places)
    return found


def some_label(obstacles: Obstacles, room: Box, places: list[Label], least: list[Points]) -> Label | None:
    """The same for texts of one line."""
    found = some_lines(obstacles, room, [(label,) for label in places], least)
    return found[0] if found else None


def leader(point: Point, labels: TextLines) -> Points | None:
    """An upright line from a point up to the height of a text, None where they are close enough without."""
    box = reduce(Box.joined, map(label_box, labels))
    beside = point[0] < box.left or point[0] > box.right
    end = (box.top + box.bottom) / 2 if beside else box.bottom
    return [point, (point[0], end)] if point[1] - end > FAR else None


def tether(point: Point, label: Label) -> Points | None:
    """A straight line from a label's nearest side to its point, None where they are close enough without."""
    box = label_box(label)
    x = min(max(point[0], box.left), box.right)
    y = min(max(point[1], box.top + 0.2 * label.size), box.bottom)
    length = math.dist((x, y), point)
    if length <= TETHERED:
        return None
    gap = 0.5 / length
    return [(x + gap * (point[0] - x), y + gap * (point[1] - y)), point]


def _holds(room: Box, box: Box) -> bool:
    return room.left <= box.left and box.right <= room.right and room.top <= box.top and box.bottom <= room.bottom
