"""Stitch counts for any number of multiples at once: what a row finds, takes and leaves."""

from collections.abc import Sequence

from halfhank.grammar.record import NamedTuple
from halfhank.model.stitch_counts.tally import RowTally
from halfhank.model.words.drawn_words import phrase


class StitchCount(NamedTuple):
    """A stitch count that holds for every number of multiples: `each` a multiple, and `extra`."""

    each: int
    extra: int

    def stitches(self, multiples: int) -> int:
        """The count over so many multiples."""
        return self.each * multiples + self.extra

    @property
    def words(self) -> str:
        """The count as a pattern says it ("a multiple of 8 sts + 1")."""
        return self._in_words(phrase("multiple.of", stitches=phrase("count.st", count=self.each)))

    @property
    def short_words(self) -> str:
        """The same without the article, for lists and headings."""
        return self._in_words(phrase("multiple.short", stitches=phrase("count.st", count=self.each)))

    def _in_words(self, multiple: str) -> str:
        if self.each == 0:
            return phrase("count.st", count=self.extra)
        if self.each == 1:
            return phrase("multiple.any")
        extra = self.extra if self.extra >= 0 else self.extra % self.each
        return phrase("multiple.and", multiple=multiple, extra=extra) if extra else multiple


def takes(tally: RowTally) -> StitchCount:
    """What a row takes, one pass of its stars a multiple.

    Of a whole row nothing can be said: it takes what there is.
    """
    return StitchCount(tally.across.taken if tally.across else 0, tally.outside.taken)


def leaves(level: StitchCount, tally: RowTally) -> StitchCount | None:
    """What a row makes of the stitches it finds, None if it does not take exactly those.

    The stars are worked a whole number of times for every number of multiples if what they take divides `each`, and
    `extra` less what is outside them: q = (each r + extra - outside) / across.
    """
    if tally.whole:
        return level
    outside = tally.outside
    if tally.across is None:
        return StitchCount(0, outside.made) if level == (0, outside.taken) else None
    taken, made = tally.across.taken, tally.across.made
    rest = level.extra - outside.taken
    if taken == 0 or level.each % taken or rest % taken or (level.each == 0 and rest < 0):
        return None
    return StitchCount(level.each // taken * made, outside.made + rest // taken * made)


def passes(level: StitchCount, tally: RowTally, multiples: int) -> int:
    """How often the stars are worked over so many multiples; negative where the row does not fit in yet."""
    if tally.across is None:
        return 0
    return (level.stitches(multiples) - tally.outside.taken) // tally.across.taken


def least_multiples(multiple: StitchCount, tallies: Sequence[RowTally]) -> int:
    """The smallest number of multiples, from 1, over which every row works a whole multiple between its stars.

    Rows that do not follow from one another are looked at up to the first that does not.
    """
    least, level = 1, multiple
    for tally in tallies:
        left = leaves(level, tally)
        if left is None:
            break
        if tally.across is not None and level.each:
            least = max(least, -(-(tally.outside.taken + level.each - level.extra) // level.each))
        level = left
    return least
