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


def even_words(even: Even, change: str) -> str:
    """The row in the trade's words: `k4, m1, [k8, m1] 6 times, k4`."""
    first = [f"k{even.runs[0]}"] if even.runs[0] else []
    inner = [f"k{run}, {change}" if run else change for run in even.runs[1:-1]]
    last = [f"k{even.runs[-1]}"] if even.runs[-1] else []
    return ", ".join([*first, change, *_grouped(inner), *last])


def crowded_words(stitches: int, change: int) -> str:
    """The same where every stitch takes its share: several worked in each, or several knitted together.

    At least one stitch is left.
    """
    counts = crowded_counts(stitches, change)
    if change > 0:
        return ", ".join(_grouped([_increased(count) for count in counts]))
    return ", ".join(_grouped([f"k{count}tog" for count in counts]))


def crowded_counts(stitches: int, change: int) -> list[int]:
    """What is made in each stitch of the row, or, of a row that gets shorter, how many are worked as one each time."""
    return _spread(stitches + change, stitches) if change > 0 else _spread(stitches, stitches + change)


def _increased(made: int) -> str:
    """So many stitches worked in one: knit in front and back, or knit and purl alternately."""
    if made == 2:
        return "kfb"
    pairs = f"[k1, p1] {made // 2} times" if made > 3 else "k1, p1"
    return f"({pairs}{', k1' if made % 2 else ''}) in next st"


def _grouped(items: list[str]) -> list[str]:
    """Items in their order, those that follow one another alike said once."""
    groups: list[tuple[str, int]] = []
    for item in items:
        times = groups.pop()[1] if groups and groups[-1][0] == item else 0
        groups.append((item, times + 1))
    return [item if times == 1 else f"[{item}] {times} times" for item, times in groups]
