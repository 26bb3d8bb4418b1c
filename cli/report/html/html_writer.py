"""Reports as HTML: any tree becomes a tree of elements, in the order in which it is read.

Every text goes in as a text of the tree, so that nothing that a description holds can become an element.
"""

from collections.abc import Callable, Iterable, Mapping
from itertools import groupby, pairwise

from halfhank.cli.report.html.elements import Element, new_element
from halfhank.cli.report.html.html_text import held, html_text, set_words
from halfhank.cli.report.html.tick_boxes import tick_box
from halfhank.grammar.source_text.excerpt import problem_lines
from halfhank.model.report_tree import (
    RIGHT,
    TICKED,
    TICKS,
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
    TableCells,
    TableColumn,
    Verbatim,
    words_of,
)

Drawings = Mapping[str, Callable[[], Element]]
"""The drawings of a report's figures by their names, each made when its place is reached."""
DEEPEST_HEADING = 6
MOST_KEPT_ROWS = 10
"""A table of no more rows is kept together when it is printed."""
MOST_KEPT_SIGNS = 800
"""A section of no more signs, its tables left out, is kept together too."""


def report_elements(report: Report, drawings: Drawings) -> list[Element]:
    """The report's elements: its title as the heading of the first level, then its blocks.

    Raises `KeyError` for a figure whose drawing is not there.
    """
    return HtmlTree(drawings).report(report)


class HtmlTree:
    """One run over a report; counts the ids that it gives."""

    def __init__(self, drawings: Drawings) -> None:
        self._drawings = drawings
        self._ids = 0

    def report(self, report: Report) -> list[Element]:
        title = [] if report.title is None else [new_element("h1", set_words(report.title))]
        return title + self._blocks(report.blocks, 2)

    def _id(self, kind: str) -> str:
        self._ids += 1
        return f"{kind}-{self._ids}"

    def _blocks(self, blocks: tuple[ReportBlock, ...], level: int) -> list[Element]:
        """Blocks below a heading; neighbouring facts are one list."""
        found: list[Element] = []
        for is_fact, group in groupby(blocks, lambda block: isinstance(block, Paragraph) and block.lead is not None):
            alike = list(group)
            found += [_facts(alike)] if is_fact else [self._block(block, level) for block in alike]
        self._name_tables(found)
        return found

    def _name_tables(self, siblings: list[Element]) -> None:
        """A table without a caption is called what stands before it."""
        for before, frame in pairwise(siblings):
            if frame.get("role") == "group" and frame.get("aria-labelledby") is None:
                name = before.get("id") or before.get("aria-labelledby") or self._id("words")
                if before.get("aria-labelledby") is None:
                    before.set("id", name)
                frame.set("aria-labelledby", name)

    def _block(self, block: ReportBlock, level: int) -> Element:
        match block:
            case Paragraph(text):
                return new_element("p", html_text(text))
            case ListBlock(items):
                return _list(items)
            case Table():
                return self._table(block)
            case Figure(drawing, caption):
                return self._figure(drawing, caption)
            case Verbatim(lines):
                return new_element("pre", "\n".join(map(held, lines)))
            case ProblemNote(problem, path, source):
                shown = problem_lines(problem, source, path, False)
                return new_element("pre", "\n".join(map(held, shown)), (), {"class": "problem"})
            case ReportSection(heading, blocks):
                return self._section(heading, blocks, level)

    def _section(self, heading: str, blocks: tuple[ReportBlock, ...], level: int) -> Element:
        name = self._id("section")
        title = new_element(f"h{min(level, DEEPEST_HEADING)}", set_words(heading), (), {"id": name})
        content = [title, *self._blocks(blocks, level + 1)]
        self._name_tables(content)
        kept = {"class": "kept"} if _is_kept(blocks) else {}
        return new_element("section", None, content, {"aria-labelledby": name, **kept})

    def _figure(self, drawing: str, caption: Content) -> Element:
        name = self._id("figure")
        words = new_element("figcaption", html_text(caption), (), {"id": name})
        return new_element("figure", None, [_scrolled(self._drawings[drawing](), name), words])

    def _table(self, table: Table) -> Element:
        name = self._id("table")
        parts = [_heading_row(table.columns), _body(table)]
        caption = [new_element("caption", html_text(table.caption), (), {"id": name})] if table.caption else []
        ticked = any(column.kind == TICKS for column in table.columns)
        made = new_element("table", None, [*caption, *parts], {"class": "checklist"} if ticked else {})
        kept = "scroll short" if len(table.rows) <= MOST_KEPT_ROWS else "scroll"
        return _scrolled(made, name if caption else None, kept)


