"""What the rest of the program knows of a piece in the plane: its regions, its spine, its size."""

from collections.abc import Sequence
from typing import Protocol

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Curve, Point
from halfhank.model.outline.region import Region, RowEnds


class Size(NamedTuple):
    """What the outline measures as it is drawn: its box and the lengths of its edges, in cm (`area_cm2` in cm2).

    None where a shape has no such edge. `sides_cm` is left (upper) and right (lower).
    """

    wingspan_cm: float
    depth_cm: float
    spine_cm: float | None
    top_cm: float | None
    sides_cm: tuple[float, float] | None
    last_row_cm: float
    area_cm2: float


class Stretch(NamedTuple):
    """How far pinning stretches the fabric, along its rows and across them, at most: 0.1 is 10 % longer."""

    along: float
    across: float


class Outline(Protocol):
    """Where each row lies in the plane, in cm, x to the right and y downwards, the piece's box from (0, 0).

    Boundary 0 is the start, boundary i the end of row i. Where stitches are bound off or cast on at an edge, a
    boundary has two curves: the row before ends at `boundary(i)`, the row after begins at `boundary(i, after=True)`.
    Elsewhere they are the same. Curves run from the left end of a row to its right end; in a piece worked sideways
    (`sideways`) from the upper edge to the lower.

    `regions` are the stretches that rows consist of, in that order; each begins where the one before ends. `spine` is
    None, or a polyline: boundary i meets it at `spine[i]`, where a region ends and the next begins. `words` names the
    construction ("triangle from the neck"); `fan_words` says what the fan angle does to the top edge, or which angle
    pinning changes; None where there is no fan. `problems` are advice.
    """

    words: str
    fan_words: str | None
    sideways: bool
    size: Size
    fan_degrees: float | None
    stretch: Stretch | None
    pinned: bool
    regions: tuple[Region, ...]
    spine: Sequence[Point] | None
    problems: tuple[Problem, ...]

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary: those of the regions, joined."""
        ...

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The two ends of one boundary, as `boundary` has them, without computing the curve."""
        ...
