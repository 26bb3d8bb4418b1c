"""What a stitch's written rows take in yarn: loops drawn and extra wraps for each stitch.

A loop is drawn each time that the yarn is pulled through or laid over the needle (the item table of
`halfhank.grammar.items`); crossing a cable lengthens its loops by a tenth (from memory).
"""

from collections.abc import Callable, Iterable

from halfhank.grammar.description import Across, InOne, Item, Times, Work, WrittenRow
from halfhank.grammar.record import NamedTuple
from halfhank.model.stitch_counts.tally import Tally, tally_of, whole_row


class Draw(NamedTuple):
    """Yarn of one stitch as a plan counts it: `loops` of the plain stitch, and `wraps` beyond the first."""

    loops: float
    wraps: float


PLAIN = Draw(1.0, 0.0)


MOST_MADE = 1e6
"""Rows that make more of a stitch than this cannot be worked; the figure stays finite."""


def draw(rows: Iterable[WrittenRow]) -> Draw:
    """Loops and extra wraps for each stitch, over all rows of one repeat.

    A plan counts every row at the stitches that the repeat begins with. What a row takes of them follows from the rows
    before; the stitches outside `*…*` only frame the repeat.
    """
    numbered = sorted(((number, row) for row in rows for number in row.numbers), key=lambda one: one[0])
    live, loops, wraps = 1.0, 0.0, 0.0
    for _, row in numbered:
        one = _counted(row)
        if one.taken:
            loops += live * ((10 * one.loops + one.crossed) / (10 * one.taken))
            wraps += live * (one.extra_wraps / one.taken)
            live = min(live * (one.made / one.taken), MOST_MADE)
    return Draw(loops / len(numbered), wraps / len(numbered)) if numbered else PLAIN


def _counted(row: WrittenRow) -> Tally:
    """What is worked across a row, all of it without `*…*`; a whole row as one stitch."""
    if whole_row(row.items):
        return Tally(1, 1, 1, 0, 0)
    return tally_of([item for item in row.items if isinstance(item, Across)] or row.items)


def has_yarn_overs(rows: Iterable[WrittenRow]) -> bool:
    """Whether any row makes a yarn over."""
    return any(_any(row.items, lambda work: work.kind == "yo") for row in rows)


def has_long_stitches(rows: Iterable[WrittenRow]) -> bool:
    """Whether any stitch is wrapped more than once."""
    return any(is_elongated(row.items) for row in rows)


def is_elongated(items: Iterable[Item]) -> bool:
    """Whether a row of these items has a stitch that is wrapped more than once."""
    return _any(items, lambda work: work.wraps > 1)


def _any(items: Iterable[Item], test: Callable[[Work], bool]) -> bool:
    for item in items:
        if isinstance(item, Work) and test(item):
            return True
        if isinstance(item, InOne | Times | Across) and _any(item.items, test):
            return True
    return False
