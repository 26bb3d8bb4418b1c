"""Rows of one kind: the same row of the same stitch with the same shaping, told once for all of them."""

from collections import Counter
from collections.abc import Sequence

from halfhank.grammar.description import EVENLY
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.parts.row_phrases import REPEATS, RowWords, row_words
from halfhank.model.instructions.parts.worked_blocks import BandBlock, PlacedRun
from halfhank.model.instructions.rows.events import Event
from halfhank.model.instructions.rows.every_row import InstructedRow
from halfhank.model.stitches.pattern import Pattern

IN_LINE = 6
"""Rows whose numbers are given in brackets; those of more have letters and a line each."""
_USUAL = 0.75
"""The share of a task's rows that make their words the usual ones."""


class Task(NamedTuple):
    """What a knitter knows of a row: its band, its row in the stitch's rows, its side, and its shaping.

    `band` is the place of the band: its block, and its place in each repeat of that. `in_band`: the row's place among
    the rows of its band, from 1, where that makes a difference; else 0.
    """

    band: tuple[int, int]
    pattern_row: int
    wrong_side: bool
    shaping: tuple[tuple[str, str, str, int], ...]
    in_band: int = 0


class WordedRow(NamedTuple):
    """A row with its task and its words; `run` is the first row of its band."""

    row: InstructedRow
    run: int
    task: Task
    words: RowWords


class KindLine(NamedTuple):
    """Rows that one line tells, in order; all their wordings are alike but for numbers.

    `for_rows`: the numbers of all rows that are worked so, in later bands too.
    """

    rows: tuple[WordedRow, ...]
    for_rows: frozenset[int]

    @property
    def first_row(self) -> int:
        """The first of them."""
        return self.rows[0].row.row

    @property
    def told(self) -> tuple[object, ...]:
        """The same for lines that tell the same of rows of the same sides."""
        sides = frozenset(row.row.wrong_side for row in self.rows)
        numbers = {_numbers(row) for row in self.rows}
        return (self.rows[0].words.wording, frozenset(numbers) if len(numbers) == 1 else self.first_row, sides)

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


def kind_lines(rows: list[WordedRow], told_first: set[int]) -> list[KindLine]:
    """One line for each kind, by first row.

    `told_first`: the bands, by their first rows, that are told before later repeats. A task that is always worded alike
    is told of the rows of its first band if that is one of these: the knitter knows it again. Where its
    words or numbers differ by the place of the row in its band, each place is a task of its own; where they differ
    further, every row is in a line, but for those of the usual wording.
    """
    by_task = _by_task(rows)
    differing = {task for task, found in by_task.items() if not _told_once(found, told_first)}
    placed = [one if one.task not in differing else _placed(one) for one in rows]
    lines = list[KindLine]()
    for found in _by_task(placed).values():
        lines += _lines(found, told_first)
    return sorted(_joined(lines), key=lambda line: line.first_row)


Wordings = dict[tuple[object, ...], list[WordedRow]]


def _by_task(rows: list[WordedRow]) -> dict[Task, Wordings]:
    found: dict[Task, Wordings] = {}
    for one in rows:
        found.setdefault(one.task, {}).setdefault(one.words.wording, []).append(one)
    return {task: _apart(wordings) for task, wordings in found.items()}


def _apart(wordings: Wordings) -> Wordings:
    """Rows whose numbers are not those of nearly all rows of their wording, put apart from these."""
    found: Wordings = {}
    for wording, alike in wordings.items():
        numbers, count = Counter(map(_numbers, alike)).most_common(1)[0]
        usual = numbers if count >= _USUAL * len(alike) else None
        for one in alike:
            found.setdefault((wording, usual is None or _numbers(one) == usual), []).append(one)
    return found


def _numbers(row: WordedRow) -> tuple[float, ...]:
    """Its numbers but for counts of repeats, which the words leave to where they end."""
    return tuple(one.number for one in row.words.numbers if one.unit != REPEATS)


def _placed(row: WordedRow) -> WordedRow:
    return row._replace(task=row.task._replace(in_band=_place(row)))


def _told_once(wordings: Wordings, told_first: set[int]) -> bool:
    """Whether most rows have the same words and numbers, so that the others can be named.

    No other may stand where later repeats have a usual row: these are worked as the row at their place. Nor may as many
    others as usual ones be told before them: a row at a place of its own is worked as most rows like it.
    """
    usual = max(wordings.values(), key=len)
    others = [row for alike in wordings.values() if alike is not usual for row in alike]
    told = [row for row in others if row.run in told_first]
    if told and len(told) >= sum(row.run in told_first for row in usual):
        return False
    places = {_place(row) for row in told}
    taken = places & {_place(row) for row in usual if row.run not in told_first}
    return _same_numbers(usual) and len(usual) >= _USUAL * (len(usual) + len(others)) and not taken


def _place(row: WordedRow) -> int:
    """Its place among the rows of its band."""
    return row.row.row - row.run + 1


def _lines(wordings: Wordings, told_first: set[int]) -> list[KindLine]:
    """The lines of one task: the usual wording once, the others with all their rows."""
    usual, lines = max(wordings.values(), key=len), []
    first = min(row.row.row for alike in wordings.values() for row in alike)
    for alike in wordings.values():
        once = alike is usual and _same_numbers(alike) and alike[0].run in told_first
        once = once and (not alike[0].task.in_band or alike[0].row.row == first)
        told = tuple(one for one in alike if one.run == alike[0].run) if once else tuple(alike)
        lines.append(KindLine(told, frozenset(one.row.row for one in alike)))
    return lines


def _joined(lines: list[KindLine]) -> list[KindLine]:
    """Lines of different rows of one band that are worded alike as one line, if their numbers are few or the same."""
    found: dict[tuple[object, ...], list[KindLine]] = {}
    for line in lines:
        runs = tuple(sorted({row.run for row in line.rows}))
        alike = found.setdefault((line.rows[0].words.wording, runs if len(runs) == 1 else line.first_row), [])
        place = next((place for place, other in enumerate(alike) if _joins(other, line)), None)
        if place is None:
            alike.append(line)
        else:
            alike[place] = _both(alike[place], line)
    return [line for alike in found.values() for line in alike]


def _joins(one: KindLine, other: KindLine) -> bool:
    return len(one.rows) + len(other.rows) <= IN_LINE or _same_numbers([*one.rows, *other.rows])


def _both(one: KindLine, other: KindLine) -> KindLine:
    rows = sorted((*one.rows, *other.rows), key=lambda row: row.row.row)
    return KindLine(tuple(rows), one.for_rows | other.for_rows)


def _same_numbers(rows: Sequence[WordedRow]) -> bool:
    """Whether nothing but the count of repeats differs."""
    return len(set(map(_numbers, rows))) == 1
