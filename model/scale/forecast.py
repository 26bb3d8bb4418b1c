"""What the kitchen scale is going to read, row by row, and what the weighings in the log say of it.

Everything unknown (yarn of each stitch, start, bind-off, the skein's mass) is a relative error that is normal
beforehand; grams left after a row are linear in them, each weighing is one such sum plus noise, and the posterior is
that of Bayesian linear regression (`halfhank.model.scale.posterior`).
"""

from typing import NamedTuple

from halfhank.grammar.description import Weighing
from halfhank.grammar.problems import Problem, Span
from halfhank.model import known_problems as known
from halfhank.model.rows.worked import work
from halfhank.model.scale.posterior import Estimate, LinearSum, Posterior
from halfhank.model.scale.yarn_model import SKEIN, Accounts, accounts_of, noise_sd_g
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.corrections import Learned
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable

SURPRISE_SDS = 2.0
"""A weighing further than this from what was foretold is told."""


class Reading(NamedTuple):
    """One weighing of the log as grams left after `row`; `foretold` is what the scale was to show before it."""

    row: int
    left_g: float
    noise_sd_g: float
    foretold: Estimate
    span: Span

    @property
    def surprise_sds(self) -> float:
        """By how many standard deviations less is left than was foretold (negative: more is left)."""
        return (self.foretold.mean - self.left_g) / self.foretold.sd


class Heard(NamedTuple):
    """The log taken in: the belief after it, and its weighings as readings."""

    belief: Posterior
    readings: tuple[Reading, ...]


class Forecast(NamedTuple):
    """Grams left after every row (index 0: after the start) and at the `end`, after the bind-off.

    `rows` and `end` have the log in, `plan` and `plan_end` are the same rows as they were foretold before any weighing;
    `total` is the yarn of the whole shawl, the log in.
    """

    rows: tuple[Estimate, ...]
    end: Estimate
    total: Estimate
    plan: tuple[Estimate, ...]
    plan_end: Estimate
    readings: tuple[Reading, ...]


def forecast(shawl: Shawl) -> Forecast:
    """The forecast for a plan, from its description and the log in it."""
    room = StitchTable(shawl.description)
    parts, _ = work(room, shawl.allowed or 0)
    accounts = accounts_of(room, RowYarn(room), parts)
    return foretell(accounts, listen(accounts, shawl.description.log))


def foretell(accounts: Accounts, heard: Heard) -> Forecast:
    """The forecast for all rows from what the log has told."""
    before, after = accounts.belief, heard.belief
    end = end_of(accounts)
    plan = tuple(before.along(accounts.full, accounts.steps))[1:]
    rows = tuple(after.along(accounts.full, accounts.steps))[1:] if heard.readings else plan
    total, left = used_in_all(accounts, after)
    return Forecast(rows, left, total, plan, before.estimate(end), heard.readings)


def end_of(accounts: Accounts) -> LinearSum:
    """Grams left after the bind-off."""
    last = len(accounts.steps) - 1
    return accounts.left([last])[last].moved(accounts.bind_off)


def used_in_all(accounts: Accounts, belief: Posterior) -> tuple[Estimate, Estimate]:
    """The shawl's own yarn, and what is left of the skein after the bind-off."""
    end = end_of(accounts)
    return belief.estimate(_used(accounts, end)), belief.estimate(end)


def listen(accounts: Accounts, log: tuple[Weighing, ...]) -> Heard:
    """Take in the weighings after rows, in their order. (The one before the cast-on is the skein's mass already.)"""
    weighings = [weighing for weighing in log if weighing.row]
    sums = accounts.left([weighing.row for weighing in weighings])
    belief, readings = accounts.belief, []
    for weighing in weighings:
        left, noise = sums[weighing.row], noise_sd_g(weighing.mass)
        mass_g = weighing.mass.g
        seen = _used(accounts, left) if weighing.used else left
        left_g = belief.estimate(accounts.full).mean - mass_g if weighing.used else mass_g
        foretold = belief.estimate(seen).noisy(noise)
        if weighing.used:
            foretold = Estimate(left_g + mass_g - foretold.mean, foretold.sd)
        readings.append(Reading(weighing.row, left_g, noise, foretold, weighing.span))
        belief = belief.weighed(seen, mass_g, noise)
    return Heard(belief, tuple(readings))


def learn(accounts: Accounts, heard: Heard, weighed: frozenset[str]) -> Learned:
    """What the plan is to be corrected by."""
    means = dict(zip(accounts.errors, heard.belief.means, strict=True))
    return Learned(accounts.skein_g * (1 + means.pop(SKEIN)), means, weighed)


def disagreements(heard: Heard) -> list[Problem]:
    """Advice for each weighing further than two standard deviations from what was foretold before it."""
    return [_disagrees(reading) for reading in heard.readings if abs(reading.surprise_sds) > SURPRISE_SDS]


def _disagrees(reading: Reading) -> Problem:
    less_g = reading.foretold.mean - reading.left_g
    return known.LOG_DISAGREES.at(
        reading.span,
        row=reading.row,
        mean_g=reading.foretold.mean,
        sd_g=reading.foretold.sd,
        less_g=less_g if less_g > 0 else None,
        more_g=None if less_g > 0 else abs(less_g),
    )


def _used(accounts: Accounts, left: LinearSum) -> LinearSum:
    """Grams used, where so many are left: without the skein's mass and its error."""
    weights = [-w for w in left.weights]
    weights[0] = 0.0
    return LinearSum(accounts.skein_g - left.constant, tuple(weights))
