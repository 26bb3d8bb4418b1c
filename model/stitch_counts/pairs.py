"""Which yarn over belongs to which decrease: each to the nearest, unit by unit."""

from collections.abc import Iterable, Iterator

from halfhank.grammar.description import Across, Item, Times
from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.stitch_counts.tally import tally_of


class Change(NamedTuple):
    """An item that changes the count: its place in the row, by how much (a yarn over 1, s2kp -2)."""

    place: int
    gain: int
    span: Span


def changes(items: Iterable[Item]) -> tuple[Change, ...]:
    """The items that change the count, in working order; a bracket that keeps it as a whole is no change."""
    return tuple(Change(place, gain, span) for place, (gain, span) in enumerate(_leaves(items)) if gain)


def _leaves(items: Iterable[Item]) -> Iterator[tuple[int, Span]]:
    for item in items:
        tally = tally_of((item,))
        if isinstance(item, Across) or (isinstance(item, Times) and tally.made != tally.taken):
            yield from _leaves(item.items)
        else:
            yield tally.made - tally.taken, item.span


def unpaired(found: tuple[Change, ...]) -> tuple[Change, ...]:
    """The changes that are left when increases and decreases are paired by nearness."""
    left = {change: abs(change.gain) for change in found}
    gains = [change for change in found if change.gain > 0]
    losses = [change for change in found if change.gain < 0]
    near = sorted((abs(a.place - b.place), a.place, b.place, a, b) for a in gains for b in losses)
    for _, _, _, gain, loss in near:
        units = min(left[gain], left[loss])
        left[gain] -= units
        left[loss] -= units
    return tuple(change for change in found if left[change])
