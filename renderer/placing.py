"""Finds room for a text near a point of a plot: beside the point first, then further out, never over another text."""

from collections.abc import Iterator

from halfhank.model.outline.curve import Point
from halfhank.renderer.arrangement import Arrangement
from halfhank.renderer.boxes import label_box
from halfhank.renderer.geometry import Box
from halfhank.renderer.metrics import CAP_HEIGHT
from halfhank.renderer.scene import Label
from halfhank.renderer.style import SMALL

ABOVE = ((1.0, -1.0), (0.0, -1.0), (-1.0, -1.0))
AROUND = (*ABOVE, (1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (1.0, 1.0), (-1.0, 1.0))
"""Directions from the point, the best first; a diagonal one starts (or ends) the text beside it."""
NEAR = (1.4, 2.6, 4.2, 6.5, 10.0, 15.0, 22.0)


def near(point: Point, text: str, ink: str, ways: tuple[Point, ...]) -> Iterator[Label]:
    """The text at all places around a point, nearest first."""
    x, y = point
    for distance in NEAR:
        for across, down in ways:
            anchor = "start" if across > 0 else "end" if across < 0 else "middle"
            drop = CAP_HEIGHT * SMALL * (1.0 if down > 0 else 0.5 if down == 0 else 0.0)
            yield Label(x + 0.7 * across * distance, y + 0.7 * down * distance + drop, text, SMALL, ink, anchor=anchor)


def free_label(taken: Arrangement, room: Box, places: Iterator[Label]) -> Label | None:
    """The first of the places inside `room` where nothing lies yet; its room is then taken."""
    for label in places:
        box = label_box(label)
        if _holds(room, box) and taken.free(box, 0.4):
            taken.add_box(box)
            return label
    return None


def some_label(taken: Arrangement, room: Box, places: list[Label]) -> Label | None:
    """As `free_label`; where all places are taken the text may lie over lines, but over no other text."""
    label = free_label(taken, room, iter(places))
    if label is not None:
        return label
    for label in places:
        box = label_box(label)
        if _holds(room, box) and not any(box.grown(0.3).meets(other) for other in taken.boxes):
            taken.add_box(box)
            return label
    return None


def _holds(room: Box, box: Box) -> bool:
    return room.left <= box.left and box.right <= room.right and room.top <= box.top and box.bottom <= room.bottom
