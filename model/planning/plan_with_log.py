"""A plan with rows knitted and weighed: the log corrects the yarn, and the plan is calculated again with it.

The count of `as yarn allows` and the corrections of the log depend on each other if rows after the growing part were
weighed, so each is calculated from the other until the count no longer changes.
"""

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import growing_part, total_rows
from halfhank.model.design.design import Design, Weighing
from halfhank.model.plan import Planned
from halfhank.model.planning.computing import (
    Uncorrected,
    computed,
    count_allowed,
    mistaken,
    not_planned,
    uncorrected,
)
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.weighings.log import (
    LogPosterior,
    corrections_of,
    disagreements,
    log_posterior,
    made_before,
    total_and_left,
)
from halfhank.model.weighings.weighing_model import WeighingModel, weighing_model
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import WEIGHED, StitchTable

ROUNDS = 6
"""How often count and log are held against each other; two rounds nearly always do."""
BELIEVABLE_SDS = 4.0
"""A row cannot have been reached where the yarn would have ended before it by so many standard deviations."""
MOST_WEIGHINGS = 200


class CountWithLog(NamedTuple):
    """The log used with one count of `as yarn allows` (that of `worked`).

    `table` has the corrections of the log; with that `allowed` is the count, and `problems` are those of it.
    """

    worked: Uncorrected
    model: WeighingModel
    log: LogPosterior
    table: StitchTable
    allowed: int | None
    problems: list[Problem]


class Counts:
    """The design worked with one count after the other, each once."""

    def __init__(self, table: StitchTable) -> None:
        self.table = table
        self._worked: dict[int | None, tuple[Uncorrected, WeighingModel] | Problem] = {}

    def worked(self, count: int | None) -> tuple[Uncorrected, WeighingModel] | Problem:
        """The design worked with that count and its weighing model; the problem where it cannot be worked."""
        if count not in self._worked:
            worked = uncorrected(self.table, count)
            if not isinstance(worked, Problem):
                self._worked[count] = worked, weighing_model(self.table, worked.ledger)
            else:
                self._worked[count] = worked
        return self._worked[count]


def plan_with_log(table: StitchTable, problems: list[Problem]) -> Planned:
    """The plan of a design with weighings after rows; `problems` are those of the design alone."""
    counts, log = Counts(table), table.design.weighed_rows
    least = least_count(table.design, log[-1].row)
    problems = [*problems, *_too_many(log), *_no_such_rows(counts, log, least)]
    if mistaken(problems):
        return not_planned(problems)
    planned, _ = count_allowed(table)
    found = _settled(counts, None if planned is None else max(planned, least, 1), least)
    if isinstance(found, Problem):
        return not_planned([*problems, found])
    return _corrected(found, [*problems, *_still_true(found.problems, least)])


def _settled(counts: Counts, count: int | None, least: int) -> CountWithLog | Problem:
    """The count that the yarn allows with the corrections of the log; of counts in a cycle the smallest."""
    tried: dict[int | None, CountWithLog] = {}
    while count not in tried and len(tried) < ROUNDS:
        found = _with_log(counts, count)
        if isinstance(found, Problem):
            return found
        tried[count] = found
        if found.allowed is None or max(found.allowed, least) == 0:
            return found
        count = max(found.allowed, least)
    ring = list(tried.values())[list(tried).index(count) if count in tried else -1 :]
    return min(ring, key=lambda one: one.worked.allowed or 0)


def least_count(design: Design, row: int) -> int:
    """The smallest count of `as yarn allows` with which the shawl has that row; 0 where it has it, or nothing grows."""
    if growing_part(design) is None:
        return 0
    low, high = 0, MAX_ROWS
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if total_rows(design, middle) >= row else (middle + 1, high)
    return low


def _too_many(log: tuple[Weighing, ...]) -> list[Problem]:
    if len(log) <= MOST_WEIGHINGS:
        return []
    return [known.TOO_MANY_WEIGHINGS.at(log[MOST_WEIGHINGS].span, weighings=len(log), most=MOST_WEIGHINGS)]


def _no_such_rows(counts: Counts, log: tuple[Weighing, ...], least: int) -> list[Problem]:
    """Mistakes for weighings after rows that the shawl does not have, or that no yarn could have reached."""
    rows = total_rows(counts.table.design, least)
    if rows < log[-1].row:
        return [known.NO_SUCH_ROW.at(one.span, row=one.row, rows=rows) for one in log if one.row > rows]
    while least:
        worked = counts.worked(least)
        if not isinstance(worked, Problem):
            return _unbelievable(worked[1], log)
        least //= 2
    return []


def _unbelievable(model: WeighingModel, log: tuple[Weighing, ...]) -> list[Problem]:
    """Weighings after rows that the skein cannot have reached, however wrong the plan's yarn is."""
    estimates = list(model.prior.along(model.full, model.steps))[1:]
    reached = sum(one.mean + BELIEVABLE_SDS * one.sd > 0 for one in estimates) - 1
    beyond = (one for one in log if one.row > reached)
    return [known.NO_SUCH_ROW_FOR_YARN.at(one.span, row=one.row, reached=reached) for one in beyond]


def _with_log(counts: Counts, count: int | None) -> CountWithLog | Problem:
    """The corrections of the log with that count; the problem, if it cannot be worked."""
    made = counts.worked(count)
    if isinstance(made, Problem):
        return made
    worked, model = made
    log = log_posterior(model, counts.table.design.log)
    last = counts.table.design.log[-1].row
    table = counts.table.corrected(corrections_of(model, log, _worked_before(counts.table, worked.parts, last)))
    allowed, problems = count_allowed(table)
    return CountWithLog(worked, model, log, table, allowed, problems)


def _worked_before(table: StitchTable, parts: list[WorkedPart], last: int) -> frozenset[str]:
    """The stitches of the bands begun by a row, the edges' among them."""
    names, row = set[str](), 0
    for run in (run for part in parts for run in part.section.runs):
        if row < last:
            names.add(run.stitch)
        row += run.rows
    yarn = RowYarn(table)
    return frozenset(names | ({yarn.edge_stitch} if yarn.edges else set()))


def _still_true(problems: list[Problem], least: int) -> list[Problem]:
    """The problems of the count, less those that the rows already knitted disprove."""
    return [problem for problem in problems if not (least and problem.code == "yarn-too-short")]


def _corrected(found: CountWithLog, problems: list[Problem]) -> Planned:
    """The plan with what was learned, and how sure it now is."""
    problems = [*problems, *disagreements(found.log, found.model.table.design.yarn.mass_unit)]
    if mistaken(problems):
        return not_planned(problems)
    made = made_before(found.model, found.log)
    planned = computed(found.worked, found.table, problems, made)
    if planned.plan is None:
        return planned
    shawl = planned.plan.shawl
    total, _ = total_and_left(found.model, found.log.posterior)
    left = found.log.left_over(found.model)
    yarn = shawl.yarn._replace(sd_g=total.sd, chance_enough=left.chance_positive, basis=WEIGHED)
    planned.plan.shawl = shawl._replace(yarn=yarn)
    return planned
