"""Places along a line, moved apart until they have room"""

from collections.abc import Sequence


def spread(places: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """The places, in rising order, moved apart to at least `gap` and kept within `low`…`high` as far as there is room.

    Neighbours that meet become a block that lies around the mean of where its members want to be.
    """
    blocks: list[tuple[float, int]] = []  # sum of wanted starts, members
    for place in places:
        blocks.append((place, 1))
        while len(blocks) > 1 and _start(blocks[-1], gap) < _start(blocks[-2], gap) + blocks[-2][1] * gap:
            wanted, members = blocks.pop()
            before, count = blocks.pop()
            blocks.append((before + wanted, count + members))
    moved: list[float] = []
    for block in blocks:
        start = _start(block, gap)
        moved += [start + k * gap for k in range(block[1])]
    return _kept_within(moved, gap, low, high)


def _start(block: tuple[float, int], gap: float) -> float:
    wanted, members = block
    return wanted / members - (members - 1) * gap / 2


def _kept_within(places: list[float], gap: float, low: float, high: float) -> list[float]:
    count = len(places)
    within = [min(place, high - (count - 1 - k) * gap) for k, place in enumerate(places)]
    return [max(place, low + k * gap) for k, place in enumerate(within)]
