"""What working notation takes from the needle, leaves on it, and draws of the yarn."""

from collections.abc import Iterable

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, WholeRow, Work
from halfhank.grammar.items import ITEMS, WHOLE_ROWS
from halfhank.grammar.record import NamedTuple


class Tally(NamedTuple):
    """A sum over items: stitches `taken` from the left needle and `made` on the right, and the `loops` of yarn.

    `extra_wraps`: turns of yarn around the needle beyond the first of each loop. `crossed`: the loops, among `loops`,
    of stitches in cables.
    """

    taken: int
    made: int
    loops: int
    extra_wraps: int
    crossed: int

    def plus(self, other: "Tally") -> "Tally":
        """Both together."""
        return Tally(*(mine + its for mine, its in zip(self, other, strict=True)))

    def times(self, count: int) -> "Tally":
        """`count` times as much."""
        return Tally(*(mine * count for mine in self))


NOTHING = Tally(0, 0, 0, 0, 0)


class RowTally(NamedTuple):
    """One row: what is `before` and `after` the stars, and one repeat of what is worked `across`.

    `across` is None in a row without stars; `whole` is the item (`k`, `p`) that a whole row is worked in, else None.
    """

    before: Tally
    across: Tally | None
    after: Tally
    whole: str | None

    @property
    def outside(self) -> Tally:
        """All that is outside the stars."""
        return self.before.plus(self.after)


def tally_of(items: Iterable[Item]) -> Tally:
    """The sum over items, what is worked across counted once; a whole row counts nothing."""
    total = NOTHING
    for item in items:
        total = total.plus(_one(item))
    return total


def whole_row(items: tuple[Item, ...]) -> WholeRow | None:
    """The item of a row that is `knit` or `purl` throughout, its last one; None in any other row."""
    return items[-1] if items and isinstance(items[-1], WholeRow) else None


def row_tally(items: tuple[Item, ...]) -> RowTally:
    """The sums of one row."""
    whole = whole_row(items)
    if whole:
        return RowTally(NOTHING, None, NOTHING, WHOLE_ROWS[whole.kind])
    for place, item in enumerate(items):
        if isinstance(item, Across):
            before, after = tally_of(items[:place]), tally_of(items[place + 1 :])
            return RowTally(before, tally_of(item.items), after, None)
    return RowTally(tally_of(items), None, NOTHING, None)


def _one(item: Item) -> Tally:
    match item:
        case Work():
            return _work(item)
        case Cable():
            width = item.first + item.second
            return Tally(width, width, width, 0, width)
        case Times():
            return tally_of(item.items).times(item.times)
        case InOne():
            return tally_of(item.items)._replace(taken=item.stitches)
        case Across():
            return tally_of(item.items)
        case WholeRow():
            return NOTHING


def _work(item: Work) -> Tally:
    kind = ITEMS[item.kind]
    times = item.count * (2 if item.twice else 1)
    loops = kind.loops * times
    return Tally(kind.taken * times, kind.made * times, loops, loops * (item.wraps - 1), 0)
