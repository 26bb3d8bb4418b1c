"""From a description to its plan."""

from halfhank.grammar.description import Description, Parsed
from halfhank.grammar.problems.problem import Problem
from halfhank.model.checks.design_checks import check_design
from halfhank.model.design.design import Design
from halfhank.model.design.resolve import resolve
from halfhank.model.plan import Plan, Planned
from halfhank.model.planning.computing import computed, count_allowed, in_order, mistaken, not_planned, uncorrected
from halfhank.model.yarn.corrections import NONE, Corrections
from halfhank.model.yarn.stitch_table import StitchTable


def plan_parsed(parsed: Parsed) -> Planned:
    """The plan of a parsed description, the parser's problems among its own; with a mistake nothing is computed."""
    if parsed.description is None:
        return not_planned(parsed.problems)
    design = resolve(parsed.description)
    if mistaken(parsed.problems):
        return not_planned([*parsed.problems, *check_design(StitchTable(design))])
    made, problems = plan_design(design)
    return Planned(made, in_order([*parsed.problems, *problems]))


def plan(description: Description) -> Planned:
    """Compute a description: rows, outline and yarn; None with the problems where a mistake is in the way."""
    return plan_design(resolve(description))


def plan_without_log(plan: Plan) -> Planned:
    """The same shawl as planned before anything was weighed."""
    return plan_design(plan.design._replace(log=()))


def plan_design(design: Design, corrections: Corrections = NONE) -> Planned:
    """Compute a design.

    Weighings after a row correct the yarn; without any, `corrections` do (of another log of the same
    shawl).
    """
    table = StitchTable(design, corrections)
    problems = check_design(table)
    if mistaken(problems):
        return not_planned(problems)
    if design.weighed_rows:
        from halfhank.model.planning.plan_with_log import plan_with_log

        return plan_with_log(table, problems)
    allowed, found = count_allowed(table)
    problems = [*problems, *found]
    if mistaken(problems):
        return not_planned(problems)
    worked = uncorrected(table, allowed)
    if isinstance(worked, Problem):
        return not_planned([*problems, worked])
    return computed(worked, table, problems)
