"""Reads the text of written instructions back: parts, their shaping, bands and rows, and the table of later repeats.

It knows the words of the text alone, nothing of how it was made.
"""

import re
from collections.abc import Callable
from typing import NamedTuple

_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)"
_BAND = re.compile(
    rf"(?P<name>.+?)(?:, {_NUMBER} (?:ridges?|rows?)| with {_NUMBER} wraps) "
    rf"\(rows? (?P<first>{_NUMBER})(?: (?:to|and) (?P<last>{_NUMBER}))?\)(?:, as the yarn allows \(see Weighing\))?:"
)
_PART = re.compile(rf"Part {_NUMBER}, .* \(rows (?P<first>{_NUMBER}) to (?P<last>{_NUMBER}); .*\)")
_ALIKE = re.compile(
    rf"Work {_NUMBER} more repeats?(?:, all other rows)? in the same way, "
    rf".*\(rows (?P<first>{_NUMBER}) to (?P<last>{_NUMBER})\)"
)
_FURTHER = re.compile(r"The [\d,]+(?:st|nd|rd|th) repeat, if the yarn allows \(see Weighing\): ")
_LINE = re.compile(r"(?P<label>(?:Rows?|All other (?:RS |WS )?rows) [^:]*?): (?P<text>.*)\.")
_SHAPING = re.compile(r"increase |decrease |bind off [\d,]+ sts? at")
_CHANGE = re.compile(
    rf"(?:(increase|decrease|bind off) )?({_NUMBER}) sts? "
    r"(at each edge|at the (?:lower|upper) edge|on each side of the spine|in the middle of the spine|"
    r"evenly across the row)"
)


class Line(NamedTuple):
    """Rows told by one line, in order, with its words after the colon."""

    rows: tuple[int, ...]
    text: str
    letters: dict[int, dict[str, str]]


class Band(NamedTuple):
    """A band told in full."""

    name: str
    rows: range
    lines: list[Line]


class Block(NamedTuple):
    """Bands that are worked one after the other; `later` has for each later repeat the rows of each band.

    `extra`: lines of rows in later repeats. `others`: by side and band what is said of all other rows of them.
    `past`: what is told of the rows past the plan, as a block of its own: a repeat whose bands have no lines, or lines.
    `columns`: the headings of their table. `counts`: stitches by the row after which the table has them.
    """

    bands: list[Band]
    later: list[list[range]]
    extra: list[Line]
    others: dict[tuple[str, str], str]
    columns: list[str]
    counts: dict[int, int]
    past: "list[Block]"


class Part(NamedTuple):
    """One part; `shaping`: rows with what is done, for information."""

    rows: range
    shaping: list[Line]
    blocks: list[Block]


def number(text: str) -> int:
    """A number with its thousands separated."""
    return int(text.replace(",", ""))


def label_rows(label: str) -> tuple[int, ...]:
    """The rows of `Row 1 and every RS row to row 27, rows 30 and 31`, in ascending order."""
    label = re.sub(r" \((?:RS|WS)\)", "", label)
    whole, _, left_out = label.partition(", but not ")
    if left_out:
        assert {*label_rows(left_out)} < {*label_rows(whole)}
        return tuple(row for row in label_rows(whole) if row not in label_rows(left_out))
    found: list[int] = []
    series = (
        rf"[Rr]ow ({_NUMBER}) and every (RS|WS|\d+(?:st|nd|rd|th)) row to row ({_NUMBER})"
        rf"|[Rr]ows ({_NUMBER}) to ({_NUMBER})"
    )
    for match in re.finditer(series, label):
        if match[4]:
            found += range(number(match[4]), number(match[5]) + 1)
            continue
        step = 2 if match[2] in ("RS", "WS") else int(match[2][:-2])
        assert match[2] != "RS" or number(match[1]) % 2, label
        assert match[2] != "WS" or number(match[1]) % 2 == 0, label
        found += range(number(match[1]), number(match[3]) + 1, step)
    rest = re.sub(series, "", label)
    assert re.fullmatch(r"(?:[Rr]ows? |[\d,]|, | and )*", rest), label
    found += [number(one) for one in re.findall(_NUMBER, rest)]
    return tuple(sorted(found))


def parts(text: str) -> list[Part]:
    """All parts of the instructions."""
    found, lines = list[Part](), list[str]()
    for line in [*text.split("\n"), "Bind off"]:
        if _PART.fullmatch(line) or line in ("Bind off", "Finish"):
            if lines:
                found.append(_part(lines))
            lines = [line] if _PART.fullmatch(line) else []
            if not lines and found:
                break
        elif lines:
            lines.append(line)
    return found


