"""Yarn: what the start, each row and the bind-off take, in metres."""

from itertools import accumulate
from typing import NamedTuple

from halfhank.grammar.description import BindOff, Description, GarterTab, Percent
from halfhank.model.meaning.shape_kinds import default_spine
from halfhank.model.rows.sections import Run
from halfhank.model.rows.shaping import BIND_OFF, Worked
from halfhank.model.yarn.corrections import NOTHING, Learned
from halfhank.model.yarn.stitch_table import SWATCH_BIND_OFF, SWATCH_CAST_ON, StitchTable, metres_per_gram

CAST_ON_STITCH = SWATCH_CAST_ON
"""A stitch cast on, in plain stitches."""

BIND_OFF_STITCH = SWATCH_BIND_OFF
"""A stitch bound off, in plain stitches: 4.6 times the width (nimble-needles.com) over Kw = 4.1."""

BIND_OFF_STITCHES = {"standard": BIND_OFF_STITCH, "elastic": 2.0, "i-cord": 3.0, "draw through": 0.3}
"""Plain stitches for each live stitch: k2tog tbl 2 and a three-stitch i-cord 3 (mathemaknitter.com 2018/11), draw
through from memory. Picot's follow from its numbers."""

DEFAULT_KEEP, DEFAULT_KEEP_TURNED = 5.0, 10.0
"""Per cent of the skein that is never planned for, the second with `turn back`."""

PLAIN = "garter"
START, END = "start", "bind off"
"""The two ends, as their errors are named."""
PAID = 1 + 1e-9


class YarnSupply(NamedTuple):
    """What there is: the label's, or as weighed before the cast-on; `keep_g` of it is never planned for."""

    skein_g: float
    metres_per_gram: float
    keep_g: float
    weighed: bool

    @property
    def budget_m(self) -> float:
        """What may be planned for."""
        return (self.skein_g - self.keep_g) * self.metres_per_gram

    def pays(self, metres: float) -> bool:
        """Whether so much may be planned for, up to rounding."""
        return metres <= self.budget_m * PAID


def skein_of(description: Description, learned: Learned = NOTHING) -> YarnSupply:
    """The skein and its margin."""
    yarn = description.yarn
    weighed = next((one.mass.g for one in description.log if one.row == 0), None)
    skein_g = yarn.skein.mass.g if weighed is None else weighed
    if learned.skein_g is not None:
        skein_g = learned.skein_g
    turned = description.turn_back is not None
    share = DEFAULT_KEEP_TURNED if turned else DEFAULT_KEEP
    if isinstance(yarn.keep, Percent):
        share = yarn.keep.value
    keep_g = skein_g * share / 100 if yarn.keep is None or isinstance(yarn.keep, Percent) else yarn.keep.g
    return YarnSupply(skein_g, metres_per_gram(description), keep_g, weighed is not None)


def start_stitches(description: Description) -> float:
    """Yarn of the start in plain stitches: a cast-on, or a garter tab and its set-up row."""
    start = description.shape.start
    if isinstance(start, GarterTab):
        return start.tab_stitches * start.tab_rows + start.stitches
    return CAST_ON_STITCH * start.stitches


def start_m(room: StitchTable) -> float:
    """Yarn of the start."""
    return start_stitches(room.description) * room.plain_m(START)


def bind_off_stitches(off: BindOff | None) -> float:
    """Yarn of the bind-off for each live stitch, in plain stitches (`measured` ones excepted)."""
    if off is not None and off.method == "picot":
        worked = CAST_ON_STITCH * off.cast_on + BIND_OFF_STITCH * off.bind_off
        return worked / (off.bind_off - off.cast_on)
    return BIND_OFF_STITCHES[off.method if off else "standard"]


def bind_off_m(room: StitchTable, last_stitch: str) -> float:
    """Yarn of the bind-off for each live stitch, after a last row in that stitch."""
    off = room.description.bind_off
    if off is not None and off.method == "measured":
        return (off.times_width or 0.0) * room[last_stitch].unblocked_cm / 100 * room.learned.factor((END,))
    return bind_off_stitches(off) * room.plain_m(END)


class Split(NamedTuple):
    """The stitches of one row by what they are worked in."""

    own: int
    edge: int
    fill: int


