"""Puts a weighing into a description's log and leaves every other character where it is."""

from halfhank.grammar.description import Description, Weighing
from halfhank.grammar.record import NamedTuple


class LogLine(NamedTuple):
    """One line of the log as it is to be written: `row` 0 is before the cast-on, `mass` a figure with its unit."""

    row: int
    mass: str
    used: bool = False

    @property
    def words(self) -> str:
        if self.row == 0:
            return f"before cast on {self.mass}"
        return f"after row {self.row} {self.mass} {'used' if self.used else 'left'}"


def with_weighing(text: str, description: Description, line: LogLine) -> str:
    """The text with the weighing in its place among the log's rows; one of the same row is replaced.

    `description` is what the text was parsed to. The new line takes its indentation from the log's first entry and its
    line end from the line before it; without a log one is opened after the last line that is not blank.
    """
    lines = _lines(text)
    same = next((w for w in description.log if w.row == line.row), None)
    if same is not None:
        return _replaced(lines, same, line)
    if description.log_span is None:
        return _with_block(lines, line)
    first = description.log[0].span
    indent = lines[first.line - 1][: first.column - 1].lstrip("\ufeff")
    before = [w.span.line for w in description.log if w.row < line.row]
    return _inserted(lines, max(before, default=description.log_span.line), [indent + line.words])


def _lines(text: str) -> list[str]:
    """The lines with their ends; lines end at line feeds alone, as the parser counts them."""
    return [part + "\n" for part in text.split("\n")[:-1]] + [text.split("\n")[-1]]


def _replaced(lines: list[str], old: Weighing, line: LogLine) -> str:
    """The words of an entry exchanged; indentation, comment and line end stay."""
    at = old.span.line - 1
    whole = lines[at]
    lines[at] = whole[: old.span.column - 1] + line.words + whole[old.span.end - 1 :]
    return "".join(lines)


def _with_block(lines: list[str], line: LogLine) -> str:
    """A log opened after the last line that is not blank, one blank line between."""
    filled = [i for i, whole in enumerate(lines, 1) if whole.strip()]
    return _inserted(lines, max(filled, default=0), ["", "weighed", "  " + line.words])


def _inserted(lines: list[str], after: int, new: list[str]) -> str:
    """New lines after line number `after`. A last line without an end stays the last line's way: no end after it."""
    ending = _ending(lines, after)
    above, below = lines[:after], lines[after:]
    if above and not above[-1].endswith("\n"):
        return "".join(above) + "".join(ending + words for words in new)
    return "".join(above) + "".join(words + ending for words in new) + "".join(below)


def _ending(lines: list[str], after: int) -> str:
    """The line end used by the line above, or by the one before it where that is the last and has none."""
    for whole in reversed(lines[:after]):
        if whole.endswith("\n"):
            return "\r\n" if whole.endswith("\r\n") else "\n"
    return "\n"
