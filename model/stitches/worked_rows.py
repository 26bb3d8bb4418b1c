"""A pattern's rows stitch by stitch, over a given number of multiples; what is too large for that."""

from collections.abc import Sequence

from halfhank.grammar.description import Across, Item, Work
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.problems import row_problems as known
from halfhank.model.stitch_counts.appearance import units
from halfhank.model.stitch_counts.balance import StitchCount, passes
from halfhank.model.stitch_counts.bare_items import bare
from halfhank.model.stitch_counts.tally import tally_of, whole_row
from halfhank.model.stitches.pattern import Pattern, PatternRow
from halfhank.model.stitches.row_checks import walked

MAX_COLUMNS, MAX_ROWS = 200, 400


class WorkedItem(NamedTuple):
    """One item worked once: it takes `taken` stitches and leaves `made` side by side."""

    item: Item
    taken: int
    made: int

    @property
    def squares(self) -> int:
        """Squares of a chart: one for each stitch made, and one for a stitch that is bound off."""
        return max(self.made, 1)


class WorkedRow(NamedTuple):
    """A row's `steps` from the right edge to the left one, whichever way it was worked.

    `box_in`, `box_out`: where the first multiple lies, from the right edge, among the stitches that the row takes and
    among those it leaves: first stitch and the one after the last.
    """

    row: PatternRow
    wrong_side: bool
    steps: tuple[WorkedItem, ...]
    box_in: tuple[int, int]
    box_out: tuple[int, int]

    @property
    def made(self) -> int:
        """Stitches that it leaves."""
        return sum(step.made for step in self.steps)

    @property
    def squares(self) -> int:
        """Squares of a chart."""
        return sum(step.squares for step in self.steps)


def levels_of(pattern: Pattern) -> tuple[StitchCount, ...]:
    """The count that each row finds, and what the last one leaves."""
    return walked(pattern).levels


def too_large(pattern: Pattern) -> Problem | None:
    """Why a pattern cannot be charted: more squares than any page holds."""
    if len(pattern.rows) > MAX_ROWS:
        return known.CHART_TOO_LARGE_IN_ROWS.at(pattern.span, most=MAX_ROWS, rows=len(pattern.rows))
    widest = max(level.stitches(pattern.least) for level in levels_of(pattern))
    if widest > MAX_COLUMNS:
        return known.CHART_TOO_LARGE_IN_STITCHES.at(pattern.span, most=MAX_COLUMNS, stitches=widest)
    return None


def worked_rows(pattern: Pattern, multiples: int, turned: bool = False) -> list[WorkedRow]:
    """All rows over so many multiples; `turned`: row 1 is a wrong-side row. The pattern must be free of mistakes."""
    found: list[WorkedRow] = []
    box = _first_box(pattern, turned)
    for row, level in zip(pattern.rows, levels_of(pattern), strict=False):
        wrong_side = row.wrong_side != turned
        steps = _steps(row, level, multiples, wrong_side)
        if row.across:
            window = _window(row, level, multiples, wrong_side, box)
            box_in = (_sum(steps[: window[0]], "taken"), _sum(steps[: window[1]], "taken"))
            box_out = (_sum(steps[: window[0]], "made"), _sum(steps[: window[1]], "made"))
        else:
            box_in = box_out = box
        found.append(WorkedRow(row, wrong_side, steps, box_in, box_out))
        box = box_out
    return found


def _sum(steps: Sequence[WorkedItem], what: str) -> int:
    return sum(getattr(step, what) for step in steps)


def _first_box(pattern: Pattern, turned: bool) -> tuple[int, int]:
    """Where the multiple lies before row 1: where the first row with stars has it, a right-side row if there is one."""
    levels = levels_of(pattern)
    starred = [(row.wrong_side != turned, i) for i, row in enumerate(pattern.rows) if row.across]
    if not starred:
        return (0, pattern.multiple.each)
    wrong_side, first = min(starred)
    if levels[first] != levels[0]:
        wrong_side, first = starred[0]
    tally = pattern.rows[first].tally
    right = (tally.after if wrong_side else tally.before).taken
    return (right, right + levels[0].each)


def _window(
    row: PatternRow, level: StitchCount, multiples: int, wrong_side: bool, box: tuple[int, int]
) -> tuple[int, int]:
    """The steps of the first multiple: those in the box, if one multiple more only means working them once more.

    Else they are those between the stars. A row may have its stars at either end of a multiple: `k2, *p4,
    k2*` is `*k2, p4*, k2`.
    """
    steps = _look(_steps(row, level, multiples, wrong_side))
    longer = _look(_steps(row, level, multiples + 1, wrong_side))
    length = len(longer) - len(steps)
    outside = units(row.items[: row.items.index(row.across)] if row.across and not wrong_side else _after(row))
    own = len(outside)
    starts, at = [], 0
    for place, step in enumerate(longer[: len(steps) - length + 1]):
        if at == box[0] and (*longer[:place], *longer[place + length :]) == steps:
            starts.append(place)
        at += step.taken
    start = min(starts, key=lambda place: abs(place - own), default=own)
    return (start, start + length)


def _look(steps: Sequence[WorkedItem]) -> tuple[WorkedItem, ...]:
    """The steps without their places in the text."""
    return tuple(step._replace(item=bare(step.item)) for step in steps)


def _after(row: PatternRow) -> tuple[Item, ...]:
    across = row.across
    return row.items[row.items.index(across) + 1 :] if across else ()


def _steps(row: PatternRow, level: StitchCount, multiples: int, wrong_side: bool) -> tuple[WorkedItem, ...]:
    """A row's steps from the right edge to the left one."""
    steps = _in_order(row, level, multiples)
    return tuple(steps[::-1] if wrong_side else steps)


def _in_order(row: PatternRow, level: StitchCount, multiples: int) -> list[WorkedItem]:
    whole = row.tally.whole
    if whole:
        written = whole_row(row.items)
        assert written
        return [WorkedItem(Work(whole, 1, False, False, 1, False, written.span), 1, 1)] * level.stitches(multiples)
    found: list[Item] = []
    for item in row.items:
        if isinstance(item, Across):
            found += units(item.items) * max(0, passes(level, row.tally, multiples))
        else:
            found += units((item,))
    return [_step(item) for item in found]


def _step(item: Item) -> WorkedItem:
    tally = tally_of((item,))
    return WorkedItem(item, tally.taken, tally.made)
