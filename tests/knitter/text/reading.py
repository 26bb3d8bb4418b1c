"""Reads printed rows: the sections of the text, and what each of their lines is."""

import re
from typing import NamedTuple

from tests.knitter.refusal import RefusedError, at, needed
from tests.knitter.text.abbreviations import check_terms, read_abbreviations
from tests.knitter.text.items import Items
from tests.knitter.text.notation import Used, read_items


class PrintedRow(NamedTuple):
    """A line of rows: from `first` to `last` all the same; `side` is None where it covers more than one row."""

    first: int
    last: int
    side: str | None
    items: Items
    stitches: int

    @property
    def name(self) -> str:
        if self.first == self.last:
            return f"Row {self.first} ({self.side})"
        return f"Rows {self.first}-{self.last}"


class SideRow(NamedTuple):
    """A row without a number: the set-up row, or the bind-off row."""

    name: str
    side: str
    items: Items
    stitches: int


class Part(NamedTuple):
    """A part with its rows."""

    number: int
    name: str
    rows: tuple[PrintedRow, ...]


class Pattern(NamedTuple):
    """The whole text. `start` and `bind_off` have plain sentences as they are, and rows as rows."""

    title: str
    explained: frozenset[str]
    start: tuple["str | SideRow", ...]
    parts: tuple[Part, ...]
    bind_off: tuple["str | SideRow", ...]


Section = tuple[str, list[str]]
_BODY = r"(?P<items>.+) \((?P<stitches>[1-9]\d*) (?P<unit>sts?)\)"
_ROW = re.compile(rf"Row (?P<first>[1-9]\d*) \((?P<side>RS|WS)\): {_BODY}")
_ROWS = re.compile(rf"Rows (?P<first>[1-9]\d*)-(?P<last>[1-9]\d*): {_BODY}")
_SIDE_ROW = re.compile(rf"(?P<name>Set-up row|Bind-off row) \((?P<side>RS|WS)\): {_BODY}")
_PART = re.compile(r"Part (?P<number>[1-9]\d*),? ?(?P<name>.*)")


def read_pattern(text: str) -> Pattern:
    """The whole text, read to its last line."""
    title, sections = _sections(text)
    used: Used = set()
    explained = read_abbreviations(sections.pop(0)[1]) if sections and sections[0][0] == "Abbreviations" else set()
    names = [name if not _PART.fullmatch(name) else "Part" for name, _ in sections]
    parts = len(names) - 2
    needed(parts > 0 and names == ["Start", *["Part"] * parts, "Bind off"], f"the sections are {', '.join(names)}")
    found = Pattern(
        title,
        frozenset(explained),
        _sentences(sections[0], used),
        tuple(_part(number, section, used) for number, section in enumerate(sections[1:-1], 1)),
        _sentences(sections[-1], used),
    )
    check_terms(explained, used)
    return found


def _sections(text: str) -> tuple[str, list[Section]]:
    """The title, and each heading with the lines indented under it."""
    title, *lines = text.rstrip("\n").split("\n")
    needed(bool(lines) and lines[0] == "", "the title stands alone above an empty line")
    found: list[Section] = []
    for line in lines:
        if line.startswith("  "):
            needed(bool(found), f"a line before any heading: `{line}`")
            found[-1][1].append(line.strip())
        elif line.strip():
            needed(not line.startswith(" "), f"neither heading nor line: `{line}`")
            found.append((line, []))
    return title, found


def _part(number: int, section: Section, used: Used) -> Part:
    heading, lines = section
    head = _PART.fullmatch(heading)
    with at(heading):
        needed(head is not None and int(head["number"]) == number, f"this is part {number}")
        rows = tuple(_row(line, used) for line in lines if not _is_note(line))
        needed(bool(rows), "no rows")
        return Part(number, head["name"] if head else "", rows)


def _row(line: str, used: Used) -> PrintedRow:
    found = _ROW.fullmatch(line) or _ROWS.fullmatch(line)
    if found is None:
        raise RefusedError(f"no row that can be read: `{line}`")
    groups = found.groupdict()
    first = int(found["first"])
    with at(line.split(":")[0]):
        last = int(groups.get("last") or first)
        needed(last > first or "last" not in groups, "rows from a later to an earlier one")
        used.update({groups["side"]} if "side" in groups else ())
        return PrintedRow(first, last, groups.get("side"), read_items(found["items"], used), _count(found))


def _count(found: re.Match[str]) -> int:
    count = int(found["stitches"])
    needed((found["unit"] == "st") == (count == 1), f"{count} {found['unit']}")
    return count


def _is_note(line: str) -> bool:
    """A note is the only sentence that nothing is worked from."""
    return line.startswith("Note: ")


def _sentences(section: Section, used: Used) -> "tuple[str | SideRow, ...]":
    return tuple(_sentence(line, used) for line in section[1] if not _is_note(line))


def _sentence(line: str, used: Used) -> str | SideRow:
    found = _SIDE_ROW.fullmatch(line)
    if found is None:
        return line
    with at(found["name"]):
        used.add(found["side"])
        return SideRow(found["name"], found["side"], read_items(found["items"], used), _count(found))
