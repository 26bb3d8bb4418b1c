"""A plan with rows knitted and weighed: the log corrects the yarn, and the plan is worked out again with it.

The count of `as yarn allows` and what the log says hang on each other where rows after the growing part were weighed,
so the two are found in turns, until the count stays.
"""

from dataclasses import replace
from typing import NamedTuple

from halfhank.grammar.description import Description, Weighing
from halfhank.grammar.problems import Problem
from halfhank.model import known_problems as known
from halfhank.model.advice.plan_checks import check_rows
from halfhank.model.planning import computed, count_allowed, in_order, mistaken
from halfhank.model.rows.sections import MAX_ROWS, growing_part, total_rows
from halfhank.model.rows.shaping import Worked
from halfhank.model.rows.worked import work
from halfhank.model.scale.forecast import Heard, disagreements, learn, listen, used_in_all
from halfhank.model.scale.yarn_model import Accounts, accounts_of
from halfhank.model.shawl import Plan
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import WEIGHED, StitchTable

ROUNDS = 6
"""How often count and log are held against each other; two rounds nearly always do."""
BELIEVABLE_SDS = 4.0
"""A row is told to be none where the yarn would have ended before it by so many standard deviations."""
MOST_WEIGHINGS = 200


class Lesson(NamedTuple):
    """The log taken in for one count of `as yarn allows` (`passes`).

    With what it teaches, `allowed` is the count, and `found` is to be told of that.
    """

    passes: int | None
    accounts: Accounts
    heard: Heard
    room: StitchTable
    allowed: int | None
    found: list[Problem]


def plan_knitted(description: Description, problems: list[Problem]) -> Plan:
    """The plan of a description with weighings after rows; `problems` are those of the description alone."""
    fresh, log = StitchTable(description), rows_weighed(description)
    least = least_count(fresh, log[-1].row)
    problems = [*problems, *_too_many(log), *_no_such_rows(fresh, log, least)]
    if mistaken(problems):
        return Plan(None, in_order(problems))
    planned, _ = count_allowed(fresh)
    lesson = _settled(fresh, None if planned is None else max(planned, least, 1), least)
    if isinstance(lesson, Problem):
        return Plan(None, in_order([*problems, lesson]))
    return _corrected(lesson, [*problems, *_still_true(lesson.found, least)])


def _settled(fresh: StitchTable, count: int | None, least: int) -> "Lesson | Problem":
    """The lesson whose own count the yarn allows with it. Where the counts go in a ring, that of its smallest."""
    lessons: dict[int | None, Lesson] = {}
    while count not in lessons and len(lessons) < ROUNDS:
        lesson = _lesson(fresh, count)
        if isinstance(lesson, Problem):
            return lesson
        lessons[count] = lesson
        if lesson.allowed is None or max(lesson.allowed, least) == 0:
            return lesson
        count = max(lesson.allowed, least)
    ring = list(lessons.values())[list(lessons).index(count) if count in lessons else -1 :]
    return min(ring, key=lambda lesson: lesson.passes or 0)


def rows_weighed(description: Description) -> list[Weighing]:
    """The weighings after rows, without the one before the cast-on."""
    return [weighing for weighing in description.log if weighing.row]


def least_count(room: StitchTable, row: int) -> int:
    """The smallest count of `as yarn allows` with which the shawl has that row; 0 where it has it, or nothing grows."""
    if growing_part(room.description) is None:
        return 0
    low, high = 0, MAX_ROWS
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if total_rows(room, middle) >= row else (middle + 1, high)
    return low


def _too_many(log: list[Weighing]) -> list[Problem]:
    if len(log) <= MOST_WEIGHINGS:
        return []
    return [known.TOO_MANY_WEIGHINGS.at(log[MOST_WEIGHINGS].span, weighings=len(log), most=MOST_WEIGHINGS)]


def _no_such_rows(room: StitchTable, log: list[Weighing], least: int) -> list[Problem]:
    """Mistakes for weighings after rows that the shawl does not have, or that no yarn could have reached."""
    rows = total_rows(room, least)
    if rows < log[-1].row:
        return [known.NO_SUCH_ROW.at(one.span, row=one.row, rows=rows) for one in log if one.row > rows]
    while least:
        accounts = _accounts(room, least)
        if not isinstance(accounts, Problem):
            return _unbelievable(accounts[0], log)
        least //= 2
    return []


def _unbelievable(accounts: Accounts, log: list[Weighing]) -> list[Problem]:
    """Weighings after rows that the skein cannot have reached, however wrong the plan's yarn is."""
    estimates = list(accounts.belief.along(accounts.full, accounts.steps))[1:]
    reached = sum(one.mean + BELIEVABLE_SDS * one.sd > 0 for one in estimates) - 1
    beyond = (one for one in log if one.row > reached)
    return [known.NO_SUCH_ROW_FOR_YARN.at(one.span, row=one.row, reached=reached) for one in beyond]


def _lesson(fresh: StitchTable, count: int | None) -> Lesson | Problem:
    """What the log teaches with that count; the problem where it cannot be worked."""
    made = _accounts(fresh, count)
    if isinstance(made, Problem):
        return made
    accounts, parts = made
    log = fresh.description.log
    heard = listen(accounts, log)
    room = StitchTable(fresh.description, learn(accounts, heard, _worked_before(fresh, parts, log[-1].row)))
    allowed, found = count_allowed(room)
    return Lesson(count, accounts, heard, room, allowed, found)


def _accounts(fresh: StitchTable, count: int | None) -> tuple[Accounts, list[Worked]] | Problem:
    """The accounts with that count and the parts as worked; the problem where they cannot be."""
    wrong = check_rows(fresh, count or 0)
    parts, problem = work(fresh, count or 0) if not wrong else ([], wrong[0])
    return problem or (accounts_of(fresh, RowYarn(fresh), parts), parts)


def _worked_before(room: StitchTable, parts: list[Worked], last: int) -> frozenset[str]:
    """The stitches of the bands begun by a row, the edges' among them."""
    names, row = set[str](), 0
    for run in (run for part in parts for run in part.section.runs):
        if row < last:
            names.add(run.stitch)
        row += run.rows
    yarn = RowYarn(room)
    return frozenset(names | ({yarn.edge_stitch} if yarn.edges else set()))


def _still_true(found: list[Problem], least: int) -> list[Problem]:
    """What is told of the count, less what the rows already knitted disprove."""
    return [problem for problem in found if not (least and problem.code == "yarn-too-short")]


def _corrected(lesson: Lesson, problems: list[Problem]) -> Plan:
    """The plan with what was learned, and how sure it now is."""
    shawl, found = computed(lesson.room, lesson.passes, [*problems, *disagreements(lesson.heard)])
    if shawl is None:
        return Plan(None, found)
    total, left = used_in_all(lesson.accounts, lesson.heard.belief)
    yarn = shawl.yarn._replace(sd_g=total.sd, chance_enough=left.chance_positive, basis=WEIGHED)
    return Plan(replace(shawl, yarn=yarn), found)
