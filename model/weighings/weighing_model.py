"""Weighings as linear sums of the errors: the model of the log's regression.

Grams left after a row are linear in the errors: the skein's mass less, for each error, the grams that depend on it. A
ratio's error adds to its parent's, which is their product to first order, and so does the level that tension has
drifted to where the row is worked (`halfhank.model.weighings.tension`).
"""

from itertools import accumulate

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.weighings.posterior import Column, LinearSum, Posterior, Step, prior
from halfhank.model.weighings.tension import LEVELS, MOST_LEVELS, Drift, split
from halfhank.model.yarn.ledger import Amounts, Ledger, all_errors, errors_of
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import skein_sd, supply_of
from halfhank.model.yarn.uncertainty import ROOTS, SKEIN_ERROR, TENSION, ErrorSource, sd_of


class WeighingModel(NamedTuple):
    """`steps[0]` is the start, `steps[i]` row i: what the grams left gain by it (less than nothing). Then the bind-off.

    `errors` names what the weights are counted by, the skein's mass first, the levels of tension last; `sds` are their
    standard deviations but for what they have `shared`, the steps of the drift of tension.
    """

    table: StitchTable
    skein_g: float
    errors: tuple[ErrorSource, ...]
    sds: tuple[float, ...]
    shared: tuple[Column, ...]
    drift: Drift
    steps: tuple[Step, ...]
    bind_off: Step

    @property
    def prior(self) -> Posterior:
        """What is known before any row is weighed."""
        return prior(self.sds, self.shared)

    @property
    def full(self) -> LinearSum:
        """Grams on the scale before the cast-on."""
        return LinearSum(self.skein_g, tuple(self.skein_g if error == SKEIN_ERROR else 0.0 for error in self.errors))

    @property
    def levels(self) -> range:
        """The places of the levels of tension among the errors."""
        return range(len(self.errors) - sum(error.kind == TENSION for error in self.errors), len(self.errors))

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

    def moved(self, left: LinearSum, amounts: Amounts) -> LinearSum:
        """What is left once so much more is worked, metres by use: each counts in full for each of its errors."""
        step = _step(self.table, self.errors, amounts)
        return left.moved(self._drifting(step, self.skein_g - left.constant))

    def _drifting(self, step: Step, used_g: float) -> Step:
        """A step from where so much is used, with the level that tension then has."""
        rooted = sum(change for k, change in step.weights.items() if self.errors[k].kind in ROOTS)
        level = min(self.drift.level(used_g - step.constant / 2), len(self.levels) - 1)
        return step if not rooted else step._replace(weights={**step.weights, self.levels[level]: rooted})


def weighing_model(table: StitchTable, ledger: Ledger, like: WeighingModel | None = None) -> WeighingModel:
    """The model of a shawl as planned, before its log is looked at (`table` has no corrections).

    `like`: the model of the shawl's plan, where this is another length of it; tension then drifts as it does there.
    """
    sources = (SKEIN_ERROR, *all_errors(table, ledger.by_use()))
    steps = [_step(table, sources, amounts) for amounts in ledger.entries]
    skein_g = supply_of(table.design).skein_g
    drift = like.drift if like is not None else _drift(sources, steps)
    sds = [_sd(table.design, skein_g, drift, error) for error in sources]
    used_g = list(accumulate((-step.constant for step in steps), initial=0.0))
    levels = LEVELS if like is None else max(LEVELS, 1 + drift.level(used_g[-2] - steps[-1].constant / 2))
    errors = (*sources, *(ErrorSource(TENSION, str(level)) for level in range(levels)))
    shared = tuple(drift.columns(len(sources), levels))
    bare = WeighingModel(table, skein_g, errors, (*sds, *[0.0] * levels), shared, drift, (), steps[-1])
    drifting = [bare._drifting(step, used) for step, used in zip(steps, used_g, strict=False)]
    return bare._replace(steps=tuple(drifting[:-1]), bind_off=drifting[-1])


def _step(table: StitchTable, errors: tuple[ErrorSource, ...], amounts: Amounts) -> Step:
    """Metres by use, as a step of the grams left, without the drift."""
    gram = table.design.yarn.metres_per_gram
    weights: dict[int, float] = {}
    for use, metres in amounts.items():
        for error in errors_of(table, use):
            place = errors.index(error)
            weights[place] = weights.get(place, 0.0) - metres / gram
    return Step(-sum(amounts.values()) / gram, weights)


def _drift(sources: tuple[ErrorSource, ...], steps: list[Step]) -> Drift:
    """How tension drifts in a planned shawl."""
    planned_g = -sum(step.constant for step in steps)
    counted = Drift(planned_g, 1.0, 1.0)
    by_level, by_root, used_g = [0.0] * MOST_LEVELS, dict.fromkeys(range(len(sources)), 0.0), 0.0
    for step in steps:
        level = min(counted.level(used_g - step.constant / 2), LEVELS - 1)
        for k, change in step.weights.items():
            if sources[k].kind in ROOTS:
                by_root[k] -= change
                by_level[level] -= change
        used_g -= step.constant
    return split(planned_g, by_level, [sd_of({sources[k]: grams}) for k, grams in by_root.items() if grams])


def _sd(design: Design, skein_g: float, drift: Drift, error: ErrorSource) -> float:
    """Standard deviation of an error, of a swatch or gauge what is left of it besides the drift."""
    if error == SKEIN_ERROR:
        return skein_sd(design, skein_g)
    return sd_of({error: 1.0}) * (drift.constant if error.kind in ROOTS else 1.0)
