"""What a construction gives: where each row lies, in coordinates of its own, and what can be said of the piece."""

from collections.abc import Callable
from typing import Protocol

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import Region, RowEnds

STRAIGHT_WITHIN = 3.0
"""By how many degrees a fan may differ from 180 and its top edge still be called straight."""
BIAS_STRIP = "bias-strip"
"""The kind of a strip worked on the bias."""


class Grain(NamedTuple):
    """How a row lies: by how much it is stretched along itself and across (0.1: 10 % longer), and the directions
    that it runs in, as the least and the largest angle to the horizontal (radians, from 0)."""

    along: float
    across: float
    least: float
    most: float


class Measured(Protocol):
    """A piece that has its place: lengths on it, in cm."""

    def row_cm(self, row: int, after: bool = False) -> float:
        """Length of a boundary along its curve."""
        ...

    def end_row_cm(self, row: int) -> float:
        """Length of the first row or the last (0, -1): its stitches times their width, drawn out as far as it is."""
        ...

    def wing_cm(self, row: int) -> float:
        """Length of one wing in the first row or the last."""
        ...

    def edge_cm(self, side: int) -> float:
        """Length of an edge (0: left or upper, 1: right or lower) from start to last row, its jumps included."""
        ...

    def opening_cm(self, row: int) -> float:
        """Distance between the two ends of a boundary."""
        ...

    def spine_cm(self) -> float | None:
        """Length of the spine."""
        ...


class EdgeLengths(NamedTuple):
    """Lengths of the top edge and of the sides (left or upper, right or lower) in cm, None where there are none."""

    top_cm: float | None
    sides_cm: tuple[float, float] | None


class LocalOutline(NamedTuple):
    """A piece laid out, x to the right and y downwards in cm, anywhere in the plane.

    `kind`: of construction, by which its words are found (`triangle-from-the-neck`). `toothed`: with a sawtooth edge.
    `ends`: of boundary 0…N, before and after its jump. `regions`: what boundaries consist of, from left to right.
    `spine`: where each boundary meets the spine, None where there is none. `reach`: points beyond the ends that the
    piece's box has to hold. `lengths` measures the edges of the piece once it has its place. `grain`: of row 1…N.
    `straight`: it is drawn as pinned straight. `formed`: it lies so only when it is blocked, which stretches it;
    `curved`: that bends rows which would lie straight unforced. `laid_ends`: how long the first row and the last were
    laid before any pinning, None where they are as long as they are drawn.
    """

    kind: str
    ends: list[tuple[RowEnds, RowEnds]]
    regions: tuple[Region, ...]
    reach: list[Point]
    lengths: Callable[[Measured], EdgeLengths]
    grain: Callable[[int], Grain]
    sideways: bool = False
    spine: list[Point] | None = None
    fan_degrees: float | None = None
    fan_words: str | None = None
    toothed: bool = False
    straight: bool = False
    formed: bool = False
    curved: bool = False
    laid_ends: tuple[float, float] | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def box(self) -> tuple[Point, Point]:
        """Upper left and lower right corner of all that the piece covers."""
        points = [*self.reach, *(point for before, after in self.ends for point in (*before, *after))]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return (min(xs), min(ys)), (max(xs), max(ys))
