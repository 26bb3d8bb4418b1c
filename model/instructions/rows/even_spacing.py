"""`increase … evenly` and `decrease … evenly`: which stitches, so that the row comes out.

An increase is made from the strand between two stitches, and n stitches have n - 1 such strands: none lies before the
first or after the last of them. Where more are asked for than there are strands, or more decreases than pairs, every
stitch takes its share.
"""

from halfhank.grammar.record import NamedTuple


class Even(NamedTuple):
    """Plain stitches between the changes of one row: before the first, between them in order, and after the last.

    `takes`: stitches that each change takes from the needle (0 for make 1, 2 for k2tog).
    """

    runs: tuple[int, ...]
    takes: int

    @property
    def stitches(self) -> int:
        """Stitches that the row takes."""
        return sum(self.runs) + self.takes * (len(self.runs) - 1)


def even_increases(stitches: int, more: int) -> Even | None:
    """`more` increases over the row, each between two stitches; None where there are more than strands between them."""
    if more >= stitches or more < 1:
        return None
    if stitches >= 2 * more:
        return Even(_runs(stitches, more), 0)
    return Even((1, *_spread(stitches - 2, more - 1), 1), 0)


def even_decreases(stitches: int, changes: int, takes: int = 2) -> Even | None:
    """So many changes that take `takes` stitches each over the row, None where there is no room for them."""
    if takes * changes > stitches or changes < 1:
        return None
    return Even(_runs(stitches - takes * changes, changes), takes)


def _runs(plain: int, changes: int) -> tuple[int, ...]:
    """Plain stitches in one run more than changes; half a run at each end, the longer runs in the middle."""
    whole = _spread(plain, changes)
    return (whole[0] // 2, *whole[1:], whole[0] - whole[0] // 2)


def _spread(total: int, places: int) -> list[int]:
    """A number shared out to places, the larger shares in the middle."""
    share, larger = divmod(total, places)
    aside = (places - larger + 1) // 2
    return [share] * aside + [share + 1] * larger + [share] * (places - larger - aside)


def crowded_counts(stitches: int, change: int) -> list[int]:
    """What is made in each stitch of the row, or, of a row that gets shorter, how many are worked as one each time."""
    return _spread(stitches + change, stitches) if change > 0 else _spread(stitches, stitches + change)
