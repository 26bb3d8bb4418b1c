"""Upright boxes, in mm"""

from collections.abc import Iterable

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point


class Box(NamedTuple):
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def grown(self, by: float) -> "Box":
        """The box with a margin around it."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: "Box") -> bool:
        """Whether the two share more than their edges."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def joined(self, other: "Box") -> "Box":
        """The smallest box around both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


def box_of(points: Iterable[Point]) -> Box:
    """The smallest box around points, of which there is at least one."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
