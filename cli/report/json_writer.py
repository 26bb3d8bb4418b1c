"""Reports as plain data for other programs, and back; README.md beside this module lists the members.

What `plan --json` and `check --json` print is older and of its own form: `halfhank.cli.report.json_contracts`.
"""

import math
from typing import Any

from halfhank.grammar.problems.problem import Edit, Problem, Span
from halfhank.model.report_tree import (
    Content,
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    ProblemNote,
    Report,
    ReportBlock,
    ReportSection,
    Table,
    TableColumn,
    Value,
    Verbatim,
)

FORMAT = 1

Json = dict[str, Any]


def report_json(report: Report) -> Json:
    """The report as dicts, lists, words and numbers."""
    return {"format": FORMAT, "title": report.title, "blocks": [_block(block) for block in report.blocks]}


def _block(block: ReportBlock) -> Json:
    match block:
        case Paragraph(text, lead):
            return {"kind": "paragraph", "lead": lead, "text": _text(text)}
        case ListBlock(items):
            return {"kind": "list", "items": [_item(item) for item in items]}
        case Table(columns, rows, caption):
            lines = [[_text(cell) for cell in row] for row in rows]
            headings = [column._asdict() for column in columns]
            return {"kind": "table", "columns": headings, "rows": lines, "caption": _text(caption)}
        case Figure(drawing, caption):
            return {"kind": "figure", "drawing": drawing, "caption": _text(caption)}
        case Verbatim(lines):
            return {"kind": "verbatim", "lines": list(lines)}
        case ProblemNote(problem, path, source):
            return {"kind": "problem", "path": path, "source": source, **_problem(problem)}
        case ReportSection(heading, blocks):
            return {"kind": "section", "heading": heading, "blocks": [_block(block) for block in blocks]}


def _item(item: ListItem) -> Json:
    return {"lead": item.lead, "text": _text(item.text), "below": [_item(one) for one in item.below]}


def _text(text: Content) -> list[str | Json]:
    return [_value(piece) if isinstance(piece, Value) else piece for piece in text]


def _value(value: Value) -> Json:
    """JSON has no infinity: such a number is null."""
    return {**value._asdict(), "number": value.number if math.isfinite(value.number) else None}


def _problem(problem: Problem) -> Json:
    span, edit = problem.span, problem.edit
    plain = {"span": edit.span._asdict(), "text": edit.text} if edit else None
    return {**problem._asdict(), "span": span._asdict() if span else None, "edit": plain}


def read_report(data: Json) -> Report:
    """The report that `report_json` made plain. Raises `ValueError` for another format or an unknown kind of block."""
    if data["format"] != FORMAT:
        raise ValueError(f"a report of format {data['format']}, not {FORMAT}")
    return Report(data["title"], _read_blocks(data))


def _read_blocks(data: Json) -> tuple[ReportBlock, ...]:
    return tuple(map(_read_block, data["blocks"]))


def _read_block(data: Json) -> ReportBlock:
    match data["kind"]:
        case "paragraph":
            return Paragraph(_read_text(data["text"]), data["lead"])
        case "list":
            return ListBlock(tuple(map(_read_item, data["items"])))
        case "table":
            columns = tuple(TableColumn(**column) for column in data["columns"])
            rows = tuple(tuple(map(_read_text, row)) for row in data["rows"])
            return Table(columns, rows, _read_text(data["caption"]))
        case "figure":
            return Figure(data["drawing"], _read_text(data["caption"]))
        case "verbatim":
            return Verbatim(tuple(data["lines"]))
        case "problem":
            return ProblemNote(_read_problem(data), data["path"], data["source"])
        case "section":
            return ReportSection(data["heading"], _read_blocks(data))
    raise ValueError(f"a block of unknown kind {data['kind']!r}")


def _read_item(data: Json) -> ListItem:
    return ListItem(_read_text(data["text"]), tuple(map(_read_item, data["below"])), data["lead"])


def _read_text(data: list[str | Json]) -> Content:
    return tuple(piece if isinstance(piece, str) else _read_value(piece) for piece in data)


def _read_value(data: Json) -> Value:
    return Value(data["words"], math.nan if data["number"] is None else data["number"], data["unit"])


def _read_problem(data: Json) -> Problem:
    fields = {name: data[name] for name in Problem._fields}
    span, edit = data["span"], data["edit"]
    read = Edit(Span(**edit["span"]), edit["text"]) if edit else None
    return Problem(**{**fields, "span": Span(**span) if span else None, "edit": read})
