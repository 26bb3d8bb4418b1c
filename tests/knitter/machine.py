"""A machine that knits printed rows, stitch by stitch, as they are written, and refuses what cannot be worked.

It knows the trade's abbreviations and nothing else; it takes the text alone.
"""

from collections import Counter
from typing import NamedTuple

from tests.knitter.needles.needle import Needles
from tests.knitter.needles.start_and_bind_off import work_bind_off, work_start
from tests.knitter.needles.working import RowWorker
from tests.knitter.refusal import at, needed, sts
from tests.knitter.text.reading import Pattern, PrintedRow, read_pattern


class KnittedRow(NamedTuple):
    """A row that was worked: stitches on the needle after it, loops drawn, wraps beyond the first.

    `crossed`: the loops, among `loops`, of stitches in cables. `faces`: new stitches by their face seen from the right
    side (empty: a yarn over, or a pattern that is not known). `shaping`: how often each increase and decrease was
    worked, stitches bound off and cast on.
    """

    number: int
    stitches: int
    loops: int
    crossed: int
    extra_wraps: int
    faces: Counter[str]
    shaping: Counter[str]


class Knit(NamedTuple):
    """A finished piece: the stitches of the start, every row, the loops of start and bind-off, and what is left."""

    pattern: Pattern
    start_stitches: int
    start_loops: int
    rows: tuple[KnittedRow, ...]
    bind_off_loops: int
    stitches_left: int


def knit(text: str) -> Knit:
    """Knits the text from the cast-on to the empty needle, or raises `RefusedError`."""
    pattern, needles = read_pattern(text), Needles()
    start_loops = work_start(pattern.start, needles)
    start_stitches = len(needles)
    rows: list[KnittedRow] = []
    for part in pattern.parts:
        for printed in part.rows:
            rows += _work_printed(printed, needles, len(rows) + 1)
    bound_off = work_bind_off(pattern.bind_off, needles, len(rows) + 1)
    return Knit(pattern, start_stitches, start_loops, tuple(rows), bound_off.loops, len(needles))


def _work_printed(printed: PrintedRow, needles: Needles, due: int) -> list[KnittedRow]:
    """Works each row that a line covers; `due` is the row that comes next."""
    with at(printed.name):
        needed(printed.first == due, f"row {due} comes next")
        if printed.side is not None:
            side = "RS" if due % 2 else "WS"
            needed(printed.side == side, f"row {due} is a {side} row")
        return [_work_row(printed, needles, row) for row in range(printed.first, printed.last + 1)]


def _work_row(printed: PrintedRow, needles: Needles, row: int) -> KnittedRow:
    done = RowWorker(needles, row, wrong_side=row % 2 == 0).work(printed.items)
    needles.turn()
    left = len(needles)
    needed(left == printed.stitches, f"{sts(left)} on the needle after row {row}, not {printed.stitches}")
    needed(left > 0, "no stitch is left")
    return KnittedRow(row, left, done.loops, done.crossed, done.extra_wraps, done.faces, done.shaping)
