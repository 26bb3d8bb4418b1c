"""From a design to its plan with a given count of `as yarn allows`."""

from collections.abc import Iterable
from itertools import pairwise

from halfhank.grammar.problems.problem import MISTAKE, Problem, by_place
from halfhank.model.checks.design_checks import check_rows, has_patterns
from halfhank.model.checks.shape_advice import Piece, check_shape
from halfhank.model.checks.work_checks import check_work
from halfhank.model.design.band_walk import growing_part
from halfhank.model.design.design import Design
from halfhank.model.marks_and_stops.allowance_words import allowance_words
from halfhank.model.marks_and_stops.marks import marks
from halfhank.model.outline.laying import outline_of
from halfhank.model.outline.outline import Outline
from halfhank.model.phrases import summary
from halfhank.model.plan import Made, Plan, Planned
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.rows.worked import row_table, work
from halfhank.model.shawl import BindOffPlan, Shawl, SkeinMass, Start
from halfhank.model.start_and_bind_off.bind_offs import bind_off_words
from halfhank.model.start_and_bind_off.starts import start_words
from halfhank.model.yarn.ledger import Amounts, Ledger, errors_of, ledger_of
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import supply_of
from halfhank.model.yarn.totals import band_plans, fabrics_used, part_plans, yarn_plan
from halfhank.model.yarn.uncertainty import ROOTS
from halfhank.model.yarn.working import Working


def mistaken(problems: Iterable[Problem]) -> bool:
    """Whether there is a mistake among problems."""
    return any(problem.severity == MISTAKE for problem in problems)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """By place, those of the description as a whole last, each said once."""
    return tuple(sorted(dict.fromkeys(problems), key=by_place))


def not_planned(problems: Iterable[Problem]) -> Planned:
    """What planning gives back where a mistake is in the way.

    Advice is left out: what a mistake takes out of the description may be all that it is about.
    """
    return Planned(None, in_order(problem for problem in problems if problem.severity == MISTAKE))


def count_allowed(table: StitchTable) -> tuple[int | None, list[Problem]]:
    """The count of `as yarn allows`, and the problems of it."""
    design = table.design
    if growing_part(design) is None:
        return None, []
    from halfhank.model.marks_and_stops.sequences import check_even_sequence
    from halfhank.model.yarn.allowance import allowance

    allowed, problems = allowance(RowYarn(table), supply_of(design, table.corrections))
    return allowed, [*problems, *check_even_sequence(table.measures)]


class Uncorrected:
    """A design worked with one count, its stitches and ledger as they are known before any row is weighed.

    `rows`: the table of its rows, where it is there already.
    """

    def __init__(
        self, table: StitchTable, allowed: int | None, parts: list[WorkedPart], rows: Rows | None = None
    ) -> None:
        self.table, self.allowed, self.parts, self.rows = table, allowed, parts, rows
        self.ledger: Ledger = ledger_of(RowYarn(table), parts)


def uncorrected(table: StitchTable, allowed: int | None) -> Uncorrected | Problem:
    """The design worked with that count; the problem where it cannot be."""
    wrong = check_rows(table.design, allowed or 0)
    if wrong:
        return wrong[0]
    parts, problem = work(table.design, allowed or 0)
    return problem or Uncorrected(table, allowed, parts)


def corrected_ledger(worked: Uncorrected, table: StitchTable) -> Ledger:
    """The ledger with the corrections of a table of the same stitches."""
    scaled = worked.ledger.scaled(lambda use: table.corrections.factor(errors_of(table, use)))
    past_m, planned = table.corrections.past_m, list(worked.ledger.entries)
    if not any(past_m):
        return scaled
    more_m = [past_m[0], *(after - before for before, after in pairwise(past_m))]
    start, *rows = [_with_past(table, *one) for one in zip(scaled.entries, planned, more_m, strict=False)]
    return Ledger(start, (*rows, *scaled.rows[len(rows) :]), scaled.bind_off)


def _with_past(table: StitchTable, amounts: Amounts, planned: Amounts, more_m: float) -> Amounts:
    """What a row of other tension took beyond its correction, shared by all that is drawn at that tension."""
    drifting = {
        use: metres for use, metres in planned.items() if any(error.kind in ROOTS for error in errors_of(table, use))
    }
    whole = sum(drifting.values())
    return {
        use: metres + (more_m * drifting.get(use, 0.0) / whole if whole else 0.0) for use, metres in amounts.items()
    }


def computed(worked: Uncorrected, table: StitchTable, problems: list[Problem], made: Made | None = None) -> Planned:
    """The plan of a worked design, its yarn as the table's corrections have it."""
    corrected = table is not worked.table
    ledger = corrected_ledger(worked, table) if corrected else worked.ledger
    working = Working(RowYarn(table), worked.parts, ledger, supply_of(table.design, table.corrections))
    rows = worked.rows or row_table(table.measures, worked.parts)
    outline = outline_of(table, worked.parts, rows)
    if isinstance(outline, Problem):
        return not_planned([*problems, outline])
    fit = _check_fit(table, worked.parts, rows)
    whole = check_shape(Piece(table.design, worked.parts, rows, outline))
    found = in_order([*problems, *check_work(working), *fit, *outline.problems, *whole])
    shawl = _shawl(working, rows, outline, worked.allowed, found)
    return Planned(Plan(working, worked.table, worked.ledger, shawl, made), found)


def _check_fit(table: StitchTable, parts: list[WorkedPart], rows: Rows) -> list[Problem]:
    """How the stitches' written rows fit into the rows of the shawl."""
    if not has_patterns(table.measures):
        return []
    from halfhank.model.checks.pattern_review import review_fit

    return list(review_fit(table.measures, parts, rows))


def _shawl(working: Working, rows: Rows, outline: Outline, allowed: int | None, problems: tuple[Problem, ...]) -> Shawl:
    design, end = working.design, working.parts[-1].end
    gram = working.supply.metres_per_gram
    return Shawl(
        title=design.title,
        summary=summary(design, outline),
        remarks=design.remarks,
        shape=design.shape.name,
        units=design.units,
        needles_mm=design.needles_cm * 10,
        rows=rows,
        fabrics=fabrics_used(working),
        bands=tuple(band_plans(working)),
        parts=tuple(part_plans(working)),
        start=Start(design.start.stitches, start_words(design.start)),
        bind_off=BindOffPlan(
            design.bind_off.method, bind_off_words(design.bind_off), end, working.total_m - working.used_m[-1]
        ),
        yarn=yarn_plan(working),
        used_g=tuple(metres / gram for metres in working.used_m),
        marks=marks(working),
        outline=outline,
        allowed=allowed,
        allowance_words=allowance_words(working.table.measures, allowed),
        problems=problems,
        skein=_skein(design),
    )


def _skein(design: Design) -> SkeinMass:
    yarn, start = design.yarn, design.weighed_start
    weighed_g = start.mass_g if start else None
    return SkeinMass(yarn.skein_g, yarn.skein_m, weighed_g, bool(design.weighed_rows), yarn.mass_unit)
