"""Yarn of rows, start and bind-off, in metres, by what they are worked in."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.rows.sections import Run
from halfhank.model.rows.shaping import BIND_OFF, WorkedPart
from halfhank.model.start_and_bind_off.bind_offs import BIND_OFF_STITCH, MEASURED, bind_off_stitches
from halfhank.model.start_and_bind_off.starts import start_stitches
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.uncertainty import BIND_OFF_ERROR, START_ERROR


def start_m(table: StitchTable) -> float:
    """Yarn of the start."""
    return start_stitches(table.design.start) * table.plain_m(START_ERROR)


def before_rows_m(table: StitchTable) -> float:
    """What sums over a whole shawl start with: the start, and the yarn of weighed rows beyond the calculation."""
    return start_m(table) + table.corrections.past_m[-1]


def bind_off_m(table: StitchTable, last_stitch: str) -> float:
    """Yarn of the bind-off for each live stitch, after a last row in that stitch."""
    off = table.design.bind_off
    if off.method == MEASURED:
        factor = table.corrections.factor((BIND_OFF_ERROR,))
        return (off.takes or 0.0) * table[last_stitch].unblocked_cm / 100 * factor
    return bind_off_stitches(off) * table.plain_m(BIND_OFF_ERROR)


class RowSplit(NamedTuple):
    """The stitches of one row by what they are worked in."""

    own: int
    edge: int
    fill: int


class Affine(NamedTuple):
    """A row of n stitches takes `each n + constant`, for every n or only for those not under the edges'.

    `holds` is false where rows are filled with a stitch of other yarn.
    """

    each: float
    constant: float
    holds: bool


class RowYarn:
    """What rows take, by stitch, wraps and live stitches."""

    def __init__(self, table: StitchTable) -> None:
        design = table.design
        self.table = table
        self.edges = 2 * design.edge.stitches
        self.edge_stitch = design.edge.stitch
        self.spine = design.spine.stitches
        self._affine: dict[tuple[str, int], Affine] = {}

    def split(self, stitch: str, wraps: int, live: int) -> RowSplit:
        """A row's stitches: an elongated row wraps the edges too; elsewhere what is short of the multiple is filled."""
        if wraps > 1:
            return RowSplit(live, 0, 0)
        edge = min(self.edges, live)
        fill = self._fill(stitch, live - edge)
        return RowSplit(live - edge - fill, edge, fill)

    def _fill(self, stitch: str, inside: int) -> int:
        multiple = self.table[stitch].multiple
        if multiple is None:
            return 0
        if not self.spine:
            return _short(inside, *multiple)
        wings = max(0, inside - self.spine)
        return sum(_short(wing, *multiple) for wing in (wings // 2, wings - wings // 2))

    def stitch_m(self, stitch: str, wraps: int) -> float:
        """Yarn of one stitch with so many wraps."""
        material = self.table[stitch]
        return material.fabric.yarn_m + (wraps - 1) * material.wrap_m

    def amounts(self, stitch: str, wraps: int, live: int) -> dict[str, float]:
        """Yarn of one row by the stitches that it is worked in."""
        own, edge, fill = self.split(stitch, wraps, live)
        if wraps > 1:
            return {stitch: own * self.stitch_m(stitch, wraps)}
        amounts = {stitch: own * self.stitch_m(stitch, 1)}
        for name, count in ((self.edge_stitch, edge), (self.table[stitch].fill, fill)):
            if count:
                amounts[name] = amounts.get(name, 0.0) + count * self.stitch_m(name, 1)
        return amounts

    def row_m(self, stitch: str, wraps: int, live: int) -> float:
        """Yarn of one row."""
        return sum(self.amounts(stitch, wraps, live).values())

    def rows_m(self, part: WorkedPart) -> list[float]:
        """Yarn of each row of a part, stitches bound off on the way included: the ledger's sums, without their uses."""
        rows: list[float] = []
        for run in part.section.runs:
            for first, end, wraps in wraps_of_rows(run):
                each, constant, holds = self.affine(run.stitch, wraps)
                counts = part.counts[len(rows) : len(rows) + end - first]
                if holds and (not constant or min(counts, default=0) >= self.edges):
                    rows.extend(each * live + constant for live in counts)
                else:
                    rows.extend(self.row_m(run.stitch, wraps, live) for live in counts)
        off_m = self.bound_off_m
        for act in part.acts:
            if part.active.lines[act.line].action == BIND_OFF:
                rows[act.row - 1] += off_m * abs(act.change)
        return rows

    @property
    def bound_off_m(self) -> float:
        """Yarn of one stitch bound off on the way."""
        return BIND_OFF_STITCH * self.table.plain_m(BIND_OFF_ERROR)

    def affine(self, stitch: str, wraps: int) -> Affine:
        """The yarn of a row as a function of its stitches."""
        key = (stitch, wraps)
        if key not in self._affine:
            self._affine[key] = self._affine_of(stitch, wraps)
        return self._affine[key]

    def _affine_of(self, stitch: str, wraps: int) -> Affine:
        each, material = self.stitch_m(stitch, wraps), self.table[stitch]
        if wraps > 1:
            return Affine(each, 0.0, True)
        edge = self.edges * (self.table[self.edge_stitch].fabric.yarn_m - each) if self.edges else 0.0
        filled = material.multiple is not None and self.table[material.fill].fabric.yarn_m != each
        return Affine(each, edge, not filled)

    def total_m(self, part: WorkedPart) -> float:
        """Yarn of a part, in time that grows with its bands and acts, not its rows, wherever yarn is linear in
        stitches."""
        sums, least = part.sums, min(part.counts, default=0)
        total, done = 0.0, 0
        for run in part.section.runs:
            for first, end, wraps in wraps_of_rows(run):
                each, constant, holds = self.affine(run.stitch, wraps)
                a, b = done + first, done + end
                if not holds:
                    total += sum(self.row_m(run.stitch, wraps, live) for live in part.counts[a:b])
                    continue
                total += each * (sums[b] - sums[a]) + constant * (b - a)
                if constant and least < self.edges:
                    narrow = [live for live in part.counts[a:b] if live < self.edges]
                    total += sum(self.row_m(run.stitch, wraps, live) - each * live - constant for live in narrow)
            done += run.rows
        return total + part.bound_off * self.bound_off_m


def _short(run: int, multiple: int, extra: int) -> int:
    """Stitches of a run that no repeat takes."""
    repeats = (run - extra) // multiple
    return run - (repeats * multiple + extra) if repeats > 0 else run


def wraps_of_rows(run: Run) -> list[tuple[int, int, int]]:
    """A run as stretches `(first, end, wraps)` of rows from 0: of drop stitch every other row is elongated."""
    if run.stitch != "drop":
        return [(0, run.rows, 1)]
    return [(row, row + 1, run.wraps if row % 2 == 0 else 1) for row in range(run.rows)]
