"""Scale readings as linear sums of the errors: what the regression of the log is made on.

Grams left after a row are linear in the errors: the skein's mass less, for each error, the grams that hang on it. A
ratio's error adds to its parent's, which is their product to first order.
"""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.weighings.posterior import LinearSum, Posterior, Step, prior
from halfhank.model.yarn.ledger import Amounts, Ledger, all_errors, errors_of
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import supply_of
from halfhank.model.yarn.uncertainty import LABEL_SD, SKEIN_ERROR, ErrorSource, sd_of

HANDLING_SD_G = 0.15
"""Standard deviation of one weighing from handling: a strand on the table, a draught (common practice)."""


class WeighingModel(NamedTuple):
    """`steps[0]` is the start, `steps[i]` row i: what the grams left gain by it (less than nothing). Then the bind-off.

    `errors` names what the weights are counted by, the skein's mass first; `sds` are their standard deviations.
    """

    table: StitchTable
    skein_g: float
    errors: tuple[ErrorSource, ...]
    sds: tuple[float, ...]
    steps: tuple[Step, ...]
    bind_off: Step

    @property
    def prior(self) -> Posterior:
        """What is known before any row is weighed."""
        return prior(self.sds)

    @property
    def full(self) -> LinearSum:
        """Grams on the scale before the cast-on."""
        return LinearSum(self.skein_g, tuple(self.skein_g if error == SKEIN_ERROR else 0.0 for error in self.errors))

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

    def end(self) -> LinearSum:
        """Grams left after the bind-off."""
        last = len(self.steps) - 1
        return self.left([last])[last].moved(self.bind_off)

    def used(self, left: LinearSum) -> LinearSum:
        """Grams used, where so many are left: without the skein's mass and its error."""
        weights = [-w for w in left.weights]
        weights[0] = 0.0
        return LinearSum(self.skein_g - left.constant, tuple(weights))

    def step(self, amounts: Amounts) -> Step:
        """Metres by use, as a step of the grams left; each counts in full for each of its errors."""
        gram = self.table.design.yarn.metres_per_gram
        weights: dict[int, float] = {}
        for use, metres in amounts.items():
            for error in errors_of(self.table, use):
                place = self.errors.index(error)
                weights[place] = weights.get(place, 0.0) - metres / gram
        return Step(-sum(amounts.values()) / gram, weights)


def weighing_model(table: StitchTable, ledger: Ledger) -> WeighingModel:
    """The model of a shawl as planned, before its log is looked at (`table` has no corrections)."""
    errors = (SKEIN_ERROR, *all_errors(table, ledger.by_use()))
    skein_g = supply_of(table.design).skein_g
    sds = (skein_sd(table.design, skein_g), *(sd_of({error: 1.0}) for error in errors[1:]))
    bare = WeighingModel(table, skein_g, errors, sds, (), Step(0.0, {}))
    steps = [bare.step(amounts) for amounts in ledger.entries]
    return bare._replace(steps=tuple(steps[:-1]), bind_off=steps[-1])


def skein_sd(design: Design, skein_g: float) -> float:
    """Relative standard deviation of the skein's mass: the label's, or the scale's once it is weighed."""
    first = design.weighed_start
    return LABEL_SD if first is None else noise_sd_g(first.step_g) / skein_g


def noise_sd_g(step_g: float) -> float:
    """Standard deviation of one weighing: handling, and the scale's last figure, evenly distributed over its step."""
    return math.hypot(HANDLING_SD_G, step_g / math.sqrt(12))
