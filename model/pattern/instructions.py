"""A pattern's rows as written instructions, in the trade's usual abbreviations, and back."""

import re
from collections.abc import Sequence
from typing import NamedTuple

from halfhank.grammar.syntax import Across, InOne, Item, Times, WholeRow
from halfhank.model.pattern.abbreviations import listed
from halfhank.model.pattern.balance import Level
from halfhank.model.pattern.pattern import Pattern, PatternRow
from halfhank.model.pattern.steps import levels_of


class ReadRow(NamedTuple):
    """One line of instructions: the rows that it gives, and their items."""

    numbers: tuple[int, ...]
    items: tuple[Item, ...]


class InstructionError(ValueError):
    """A line of instructions that cannot be read back, said with the line."""


def row_lines(pattern: Pattern, turned: bool = False) -> list[str]:
    """One line for all rows that are written on one, in the order of their first rows.

    `Row 1 (RS): K1, *yo, ssk, k1, k2tog, yo, k1; rep from * to end.` `turned`: row 1 is a wrong-side row.
    """
    levels = levels_of(pattern)
    groups: dict[tuple[object, Level, Level], list[PatternRow]] = {}
    for place, row in enumerate(pattern.rows):
        groups.setdefault((row.span, levels[place], levels[place + 1]), []).append(row)
    return [_line(rows, turned, found, left) for (_, found, left), rows in groups.items()]


def _line(rows: list[PatternRow], turned: bool, found: Level, left: Level) -> str:
    sides = {row.wrong_side != turned for row in rows}
    side = f" ({'WS' if sides == {True} else 'RS'})" if len(sides) == 1 else ""
    numbers = [row.number for row in rows]
    label = f"Row {numbers[0]}" if len(numbers) == 1 else f"Rows {_numbers(numbers)}"
    after = "" if found.each == left.each else f" Each multiple now has {left.each} sts."
    return f"{label}{side}: {_sentence(rows[0])}.{after}"


def _numbers(numbers: Sequence[int]) -> str:
    """Runs of three or more as `2 to 4`, the last after `and`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = [w for run in runs for w in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run))]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _sentence(row: PatternRow) -> str:
    items = row.items
    if isinstance(items[0], WholeRow):
        return items[0].kind.capitalize()
    across = row.across
    if across is None:
        return _capital(listed(items))
    place = items.index(across)
    before, after = items[:place], items[place + 1 :]
    last = row.tally.after.taken
    end = "end" if not last else "last st" if last == 1 else f"last {last} sts"
    parts = [listed(before)] if before else []
    parts.append(f"*{listed(across.items)}; rep from * to {end}")
    return _capital(", ".join(parts + ([listed(after)] if after else [])))


def _capital(text: str) -> str:
    return re.sub("[A-Za-z]", lambda letter: letter[0].upper(), text, count=1)


# Reading back.

_REPEATED = {"once": "1 time", "twice": "2 times"}


def read_lines(lines: Sequence[str]) -> tuple[ReadRow, ...]:
    """The rows of written instructions. Raises `InstructionError` for a line that is none, or whose counts disagree."""
    return tuple(_read(line) for line in lines)


def check_reads_back(pattern: Pattern) -> None:
    """Raises `InstructionError` if the pattern's lines do not give its rows again: a fault of the writer, not of the rows."""
    lines = row_lines(pattern)
    read = {number: row.items for row in read_lines(lines) for number in row.numbers}
    for row in pattern.rows:
        if row.number not in read or not same_items(read[row.number], row.items):
            raise InstructionError(f"row {row.number} of {pattern.name}")


def _read(line: str) -> ReadRow:
    found = re.match(r"\s*Rows? ([0-9][0-9, andto]*?)(?: \((?:RS|WS)\))?: ([^.]*)\.", line)
    if found is None:
        raise InstructionError(line)
    return ReadRow(_read_numbers(found[1]), _read_items(found[2], line))


def _read_numbers(text: str) -> tuple[int, ...]:
    numbers: list[int] = []
    for part in re.split(r", | and ", text):
        first, _, last = part.partition(" to ")
        numbers += range(int(first), int(last or first) + 1)
    return tuple(numbers)


def _read_items(sentence: str, line: str) -> tuple[Item, ...]:
    """The items of a sentence: turned into working notation and read by the language's own parser."""
    from halfhank.grammar.notation_text import read_notation

    text, last = sentence.lower(), None
    stars = re.search(r"; rep from \* to (end|last st|last ([0-9]+) sts)(, )?", text)
    if stars:
        last = 0 if stars[1] == "end" else int(stars[2] or 1)
        text = f"{text[: stars.start()]}*{', ' if stars[3] else ''}{text[stars.end() :]}"
    items = read_notation(_notation(text))
    if items is None:
        raise InstructionError(line)
    if last is not None and last != _taken_after(items):
        raise InstructionError(line)
    return items


def _taken_after(items: tuple[Item, ...]) -> int:
    from halfhank.model.pattern.count import tally_of

    place = next(i for i, item in enumerate(items) if isinstance(item, Across))
    return tally_of(items[place + 1 :]).taken


def _notation(text: str) -> str:
    text = re.sub(r"\bsl ([0-9]+)", r"sl\1", text)
    text = re.sub(r" wrapping yarn (twice|([0-9]+) times)", lambda m: f" with {m[2] or 2} wraps", text)
    text = re.sub(r"\] (once|twice)", lambda m: f"] {_REPEATED[m[1]]}", text)
    text = re.sub(r"\) in next (st|([0-9]+) sts together)", lambda m: f"] in {m[2] or 1}", text)
    return text.replace("(", "[").strip()


def same_items(one: tuple[Item, ...], other: tuple[Item, ...]) -> bool:
    """Whether two rows have the same items, wherever they are written."""
    return _bare(one) == _bare(other)


def _bare(items: tuple[Item, ...]) -> list[tuple[object, ...]]:
    bare: list[tuple[object, ...]] = []
    for item in items:
        inner = _bare(item.items) if isinstance(item, Times | InOne | Across) else None
        fields = tuple(value for name, value in item._asdict().items() if name not in ("span", "items"))
        bare.append((type(item).__name__, inner, fields))
    return bare
