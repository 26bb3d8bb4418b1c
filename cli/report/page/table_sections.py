"""The tables of a page: the parts, the checkpoints to tick off, the shawl from other skeins."""

from halfhank.cli.report.checkpoint_report import checkpoint_report
from halfhank.cli.report.figures import M_IN_YARD
from halfhank.cli.report.plan_tables.band_tables import part_table
from halfhank.cli.report.skein_report import skein_report
from halfhank.model.plan import Plan
from halfhank.model.planning.skeins import skein_plans
from halfhank.model.report_tree import (
    Paragraph,
    ReportBlock,
    ReportSection,
    Table,
    TableColumn,
)
from halfhank.model.words.catalogue import said, say

_SHARES = (0.8, 0.9, 1.1, 1.2)
"""Beside the shawl's own skein stand those of so much of its length."""
_ROUND = 10
_MOST_COLUMNS = 6
"""In large print a table has no more."""


def parts_block(plan: Plan) -> Table:
    """A line for each part."""
    return part_table(plan.shawl)._replace(caption=say("page.parts"))


def checkpoint_section(plan: Plan, large: bool) -> ReportSection:
    """What the scale should show, with room for the weight and a box to tick; in large print without the stitches."""
    table = next(block for block in checkpoint_report(plan, None).blocks if isinstance(block, Table))
    headings = {"row": said("page.after-row"), "after": said("page.worked"), "": said("page.done")}
    columns = tuple(_renamed(column, headings) for column in table.columns)
    noted = table._replace(columns=columns, caption=say("page.checkpoints-caption"))
    if large:
        noted = _without(noted, "sts")
    return ReportSection(said("page.checkpoints"), (Paragraph(say("page.checkpoints-note")), noted))


def _without(table: Table, heading: str) -> Table:
    kept = [place for place, column in enumerate(table.columns) if column.heading != heading]
    rows = tuple(tuple(row[place] for place in kept) for row in table.rows)
    return table._replace(columns=tuple(table.columns[place] for place in kept), rows=rows)


def _renamed(column: TableColumn, headings: dict[str, str]) -> TableColumn:
    return column._replace(heading=headings.get(column.heading, column.heading))


def skein_section(plan: Plan, large: bool) -> ReportSection:
    """The shawl from shorter and longer skeins; in large print in more than one table."""
    names, lengths = zip(*_skeins(plan), strict=True)
    table, *rest = skein_report(plan, skein_plans(plan, list(lengths)), list(names)).blocks
    assert isinstance(table, Table)
    captioned = table._replace(caption=say("page.skeins-caption"))
    tables: tuple[ReportBlock, ...] = _in_pieces(captioned, _MOST_COLUMNS) if large else (captioned,)
    return ReportSection(said("page.skeins"), (*rest, *tables))


def _skeins(plan: Plan) -> list[tuple[str, float]]:
    """The lengths in 100 g, in the unit that leads, round but for the shawl's own."""
    unit, metres_in = ("yd", M_IN_YARD) if plan.shawl.units == "in" else ("m", 1.0)
    own = 100 * plan.shawl.skein.label_m / plan.shawl.skein.label_g
    figures = [_round(share * own / metres_in) for share in _SHARES]
    return list({f"{figure:.0f} {unit}": figure * metres_in for figure in sorted([*figures, own / metres_in])}.items())


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
