"""All rows of a shawl as a report: one a line, neighbours that are alike on one line, from the start to the bind-off.

This is the form that a knitter reads row by row, and that a program can knit.
"""

from collections.abc import Iterator
from itertools import groupby

from halfhank.grammar.description import WholeRow
from halfhank.model.instructions.rows.bind_off_row import bind_off_row
from halfhank.model.instructions.rows.every_row import InstructedRow, every_row
from halfhank.model.instructions.rows.row_notation import notation
from halfhank.model.instructions.rows.terms import explained
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, Paragraph, Report, ReportSection, Value
from halfhank.model.stitch_counts.bare_items import NOWHERE
from halfhank.model.words.catalogue import said, say

_KNIT = WholeRow("knit", NOWHERE)


def rows_report(plan: Plan) -> Report:
    """The whole of it, one section after the other."""
    title = Paragraph((plan.shawl.title,))
    return Report(None, (title, *_abbreviations(plan), _start(plan), *_parts(plan), _bind_off(plan)))


def _section(heading: str, lines: list[Content]) -> ReportSection:
    return ReportSection(heading, (ListBlock(tuple(map(ListItem, lines))),))


def _abbreviations(plan: Plan) -> Iterator[ReportSection]:
    """Every term of the lines, alphabetically; no section where there are none."""
    found = explained(item for row in every_row(plan) for item in row.items) | bind_off_row(plan).terms
    found |= {_side(wrong): say("item.WS") if wrong else say("item.RS") for wrong in _sides(plan)}
    ordered = sorted(found.items(), key=lambda term: (term[0].casefold(), term[0]))
    items = tuple(ListItem(words, lead=term) for term, words in ordered)
    if items:
        yield ReportSection(said("every-row.abbreviations"), (ListBlock(items),))


def _side(wrong_side: bool) -> str:
    return said("every-row.wrong") if wrong_side else said("every-row.right")


def _sides(plan: Plan) -> set[bool]:
    """The sides that are printed: whether it is the wrong one."""
    found = {rows[0].wrong_side for part in _groups(plan) for rows in part if len(rows) == 1}
    found |= {True} if plan.design.start.tab else set()
    return found | ({_bind_off_side(plan)} if bind_off_row(plan).notation else set())


def _bind_off_side(plan: Plan) -> bool:
    return not every_row(plan)[-1].wrong_side


def _groups(plan: Plan) -> list[list[list[InstructedRow]]]:
    """The rows of each part, neighbours that are alike together."""
    rows = every_row(plan)
    parts = [rows[part.first_row - 1 : part.last_row] for part in plan.shawl.parts]
    return [[list(alike) for _, alike in groupby(part, lambda row: (row.items, row.stitches))] for part in parts]


def _sts(count: int) -> Value:
    """A count as rows have it, where a comma would be read as the end of an item."""
    return Value(f"{count} {'st' if count == 1 else 'sts'}", count, "sts")


def _start(plan: Plan) -> ReportSection:
    start, heading = plan.design.start, said("every-row.start")
    if not start.tab:
        return _section(heading, [say("start.cast-on", stitches=_sts(start.stitches))])
    cast_on, rows = start.tab
    return _section(
        heading,
        [
            say("start.cast-on", stitches=_sts(cast_on)),
            say("every-row.knit-tab", rows=rows),
            say("start.pick-up", ridges=rows // 2, along=_sts(cast_on), stitches=_sts(start.stitches)),
            say("every-row.set-up-row", items=notation([_KNIT]), stitches=_sts(start.stitches)),
        ],
    )


def _parts(plan: Plan) -> Iterator[ReportSection]:
    for number, (part, groups) in enumerate(zip(plan.shawl.parts, _groups(plan), strict=True), 1):
        yield _section(said("every-row.part", number=number, name=part.name), list(map(_line, groups)))


def _line(rows: list[InstructedRow]) -> Content:
    first, last = rows[0], rows[-1]
    items, stitches = notation(first.items), _sts(first.stitches)
    if first is last:
        return say("every-row.row", row=_row(first.row), side=_side(first.wrong_side), items=items, stitches=stitches)
    return say("every-row.rows", first=_row(first.row), last=_row(last.row), items=items, stitches=stitches)


def _row(number: int) -> Value:
    return Value(f"{number}", number, "row")


def _bind_off(plan: Plan) -> ReportSection:
    off, side = bind_off_row(plan), _side(_bind_off_side(plan))
    lines = [say("every-row.any-bind-off")] if off.any_method else []
    if off.notation:
        lines.append(say("every-row.bind-off-row", side=side, items=off.notation, stitches=_sts(off.stitches)))
    lines.append(say("every-row.cut", count=Value(f"{off.stitches}", off.stitches, "sts")))
    return _section(said("every-row.bind-off"), lines)
