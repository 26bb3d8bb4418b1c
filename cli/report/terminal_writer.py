"""Reports as plain text: for a terminal of any width, or for a file."""

import sys
from collections.abc import Callable, Iterable

from halfhank.cli import terminal
from halfhank.cli.report.table_lines import GAP, paragraph, table_lines
from halfhank.cli.terminal import Emphasis, safe
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.excerpt import problem_lines
from halfhank.model.report_tree import (
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    ProblemNote,
    Report,
    ReportBlock,
    ReportSection,
    Table,
    Verbatim,
    words_of,
)

WIDEST_TEXT, WIDEST_TABLE = 100, 140
"""Columns that are filled on the widest terminal."""
_NARROWEST = 24
_LEAD, _LEAD_PART = 12, 3
_INDENT = "  "


class TextLayout(NamedTuple):
    """Columns that tables, paragraphs and the title may take (None: all that they need), and how emphasis is written.

    `escape` makes safe what a file has brought in.
    """

    tables: int | None = None
    paragraphs: int | None = None
    title: int | None = None
    emphasis: Emphasis = Emphasis(False)
    escape: Callable[[str], str] = safe


UNBROKEN = TextLayout()
"""Every paragraph on one line, without colour."""
FILE_LAYOUT = TextLayout(escape=str)
"""For a file, which may hold what the description holds."""


def text_layout(room: int | None, widest: int = WIDEST_TEXT, colour: bool = False) -> TextLayout:
    """For a terminal of `room` columns; None where there is none: then tables are as wide as they get.

    A title is broken where nothing may be wider than a text.
    """
    tables = None if room is None else max(_NARROWEST, min(room, widest))
    paragraphs = min(tables or WIDEST_TEXT, WIDEST_TEXT)
    return TextLayout(tables, paragraphs, paragraphs if widest == WIDEST_TEXT else None, Emphasis(colour))


def standard_output(widest: int = WIDEST_TEXT) -> TextLayout:
    """For whatever standard output is: a terminal and its width, or none."""
    return text_layout(terminal.columns(sys.stdout), widest, terminal.wants_colour(sys.stdout))


def report_text(report: Report, layout: TextLayout) -> str:
    """The report in lines, each ending with a line feed."""
    return "".join(f"{line}\n" for line in _report(report, layout))


def _report(report: Report, layout: TextLayout) -> list[str]:
    title: list[str] = []
    if report.title is not None:
        title = paragraph("", layout.escape(report.title), 0, layout.title)
    return _stacked(map(layout.emphasis.bold, title), report.blocks, 0, layout)


def _stacked(heading: Iterable[str], blocks: tuple[ReportBlock, ...], depth: int, layout: TextLayout) -> list[str]:
    """Blocks under a heading, an empty line between those that do not belong together."""
    lines, lead = list(heading), _lead_columns(blocks, layout)
    for index, block in enumerate(blocks):
        if index and not _close(blocks[index - 1], block):
            lines.append("")
        lines += _block(block, depth, lead, layout)
    return lines


def _lead_columns(blocks: tuple[ReportBlock, ...], layout: TextLayout) -> int:
    """What leads take before the texts of facts: as much as the longest, where a line has room for it."""
    leads = [layout.escape(block.lead) for block in blocks if isinstance(block, Paragraph) and block.lead]
    columns = max(map(terminal.width, leads), default=0) + len(GAP)
    return columns if layout.paragraphs is None or _LEAD_PART * columns <= layout.paragraphs else _LEAD


def _close(above: ReportBlock, below: ReportBlock) -> bool:
    """Whether one block stands right below the other: facts do, and anything below a problem."""
    facts = isinstance(above, Paragraph) and isinstance(below, Paragraph) and bool(above.lead and below.lead)
    return facts or isinstance(above, ProblemNote)


def _block(block: ReportBlock, depth: int, lead_columns: int, layout: TextLayout) -> list[str]:
    match block:
        case Paragraph(text, lead):
            words = layout.escape(words_of(text))
            return paragraph(layout.escape(lead or ""), words, lead_columns if lead else 0, layout.paragraphs)
        case ListBlock(items):
            return _items(items, depth, layout)
        case Table():
            caption = layout.escape(words_of(block.caption))
            above = paragraph("", caption, 0, layout.paragraphs) if caption else []
            return [*above, *table_lines(block, layout.tables, layout.emphasis, layout.escape)]
        case Figure(_, caption):
            return paragraph("", f"[{layout.escape(words_of(caption))}]", 0, layout.paragraphs)
        case Verbatim(lines):
            return list(map(layout.escape, lines))
        case ProblemNote(problem, path, source):
            return problem_lines(problem, source, path, layout.emphasis.colour)
        case ReportSection(heading, blocks):
            return _stacked([layout.emphasis.bold(layout.escape(heading))], blocks, depth + 1, layout)


def _items(items: tuple[ListItem, ...], depth: int, layout: TextLayout) -> list[str]:
    """Lines of a list; in a section, and below another line, they are set in."""
    lines = []
    for item in items:
        words = f"{item.lead}: {words_of(item.text)}" if item.lead else words_of(item.text)
        lines += paragraph(_INDENT * depth, layout.escape(words), len(_INDENT) * depth, layout.paragraphs)
        lines += _items(item.below, depth + 1, layout)
    return lines