def _part(lines: list[str]) -> Part:
    head = _PART.fullmatch(lines[0])
    assert head
    part = Part(range(number(head["first"]), number(head["last"]) + 1), [], [])
    band: Band | None = None
    for line in lines[1:]:
        told = line.strip()
        if not told:
            continue
        if (found := _LINE.fullmatch(told)) and _SHAPING.match(found["text"]) and not part.blocks:
            part.shaping.append(Line(label_rows(found["label"]), found["text"], {}))
        elif found:
            _row_line(part, band, found["label"], found["text"])
        elif heading := _BAND.fullmatch(told):
            first = number(heading["first"])
            band = Band(heading["name"], range(first, number(heading["last"] or heading["first"]) + 1), [])
            _open_block(part, line).bands.append(band)
        elif told.startswith(("These rows of the later repeats differ:", "In the later repeats the shaping falls")):
            assert not part.blocks[-1].later, "what differs is said too late"
            band = None
        elif told.startswith("More rows of it, if the yarn allows") or _FURTHER.match(told):
            block = Block([], [_ranges(told)], [], {}, [], {}, [])
            part.blocks[-1].past.append(block)
            band = None
        elif told != "Shaping in this part (it is written out in the rows below):":
            _repeats(part, told)
    return part


def _ranges(told: str) -> list[range]:
    found = re.findall(rf"\(rows? ({_NUMBER})(?: (?:to|and) ({_NUMBER}))?\)", told)
    return [range(number(first), number(last or first) + 1) for first, last in found]


def _open_block(part: Part, line: str) -> Block:
    """A band at the outer level is a block of its own; one further in belongs to the repeat above it."""
    if not line.startswith("    "):
        part.blocks.append(Block([], [], [], {}, [], {}, []))
    return part.blocks[-1]


def _row_line(part: Part, band: Band | None, label: str, text: str) -> None:
    block = (part.blocks[-1].past or part.blocks)[-1]
    lettered = re.fullmatch(rf"((?:[A-Z]+ {_NUMBER}(?:, )?)+)(?: \([^()]*\))?", text)
    if lettered:
        line = (band.lines if band else block.extra)[-1]
        (row,) = label_rows(label)
        line.letters[row] = dict(one.split(" ") for one in lettered[1].split(", "))
    elif others := re.fullmatch(r"All other (RS|WS) rows of (.*)", label):
        block.others[others[1], others[2]] = text
    elif band is None:
        block.extra.append(Line(label_rows(label), text, {}))
    elif label.startswith("All other rows"):
        told = {row for line in band.lines for row in line.rows}
        band.lines.append(Line(tuple(row for row in band.rows if row not in told), text, {}))
        assert f"to row {band.rows[-1]:,}" in label
    else:
        band.lines.append(Line(label_rows(label), text, {}))


def _repeats(part: Part, told: str) -> None:
    """What is said of repeats: where they begin, that they are alike, or one line of their table."""
    if told == "Work once:" or re.match(rf"Work (?:the same )?{_NUMBER} repeat.* The first ", told):
        part.blocks.append(Block([], [], [], {}, [], {}, []))
        return
    if alike := _ALIKE.match(told):
        _alike(part.blocks[-1], number(alike["first"]), number(alike["last"]))
        return
    cells = re.split(r"\s{2,}", told)
    if cells[0] == "repeat":
        part.blocks[-1].columns.extend(cells)
    elif re.fullmatch(_NUMBER, cells[0]):
        block = part.blocks[-1]
        columns = _columns(cells, block)
        block.later.append(columns)
        if block.columns[-1] == "sts after":
            block.counts[columns[-1][-1]] = number(cells[-1])


def _columns(cells: list[str], block: Block) -> list[range]:
    """The rows of each band in one line of the table; a band of one row has its number."""
    named = [cell for heading, cell in zip(block.columns, cells, strict=True) if heading.endswith(", rows")]
    ends = [cell.partition("-") for cell in named]
    return [range(number(first), number(last or first) + 1) for first, _, last in ends]


def _alike(block: Block, first: int, last: int) -> None:
    lengths, at = [len(band.rows) for band in block.bands], first
    while at <= last:
        turn = []
        for length in lengths:
            turn.append(range(at, at + length))
            at += length
        block.later.append(turn)
    assert at == last + 1


def changes(line: Line) -> list[tuple[str, str, int]]:
    """What a shaping sentence says: action, place and stitches; two in the middle of the spine are one on each side."""
    found, action = [], ""
    for match in _CHANGE.finditer(line.text):
        action = match[1] or action
        half = match[3] == "in the middle of the spine"
        place = "on each side of the spine" if half else match[3]
        found.append((action, place, number(match[2]) // 2 if half else number(match[2])))
    return found


def worded(line: Line, row: int) -> str:
    """The words of a line for one of its rows: letters filled in, counts and what is only informed left out."""
    text = re.sub(r" \([^()]*\bsts?\b[^()]*\)$", "", line.text)
    text = re.sub(rf" \((?:once|twice|{_NUMBER} times)(?: in row {_NUMBER})?\)", "", text)
    text = re.sub(r" \(once in row [\d,]+\)", "", text)

    if not line.letters:
        return text
    values = line.letters[row]
    return re.sub(r"(?<![A-Z\d])(k|p|sl |bind off |cast on |last |\] )?([A-Z])(?![A-Z\d])", _value(values), text)


def _value(values: dict[str, str]) -> Callable[[re.Match[str]], str]:
    return lambda match: (match[1] or "") + values.get(match[2], match[2])
