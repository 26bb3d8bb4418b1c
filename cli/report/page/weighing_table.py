"""The checkpoints of a page, to tick off: at most so many that they stand on one sheet, and all that decide."""

import math
from collections.abc import Iterator

from halfhank.cli.report.checkpoint_report import checkpoint_table, checkpoints_shown
from halfhank.cli.report.figures import tenths
from halfhank.model.instructions.ending.weigh_points import deciding_rows
from halfhank.model.instructions.parts.worked_blocks import blocks_of
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Paragraph, ReportSection, Table, TableCells, TableColumn, content
from halfhank.model.weighings.checkpoints import Checkpoint, checkpoints
from halfhank.model.words.catalogue import said, say

MOST_LINES = 30
_WORKED, _RANGE = 2, 4
"""The columns that say what was worked, and in which range the weight is."""


def checkpoint_section(plan: Plan, large: bool) -> ReportSection:
    """What the scale should show, with room for the weight and a box to tick; in large print without the stitches."""
    points = page_points(plan)
    table = checkpoint_table(plan.shawl, points)
    headings = {
        said("column.row"): said("page.after-row"),
        said("column.after"): said("page.worked"),
        "": said("page.done"),
    }
    columns = tuple(_renamed(column, headings) for column in table.columns)
    rows = tuple(
        _with_range(plan, point, (*row[:_WORKED], _noted(plan, point.row, row[_WORKED]), *row[_WORKED + 1 :]))
        for point, row in zip(points, table.rows, strict=True)
    )
    noted = Table(columns, rows, say("page.checkpoints-caption"))
    return ReportSection(
        said("page.checkpoints"),
        (Paragraph(_note(plan, points)), _without(noted, said("column.stitches")) if large else noted),
    )


def page_points(plan: Plan) -> list[Checkpoint]:
    """The start, the ends of parts, where the weight decides, half of the yarn, and what was weighed; then as many ends
    of repeats and of bands as there is room for."""
    shown, every = {point.row for point in checkpoints_shown(plan, None)}, checkpoints(plan, 1)
    rows = {0, *(part.last_row for part in plan.shawl.parts), *plan.once(deciding_rows)}
    rows |= {point.row for point in every if point.weighed_g is not None} | _half(plan)
    for others in ({*_repeat_ends(plan)} & shown, shown):
        rows |= {*_thinned(sorted(others - rows), MOST_LINES - len(rows))}
    return [point for point in every if point.row in rows]


def _thinned(rows: list[int], most: int) -> list[int]:
    """Rows at even steps, at most so many."""
    return rows[:: math.ceil(len(rows) / most)] if rows and most > 0 else []


def _half(plan: Plan) -> set[int]:
    half = plan.shawl.marks.halfway
    return {half.row} if half else set()


def _repeat_ends(plan: Plan) -> Iterator[int]:
    for part in plan.parts:
        for block in blocks_of(plan, part):
            yield from (turn.last_row for turn in block.turns if block.repeated)


def _noted(plan: Plan, row: int, worked: Content) -> Content:
    """What was worked, and what this weighing is for."""
    words = [worked] if worked else []
    words += [say("page.half-here")] if row in _half(plan) else []
    words += [say("page.decide-here")] if row in plan.once(deciding_rows) else []
    return content(*(piece for place, one in enumerate(words) for piece in (("; " if place else ""), one)))


def _with_range(plan: Plan, point: Checkpoint, row: TableCells) -> TableCells:
    """The row, its range in grams alone where the label is in ounces: two units have no room there."""
    if plan.shawl.skein.unit == "g":
        return row
    low, high = tenths(point.reading.low), tenths(point.reading.high)
    return (*row[:_RANGE], say("page.gram-range", low=low, high=high), *row[_RANGE + 1 :])


def _note(plan: Plan, points: list[Checkpoint]) -> Content:
    """What the range means, and why it may begin above what the label says."""
    skein = plan.shawl.skein
    above = skein.weighed_g is None and any(point.reading.high > skein.label_g for point in points)
    return content(say("page.checkpoints-note"), *([" ", *say("page.checkpoints-above")] if above else []))


def _without(table: Table, heading: str) -> Table:
    kept = [place for place, column in enumerate(table.columns) if column.heading != heading]
    rows = tuple(tuple(row[place] for place in kept) for row in table.rows)
    return table._replace(columns=tuple(table.columns[place] for place in kept), rows=rows)


def _renamed(column: TableColumn, headings: dict[str, str]) -> TableColumn:
    return column._replace(heading=headings.get(column.heading, column.heading))
