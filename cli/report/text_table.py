"""Tables and paragraphs of plain text, set to the width of a terminal."""

from collections.abc import Sequence
from typing import NamedTuple, TypeVar

from halfhank.cli.terminal import Words, safe, width

GAP = "  "
# Columns go before their neighbours' texts are cut below the first; what must stay is cut down to the second.
_COMFORTABLE, _SHORTEST = 13, 6
_UNITS = frozenset(("g", "m", "yd", "cm", "in", "mm", "sts", "rows", "%"))
_T = TypeVar("_T")


class TableColumn(NamedTuple):
    """A column: its heading, whether it holds texts (set left, cut where room is short), and its `weight`.

    On a narrow terminal the lightest columns go first; a weight of None stays.
    """

    heading: str
    text: bool = False
    weight: int | None = None


class Table(NamedTuple):
    """Columns, and rows of one cell each."""

    columns: tuple[TableColumn, ...]
    rows: tuple[tuple[str, ...], ...]

    def lines(self, room: int | None, words: Words) -> list[str]:
        """The table in lines of at most `room` columns (None: as wide as it gets), the heading first."""
        table = self._made_safe()
        if room is not None:
            table = table._lightened(room)
        widths = table._widths()
        if room is not None:
            widths = table._squeezed(widths, room)
        heading = words.dim(table._line(tuple(column.heading for column in table.columns), widths))
        return [heading, *(table._line(row, widths) for row in table.rows)]

    def _made_safe(self) -> "Table":
        return Table(self.columns, tuple(tuple(safe(cell) for cell in row) for row in self.rows))

    def _widths(self) -> list[int]:
        cells = zip(*self.rows, strict=True) if self.rows else [()] * len(self.columns)
        return [
            max(width(cell) for cell in (column.heading, *below))
            for column, below in zip(self.columns, cells, strict=True)
        ]

    def _lightened(self, room: int) -> "Table":
        """Without the lightest columns, until it fits with no text cut short."""
        table = self
        while table._least() > room and (light := table._lightest()) is not None:
            table = Table(_without(table.columns, light), tuple(_without(row, light) for row in table.rows))
        return table

    def _least(self) -> int:
        pairs = zip(self.columns, self._widths(), strict=True)
        least = [min(wide, _COMFORTABLE) if column.text else wide for column, wide in pairs]
        return sum(least) + len(GAP) * (len(least) - 1)

    def _lightest(self) -> int | None:
        weights = [(column.weight, index) for index, column in enumerate(self.columns) if column.weight is not None]
        return min(weights)[1] if weights else None

    def _squeezed(self, widths: list[int], room: int) -> list[int]:
        """Takes what is over from the widest texts first."""
        widths = list(widths)
        over = sum(widths) + len(GAP) * (len(widths) - 1) - room
        texts = [index for index, column in enumerate(self.columns) if column.text]
        while over > 0 and texts:
            widest = max(texts, key=lambda index: widths[index])
            if widths[widest] <= _SHORTEST:
                break
            widths[widest] -= 1
            over -= 1
        return widths

    def _line(self, cells: tuple[str, ...], widths: Sequence[int]) -> str:
        set_cells = [_set(cell, w, column.text) for cell, w, column in zip(cells, widths, self.columns, strict=True)]
        return GAP.join(set_cells).rstrip()


def _without(items: tuple[_T, ...], index: int) -> tuple[_T, ...]:
    return items[:index] + items[index + 1 :]


def _set(cell: str, room: int, text: bool) -> str:
    cell = cut(cell, room)
    pad = " " * (room - width(cell))
    return cell + pad if text else pad + cell


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
    lines, line = [], f"{lead:{indent}}"
    for word in _unbroken(text):
        started = width(line) > indent
        if room is not None and started and width(line) + 1 + width(word) > room:
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