class RowYarn:
    """What rows take, by stitch, wraps and live stitches."""

    def __init__(self, room: StitchTable) -> None:
        shape = room.description.shape
        self.room = room
        self.edges = 2 * shape.edge.stitches if shape.edge else 0
        self.edge_stitch = shape.edge.stitch.value if shape.edge and shape.edge.stitch else "garter"
        self.spine = shape.spine.value if shape.spine else default_spine(shape.name.value)
        self._costs: dict[tuple[str, int], tuple[float, float, bool]] = {}

    def split(self, stitch: str, wraps: int, live: int) -> Split:
        """A row's stitches: an elongated row wraps the edges too; elsewhere what is short of the multiple is filled."""
        if wraps > 1:
            return Split(live, 0, 0)
        edge = min(self.edges, live)
        fill = self._fill(stitch, live - edge)
        return Split(live - edge - fill, edge, fill)

    def _fill(self, stitch: str, inside: int) -> int:
        multiple = self.room[stitch].multiple
        if multiple is None:
            return 0
        if not self.spine:
            return _short(inside, multiple.stitches, multiple.extra)
        wings = max(0, inside - self.spine)
        return sum(_short(wing, multiple.stitches, multiple.extra) for wing in (wings // 2, wings - wings // 2))

    def stitch_m(self, stitch: str, wraps: int) -> float:
        """Yarn of one stitch with so many wraps."""
        return self.room[stitch].fabric.yarn_m + (wraps - 1) * self.room.extra_wrap_m(stitch)

    def row_m(self, stitch: str, wraps: int, live: int) -> float:
        """Yarn of one row."""
        own, edge, fill = self.split(stitch, wraps, live)
        total = own * self.stitch_m(stitch, wraps)
        if edge:
            total += edge * self.room[self.edge_stitch].fabric.yarn_m
        if fill:
            total += fill * self.room[self.room[stitch].fill].fabric.yarn_m
        return total

    def affine(self, stitch: str, wraps: int) -> tuple[float, float, bool]:
        """`(a, b, holds)`: a row of n stitches takes `a n + b`, for every n or only for those not under the edges'.

        `holds` is false where rows are filled with a stitch of other yarn.
        """
        key = (stitch, wraps)
        if key not in self._costs:
            self._costs[key] = self._affine(stitch, wraps)
        return self._costs[key]

    def _affine(self, stitch: str, wraps: int) -> tuple[float, float, bool]:
        each, material = self.stitch_m(stitch, wraps), self.room[stitch]
        if wraps > 1:
            return each, 0.0, True
        edge = self.edges * (self.room[self.edge_stitch].fabric.yarn_m - each) if self.edges else 0.0
        filled = material.multiple is not None and self.room[material.fill].fabric.yarn_m != each
        return each, edge, not filled

    def rows_m(self, stitch: str, wraps: int, counts: list[int]) -> list[float]:
        """Yarn of each of some rows."""
        each, edge, holds = self.affine(stitch, wraps)
        if holds and (not edge or min(counts, default=0) >= self.edges):
            return [each * live + edge for live in counts]
        return [self.row_m(stitch, wraps, live) for live in counts]


def _short(run: int, multiple: int, extra: int) -> int:
    """Stitches of a run that no repeat takes."""
    repeats = (run - extra) // multiple
    return run - (repeats * multiple + extra) if repeats > 0 else run


def wraps_of_rows(run: Run) -> list[tuple[int, int, int]]:
    """A run as stretches `(first, end, wraps)` of rows from 0: of drop stitch every other row is elongated."""
    if run.stitch != "drop":
        return [(0, run.rows, 1)]
    return [(row, row + 1, run.wraps if row % 2 == 0 else 1) for row in range(run.rows)]


def part_rows_m(yarn: RowYarn, part: Worked) -> list[float]:
    """Yarn of each row of a part, stitches bound off on the way included."""
    rows: list[float] = []
    for run in part.section.runs:
        for first, end, wraps in wraps_of_rows(run):
            counts = part.counts[len(rows) : len(rows) + end - first]
            rows.extend(yarn.rows_m(run.stitch, wraps, counts))
    off_m = BIND_OFF_STITCH * yarn.room.plain_m(END)
    for act in part.acts:
        if part.force.lines[act.line].action == BIND_OFF:
            rows[act.row - 1] += off_m * abs(act.change)
    return rows


def part_total_m(yarn: RowYarn, part: Worked) -> float:
    """Yarn of a part, in time that grows with its bands and acts, not its rows, wherever yarn is linear in stitches."""
    sums = [0, *accumulate(part.counts)]
    least = min(part.counts, default=0)
    total, done = 0.0, 0
    for run in part.section.runs:
        for first, end, wraps in wraps_of_rows(run):
            each, edge, holds = yarn.affine(run.stitch, wraps)
            a, b = done + first, done + end
            if holds:
                total += each * (sums[b] - sums[a]) + edge * (b - a)
            if holds and edge and least < yarn.edges:
                narrow = [live for live in part.counts[a:b] if live < yarn.edges]
                total += sum(yarn.row_m(run.stitch, wraps, live) - each * live - edge for live in narrow)
            elif not holds:
                total += sum(yarn.rows_m(run.stitch, wraps, part.counts[a:b]))
        done += run.rows
    return total + part.bound_off * BIND_OFF_STITCH * yarn.room.plain_m(END)
