"""Pieces worked sideways: rows upright, from left to right, turned as a whole where the construction wants it."""

from collections.abc import Sequence
from itertools import accumulate

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import RowEnds
from halfhank.model.outline.solvers.smoothing import smooth
from halfhank.model.outline.solvers.strip import Cells, Settled, Steps, cells_of, jumps_cm, settled, stepped
from halfhank.model.rows.row_table import Rows

UPRIGHT: tuple[Point, Point] = ((1.0, 0.0), (0.0, 1.0))
"""Directions (across the fabric, along a row) of vertical rows, the upper edge on top."""


class Edges(NamedTuple):
    """Where the two edges lie along the rows, downwards from the upper edge's start, at each boundary."""

    along_cm: list[float]
    upper: Steps
    lower: Steps

    @property
    def ends_cm(self) -> tuple[float, float]:
        """Lengths of the first and the last boundary."""
        return self.lower[0][0] - self.upper[0][0], self.lower[0][-1] - self.upper[0][-1]

    def laid(self, axes: tuple[Point, Point]) -> list[tuple[RowEnds, RowEnds]]:
        """Ends of all rows, `axes` the directions across the fabric and along a row."""
        (ax, ay), (bx, by) = axes

        def at(along: float, off: float) -> Point:
            return (along * ax + off * bx, along * ay + off * by)

        found = []
        for i, along in enumerate(self.along_cm):
            before = (at(along, self.upper[0][i]), at(along, self.lower[0][i]))
            if self.upper[0][i] == self.upper[1][i] and self.lower[0][i] == self.lower[1][i]:
                found.append((before, before))
            else:
                found.append((before, (at(along, self.upper[1][i]), at(along, self.lower[1][i]))))
        return found


def edges_of(rows: Rows, gathered: bool = False) -> Edges:
    """Both edges: straight where never shaped, else by half a row's length to both sides of its settled middle."""
    found = settled(rows, gathered)
    strip = found.strip
    lengths, level = (strip.before, strip.after), [0.0] * len(strip.along_cm)
    if not any(rows.upper[1:]):
        return Edges(strip.along_cm, (level, level), lengths)
    if not any(rows.lower[1:]):
        return Edges(strip.along_cm, _apart((level, level), lengths, -1), (level, level))
    middle = _middle(rows, cells_of(rows), found)
    return Edges(strip.along_cm, _apart(middle, lengths, -0.5), _apart(middle, lengths, 0.5))


def _apart(line: Steps, lengths: Steps, share: float) -> Steps:
    """What lies a share of each row's length below a line."""
    return (
        [at + share * x for at, x in zip(line[0], lengths[0], strict=True)],
        [at + share * x for at, x in zip(line[1], lengths[1], strict=True)],
    )


def _middle(rows: Rows, cells: Cells, found: Settled) -> Steps:
    """The settled middle, downwards: it moves by half of what the lower edge gains more than the upper one."""
    steps = [
        (lower - upper) / 2
        for upper, lower in zip(jumps_cm(cells, rows.upper_jump), jumps_cm(cells, rows.lower_jump), strict=True)
    ]
    moves = [
        ((rows.lower[i] - _jump(rows.lower_jump, i)) - (rows.upper[i] - _jump(rows.upper_jump, i))) * width / 2
        for i, width in enumerate(cells.width_cm, start=1)
    ]
    return stepped(smooth(cells.height_cm, list(accumulate(moves)), found.sharp, found.reach_cm), steps)


def _jump(column: Sequence[int], row: int) -> int:
    """The jump of a row; those of row 1 belong to the start."""
    return column[row] if row > 1 else 0
