"""A line of rows as a sentence: the row worked out, with the numbers of all its rows and the counts after them."""

from collections.abc import Iterator
from string import ascii_uppercase

from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.row_kinds import KindLine, WordedRow
from halfhank.model.instructions.parts.row_phrases import REPEATS
from halfhank.model.instructions.parts.row_sets import rows_words
from halfhank.model.report_tree import Content, ListItem, Value, content, joined, row_number
from halfhank.model.words.catalogue import say


def kind_item(line: KindLine, before: dict[int, int], label: Content = ()) -> ListItem:
    """The sentence; `before` has the stitches before each row, `label` names the rows where a list would not do."""
    columns: list[Column] = list(zip(*(row.words.numbers for row in line.rows), strict=True))
    lettered = any(_differs(column) for column in columns)
    letters = _letters(columns) if lettered else {}
    filled = iter([_filled(column, line, letters) for column in columns])
    words = line.rows[0].words
    lead, *phrases = [_with(text, filled) for text in (words.lead, *words.phrases)]
    counts = () if lettered else _counts(line, before)
    text = content(label or rows_words(line.numbers), ": ", lead, joined(", ", phrases), counts, ".")
    below = [_lettered(row, place, letters) for place, row in enumerate(line.rows)] if lettered else []
    return ListItem(text, tuple(below))


Column = tuple[Value, ...]


def _differs(column: Column) -> bool:
    return column[0].unit != REPEATS and len({one.number for one in column}) > 1


def _letters(columns: list[Column]) -> dict[tuple[float, ...], str]:
    """A letter for each course of numbers."""
    found: dict[tuple[float, ...], str] = {}
    for column in columns:
        if _differs(column):
            found.setdefault(_course(column), ascii_uppercase[len(found) % 26] * (len(found) // 26 + 1))
    return found


def _course(column: Column) -> tuple[float, ...]:
    return tuple(one.number for one in column)


def _filled(column: Column, line: KindLine, letters: dict[tuple[float, ...], str]) -> Content:
    """One number of the sentence, for all its rows."""
    first, same = column[0], len({one.number for one in column}) == 1
    if first.unit == REPEATS and same:
        return say("row.times", times=first)
    if same:
        return (first._replace(unit="repeats") if first.unit == "1" else first,)
    if first.unit == REPEATS:
        return say("row.times-in-row", times=first, row=row_number(line.first_row))
    letter = letters[_course(column)]
    return say("row.letter-times", letter=letter) if first.unit == "1" else (letter,)


def _with(text: Content, filled: Iterator[Content]) -> Content:
    return content(*(next(filled) if isinstance(one, Value) else one for one in text))


def _counts(line: KindLine, before: dict[int, int]) -> Content:
    """The stitches after the row, or how many more or fewer each of its rows has; nothing where none has."""
    changes = [row.row.stitches - before[row.row.row] for row in line.rows]
    if not any(changes):
        return ()
    after = [stitches(row.row.stitches) for row in line.rows]
    if len(line.rows) == 1:
        return say("row.count", stitches=after[0])
    last = row_number(line.numbers[-1])
    if len(set(changes)) == 1:
        change = stitches(abs(changes[0]))
        if changes[0] > 0:
            return say("row.more-each", change=change, stitches=after[-1], row=last)
        return say("row.fewer-each", change=change, stitches=after[-1], row=last)
    return say("row.count-after", stitches=after[-1], row=last)


def _lettered(row: WordedRow, place: int, letters: dict[tuple[float, ...], str]) -> ListItem:
    """The numbers of one row."""
    numbers = [content(f"{letter} ", _number(course[place])) for course, letter in letters.items()]
    told = say("row.letters", row=row_number(row.row.row), numbers=joined(", ", numbers))
    return ListItem(content(told, say("row.count", stitches=stitches(row.row.stitches)), "."))


def _number(number: float) -> Value:
    """A number beside an abbreviation, where a comma would be read as the end of an item."""
    return Value(f"{number:.0f}", number, "sts")
