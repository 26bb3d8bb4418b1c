"""Row tables made by hand, so that outlines can be tested without the model's own shaping."""

from collections.abc import Sequence
from typing import NamedTuple

from halfhank.grammar.description import Length, PinnedStraight, PinnedTo
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.outline import lay_out
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.outline import Outline
from halfhank.model.rows.row_table import Rates, Rows

HERE = Span(1, 1, 2)
PLACES = ("upper", "lower", "spine", "evenly")
BOTH = ("upper", "lower")


class Run(NamedTuple):
    """Rows of one fabric: how many, and the width of a stitch and the height of a row in cm."""

    rows: int
    width_cm: float
    height_cm: float
    openwork: bool = False


class Line(NamedTuple):
    """`gain` stitches (signed) at one place on row `first` and every `every` rows after it up to `last` (0: the end).

    `every` 0 is a line that acts once. At `each`, both edges gain; at the spine, both its sides.
    """

    gain: int
    place: str
    every: int
    first: int = 1
    last: int = 0
    bind_off: bool = False


def garter(rows: int) -> Run:
    """20 stitches by 40 rows in 10 cm."""
    return Run(rows, 0.5, 0.25)


def stockinette(rows: int) -> Run:
    """20 stitches by 28 rows in 10 cm."""
    return Run(rows, 0.5, 10 / 28)


def lace(rows: int) -> Run:
    """19 stitches by 30 rows in 10 cm."""
    return Run(rows, 10 / 19, 10 / 30, True)


def drop() -> list[Run]:
    """An elongated row of garter and the row that releases it."""
    return [Run(1, 0.5, 1.2, True), Run(1, 0.5, 0.25, True)]


def table(start: int, runs: Sequence[Run], lines: Sequence[Line] = ()) -> Rows:
    """The row table of a piece; shaping that the count cannot bear is left out."""
    width, height, band = [0.0], [0.0], [-1]
    for k, run in enumerate(runs):
        width += [run.width_cm] * run.rows
        height += [run.height_cm] * run.rows
        band += [k] * run.rows
    width[0] = width[1]
    count = len(width) - 1
    stitches = [start]
    gains: dict[str, list[int]] = {place: [0] * (count + 1) for place in PLACES}
    jumps: dict[str, list[int]] = {place: [0] * (count + 1) for place in BOTH}
    rates = [Rates()]
    for row in range(1, count + 1):
        live = stitches[-1]
        for line in lines:
            live += _act(line, row, count, live, gains, jumps)
        stitches.append(live)
        rates.append(_rates(lines, row, count))
    return Rows(
        tuple(stitches), tuple(width), tuple(height),
        tuple(gains["upper"]), tuple(gains["lower"]), tuple(gains["spine"]), tuple(gains["evenly"]),
        tuple(jumps["upper"]), tuple(jumps["lower"]), tuple(rates), tuple(band),
    )  # fmt: skip


def _places(line: Line) -> tuple[str, ...]:
    return BOTH if line.place == "each" else (line.place,)


def _act(line: Line, row: int, count: int, live: int, gains: dict[str, list[int]], jumps: dict[str, list[int]]) -> int:
    last = line.last or count
    due = row == line.first if not line.every else (row - line.first) % line.every == 0
    total = line.gain * (2 if line.place in ("each", "spine") else 1)
    if not due or not line.first <= row <= last or live + total < 1:
        return 0
    for place in _places(line):
        gains[place][row] += line.gain
        seldom = line.every == 0 or line.every >= 6
        if place in BOTH and row > 1 and (line.bind_off or (seldom and line.gain >= 5)):
            jumps[place][row] += line.gain
    return total


def _rates(lines: Sequence[Line], row: int, count: int) -> Rates:
    sums = dict.fromkeys(PLACES, 0.0)
    for line in lines:
        if line.every and not line.bind_off and line.first <= row <= (line.last or count):
            for place in _places(line):
                sums[place] += line.gain / line.every
    return Rates(**sums)


def pinned_to(width_cm: float, depth_cm: float) -> PinnedTo:
    """`pinned to … cm by … cm`."""
    return PinnedTo(Length(width_cm, "cm", HERE), Length(depth_cm, "cm", HERE), HERE)


STRAIGHT = PinnedStraight(HERE)


def layout(
    shape: str,
    start: int,
    runs: Sequence[Run],
    lines: Sequence[Line] = (),
    *,
    pinned: PinnedStraight | PinnedTo | None = None,
    back: bool = False,
) -> Layout:
    """What a shape is told of a piece."""
    openwork = [False, *(run.openwork for run in runs for _ in range(run.rows))]
    return Layout(shape, HERE, table(start, runs, lines), tuple(openwork), back, pinned)


def laid(told: Layout) -> Outline:
    """The outline of a piece that has one."""
    found = lay_out(told)
    assert not isinstance(found, Problem), found
    return found


# Shaping as it is written most.


def from_neck(every: int = 2, edge: int = 1, spine: int = 1) -> list[Line]:
    """Increases at both edges and at both sides of the spine."""
    return [Line(edge, "each", every), Line(spine, "spine", every)]


def crescent_lines(gain: int = 6) -> list[Line]:
    """`gain` stitches in two rows, at the edges."""
    lines = [Line(gain // 4, "each", 2)] if gain >= 4 else []
    rest = gain - 2 * (gain // 4) * (gain >= 4)
    return [*lines, *([Line(rest // 2, "each", 2, 2)] if rest else [])]


def doublings(counts: Sequence[int], rows: Sequence[int]) -> list[Line]:
    """From each count to the next at once, so many rows on each."""
    lines, row = [], 1
    for before, after, plain in zip(counts, counts[1:], rows, strict=False):
        lines.append(Line(after - before, "evenly", 0, row))
        row += plain
    return lines


def knitted_cm2(rows: Rows) -> float:
    """Stitches times their width times the height of their row."""
    return sum(n * w * h for n, w, h in zip(rows.stitches[1:], rows.width_cm[1:], rows.height_cm[1:], strict=True))
