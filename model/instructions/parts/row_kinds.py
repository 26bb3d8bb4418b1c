"""Rows of one kind: the same row of the same stitch with the same shaping, told once for all of them."""

from collections.abc import Sequence

from halfhank.grammar.description import EVENLY
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.parts.row_phrases import REPEATS, RowWords, row_words
from halfhank.model.instructions.parts.worked_blocks import BandBlock, PlacedRun
from halfhank.model.instructions.rows.events import Event
from halfhank.model.instructions.rows.every_row import InstructedRow
from halfhank.model.stitches.pattern import Pattern

MOST_LINES = 6
"""Lines of one wording that differ in numbers; where there would be more, letters stand for the numbers."""


class Task(NamedTuple):
    """What a knitter knows of a row: its band, its row in the stitch's rows, its side, and its shaping.

    `band` is the place of the band: its block, and its place in each repeat of that.
    """

    band: tuple[int, int]
    pattern_row: int
    wrong_side: bool
    shaping: tuple[tuple[str, str, str, int], ...]


class WordedRow(NamedTuple):
    """A row with its task and its words; `run` is the first row of its band."""

    row: InstructedRow
    run: int
    task: Task
    words: RowWords


class KindLine(NamedTuple):
    """Rows that one line tells, in order; all their wordings are alike but for numbers."""

    rows: tuple[WordedRow, ...]

    @property
    def first_row(self) -> int:
        """The first of them."""
        return self.rows[0].row.row

    @property
    def is_plain(self) -> bool:
        """Whether it is knit or purl throughout."""
        words = self.rows[0].words
        return len(words.phrases) == 1 and not words.numbers

    @property
    def numbers(self) -> list[int]:
        """The rows' numbers."""
        return [one.row.row for one in self.rows]


def worded(
    blocks: list[BandBlock],
    rows: tuple[InstructedRow, ...],
    events: dict[int, list[Event]],
    patterns: dict[str, Pattern],
) -> list[WordedRow]:
    """All rows of a part."""
    return [
        _worded((number, place), placed, rows[row - 1], events.get(row, []), patterns)
        for number, block in enumerate(blocks)
        for turn in block.turns
        for place, placed in enumerate(turn.runs)
        for row in placed.rows
    ]


def _worded(
    band: tuple[int, int],
    placed: PlacedRun,
    row: InstructedRow,
    events: list[Event],
    patterns: dict[str, Pattern],
) -> WordedRow:
    pattern = patterns.get(placed.run.stitch)
    each = len(pattern.rows) if pattern else 2 if placed.run.stitch == "drop" else 1
    shaping = tuple((one.action, one.place, one.method, one.stitches) for one in events)
    task = Task(band, (row.row - placed.first_row) % each, row.wrong_side, shaping)
    literal = any(one.place == EVENLY for one in events)
    return WordedRow(row, placed.first_row, task, row_words(row, literal))


def kind_lines(rows: Sequence[WordedRow]) -> list[KindLine]:
    """One line for all rows that have the same words and numbers, by first row.

    Where rows of one wording have more than a few different numbers, they are one line, and their numbers a list.
    """
    found: dict[tuple[object, ...], dict[tuple[float, ...], list[WordedRow]]] = {}
    for row in rows:
        found.setdefault(row.words.wording, {}).setdefault(numbers_of(row), []).append(row)
    lines = [KindLine(tuple(one)) for by_numbers in found.values() for one in _lines(by_numbers)]
    return sorted(lines, key=lambda line: line.first_row)


def _lines(by_numbers: dict[tuple[float, ...], list[WordedRow]]) -> list[list[WordedRow]]:
    if len(by_numbers) <= MOST_LINES:
        return list(by_numbers.values())
    return [sorted((row for alike in by_numbers.values() for row in alike), key=lambda row: row.row.row)]


def numbers_of(row: WordedRow) -> tuple[float, ...]:
    """Its numbers but for counts of repeats, which the words leave to where they end."""
    return tuple(one.number for one in row.words.numbers if one.unit != REPEATS)


def place_of(row: WordedRow) -> int:
    """Its place among the rows of its band, from 1."""
    return row.row.row - row.run + 1
