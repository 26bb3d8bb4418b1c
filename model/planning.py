"""From a description to its plan."""

from itertools import accumulate

from halfhank.grammar.description import Description, Parsed
from halfhank.grammar.problems import MISTAKE, Problem, by_place
from halfhank.model.advice.plan_checks import check_description, check_patterns, check_rows, check_work
from halfhank.model.ends.marks import Progress, marks
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.outline import Outline
from halfhank.model.phrases import bind_off_words, start_words, summary
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import growing_part
from halfhank.model.rows.shaping import Worked
from halfhank.model.rows.worked import last_stitch, row_table, work
from halfhank.model.shawl import BindOffPlan, Plan, Shawl, Start
from halfhank.model.yarn.corrections import NOTHING, Learned
from halfhank.model.yarn.row_yarn import RowYarn, bind_off_m, part_rows_m, skein_of, start_m
from halfhank.model.yarn.stitch_table import PLAIN, StitchTable
from halfhank.model.yarn.totals import band_plans, fabrics_used, part_plans, yarn_plan


def plan_parsed(parsed: Parsed) -> Plan:
    """The plan of a parsed description, the parser's problems among its own; with a mistake nothing is computed."""
    if parsed.description is None:
        return Plan(None, in_order(parsed.problems))
    if mistaken(parsed.problems):
        return Plan(None, in_order([*parsed.problems, *check_description(parsed.description)]))
    shawl, problems = plan(parsed.description)
    return Plan(shawl, in_order([*parsed.problems, *problems]))


def plan(description: Description, learned: Learned = NOTHING) -> Plan:
    """Compute a description: rows, outline and yarn; None with the problems where a mistake is in the way.

    Weighings after a row correct the yarn; without any, `learned` does (what another log of the same shawl has taught).
    """
    problems = check_description(description)
    if mistaken(problems):
        return Plan(None, in_order(problems))
    if any(weighing.row for weighing in description.log):
        from halfhank.model.scale.plan_with_log import plan_knitted

        return plan_knitted(description, problems)
    room = StitchTable(description, learned)
    allowed, found = count_allowed(room)
    return computed(room, allowed, [*problems, *found])


def computed(room: StitchTable, allowed: int | None, problems: list[Problem]) -> Plan:
    """The plan with that count of `as yarn allows`, unless a mistake is in the way."""
    if not mistaken(problems):
        problems = [*problems, *check_rows(room, allowed or 0)]
    if mistaken(problems):
        return Plan(None, in_order(problems))
    return _computed(room, RowYarn(room), allowed, problems)


def mistaken(problems: list[Problem] | tuple[Problem, ...]) -> bool:
    """Whether there is a mistake among problems."""
    return any(problem.severity == MISTAKE for problem in problems)


def in_order(problems: list[Problem] | tuple[Problem, ...]) -> tuple[Problem, ...]:
    """By place, those of the description as a whole last, each said once."""
    return tuple(sorted(dict.fromkeys(problems), key=by_place))


def count_allowed(room: StitchTable) -> tuple[int | None, list[Problem]]:
    """The count of `as yarn allows`, and what is to be told of it."""
    if growing_part(room.description) is None:
        return None, []
    from halfhank.model.ends.sequences import check_even_sequence
    from halfhank.model.rows.allowance import allowance

    allowed, problems = allowance(room, RowYarn(room), skein_of(room.description, room.learned))
    return allowed, [*problems, *check_even_sequence(room.description)]


def _computed(room: StitchTable, yarn: RowYarn, allowed: int | None, problems: list[Problem]) -> Plan:
    parts, problem = work(room, allowed or 0)
    if problem:
        return Plan(None, in_order([*problems, problem]))
    at = progress_of(room, yarn, parts)
    rows = row_table(room, parts)
    outline = outline_of(room, parts, rows)
    if isinstance(outline, Problem):
        return Plan(None, in_order([*problems, outline]))
    found = in_order([*problems, *check_work(at), *check_patterns(room, parts, rows), *outline.problems])
    return Plan(_shawl(at, rows, outline, allowed, found), found)


def progress_of(room: StitchTable, yarn: RowYarn, parts: list[Worked]) -> Progress:
    """The worked parts with the yarn of every row and of the whole."""
    used_m = list(accumulate((metres for part in parts for metres in part_rows_m(yarn, part)), initial=start_m(room)))
    total_m = used_m[-1] + bind_off_m(room, last_stitch(parts)) * parts[-1].end
    return Progress(room, yarn, skein_of(room.description, room.learned), parts, used_m, total_m)


def outline_of(room: StitchTable, parts: list[Worked], rows: Rows) -> Outline | Problem:
    """Where the rows lie; `rows` may end before the parts do."""
    from halfhank.model.outline import lay_out

    shape = room.description.shape
    openwork = [False]
    for run in (run for part in parts for run in part.section.runs):
        material = room[run.stitch]
        openwork.extend([material.fabric.texture != PLAIN] * run.rows)
    turned = room.description.turn_back is not None
    bearing = tuple(openwork[: rows.count + 1])
    return lay_out(Layout(shape.name.value, shape.name.span, rows, bearing, turned, shape.pinned))


def _shawl(at: Progress, rows: Rows, outline: Outline, allowed: int | None, problems: tuple[Problem, ...]) -> Shawl:
    description, end = at.room.description, at.parts[-1].end
    off = description.bind_off
    gram = at.skein.metres_per_gram
    return Shawl(
        description=description,
        title=description.title.value,
        summary=summary(description, outline),
        shape=description.shape.name.value,
        units=description.units,
        needles_mm=description.needles.cm * 10,
        rows=rows,
        fabrics=fabrics_used(at),
        bands=tuple(band_plans(at)),
        parts=tuple(part_plans(at)),
        start=Start(description.shape.start.stitches, start_words(description.shape.start)),
        bind_off=BindOffPlan(off.method if off else "standard", bind_off_words(off), end, at.total_m - at.used_m[-1]),
        yarn=yarn_plan(at),
        used_g=tuple(metres / gram for metres in at.used_m),
        marks=marks(at),
        outline=outline,
        allowed=allowed,
        problems=problems,
    )
