"""The log taken in: the posterior after its weighings, and what it teaches the plan."""

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Weighing
from halfhank.model.plan import Made, Plan
from halfhank.model.problems import plan_problems as known
from halfhank.model.weighings.posterior import Estimate, Posterior
from halfhank.model.weighings.weighing_model import WeighingModel, noise_sd_g, weighing_model
from halfhank.model.yarn.corrections import Corrections
from halfhank.model.yarn.uncertainty import SKEIN_ERROR

SURPRISE_SDS = 2.0
"""A weighing further than this from what was expected is reported."""


class LoggedWeighing(NamedTuple):
    """One weighing of the log as grams left after `row`; `expected` is what the scale was to show before it."""

    row: int
    left_g: float
    noise_sd_g: float
    expected: Estimate
    span: Span

    @property
    def surprise_sds(self) -> float:
        """By how many standard deviations less is left than was expected (negative: more is left)."""
        return (self.expected.mean - self.left_g) / self.expected.sd


class LogPosterior(NamedTuple):
    """The posterior after the whole log, and its weighings after rows."""

    posterior: Posterior
    weighings: tuple[LoggedWeighing, ...]


def log_posterior(model: WeighingModel, log: tuple[Weighing, ...]) -> LogPosterior:
    """Take in the weighings after rows, in their order. (The one before the cast-on is the skein's mass already.)"""
    weighings = [weighing for weighing in log if weighing.row]
    sums = model.left([weighing.row for weighing in weighings])
    posterior, taken = model.prior, []
    for weighing in weighings:
        left, noise = sums[weighing.row], noise_sd_g(weighing.step_g)
        mass_g = weighing.mass_g
        seen = model.used(left) if weighing.used else left
        left_g = posterior.estimate(model.full).mean - mass_g if weighing.used else mass_g
        expected = posterior.estimate(seen).noisy(noise)
        if weighing.used:
            expected = Estimate(left_g + mass_g - expected.mean, expected.sd)
        taken.append(LoggedWeighing(weighing.row, left_g, noise, expected, weighing.span))
        posterior = posterior.weighed(seen, mass_g, noise)
    return LogPosterior(posterior, tuple(taken))


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
    means = dict(zip(model.errors, log.posterior.means, strict=True))
    return Corrections(model.skein_g * (1 + means.pop(SKEIN_ERROR)), means, weighed)


def disagreements(log: LogPosterior) -> list[Problem]:
    """Advice for each weighing further than two standard deviations from what was expected before it."""
    return [_disagrees(weighing) for weighing in log.weighings if abs(weighing.surprise_sds) > SURPRISE_SDS]


def _disagrees(weighing: LoggedWeighing) -> Problem:
    less_g = weighing.expected.mean - weighing.left_g
    return known.LOG_DISAGREES.at(
        weighing.span,
        row=weighing.row,
        mean_g=weighing.expected.mean,
        sd_g=weighing.expected.sd,
        less_g=less_g if less_g > 0 else None,
        more_g=None if less_g > 0 else abs(less_g),
    )