def _is_kept(blocks: tuple[ReportBlock, ...]) -> bool:
    """Whether a section stands on one page where it can: one without sections of its own, nor long."""
    if any(isinstance(block, ReportSection) or _is_long(block) for block in blocks):
        return False
    items = [item for block in blocks if isinstance(block, ListBlock) for item in block.items]
    return sum(map(_signs, items)) <= MOST_KEPT_SIGNS


def _is_long(block: ReportBlock) -> bool:
    """A long table, or terms, of which any few may stand on a page."""
    if isinstance(block, Table):
        return len(block.rows) > MOST_KEPT_ROWS
    return isinstance(block, ListBlock) and any(item.lead is not None for item in block.items)


def _signs(item: ListItem) -> int:
    return len(words_of(item.text)) + sum(map(_signs, item.below))


def _scrolled(content: Element, label: str | None, kind: str = "scroll") -> Element:
    """What may be wider than a small screen, in a frame that scrolls, by keyboard too."""
    named = {"role": "group"} if label is None else {"role": "region", "aria-labelledby": label}
    return new_element("div", None, [content], {"class": kind, "tabindex": "0", **named})


def _facts(facts: Iterable[ReportBlock]) -> Element:
    pairs = [_pair(fact.lead, fact.text) for fact in facts if isinstance(fact, Paragraph)]
    return new_element("dl", None, pairs, {"class": "facts"})


def _pair(lead: str | None, text: Content) -> Element:
    return new_element("div", None, [new_element("dt", set_words(lead or "")), new_element("dd", html_text(text))])


def _list(items: tuple[ListItem, ...]) -> Element:
    """Lines; where each explains its lead, they are terms with what they mean."""
    if items and all(item.lead is not None and not item.below for item in items):
        return new_element("dl", None, [_pair(item.lead, item.text) for item in items], {"class": "terms"})
    return new_element("ul", None, map(_item, items))


def _item(item: ListItem) -> Element:
    lead = (f"{item.lead}: ",) if item.lead else ()
    if not item.below:
        return new_element("li", html_text((*lead, *item.text)))
    return new_element("li", html_text((*lead, *item.text)), [_list(item.below)], {"class": "steps"})


def _heading_row(columns: tuple[TableColumn, ...]) -> Element:
    cells = [
        new_element("th", set_words(column.heading), (), {"scope": "col", **_kind(column)})
        if column.heading
        else new_element("td", None, (), _kind(column))
        for column in columns
    ]
    return new_element("thead", None, [new_element("tr", None, cells)])


def _kind(column: TableColumn) -> dict[str, str]:
    return {"class": "figures" if column.align == RIGHT else column.kind}


def _body(table: Table) -> Element:
    return new_element("tbody", None, [_row(table.columns, row) for row in table.rows])


def _row(columns: tuple[TableColumn, ...], row: TableCells) -> Element:
    """A row, whose first cell is its heading."""
    pairs = zip(columns, row, strict=True)
    return new_element("tr", None, [_cell(column, cell, place == 0) for place, (column, cell) in enumerate(pairs)])


def _cell(column: TableColumn, cell: Content, first: bool) -> Element:
    if column.kind == TICKS and cell:
        return new_element("td", None, [tick_box(words_of(cell) == TICKED)], _kind(column))
    words = html_text(cell)
    if first and words:
        return new_element("th", words, (), {"scope": "row", **_kind(column)})
    return new_element("td", words, (), _kind(column))
