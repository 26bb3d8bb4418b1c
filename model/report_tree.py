"""A report: text for people as a small tree, which a terminal, a page or another program shows each in its own way.

Builders say what there is to say; writers break lines, set tables, colour, and make safe what a file brought in.
"""

from collections.abc import Callable, Sequence

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple

WORDS, FIGURES, TICKS = "words", "figures", "ticks"
"""What a column holds: words may be cut short where room is, figures never; a tick is `TICKED` or `UNTICKED`."""
TICKED, UNTICKED = "[x]", "[ ]"
LEFT, RIGHT = "left", "right"


UNITS = ("g", "oz", "m", "yd", "cm", "mm", "in", "%", "sts", "rows", "row", "repeats", "1")
"""What numbers are counted in. `rows` is how many, `row` which one; `1` is a ratio."""


class Value(NamedTuple):
    """A number, in the words that show it.

    `number` is not rounded. `unit`, one of `UNITS`, is what it is counted in, as the words show or mean it.
    """

    words: str
    number: float
    unit: str

    def __str__(self) -> str:
        return self.words


def row_number(row: int) -> Value:
    """The number of a row."""
    return Value(f"{row:,}", row, "row")


Content = tuple[str | Value, ...]
"""One run of text: words, and the numbers among them."""


def content(*pieces: str | Value | Content) -> Content:
    """Pieces put together to one run of text; empty words are left out and neighbouring ones joined."""
    found: list[str | Value] = []
    for piece in pieces:
        for one in (piece,) if isinstance(piece, str | Value) else piece:
            if isinstance(one, str) and found and isinstance(found[-1], str):
                found[-1] += one
            elif one != "":
                found.append(one)
    return tuple(found)


def joined(separator: str, texts: Sequence[Content]) -> Content:
    """Several runs of text in one, with words between them."""
    pieces = [piece for text in texts for piece in (separator, text)]
    return content(*pieces[1:])


def words_of(text: Content) -> str:
    """A run of text as its words alone."""
    return "".join(map(str, text))


class Paragraph(NamedTuple):
    """A paragraph. Those with a `lead` ("size") are facts: neighbours of that kind belong together."""

    text: Content
    lead: str | None = None


class ListItem(NamedTuple):
    """One line of a list and the lines `below` it. A `lead` is what the text explains (an abbreviation)."""

    text: Content
    below: tuple["ListItem", ...] = ()
    lead: str | None = None


class ListBlock(NamedTuple):
    """Lines, in their order."""

    items: tuple[ListItem, ...]


class TableColumn(NamedTuple):
    """A column of a table: `kind` is `WORDS`, `FIGURES` or `TICKS`, `align` is `LEFT` or `RIGHT`.

    Where there is no room for all columns, that of the least `weight` goes first; a weight of None stays.
    """

    heading: str
    kind: str = FIGURES
    align: str = RIGHT
    weight: int | None = None


def words_column(heading: str, weight: int | None = None) -> TableColumn:
    """A column of words, set left."""
    return TableColumn(heading, WORDS, LEFT, weight)


def figures_column(heading: str, weight: int | None = None) -> TableColumn:
    """A column of figures, set right."""
    return TableColumn(heading, FIGURES, RIGHT, weight)


def ticks_column(heading: str, weight: int | None = None) -> TableColumn:
    """A column of boxes to tick."""
    return TableColumn(heading, TICKS, LEFT, weight)


TableCells = tuple[Content, ...]


def cells(*texts: str | Value | Content) -> TableCells:
    """One row of a table."""
    return tuple(content(text) for text in texts)


class Table(NamedTuple):
    """Columns, and rows of one cell each; `caption`, which may be empty, says what the table shows."""

    columns: tuple[TableColumn, ...]
    rows: tuple[TableCells, ...]
    caption: Content = ()


class Figure(NamedTuple):
    """A drawing, by the name under which the writer is handed it; `caption` says what it shows, to all readers."""

    drawing: str
    caption: Content


class Verbatim(NamedTuple):
    """Lines that a description could hold as they are."""

    lines: tuple[str, ...]


class ProblemNote(NamedTuple):
    """A problem of the file called `path`, with the source line that it points at (None: of the whole file)."""

    problem: Problem
    path: str
    source: str | None


class ReportSection(NamedTuple):
    """Blocks under a heading."""

    heading: str
    blocks: tuple["ReportBlock", ...]


ReportBlock = Paragraph | ListBlock | Table | Figure | Verbatim | ProblemNote | ReportSection


class Report(NamedTuple):
    """A whole report; `title` is None where it needs none."""

    title: str | None
    blocks: tuple[ReportBlock, ...]


def with_values(report: Report, change: Callable[[Value], Value]) -> Report:
    """The report with every number in it changed so."""
    return report._replace(blocks=tuple(_changed(block, change) for block in report.blocks))


def _changed(block: ReportBlock, change: Callable[[Value], Value]) -> ReportBlock:
    def text(old: Content) -> Content:
        return tuple(change(one) if isinstance(one, Value) else one for one in old)

    def item(old: ListItem) -> ListItem:
        return old._replace(text=text(old.text), below=tuple(map(item, old.below)))

    match block:
        case Paragraph():
            return block._replace(text=text(block.text))
        case ListBlock():
            return ListBlock(tuple(map(item, block.items)))
        case Table():
            rows = tuple(tuple(map(text, row)) for row in block.rows)
            return block._replace(rows=rows, caption=text(block.caption))
        case Figure():
            return block._replace(caption=text(block.caption))
        case ReportSection():
            return block._replace(blocks=tuple(_changed(one, change) for one in block.blocks))
    return block
