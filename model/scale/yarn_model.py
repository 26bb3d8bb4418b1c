"""The yarn row by row, split by the errors that it hangs on: what the forecast reckons with.

Grams left after a row are linear in the errors: the skein's mass less, for each error, the grams that hang on it. A
ratio's error adds to its parent's, which is their product to first order.
"""

import math
from collections.abc import Iterator
from itertools import accumulate
from typing import NamedTuple

from halfhank.grammar.description import GRAMS_IN, Mass
from halfhank.model.rows.shaping import BIND_OFF, Worked
from halfhank.model.rows.worked import last_stitch
from halfhank.model.scale.posterior import LinearSum, Posterior, Step, prior
from halfhank.model.yarn.row_yarn import (
    BIND_OFF_STITCH,
    END,
    PLAIN,
    START,
    RowYarn,
    bind_off_m,
    skein_of,
    start_m,
    wraps_of_rows,
)
from halfhank.model.yarn.stitch_table import StitchTable, metres_per_gram
from halfhank.model.yarn.uncertainty import LABEL_SD, sd_of

SKEIN = "skein"
CAST_ON, OFF, MEASURED_OFF = "the start", "a bind-off", "a bind-off by width"
"""What the ends are worked in, in place of a stitch's name; no stitch can be called so."""
HANDLING_SD_G = 0.15
"""Standard deviation of one weighing from handling: a strand on the table, a draught (common practice)."""

Amounts = dict[str, float]


class Accounts(NamedTuple):
    """`steps[0]` is the start, `steps[i]` row i: what the grams left gain by it (less than nothing). Then the bind-off.

    `errors` names what the weights are counted by, the skein's mass first; `sds` are their standard deviations.
    """

    skein_g: float
    errors: tuple[str, ...]
    sds: tuple[float, ...]
    steps: tuple[Step, ...]
    bind_off: Step

    @property
    def belief(self) -> Posterior:
        """What is known before any row is weighed."""
        return prior(self.sds)

    @property
    def full(self) -> LinearSum:
        """Grams on the scale before the cast-on."""
        return LinearSum(self.skein_g, tuple(self.skein_g if error == SKEIN else 0.0 for error in self.errors))

    def left(self, rows: list[int]) -> dict[int, LinearSum]:
        """Grams left after each of some rows, as sums."""
        wanted, found = set(rows), {}
        constant, weights = self.full
        changed = list(weights)
        for row, step in enumerate(self.steps):
            constant += step.constant
            for k, change in step.weights.items():
                changed[k] += change
            if row in wanted:
                found[row] = LinearSum(constant, tuple(changed))
        return found


def accounts_of(room: StitchTable, yarn: RowYarn, parts: list[Worked]) -> Accounts:
    """The accounts of a shawl as planned, before its log is looked at (`room` has learned nothing)."""
    off = {_end_name(room): bind_off_m(room, last_stitch(parts)) * parts[-1].end}
    split = [{CAST_ON: start_m(room)}, *_rows(room, yarn, parts), off]
    names = (SKEIN, *dict.fromkeys(error for amounts in split for name in amounts for error in _errors(room, name)))
    steps = [_step(room, names, amounts) for amounts in split]
    skein_g = skein_of(room.description).skein_g
    sds = (skein_sd(room, skein_g), *(sd_of({name: 1.0}) for name in names[1:]))
    return Accounts(skein_g, names, sds, tuple(steps[:-1]), steps[-1])


def bind_off_after(room: StitchTable, accounts: Accounts, stitch: str, live: int) -> Step:
    """What binding off so many stitches takes after a row in that stitch, counted by the accounts' errors."""
    return _step(room, accounts.errors, {_end_name(room): bind_off_m(room, stitch) * live})


def _step(room: StitchTable, names: tuple[str, ...], amounts: Amounts) -> Step:
    """Metres by what they are worked in, as a step of the grams left; each counts in full for each of its errors."""
    gram = metres_per_gram(room.description)
    weights: dict[int, float] = {}
    for name, metres in amounts.items():
        for error in _errors(room, name):
            place = names.index(error)
            weights[place] = weights.get(place, 0.0) - metres / gram
    return Step(-sum(amounts.values()) / gram, weights)


def skein_sd(room: StitchTable, skein_g: float) -> float:
    """Relative standard deviation of the skein's mass: the label's, or the scale's once it is weighed."""
    first = next((weighing for weighing in room.description.log if weighing.row == 0), None)
    return LABEL_SD if first is None else noise_sd_g(first.mass) / skein_g


def noise_sd_g(mass: Mass) -> float:
    """Standard deviation of one reading: handling, and the scale's last figure, evenly distributed over its step."""
    step_g = GRAMS_IN["oz"] * 10.0 ** -min(mass.decimals, 3) if mass.unit == "oz" else 0.1 if mass.decimals else 1.0
    return math.hypot(HANDLING_SD_G, step_g / math.sqrt(12))


# Metres by what they are worked in: a stitch's name, or an end, which has an error of its own.


def _end_name(room: StitchTable) -> str:
    """A bind-off measured by width hangs on no stitch."""
    off = room.description.bind_off
    return MEASURED_OFF if off is not None and off.method == "measured" else OFF


def _errors(room: StitchTable, name: str) -> tuple[str, ...]:
    if name == CAST_ON:
        return (*room[PLAIN].errors, START)
    if name == OFF:
        return (*room[PLAIN].errors, END)
    return (END,) if name == MEASURED_OFF else room[name].errors


def _rows(room: StitchTable, yarn: RowYarn, parts: list[Worked]) -> Iterator[Amounts]:
    for part in parts:
        rows = [amounts for run in _runs(yarn, part) for amounts in run]
        for act in part.acts:
            if part.force.lines[act.line].action == BIND_OFF:
                off = BIND_OFF_STITCH * room.plain_m(END) * abs(act.change)
                amounts = rows[act.row - 1]
                amounts[OFF] = amounts.get(OFF, 0.0) + off
        yield from rows


def _runs(yarn: RowYarn, part: Worked) -> Iterator[list[Amounts]]:
    ends = accumulate((run.rows for run in part.section.runs), initial=0)
    for begin, run in zip(ends, part.section.runs, strict=False):
        for first, end, wraps in wraps_of_rows(run):
            counts = part.counts[begin + first : begin + end]
            yield [_row(yarn, run.stitch, wraps, live) for live in counts]


def _row(yarn: RowYarn, stitch: str, wraps: int, live: int) -> Amounts:
    own, edge, fill = yarn.split(stitch, wraps, live)
    amounts = {stitch: own * yarn.stitch_m(stitch, wraps)}
    for name, count in ((yarn.edge_stitch, edge), (yarn.room[stitch].fill, fill)):
        if count:
            amounts[name] = amounts.get(name, 0.0) + count * yarn.room[name].fabric.yarn_m
    return amounts
