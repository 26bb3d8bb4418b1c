"""What the kitchen scale is going to read, row by row, with the weighings of the log taken in.

Everything unknown (yarn of each stitch, start, bind-off, the skein's mass) is a relative error that is normal
beforehand; grams left after a row are linear in them, each weighing is one such sum plus noise, and the posterior is
that of Bayesian linear regression (`halfhank.model.weighings.posterior`).
"""

from halfhank.grammar.record import NamedTuple
from halfhank.model.plan import Plan
from halfhank.model.weighings.log import LoggedWeighing, log_of, model_of, total_and_left
from halfhank.model.weighings.posterior import Estimate


class Forecast(NamedTuple):
    """Grams left after every row (index 0: after the start) and at the `end`, after the bind-off.

    `rows` and `end` have the log in, `plan` and `plan_end` are the same rows as they were expected before any weighing;
    `total` is the yarn of the whole shawl, the log in.
    """

    rows: tuple[Estimate, ...]
    end: Estimate
    total: Estimate
    plan: tuple[Estimate, ...]
    plan_end: Estimate
    weighings: tuple[LoggedWeighing, ...]


def forecast(plan: Plan) -> Forecast:
    """The forecast for a plan, worked out once for it."""
    return plan.once(_forecast)


def _forecast(plan: Plan) -> Forecast:
    model, log = model_of(plan), log_of(plan)
    before, after = model.prior, log.posterior
    planned = tuple(before.along(model.full, model.steps))[1:]
    if not log.weighings:
        total, end = total_and_left(model, after)
        return Forecast(planned, end, total, planned, end, ())
    along = enumerate(after.along(model.full, model.steps), -1)
    rows = tuple(log.left(row, expected) for row, expected in along)[1:]
    total, end = total_and_left(model, after)
    return Forecast(rows, log.left_over(model), total, planned, before.estimate(model.end()), log.weighings)
