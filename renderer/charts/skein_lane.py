"""The lane beside the outlines of several skeins: an entry for each, on a leader to a dot on its last row.

Where the dots lie along the last rows, and in which order the entries stand, is tried out: that is taken in which
leaders cross no dot and no other leader, and are short.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, product

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.house_style import INK, LIGHT, SMALL, SOFT, THIN
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.crossings import lines_meet
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of
from halfhank.renderer.plane.spreading import spread

LEADING = 1.35 * SMALL
"""From one line of an entry to the next, mm."""
GAP = 1.2
LEADER_GAP = 1.2
DOT = 0.6
CLEAR = 1.3
"""A leader this near to another's dot runs through it, mm."""
BASES = (0.8, 0.7, 0.9, 0.6, 0.5, 0.96, 0.4, 0.3)
STEPS = (0.0, 0.015, -0.015, 0.04, -0.04)
"""Where the dot of the smallest outline lies along its last row, as a share of it, and how far on each next one."""


class LaneEntry(NamedTuple):
    """One outline's texts, the first in ink, and its last row on the page."""

    lines: tuple[str, ...]
    row: Points


class _Lane(NamedTuple):
    """Entries from the top down, each with its dot and the baseline of its first line."""

    entries: tuple[LaneEntry, ...]
    dots: tuple[Point, ...]
    tops: tuple[float, ...]
    x: float

    @property
    def leaders(self) -> list[Points]:
        """Each dot's line to the middle of its entry's first line."""
        ends = [(self.x - LEADER_GAP, top - SMALL * CAP_HEIGHT / 2) for top in self.tops]
        return [[dot, end] for dot, end in zip(self.dots, ends, strict=True)]

    def cost(self) -> float:
        """Ten for each dot that a leader runs through, each two leaders that cross and each two dots that touch."""
        leaders = self.leaders
        through = sum(
            distance_to(dot, leader) < CLEAR
            for (i, leader), (k, dot) in product(enumerate(leaders), enumerate(self.dots))
            if i != k
        )
        crossed = sum(lines_meet(one, other) for one, other in combinations(leaders, 2))
        touching = sum(math.dist(one, other) < 2.2 * DOT for one, other in combinations(self.dots, 2))
        return 10.0 * (through + crossed + touching) + 0.01 * sum(map(length_of, leaders))


def entry_height(entries: Sequence[LaneEntry]) -> float:
    """The room of one entry in the lane, mm."""
    return LEADING * max(len(entry.lines) for entry in entries) + GAP


def skein_lane(entries: Sequence[LaneEntry], x: float, drawn: Box) -> tuple[tuple[Group, ...], float]:
    """Leaders and texts of entries whose outlines come the largest first, and where the lane ends, mm."""
    lane = min(_lanes(entries, x, drawn), key=_Lane.cost)
    texts: list[Element] = []
    leaders: list[Element] = []
    for entry, line, top in zip(lane.entries, lane.leaders, lane.tops, strict=True):
        inks = (INK, *[SOFT] * (len(entry.lines) - 1))
        items = zip(entry.lines, inks, strict=True)
        texts += [Label(x, top + LEADING * k, text, SMALL, ink) for k, (text, ink) in enumerate(items)]
        data = (("M", line[0]), ("L", line[1]))
        leaders += [Path(data, Style(stroke=LIGHT, width=3 * THIN)), Path(data, Style(stroke=INK, width=THIN))]
    leaders += [Circle(*dot, DOT, Style(fill=INK, stroke=LIGHT, width=THIN)) for dot in lane.dots]
    bottom = lane.tops[-1] + LEADING * (len(lane.entries[-1].lines) - 1) + 0.6 * SMALL
    return (Group("leaders", tuple(leaders)), Group("lane", tuple(texts))), bottom


def _lanes(entries: Sequence[LaneEntry], x: float, drawn: Box) -> Iterator[_Lane]:
    """All lanes that are tried: places of the dots, and the largest outline at the top or at the foot."""
    for base, step in product(BASES, STEPS):
        shares = [min(max(base + step * k, 0.03), 0.97) for k in range(len(entries))][::-1]
        dots = [
            at_length(entry.row, share * length_of(entry.row))[0] for entry, share in zip(entries, shares, strict=True)
        ]
        tops = _tops(entries, dots, drawn)
        yield _Lane(tuple(entries), tuple(dots), tops, x)
        yield _Lane(tuple(entries[::-1]), tuple(dots[::-1]), tops, x)


def _tops(entries: Sequence[LaneEntry], dots: Sequence[Point], drawn: Box) -> tuple[float, ...]:
    low, height = drawn.top + SMALL * CAP_HEIGHT, entry_height(entries)
    wanted = sorted(y + SMALL * CAP_HEIGHT / 2 for _, y in dots)
    return tuple(spread(wanted, height, low, max(drawn.bottom, low + height * len(dots))))
