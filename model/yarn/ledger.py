"""The yarn ledger: every metre of a shawl, row by row, by what it is worked in. All sums of yarn are taken from it."""

from collections.abc import Callable, Iterable, Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.rows.shaping import BIND_OFF, WorkedPart, last_stitch
from halfhank.model.start_and_bind_off.bind_offs import MEASURED
from halfhank.model.yarn.row_yarn import RowYarn, bind_off_m, start_m, wraps_of_rows
from halfhank.model.yarn.stitch_table import PLAIN_STITCH, StitchTable
from halfhank.model.yarn.uncertainty import BIND_OFF_ERROR, START_ERROR, ErrorSource

STITCH, START, BOUND_OFF, BOUND_OFF_BY_WIDTH = "stitch", "start", "bind-off", "bind-off by width"


class YarnUse(NamedTuple):
    """What yarn is worked in: its `kind` (`STITCH` … `BOUND_OFF_BY_WIDTH`) and the `stitch`; `yarn` names the yarn.

    The start and bind-offs are counted in plain stitches; one measured by its width depends on no stitch. The only
    yarn, or the main one, has no name.
    """

    kind: str
    stitch: str = ""
    yarn: str = ""


Amounts = dict[YarnUse, float]
"""Metres by use."""


class Ledger(NamedTuple):
    """Metres by use: of the `start`, of each row (`rows[0]` is row 1) and of the `bind_off`."""

    start: Amounts
    rows: tuple[Amounts, ...]
    bind_off: Amounts

    @property
    def entries(self) -> Iterator[Amounts]:
        """Start, rows and bind-off, in working order."""
        yield self.start
        yield from self.rows
        yield self.bind_off

    def by_use(self) -> Amounts:
        """The whole shawl's metres by use."""
        total: Amounts = {}
        for amounts in self.entries:
            for use, metres in amounts.items():
                total[use] = total.get(use, 0.0) + metres
        return total

    def scaled(self, factor: Callable[[YarnUse], float]) -> "Ledger":
        """The ledger with each use multiplied by a factor of its own."""
        factors = {use: factor(use) for use in self.by_use()}

        def changed(amounts: Amounts) -> Amounts:
            return {use: metres * factors[use] for use, metres in amounts.items()}

        return Ledger(changed(self.start), tuple(map(changed, self.rows)), changed(self.bind_off))


def ledger_of(yarn: RowYarn, parts: list[WorkedPart]) -> Ledger:
    """The ledger of worked parts, which have at least one row."""
    start = {YarnUse(START): start_m(yarn.table)}
    rows = tuple(amounts for part in parts for amounts in part_amounts(yarn, part))
    return Ledger(start, rows, bind_off_amounts(yarn.table, last_stitch(parts), parts[-1].end))


def bind_off_amounts(table: StitchTable, stitch: str, live: int) -> Amounts:
    """What binding off so many stitches takes after a row in that stitch."""
    kind = BOUND_OFF_BY_WIDTH if table.design.bind_off.method == MEASURED else BOUND_OFF
    return {YarnUse(kind): bind_off_m(table, stitch) * live}


def part_amounts(yarn: RowYarn, part: WorkedPart) -> list[Amounts]:
    """Each row of a part, stitches bound off on the way included. Rows that take the same may share one record."""
    rows: list[Amounts] = []
    for run in part.section.runs:
        for first, end, wraps in wraps_of_rows(run):
            counts = part.counts[len(rows) : len(rows) + end - first]
            known = {live: _named(yarn.amounts(run.stitch, wraps, live)) for live in set(counts)}
            rows.extend(map(known.__getitem__, counts))
    for act in part.acts:
        if part.active.lines[act.line].action == BIND_OFF:
            amounts = rows[act.row - 1]
            metres = amounts.get(YarnUse(BOUND_OFF), 0.0) + yarn.bound_off_m * abs(act.change)
            rows[act.row - 1] = {**amounts, YarnUse(BOUND_OFF): metres}
    return rows


def _named(amounts: dict[str, float]) -> Amounts:
    return {YarnUse(STITCH, stitch): metres for stitch, metres in amounts.items()}


def errors_of(table: StitchTable, use: YarnUse) -> tuple[ErrorSource, ...]:
    """The errors that a use of yarn depends on, each in full."""
    if use.kind == STITCH:
        return table[use.stitch].errors
    if use.kind == START:
        return (*table[PLAIN_STITCH].errors, START_ERROR)
    if use.kind == BOUND_OFF:
        return (*table[PLAIN_STITCH].errors, BIND_OFF_ERROR)
    return (BIND_OFF_ERROR,)


def hanging_m(table: StitchTable, amounts: Amounts) -> dict[ErrorSource, float]:
    """Metres that depend on each error."""
    hanging: dict[ErrorSource, float] = {}
    for use, metres in amounts.items():
        for error in errors_of(table, use) if metres else ():
            hanging[error] = hanging.get(error, 0.0) + metres
    return hanging


def all_errors(table: StitchTable, uses: Iterable[YarnUse]) -> tuple[ErrorSource, ...]:
    """Every error that some uses depend on, once each."""
    return tuple(dict.fromkeys(error for use in uses for error in errors_of(table, use)))
