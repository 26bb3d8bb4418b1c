"""The log: the posterior after its weighings, and how it corrects the plan."""

import math

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Weighing
from halfhank.model.number_words import mass_words
from halfhank.model.plan import Made, Plan
from halfhank.model.problems import plan_problems as known
from halfhank.model.weighings.disputes import Reading, Screening, inflation, screened
from halfhank.model.weighings.posterior import Estimate, LinearSum, Posterior
from halfhank.model.weighings.weighing_model import WeighingModel, weighing_model
from halfhank.model.yarn.corrections import NONE, Corrections, Shown
from halfhank.model.yarn.uncertainty import SKEIN_ERROR, noise_sd_g

SURPRISE_SDS = 2.0
"""A weighing further than this from what was expected is reported."""
NOTHING_G = 1e-12
"""Rounding that is no difference."""


class LoggedWeighing(NamedTuple):
    """One weighing of the log as grams left after `row`; `expected` is the value expected before it.

    Of a `disputed` one that is the value expected from all the other weighings, the later ones too. `others` is
    that of every weighing.
    """

    row: int
    left_g: float
    noise_sd_g: float
    expected: Estimate
    others: Estimate
    disputed: bool
    span: Span

    @property
    def surprise_sds(self) -> float:
        """By how many standard deviations less is left than was expected (negative: more is left)."""
        return (self.expected.mean - self.left_g) / self.expected.sd

    @property
    def off_sds(self) -> float:
        """How many standard deviations it is off the value expected from all the others, in either direction."""
        return abs(self.others.mean - self.left_g) / self.others.sd


class LogPosterior(NamedTuple):
    """The posterior after the whole log, and its weighings after rows, as they were screened.

    `skein_g`: the most that the skein may weigh. `shown`: what the scale showed at the last of them.
    """

    posterior: Posterior
    weighings: tuple[LoggedWeighing, ...]
    skein_g: float
    screening: Screening
    shown: Shown | None

    def left(self, row: int, expected: Estimate, bind_off_g: float = 0.0) -> Estimate:
        """Grams left after a row, or after a bind-off there that takes so much: no more than the scale showed by then.

        The 90 % range keeps to that too, unless the last weighing is disputed, and never goes beyond the skein.
        """
        most_g = max(self.skein_g, expected.mean)
        if self.shown is None or row < self.shown.row:
            return expected.at_most(math.inf, most_g)
        trusted = [one.left_g for one in self.weighings if not one.disputed]
        range_g = min(trusted, default=most_g) if self.weighings[-1].disputed else self.shown.left_g
        most_g = max(range_g, self.shown.left_g) - bind_off_g
        return expected.at_most(self.shown.at_most_g(expected.mean, bind_off_g), most_g)

    def left_over(self, model: WeighingModel) -> Estimate:
        """Grams left after the bind-off of a whole shawl."""
        end, row = model.end(), len(model.steps) - 1
        bind_off_g = self.posterior.estimate(model.left([row])[row]).mean - self.posterior.estimate(end).mean
        return self.left(row, self.posterior.estimate(end), max(bind_off_g, 0.0))


def log_posterior(model: WeighingModel, log: tuple[Weighing, ...], screening: Screening | None = None) -> LogPosterior:
    """Take in the weighings after rows. (The one before the cast-on is the skein's mass already.)

    `screening`: theirs, where it was made with another length of the shawl, whose weighed rows are the same.
    """
    weighings = [weighing for weighing in log if weighing.row]
    sums = model.left([weighing.row for weighing in weighings])
    readings = [_reading(model, weighing, sums[weighing.row]) for weighing in weighings]
    found = screened(model.prior, readings) if screening is None else screening
    posterior, taken = model.prior, []
    for place, (weighing, reading) in enumerate(zip(weighings, readings, strict=True)):
        others, disputed = found.expected[place], found.disputed(place, reading)
        expected = others if disputed else posterior.estimate(reading.what).noisy(reading.noise_sd_g)
        skein_g = posterior.estimate(model.full).mean
        expected, others = _left(weighing, expected, skein_g), _left(weighing, others, skein_g)
        left_g = max(skein_g - weighing.mass_g, 0.0) if weighing.used else weighing.mass_g
        noise = reading.noise_sd_g
        taken.append(LoggedWeighing(weighing.row, left_g, noise, expected, others, disputed, weighing.span))
        posterior = posterior.weighed(reading.what, reading.grams, found.noises[place])
    skein_g = model.prior.estimate(model.full).high
    widened = posterior.widened(inflation(posterior, readings, found))
    return LogPosterior(widened, tuple(taken), skein_g, found, _shown(posterior, sums, taken))


