"""What the rest of the program knows of a piece in the plane: its regions, its spine, its size."""

from collections.abc import Sequence
from typing import Protocol

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Curve, Point
from halfhank.model.outline.region import Region, RowEnds


class Size(NamedTuple):
    """What the outline measures as it is drawn: its box and the lengths of its edges, in cm (`area_cm2` in cm2).

    None where a shape has no such edge. `sides_cm` is left (upper) and right (lower). `last_row_cm` is what the last
    row's stitches measure, ruffled or not; 0 if they are drawn together.
    """

    wingspan_cm: float
    depth_cm: float
    spine_cm: float | None
    top_cm: float | None
    sides_cm: tuple[float, float] | None
    last_row_cm: float
    area_cm2: float


class Stretch(NamedTuple):
    """How far blocking stretches the fabric, along its rows and across them, at most: 0.1 is 10 % longer.

    `along_least`: along the rows where it does so least; negative where they are pressed together.
    """

    along: float
    across: float
    along_least: float


class Outline(Protocol):
    """Where each row lies in the plane, in cm, x to the right and y downwards, the piece's box from (0, 0).

    Boundary 0 is the start, boundary i the end of row i. Where stitches are bound off or cast on at an edge, a
    boundary has two curves: the row before ends at `boundary(i)`, the row after begins at `boundary(i, after=True)`.
    Elsewhere they are the same. Curves run from the left end of a row to its right end; in a piece worked sideways
    (`sideways`) from the upper edge to the lower.

    `regions` are the stretches that rows consist of, in that order; each begins where the one before ends. `spine` is
    None, or a polyline: boundary i meets it at `spine[i]`, where a region ends and the next begins. `kind` is the
    construction's (`triangle-from-the-neck`; `toothed`: with a sawtooth edge), `words` name it; `fan_words` says what
    the fan angle does to the top edge, or which angle pinning changes; None where there is no fan. `stretch` is that of
    pinning, or of the blocking without which the piece does not lie so; `curved`: that bends its rows. `ruffle` is the
    first row of a ruffle, which lies as long as the boundary before it; None where there is none. `problems` are
    advice.
    """

    kind: str
    toothed: bool
    words: str
    fan_words: str | None
    sideways: bool
    size: Size
    fan_degrees: float | None
    stretch: Stretch | None
    pinned: bool
    curved: bool
    ruffle: int | None
    regions: tuple[Region, ...]
    spine: Sequence[Point] | None
    problems: tuple[Problem, ...]

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary: those of the regions, joined."""
        ...

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The two ends of one boundary, as `boundary` has them, without computing the curve."""
        ...
