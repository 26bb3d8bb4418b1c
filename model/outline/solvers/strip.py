"""The rows of a piece with their settled lengths, before a construction lays them in the plane."""

from collections.abc import Sequence
from itertools import accumulate

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.solvers.smoothing import SMOOTHING_CM, corners, smooth
from halfhank.model.rows.row_table import Rows

Steps = tuple[list[float], list[float]]
"""A value at each boundary, before and after its jump."""

# Measures of a stitch are kept within these, so that no sum overflows whatever gauge is written.
_LEAST_CM, _MOST_CM = 1e-6, 1e6
_SAME_RATE = 1e-9


class Strip(NamedTuple):
    """Boundaries 0…N of a piece in the order in which they are laid out.

    `along_cm`: distance from the first one across the fabric. `before`, `after`: length before and after the jump that
    lies on the boundary (the same where there is none).
    """

    along_cm: list[float]
    before: list[float]
    after: list[float]

    @property
    def height_cm(self) -> float:
        """From the first boundary to the last."""
        return self.along_cm[-1]

    def turned(self) -> "Strip":
        """The same rows laid out from the last one to the first."""
        along = [self.along_cm[-1] - at for at in reversed(self.along_cm)]
        return Strip(along, self.after[::-1], self.before[::-1])


class Cells(NamedTuple):
    """The rows 1…N as cells: width of a stitch, height and length of the row, in cm, and the rows' `rates` breaks."""

    width_cm: list[float]
    height_cm: list[float]
    length_cm: list[float]
    along_cm: list[float]
    breaks: list[int]


def cells_of(rows: Rows) -> Cells:
    """The cells of a piece; its measures kept within what can be drawn."""
    widths = [min(max(w, _LEAST_CM), _MOST_CM) for w in rows.width_cm[1:]]
    heights = [min(max(h, _LEAST_CM), _MOST_CM) for h in rows.height_cm[1:]]
    lengths = [n * w for n, w in zip(rows.stitches[1:], widths, strict=True)]
    along = list(accumulate(heights, initial=0.0))
    breaks = [i for i in range(1, rows.count) if _breaks(rows, i)]
    return Cells(widths, heights, lengths, along, breaks)


def _breaks(rows: Rows, boundary: int) -> bool:
    """Whether the rates of shaping in force change on a boundary."""
    above, below = rows.rates[boundary], rows.rates[boundary + 1]
    return above is not below and any(abs(a - b) > _SAME_RATE for a, b in zip(above, below, strict=True))


def jumps_cm(cells: Cells, counts: Sequence[int]) -> list[float]:
    """What boundary 0…N gains at once: stitches bound off in row j go from boundary j - 1, at the width of row j - 1;
    many cast on in row j come on there too, at row j's own width. Those of row 1 are part of the start."""
    steps = [0.0] * (len(cells.width_cm) + 1)
    for row in range(2, len(steps)):
        if counts[row]:
            width = cells.width_cm[row - 2] if counts[row] < 0 else cells.width_cm[row - 1]
            steps[row - 1] = counts[row] * width
    return steps


def stepped(smoothed: Sequence[float], steps: Sequence[float]) -> Steps:
    """Values settled without their jumps, the jumps put back."""
    sums = list(accumulate(steps, initial=0.0))
    before = [x + total for x, total in zip(smoothed, sums, strict=False)]
    after = [x + total for x, total in zip(smoothed, sums[1:], strict=True)]
    return before, after


def without_steps(values: Sequence[float], steps: Sequence[float]) -> list[float]:
    """The cells' values as if there were no jumps on the boundaries above them."""
    return [value - total for value, total in zip(values, accumulate(steps), strict=False)]


class Settled(NamedTuple):
    """A strip, and the reach and the corners with which it was settled."""

    strip: Strip
    reach_cm: float
    sharp: list[int]


def settled(rows: Rows) -> Settled:
    """The settled lengths of all rows, in linear time; none is negative."""
    cells = cells_of(rows)
    upper, lower = jumps_cm(cells, rows.upper_jump), jumps_cm(cells, rows.lower_jump)
    steps = [a + b for a, b in zip(upper, lower, strict=True)]
    plain = without_steps(cells.length_cm, steps)
    for reach in SMOOTHING_CM:
        sharp = corners(cells.breaks, cells.along_cm, reach)
        before, after = stepped(smooth(cells.height_cm, plain, sharp, reach), steps)
        if min(before) >= 0 and min(after) >= 0:
            break
    else:
        _raise(before, after, steps, cells.length_cm)
    return Settled(Strip(cells.along_cm, before, after), reach, sharp)


def _raise(before: list[float], after: list[float], steps: list[float], lengths: list[float]) -> None:
    """Lifts what is negative to a quarter of the row beside it, the smaller one where the boundary has no jump."""
    last = len(lengths)
    for i in range(last + 1):
        above, below = lengths[max(i - 1, 0)], lengths[min(i, last - 1)]
        if steps[i] == 0:
            above = below = min(above, below)
        if before[i] < 0:
            before[i] = above / 4
        if after[i] < 0:
            after[i] = below / 4
