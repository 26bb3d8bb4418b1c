"""The room that texts take on a scene."""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.paper.text_widths import ASCENT, CAP_HEIGHT, DESCENT, label_width
from halfhank.renderer.plane.boxes import Box, box_of


class TextBox(NamedTuple):
    """A label and the four corners of the room that it takes."""

    label: Label
    corners: tuple[Point, Point, Point, Point]

    @property
    def bounds(self) -> Box:
        """The upright box around the corners."""
        return box_of(self.corners)

    def meets(self, other: "TextBox") -> bool:
        """Whether the two share more than an edge."""
        return self.meets_corners(other.corners)

    def meets_corners(self, other: tuple[Point, ...]) -> bool:
        """Whether the text's room and another rectangle share more than an edge (separating axes)."""
        axes = [_side(self.corners), _side(other)]
        return all(_overlap(self.corners, other, axis) for x, y in axes for axis in ((x, y), (-y, x)))


def corners_of(box: Box) -> tuple[Point, ...]:
    """The four corners of an upright box, in the order of a text's."""
    return ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))


def text_box(label: Label) -> TextBox:
    """The room of a label, accents and descenders included."""
    width = label_width(label)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    top, bottom = -ASCENT * label.size, DESCENT * label.size
    turn = math.radians(label.turn)
    c, s = math.cos(turn), math.sin(turn)

    def turned(x: float, y: float) -> Point:
        return (label.x + c * x - s * y, label.y + s * x + c * y)

    right = left + width
    return TextBox(label, (turned(left, top), turned(right, top), turned(right, bottom), turned(left, bottom)))


def label_along(point: Point, tangent: Point, words: str, size: float, ink: str, drop: float = 0.0) -> Label:
    """A text centred on a point along a direction, or `drop` below it, turned to be read from below or the right."""
    turn = math.degrees(math.atan2(tangent[1], tangent[0]))
    turn = turn - 180 if turn > 89.99 else turn + 180 if turn < -90.01 else turn
    radians = math.radians(turn)
    down = drop + size * CAP_HEIGHT / 2
    x, y = point[0] - math.sin(radians) * down, point[1] + math.cos(radians) * down
    return Label(x, y, words, size, ink, anchor="middle", turn=turn + 0.0)


def label_box(label: Label) -> Box:
    """The upright box around a label."""
    return text_box(label).bounds


def _side(corners: tuple[Point, ...]) -> Point:
    (px, py), (qx, qy) = corners[1], corners[2]
    length = math.hypot(qx - px, qy - py)
    return ((qx - px) / length, (qy - py) / length)


def _overlap(one: tuple[Point, ...], other: tuple[Point, ...], axis: Point) -> bool:
    a = [x * axis[0] + y * axis[1] for x, y in one]
    b = [x * axis[0] + y * axis[1] for x, y in other]
    return min(a) < max(b) - 1e-9 and min(b) < max(a) - 1e-9
