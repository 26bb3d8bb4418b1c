"""The tables of a page: the parts, the shawl from other skeins."""

from halfhank.cli.report.figures import M_IN_YARD, grams, grams_left, number_of, share
from halfhank.cli.report.page.page_head import label_mass
from halfhank.cli.report.plan_tables.band_tables import part_table, same_count
from halfhank.cli.report.skein_report import skein_report
from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import half_up
from halfhank.model.plan import Plan
from halfhank.model.planning.skeins import SkeinPlan, skein_plans
from halfhank.model.report_tree import (
    Content,
    Paragraph,
    ReportBlock,
    ReportSection,
    Table,
    TableCells,
    TableColumn,
    Value,
    cells,
    content,
)
from halfhank.model.words.catalogue import said, say
from halfhank.model.words.drawn_words import phrase_of

_SHARES = (0.8, 0.9, 1.1, 1.2)
"""Beside the shawl's own skein stand those of so much of its length."""
_ROUND = 10
_MOST_COLUMNS = 5
"""In large print a table has no more."""


class Skein(NamedTuple):
    """A skein of so many `metres`, as it is `shown`; `is_own`: the pattern's own."""

    shown: Value
    metres: float
    is_own: bool


def parts_block(plan: Plan) -> Table:
    """A line for the start, for each part, for the bind-off, those that show no yarn left out, and for all of it."""
    table, yarn, counted = part_table(plan.shawl), plan.shawl.yarn, not same_count(plan.shawl)

    def line(words: str, stitches: Content, used_g: float, left: Content) -> TableCells:
        counts = (stitches,) if counted else ()
        return cells(words, "", *counts, grams(used_g), share(used_g / yarn.total_g), left)

    live = (number_of(plan.shawl.start.stitches, "sts"),)
    start = line(said("page.part-start"), live, yarn.start_g, grams_left(yarn.skein_g - yarn.start_g))
    end = line(said("page.part-bind-off"), (), yarn.bind_off_g, grams_left(yarn.left_g))
    whole = line(said("page.part-all"), (), yarn.total_g, ())
    starts, ends = ((one,) if half_up(mass, 1) else () for one, mass in ((start, yarn.start_g), (end, yarn.bind_off_g)))
    return Table(table.columns, (*starts, *table.rows, *ends, whole), say("page.parts"))


def skein_section(plan: Plan, large: bool) -> ReportSection:
    """The shawl from shorter and longer skeins of the same mass; in large print in more than one table."""
    skeins = _skeins(plan)
    found = skein_plans(plan, [100 * one.metres / plan.shawl.skein.label_g for one in skeins])
    table, *_ = skein_report(plan, found, [str(one.shown) for one in skeins]).blocks
    assert isinstance(table, Table)
    lines = zip(skeins, found, table.rows, strict=True)
    rows = tuple(_line(plan, skein, one, row, table.columns) for skein, one, row in lines)
    captioned = _without_size(plan, Table(_page_columns(plan, table.columns), rows, say("page.skeins-caption")))
    tables: tuple[ReportBlock, ...] = _in_pieces(captioned, _MOST_COLUMNS) if large else (captioned,)
    return ReportSection(said("page.skeins"), (Paragraph(_skeins_note(plan)), *tables))


def _skeins_note(plan: Plan) -> Content:
    note = say("page.skeins-note", margin=grams(plan.shawl.yarn.keep_g))
    return content(note, " ", *say("page.skeins-pinned")) if plan.shawl.outline.pinned else note


def _page_columns(plan: Plan, columns: tuple[TableColumn, ...]) -> tuple[TableColumn, ...]:
    """The columns with the page's headings."""
    headings = {
        said("column.in-100-g"): said("page.skein-length", mass=label_mass(plan.shawl.skein)),
        said("column.stitches-in-all"): said("page.skein-stitches"),
        said("column.wingspan"): said("page.skein-size"),
        said("column.at-half"): said("page.skein-half"),
    }
    return tuple(one._replace(heading=headings.get(one.heading, one.heading)) for one in columns)


def _line(plan: Plan, skein: Skein, found: SkeinPlan, row: TableCells, columns: tuple[TableColumn, ...]) -> TableCells:
    """A skein's line: the pattern's own is marked, and so is yarn that is not enough or less than the margin."""
    named = content(skein.shown, *(say("page.skein-own") if skein.is_own else ()))
    if found.shawl is None:
        return (named, *row[1:])
    left_g, size = found.shawl.yarn.left_g, [one.heading for one in columns].index(said("column.wingspan"))
    last, short = row[-1], half_up(left_g, 1) < 0
    if short:
        row = (*row[:size], say("page.skein-short"), *row[size + 1 :])
    elif half_up(left_g, 1) < half_up(found.shawl.yarn.keep_g, 1):
        last = content(*last, *say("page.skein-below"))
    return (named, *row[1:-1], last)


def _without_size(plan: Plan, table: Table) -> Table:
    """The table, without sizes where each is that to which the shawl is pinned."""
    if not plan.shawl.outline.pinned:
        return table
    kept = [place for place, one in enumerate(table.columns) if one.heading != said("page.skein-size")]
    rows = tuple(tuple(row[place] for place in kept) for row in table.rows)
    return table._replace(columns=tuple(table.columns[place] for place in kept), rows=rows)


def _skeins(plan: Plan) -> list[Skein]:
    """Lengths of a skein of this mass, in the unit that leads, round but for the shawl's own."""
    unit, metres_in = ("yd", M_IN_YARD) if plan.shawl.units == "in" else ("m", 1.0)
    own = plan.shawl.skein.label_m / metres_in
    figures = {_round(share * own): False for share in _SHARES} | {own: True}
    return [
        Skein(Value(phrase_of("measure", unit, number=f"{one:.0f}"), one, unit), one * metres_in, figures[one])
        for one in sorted(figures)
    ]


def _round(figure: float) -> float:
    """To tens, but at least to one."""
    return max(_ROUND * round(figure / _ROUND), 1)


def _in_pieces(table: Table, most: int) -> tuple[Table, ...]:
    """The table in pieces of at most so many columns, each with the first one."""
    starts = range(1, len(table.columns), most - 1)
    return tuple(
        Table(
            (table.columns[0], *table.columns[start : start + most - 1]),
            tuple((row[0], *row[start : start + most - 1]) for row in table.rows),
            say("page.piece", caption=table.caption, number=number, count=len(starts)),
        )
        for number, start in enumerate(starts, 1)
    )
