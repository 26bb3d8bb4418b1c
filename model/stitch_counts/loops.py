"""What a stitch's written rows take in yarn: loops drawn and extra wraps for each stitch made.

A loop is drawn each time that the yarn is pulled through or laid over the needle (the item table of
`halfhank.grammar.items`); crossing a cable lengthens its loops by a tenth (from memory).
"""

from collections.abc import Callable, Iterable

from halfhank.grammar.description import Across, InOne, Item, Times, WholeRow, Work, WrittenRow
from halfhank.grammar.record import NamedTuple
from halfhank.model.stitch_counts.tally import Tally, tally_of


class Draw(NamedTuple):
    """Yarn of one stitch made: `loops` of the plain stitch, and `wraps` beyond the first."""

    loops: float
    wraps: float


PLAIN = Draw(1.0, 0.0)


def draw(rows: Iterable[WrittenRow], multiple: tuple[int, int] | None) -> Draw:
    """Loops and extra wraps for each stitch made, over all rows of one repeat.

    Every row counts at the width of the stitch `multiple` (stitches, extra), or where none is written of the widest
    row; the stitches outside `*…*` only frame the repeat.
    """
    tallies = [(_counted(row), row) for row in rows]
    width = multiple[0] if multiple else max((one.taken for one, _ in tallies), default=0)
    made = tenths = wraps = 0
    for one, row in tallies:
        times = len(row.numbers) * _times(one, row, width)
        made += times * one.made
        tenths += times * (10 * one.loops + one.crossed)  # in tenths whole numbers stay exact
        wraps += times * one.extra_wraps
    return Draw(tenths / (10 * made), wraps / made) if made else PLAIN


def _counted(row: WrittenRow) -> Tally:
    """What is worked across a row, all of it without `*…*`; a whole row as one stitch."""
    if isinstance(row.items[0], WholeRow):
        return Tally(1, 1, 1, 0, 0)
    return tally_of([item for item in row.items if isinstance(item, Across)] or row.items)


def _times(one: Tally, row: WrittenRow, width: int) -> int:
    across = isinstance(row.items[0], WholeRow) or any(isinstance(item, Across) for item in row.items)
    return max(1, width // one.taken) if across and one.taken else 1


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
