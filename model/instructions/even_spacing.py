"""`increase … evenly` and `decrease … evenly`: which stitches, so that the row comes out."""

from halfhank.grammar.record import NamedTuple


class Even(NamedTuple):
    """Plain stitches between the changes of one row: before the first, between them in order, and after the last.

    `takes`: stitches that each change takes from the needle (0 for make 1, 1 for kfb, 2 for k2tog).
    """

    runs: tuple[int, ...]
    takes: int

    @property
    def stitches(self) -> int:
        """Stitches that the row takes."""
        return sum(self.runs) + self.takes * (len(self.runs) - 1)


def even_increases(stitches: int, more: int) -> Even | None:
    """`more` increases over the row, None where there are more of them than stitches."""
    if more > stitches or more < 1:
        return None
    return Even(_runs(stitches, more), 0)


def even_decreases(stitches: int, fewer: int) -> Even | None:
    """`fewer` decreases of two stitches over the row, None where there is no room for them."""
    if 2 * fewer > stitches or fewer < 1:
        return None
    return Even(_runs(stitches - 2 * fewer, fewer), 2)


def _runs(plain: int, changes: int) -> tuple[int, ...]:
    """Plain stitches in one run more than changes; half a run at each end, the longer runs in the middle."""
    short, longer = divmod(plain, changes)
    aside = (changes - longer + 1) // 2
    whole = [short] * aside + [short + 1] * longer + [short] * (changes - longer - aside)
    return (whole[0] // 2, *whole[1:], whole[0] - whole[0] // 2)


def even_words(even: Even, change: str) -> str:
    """The row in the trade's words: `k4, m1, [k8, m1] 6 times, k4`."""
    parts = [f"k{even.runs[0]}"] if even.runs[0] else []
    parts.append(change)
    groups: list[tuple[int, int]] = []
    for run in even.runs[1:-1]:
        if groups and groups[-1][0] == run:
            groups[-1] = (run, groups[-1][1] + 1)
        else:
            groups.append((run, 1))
    for run, times in groups:
        inner = f"k{run}, {change}" if run else change
        parts.append(inner if times == 1 else f"[{inner}] {times} times")
    return ", ".join(parts + ([f"k{even.runs[-1]}"] if even.runs[-1] else []))
