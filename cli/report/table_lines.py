"""Tables and paragraphs as lines of plain text, set to the width of a terminal."""

from collections.abc import Callable, Sequence
from typing import TypeVar

from halfhank.cli.terminal import Emphasis, safe, width
from halfhank.grammar.record import NamedTuple
from halfhank.model.report_tree import LEFT, WORDS, Table, TableColumn, words_of

GAP = "  "
# Columns go before their neighbours' words are cut below the first; what must stay is cut down to the second.
_COMFORTABLE, _SHORTEST = 13, 6
_UNITS = frozenset(("g", "m", "yd", "cm", "in", "mm", "sts", "rows", "%"))
_T = TypeVar("_T")


def table_lines(table: Table, room: int | None, emphasis: Emphasis, escape: Callable[[str], str] = safe) -> list[str]:
    """A table in lines of at most `room` columns (None: as wide as it gets), the headings first."""
    columns = tuple(column._replace(heading=escape(column.heading)) for column in table.columns)
    grid = _Grid(columns, tuple(tuple(escape(words_of(cell)) for cell in row) for row in table.rows))
    if room is not None:
        grid = grid.lightened(room)
    widths = grid.widths()
    if room is not None:
        widths = grid.squeezed(widths, room)
    heading = emphasis.dim(grid.line(tuple(column.heading for column in grid.columns), widths))
    return [heading, *(grid.line(row, widths) for row in grid.rows)]


class _Grid(NamedTuple):
    """A table in its words, safe to show."""

    columns: tuple[TableColumn, ...]
    rows: tuple[tuple[str, ...], ...]

    def widths(self) -> list[int]:
        cells = zip(*self.rows, strict=True) if self.rows else [()] * len(self.columns)
        return [
            max(width(cell) for cell in (column.heading, *below))
            for column, below in zip(self.columns, cells, strict=True)
        ]

    def lightened(self, room: int) -> "_Grid":
        """Without the lightest columns, until it fits with no words cut short."""
        grid = self
        while grid._least() > room and (light := grid._lightest()) is not None:
            grid = _Grid(_without(grid.columns, light), tuple(_without(row, light) for row in grid.rows))
        return grid

    def _least(self) -> int:
        pairs = zip(self.columns, self.widths(), strict=True)
        least = [min(wide, _COMFORTABLE) if column.kind == WORDS else wide for column, wide in pairs]
        return sum(least) + len(GAP) * (len(least) - 1)

    def _lightest(self) -> int | None:
        weights = [(column.weight, index) for index, column in enumerate(self.columns) if column.weight is not None]
        return min(weights)[1] if weights else None

    def squeezed(self, widths: list[int], room: int) -> list[int]:
        """Takes what is over from the widest words first."""
        widths = list(widths)
        over = sum(widths) + len(GAP) * (len(widths) - 1) - room
        words = [index for index, column in enumerate(self.columns) if column.kind == WORDS]
        while over > 0 and words:
            widest = max(words, key=lambda index: widths[index])
            if widths[widest] <= _SHORTEST:
                break
            widths[widest] -= 1
            over -= 1
        return widths

    def line(self, cells: tuple[str, ...], widths: Sequence[int]) -> str:
        set_cells = [_set(cell, w, column.align) for cell, w, column in zip(cells, widths, self.columns, strict=True)]
        return GAP.join(set_cells).rstrip()


def _without(items: tuple[_T, ...], index: int) -> tuple[_T, ...]:
    return items[:index] + items[index + 1 :]


def _set(cell: str, room: int, align: str) -> str:
    cell = cut(cell, room)
    pad = " " * (room - width(cell))
    return cell + pad if align == LEFT else pad + cell


def cut(text: str, room: int) -> str:
    """A safe text cut to `room` columns, an ellipsis in place of what is lost."""
    if width(text) <= room:
        return text
    while text and width(text) > room - 1:
        text = text[:-1]
    return text + "…"


def paragraph(lead: str, text: str, indent: int, room: int | None) -> list[str]:
    """`text` behind a `lead` that takes `indent` columns, broken between words into lines of at most `room` columns.

    A number stays with its unit.
    """
    if room is None:
        return [f"{lead:{indent}}{text}"]
    lines, line, full = [], f"{lead:{indent}}", bool(lead.strip()) and width(lead) == indent
    for word in _unbroken(text):
        started, full = full or width(line) > indent, False
        if started and width(line) + 1 + width(word) > room:
            lines.append(line)
            line, started = " " * indent, False
        line += f" {word}" if started else word
    return [*lines, line]


def _unbroken(text: str) -> list[str]:
    words: list[str] = []
    for word in text.split(" "):
        if words and words[-1][-1:].isdigit() and word.rstrip(",;:)") in _UNITS:
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words