def _shown(posterior: Posterior, sums: dict[int, LinearSum], weighings: list[LoggedWeighing]) -> Shown | None:
    """The last weighing; in doubt, as a share of what the whole log lets expect there."""
    if not weighings:
        return None
    last = weighings[-1]
    expected_g = posterior.estimate(sums[last.row]).mean if last.disputed else 0.0
    return Shown(last.row, last.left_g, min(1.0, last.left_g / expected_g) if expected_g > 0 else 1.0)


def _reading(model: WeighingModel, weighing: Weighing, left: LinearSum) -> Reading:
    what = model.used(left) if weighing.used else left
    return Reading(what, weighing.mass_g, noise_sd_g(weighing.step_g))


def _left(weighing: Weighing, expected: Estimate, skein_g: float) -> Estimate:
    """What was expected of a weighing, as grams left."""
    return Estimate(skein_g - expected.mean, expected.sd) if weighing.used else expected


def model_of(plan: Plan) -> WeighingModel:
    """The weighing model of a plan."""
    return plan.once(_model)


def _model(plan: Plan) -> WeighingModel:
    return weighing_model(plan.table, plan.ledger)


def log_of(plan: Plan) -> LogPosterior:
    """The log of a plan taken in."""
    return plan.once(_log)


def _log(plan: Plan) -> LogPosterior:
    return log_posterior(model_of(plan), plan.design.log)


def made_before(model: WeighingModel, log: LogPosterior) -> Made:
    """What a plan need not make again that was planned with its log."""
    return {_model: model, _log: log}


def total_and_left(model: WeighingModel, posterior: Posterior) -> tuple[Estimate, Estimate]:
    """The shawl's own yarn, and what is left of the skein after the bind-off."""
    end = model.end()
    return posterior.estimate(model.used(end)), posterior.estimate(end)


def corrections_of(model: WeighingModel, log: LogPosterior, weighed: frozenset[str]) -> Corrections:
    """What the plan is to be corrected by."""
    levels = [log.posterior.means[k] for k in model.levels]
    means = dict(zip(model.errors[: model.levels.start], log.posterior.means, strict=False))
    skein_g = model.skein_g * (1 + means.pop(SKEIN_ERROR))
    return Corrections(skein_g, means, weighed, levels[-1], _past_m(model, levels), log.shown)


def corrections_for_others(model: WeighingModel, log: LogPosterior, weighed: frozenset[str]) -> Corrections:
    """What another skein of the shawl is to be corrected by: tension as it is on average, from the first row to the
    last."""
    found = corrections_of(model, log, weighed)
    drifting = -sum(step.weights.get(k, 0.0) for step in (*model.steps, model.bind_off) for k in model.levels)
    past_g = found.past_m[-1] / model.table.design.yarn.metres_per_gram
    tension = found.tension + (past_g / drifting if drifting else 0.0)
    return found._replace(skein_g=None, tension=tension, past_m=NONE.past_m, shown=None)


def _past_m(model: WeighingModel, levels: list[float]) -> tuple[float, ...]:
    """By how much start and rows took more than at the last of the levels, summed, in m; to the last row that did."""
    gram, first = model.table.design.yarn.metres_per_gram, model.levels.start
    sums, last = [0.0], 0
    for row, step in enumerate(model.steps):
        past_g = -sum(change * (levels[k - first] - levels[-1]) for k, change in step.weights.items() if k >= first)
        sums.append(sums[-1] + past_g * gram)
        last = row if abs(past_g) > NOTHING_G else last
    return tuple(sums[1 : last + 2])


def disagreements(log: LogPosterior, unit: str) -> list[Problem]:
    """Advice for each weighing that is disputed, or further than two standard deviations from what was expected.

    Masses are said in `unit`, g or oz.
    """
    far = [one for one in log.weighings if one.disputed or abs(one.surprise_sds) > SURPRISE_SDS]
    return [_disagrees(weighing, unit) for weighing in far]


def _disagrees(weighing: LoggedWeighing, unit: str) -> Problem:
    if weighing.disputed and abs(weighing.surprise_sds) <= SURPRISE_SDS:
        return known.LOG_DISAGREES_IN_DOUBT.at(weighing.span, row=weighing.row)
    less_g = weighing.expected.mean - weighing.left_g
    kind = known.LOG_DISAGREES_MUCH if weighing.disputed else known.LOG_DISAGREES
    off = mass_words(abs(less_g), unit)
    return kind.at(
        weighing.span,
        row=weighing.row,
        mean=mass_words(max(weighing.expected.mean, 0.0), unit),
        low=mass_words(max(weighing.expected.low, 0.0), unit),
        high=mass_words(weighing.expected.high, unit),
        less=off if less_g > 0 else None,
        more=None if less_g > 0 else off,
    )
