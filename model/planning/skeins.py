"""One shawl from skeins of other lengths: what a pattern says to those who buy it.

The gauge stays, and so does the yarn of a stitch in metres: a finer or a fuller yarn is knitted to the same fabric. A
swatch that was weighed is therefore taken as the length that it holds; what the log says of the yarn is kept, its
weighings are not: they belong to another skein.
"""

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.plan import Plan
from halfhank.model.planning.planning import plan_design
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.log import corrections_for_others, log_of, model_of
from halfhank.model.yarn.corrections import NONE, Corrections


class SkeinPlan(NamedTuple):
    """The shawl from a skein of so many metres per 100 g; `shawl` is None where `problems` are in the way."""

    metres_per_100g: float
    shawl: Shawl | None
    problems: tuple[Problem, ...]


def skein_plans(plan: Plan, metres_per_100g: list[float]) -> list[SkeinPlan]:
    """The same shawl from each of the skeins, in the order given. Skeins weigh what the description's label says."""
    corrections = corrections_without_skein(plan)
    return [_planned(plan.design, metres, corrections) for metres in metres_per_100g]


def corrections_without_skein(plan: Plan) -> Corrections:
    """What the log says of the yarn in each stitch and the ends, without the skein's own mass."""
    if not plan.design.weighed_rows:
        return NONE
    return corrections_for_others(model_of(plan), log_of(plan), plan.working.table.corrections.weighed)


def with_skein(design: Design, metres_per_100g: float) -> Design:
    """The design with another skein of the same mass, and no log."""
    yarn = design.yarn
    return design._replace(yarn=yarn._replace(skein_m=metres_per_100g * yarn.skein_g / 100), log=())


def _planned(design: Design, metres: float, corrections: Corrections) -> SkeinPlan:
    planned = plan_design(with_skein(design, metres), corrections)
    return SkeinPlan(metres, planned.shawl, planned.problems)
