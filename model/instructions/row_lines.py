"""A pattern's rows as written instructions, in the trade's usual abbreviations.

`halfhank.grammar.reading.instruction_reader` reads them back.
"""

import re
from collections.abc import Sequence

from halfhank.grammar.description import Item, Work
from halfhank.model.instructions.abbreviations import listed
from halfhank.model.stitch_counts.balance import StitchCount
from halfhank.model.stitch_counts.loops import is_elongated
from halfhank.model.stitches.pattern import Pattern, PatternRow
from halfhank.model.stitches.worked_rows import levels_of
from halfhank.model.words.catalogue import said


def row_lines(pattern: Pattern, turned: bool = False) -> list[str]:
    """One line for all rows that are written on one, in the order of their first rows.

    `Row 1 (RS): K1, *yo, ssk, k1, k2tog, yo, k1; rep from * to end.` `turned`: row 1 is a wrong-side row.
    """
    levels = levels_of(pattern)
    groups: dict[tuple[object, StitchCount, StitchCount], list[PatternRow]] = {}
    for place, row in enumerate(pattern.rows):
        groups.setdefault((row.span, levels[place], levels[place + 1]), []).append(row)
    return [_line(rows, turned, found, left) for (_, found, left), rows in groups.items()]


def release_lines(pattern: Pattern) -> list[str]:
    """Where the extra wraps of elongated stitches are let go, as a sentence.

    Nothing where no stitch has any, or where the rows say it themselves.
    """
    saying = {row.number for row in pattern.rows if _says_it(row.items[0])}
    after = sorted({row.number % len(pattern.rows) + 1 for row in pattern.rows if is_elongated(row.items)} - saying)
    if not after:
        return []
    rows = _numbers(after, said("numbers.run", first="{}", last="{}"), said("numbers.last", others="{}", last="{}"))
    return [said("pattern.release", count=len(after), rows=rows)]


def _says_it(first: Item) -> bool:
    return isinstance(first, Work) and first.kind == "drop wraps"


def _line(rows: list[PatternRow], turned: bool, found: StitchCount, left: StitchCount) -> str:
    sides = {row.wrong_side != turned for row in rows}
    side = f" ({'WS' if sides == {True} else 'RS'})" if len(sides) == 1 else ""
    numbers = [row.number for row in rows]
    label = f"Row {numbers[0]}" if len(numbers) == 1 else f"Rows {_numbers(numbers)}"
    after = "" if found.each == left.each else " " + said("pattern.repeat-has", stitches=str(left.each))
    return f"{label}{side}: {_sentence(rows[0])}.{after}"


def _numbers(numbers: Sequence[int], run: str = "{} to {}", last: str = "{} and {}") -> str:
    """Runs of three or more as `2 to 4`, the last after `and`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = [w for one in runs for w in ([run.format(one[0], one[-1])] if len(one) > 2 else map(str, one))]
    return words[0] if len(words) == 1 else last.format(", ".join(words[:-1]), words[-1])


def _sentence(row: PatternRow) -> str:
    items = row.items
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
