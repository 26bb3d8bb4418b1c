"""A pattern's rows stitch by stitch, over a given number of multiples."""

from typing import NamedTuple

from halfhank.grammar.syntax import Across, Item, Work
from halfhank.model.pattern.balance import Level, least_multiples, passes
from halfhank.model.pattern.checks import walked
from halfhank.model.pattern.count import tally_of
from halfhank.model.pattern.pattern import Pattern, PatternRow, whole_row
from halfhank.model.pattern.signs import units


class Step(NamedTuple):
    """One item worked once: it takes `taken` stitches and leaves `made` side by side."""

    item: Item
    taken: int
    made: int


class WorkedRow(NamedTuple):
    """A row's `steps` from the right edge to the left one, whichever way it was worked.

    `box_in`, `box_out`: where the first multiple lies, from the right edge, among the stitches that the row takes and among
    those it leaves: first stitch and the one after the last.
    """

    row: PatternRow
    wrong_side: bool
    steps: tuple[Step, ...]
    box_in: tuple[int, int]
    box_out: tuple[int, int]

    @property
    def made(self) -> int:
        """Stitches that it leaves."""
        return sum(step.made for step in self.steps)


def levels_of(pattern: Pattern) -> tuple[Level, ...]:
    """The count that each row finds, and what the last one leaves."""
    return walked(pattern).levels


def fewest_multiples(pattern: Pattern) -> int:
    """The smallest number of multiples in which every row's stars are worked at least once."""
    return least_multiples(list(levels_of(pattern)), [row.tally for row in pattern.rows])


def worked_rows(pattern: Pattern, multiples: int, turned: bool = False) -> list[WorkedRow]:
    """All rows over so many multiples; `turned`: row 1 is a wrong-side row. The pattern must be free of mistakes."""
    found: list[WorkedRow] = []
    box = _first_box(pattern, turned)
    for row, level in zip(pattern.rows, levels_of(pattern), strict=False):
        wrong_side = row.wrong_side != turned
        steps = _steps(row, level, multiples)
        box_in, box_out = _boxes(row, level, wrong_side, box)
        found.append(WorkedRow(row, wrong_side, tuple(steps[::-1] if wrong_side else steps), box_in, box_out))
        box = box_out
    return found


def _first_box(pattern: Pattern, turned: bool) -> tuple[int, int]:
    """Where the multiple lies before row 1: where the first row with stars finds it."""
    for row, level in zip(pattern.rows, levels_of(pattern), strict=False):
        if row.across:
            return _boxes(row, level, row.wrong_side != turned, (0, 0))[0]
    return (0, pattern.multiple.each)


def _boxes(
    row: PatternRow, level: Level, wrong_side: bool, before: tuple[int, int]
) -> tuple[tuple[int, int], tuple[int, int]]:
    tally = row.tally
    if tally.across is None:
        return before, before
    right = tally.after if wrong_side else tally.before
    times = level.each // tally.across.taken
    box_in = (right.taken, right.taken + times * tally.across.taken)
    return box_in, (right.made, right.made + times * tally.across.made)


def _steps(row: PatternRow, level: Level, multiples: int) -> list[Step]:
    whole = row.tally.whole
    if whole:
        first = whole_row(row)
        assert first
        return [Step(Work(whole, 1, False, False, 1, False, first.span), 1, 1)] * level.stitches(multiples)
    found: list[Item] = []
    for item in row.items:
        if isinstance(item, Across):
            found += units(item.items) * max(0, passes(level, row.tally, multiples))
        else:
            found += units((item,))
    return [_step(item) for item in found]


def _step(item: Item) -> Step:
    tally = tally_of((item,))
    return Step(item, tally.taken, tally.made)
