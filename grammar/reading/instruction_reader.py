"""Written instructions read back: the trade's abbreviations into the items of working notation."""

import re
from collections.abc import Sequence

from halfhank.grammar.description import Across, InOne, Item, Times
from halfhank.grammar.reading.block_body import BlockBody
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.indentation import lay_out


class ReadRow(NamedTuple):
    """One line of instructions: the rows that it gives, and their items.

    `left_at_end`: the stitches that the line says are left when the stars end (`to last 3 sts`), None without stars.
    """

    numbers: tuple[int, ...]
    items: tuple[Item, ...]
    left_at_end: int | None


class InstructionError(ValueError):
    """A line of instructions that cannot be read back; the message is the line."""


_REPEATED = {"once": "1 time", "twice": "2 times"}


def read_lines(lines: Sequence[str]) -> tuple[ReadRow, ...]:
    """The rows of written instructions. Raises `InstructionError` for a line that is none."""
    return tuple(_read(line) for line in lines)


def _read(line: str) -> ReadRow:
    found = re.match(r"\s*Rows? ([0-9][0-9, andto]*?)(?: \((?:RS|WS)\))?: ([^.]*)\.", line)
    if found is None:
        raise InstructionError(line)
    items, left = _read_items(found[2], line)
    return ReadRow(_read_numbers(found[1]), items, left)


def _read_numbers(text: str) -> tuple[int, ...]:
    numbers: list[int] = []
    for part in re.split(r", | and ", text):
        first, _, last = part.partition(" to ")
        numbers += range(int(first), int(last or first) + 1)
    return tuple(numbers)


def _read_items(sentence: str, line: str) -> tuple[tuple[Item, ...], int | None]:
    """The items of a sentence: turned into working notation and read by the language's own parser."""
    text, left = sentence.lower(), None
    stars = re.search(r"; rep from \* to (end|last st|last ([0-9]+) sts)(, )?", text)
    if stars:
        left = 0 if stars[1] == "end" else int(stars[2] or 1)
        text = f"{text[: stars.start()]}*{', ' if stars[3] else ''}{text[stars.end() :]}"
    items = read_notation(_notation(text))
    if items is None:
        raise InstructionError(line)
    return items, left


def _notation(text: str) -> str:
    text = re.sub(r"\bsl ([0-9]+)", r"sl\1", text)
    text = re.sub(r" wrapping yarn (twice|([0-9]+) times)", lambda m: f" with {m[2] or 2} wraps", text)
    text = re.sub(r"\] (once|twice)", lambda m: f"] {_REPEATED[m[1]]}", text)
    text = re.sub(r"\) in next (st|([0-9]+) sts together)", lambda m: f"] in {m[2] or 1}", text)
    return text.replace("(", "[").strip()


def read_notation(text: str) -> tuple[Item, ...] | None:
    """The items of one row of working notation, None where it is none. Their places are in nobody's file."""
    layout = lay_out(f"row 1: {text}")
    context = ParseContext()
    rows = BlockBody(context).read(layout.roots, "in_stitch").all("row")
    if layout.problems or context.problems or len(rows) != 1:
        return None
    items: tuple[Item, ...] = rows[0].items
    return items


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
