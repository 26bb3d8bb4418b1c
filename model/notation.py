"""What a stitch's written rows take in yarn: loops drawn and extra wraps for each stitch made.

A loop is drawn each time that the yarn is pulled through or laid over the needle (the item table of
`halfhank.grammar.items`); crossing a cable lengthens its loops by a tenth (from memory).
"""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from halfhank.grammar.items import ITEMS
from halfhank.grammar.syntax import Across, Cable, InOne, Item, Multiple, Times, WholeRow, Work, WrittenRow


class Tally(NamedTuple):
    """Sums over some items: stitches `taken` and `made`, loops in tenths (whole numbers stay exact), extra `wraps`."""

    taken: int
    made: int
    tenths: int
    wraps: int


class Draw(NamedTuple):
    """Yarn of one stitch made: `loops` of the plain stitch, and `wraps` beyond the first."""

    loops: float
    wraps: float


PLAIN = Draw(1.0, 0.0)


def tally(items: Iterable[Item]) -> Tally:
    """The sums over items, brackets worked out; `*…*` counts once and a whole row as one stitch."""
    taken = made = tenths = wraps = 0
    for item in items:
        one = _item(item)
        taken, made, tenths, wraps = taken + one.taken, made + one.made, tenths + one.tenths, wraps + one.wraps
    return Tally(taken, made, tenths, wraps)


def _item(item: Item) -> Tally:
    match item:
        case Work():
            kind, count = ITEMS[item.kind], item.count * (2 if item.twice else 1)
            made = kind.made * count
            return Tally(kind.taken * count, made, 10 * kind.loops * count, (item.wraps - 1) * made)
        case Cable():
            width = item.first + item.second
            return Tally(width, width, 11 * width, 0)
        case WholeRow():
            return Tally(1, 1, 10, 0)
        case InOne():
            return tally(item.items)._replace(taken=item.stitches)
        case Times():
            return Tally(*(item.times * part for part in tally(item.items)))
        case Across():
            return tally(item.items)


def draw(rows: Iterable[WrittenRow], multiple: Multiple | None) -> Draw:
    """Loops and extra wraps for each stitch made, over all rows of one repeat.

    Every row counts at the width of the stitch multiple; the stitches outside `*…*` only frame the repeat.
    """
    made = tenths = wraps = 0
    for row in rows:
        one, times = _row(row, multiple), len(row.numbers)
        made, tenths, wraps = made + times * one.made, tenths + times * one.tenths, wraps + times * one.wraps
    return Draw(tenths / (10 * made), wraps / made) if made else PLAIN


def _row(row: WrittenRow, multiple: Multiple | None) -> Tally:
    across = [item for item in row.items if isinstance(item, Across)]
    one = tally(across or row.items)
    width = multiple.stitches if multiple else 0
    if width and one.taken and (across or isinstance(row.items[0], WholeRow)):
        times = max(1, width // one.taken)
        return Tally(*(times * part for part in one))
    return one


def has_yarn_overs(rows: Iterable[WrittenRow]) -> bool:
    """Whether any row makes a yarn over."""
    return any(_any(row.items, lambda work: work.kind == "yo") for row in rows)


def has_long_stitches(rows: Iterable[WrittenRow]) -> bool:
    """Whether any stitch is wrapped more than once."""
    return any(_any(row.items, lambda work: work.wraps > 1) for row in rows)


def _any(items: Iterable[Item], test: Callable[[Work], bool]) -> bool:
    for item in items:
        if isinstance(item, Work) and test(item):
            return True
        if isinstance(item, InOne | Times | Across) and _any(item.items, test):
            return True
    return False
