"""A row in working order as segments: runs of plain stitches, which shaping may use, finished items, which it may not,
and the places between them where a row is shaped."""

from collections.abc import Iterable, Sequence

from halfhank.grammar.description import Item, Times, Work
from halfhank.model.stitch_counts.bare_items import NOWHERE
from halfhank.model.stitch_counts.tally import tally_of

KNIT, PURL = "k", "p"
EDGE, WING, SPINE, SHAPING = "edge", "wing", "spine", "shaping"
WORK = "work"
"""An item of stitches in a pattern without rows: its kind is this word and the name."""
MIDDLE = "middle"
"""A place that shaping does not reach across."""
FIRST_EDGE, BEFORE_SPINE, AFTER_SPINE, LAST_EDGE = "first edge", "before spine", "after spine", "second edge"


def stitch_item(kind: str, count: int = 1, wraps: int = 1) -> Work:
    """An item that stands in nobody's file."""
    return Work(kind, count, False, False, wraps, False, NOWHERE)


class Segment:
    """Neighbouring stitches of a row, or a place in it.

    `place` is EDGE, WING, SPINE, SHAPING, or for a place without stitches FIRST_EDGE … LAST_EDGE. `plain` stitches are
    all worked as `kind` (KNIT, PURL, or WORK and the name of a pattern without rows), each wrapped `wraps` times; of
    finished `items` there are 0.
    """

    __slots__ = ("items", "kind", "place", "plain", "wraps")

    def __init__(
        self, place: str, plain: int = 0, kind: str = KNIT, wraps: int = 1, items: tuple[Item, ...] = ()
    ) -> None:
        self.place, self.plain, self.kind, self.wraps, self.items = place, plain, kind, wraps, items

    @property
    def written(self) -> tuple[Item, ...]:
        """Its items."""
        return (stitch_item(self.kind, self.plain, self.wraps),) if self.plain else self.items

    @property
    def empty(self) -> bool:
        """Whether it is a place without stitches."""
        return not self.plain and not self.items


def takes(items: Iterable[Item]) -> int:
    """Stitches that items take from the needle."""
    return _sum(items, "taken")


def makes(items: Iterable[Item]) -> int:
    """Stitches that items leave on the needle."""
    return _sum(items, "made")


def _sum(items: Iterable[Item], what: str) -> int:
    """Stitches of a pattern without rows stay what they are."""
    total = 0
    for item in items:
        if isinstance(item, Times):
            total += item.times * _sum(item.items, what)
        elif isinstance(item, Work) and item.kind.startswith(f"{WORK} "):
            total += item.count
        else:
            total += getattr(tally_of((item,)), what)
    return total


def shaping(items: Iterable[Item]) -> Segment:
    """Items that change the count."""
    return Segment(SHAPING, items=tuple(items))


class Line:
    """A row's segments in working order."""

    def __init__(self, segments: Sequence[Segment]) -> None:
        self.segments = list(segments)

    def halved(self) -> "Line | None":
        """The same line with its plain middle shared by both edges; None where the middle is not plain throughout."""
        line = self.copy()
        first, last = line.find(FIRST_EDGE), line.find(LAST_EDGE)
        inside = [segment for segment in line.segments[first:last] if not segment.empty]
        if not inside or any(segment.items for segment in inside):
            return None
        half = sum(segment.plain for segment in inside) // 2
        line._wall(first, half, 1)
        line._wall(line.find(LAST_EDGE), half, -1)
        return line

    def _wall(self, at: int, stitches: int, step: int) -> None:
        """A middle so many plain stitches away from a place on that side."""
        for number in self._side(at, step):
            segment = self.segments[number]
            if segment.plain > stitches:
                rest = Segment(segment.place, segment.plain - stitches, segment.kind, segment.wraps)
                segment.plain = stitches
                self.segments[number : number + 1] = [segment, Segment(MIDDLE), rest][::step]
                return
            stitches -= segment.plain

    @property
    def is_halved(self) -> bool:
        """Whether its middle is shared."""
        return any(segment.place == MIDDLE for segment in self.segments)

    def copy(self) -> "Line":
        """The same line, to try something on."""
        return Line([Segment(one.place, one.plain, one.kind, one.wraps, one.items) for one in self.segments])

    def plained(self, *places: str) -> "Line":
        """The same stitches, those of these places that keep their number knit plain."""
        return Line([_plained(one) if one.place in places else one for one in self.copy().segments])

    @property
    def stitches(self) -> int:
        """Stitches that the row takes from the needle."""
        return sum(segment.plain or takes(segment.items) for segment in self.segments)

    def find(self, place: str) -> int:
        """Where a place is."""
        return next(number for number, segment in enumerate(self.segments) if segment.place == place)

    def _side(self, at: int, step: int) -> range:
        """The segments after (`step` 1) or before (-1) a place, nearest first."""
        return range(at, len(self.segments)) if step > 0 else range(at - 1, -1, -1)

    def plain(self, at: int, step: int) -> int:
        """Plain stitches that lie together on that side of a place."""
        total = 0
        for number in self._side(at, step):
            segment = self.segments[number]
            if segment.place == MIDDLE or (not segment.plain and not segment.empty):
                break
            total += segment.plain
        return total

    def nearest(self, at: int, step: int) -> Segment | None:
        """The nearest segment with stitches or shaping on that side."""
        return next((self.segments[n] for n in self._side(at, step) if not self.segments[n].empty), None)

    def look(self, at: int, step: int) -> tuple[str, int]:
        """How the nearest stitch is worked there, and its wraps: on that side, else on the other, else knit."""
        for way in (step, -step):
            found = self.nearest(at, way)
            if found and found.plain:
                return (found.kind if found.kind == PURL else KNIT), found.wraps
        return KNIT, 1

    def take(self, at: int, count: int, step: int) -> None:
        """Takes so many plain stitches away on that side of a place."""
        for number in self._side(at, step):
            segment = self.segments[number]
            used = min(count, segment.plain)
            segment.plain -= used
            count -= used
            if not count:
                return
        raise ValueError("not so many plain stitches")

    def has_stitch(self, at: int, step: int) -> bool:
        """Whether any stitch lies on that side of a place."""
        return any(segment.plain or makes(segment.items) for segment in self.segments[slice(*_ends(at, step))])

    def stitches_before(self, at: int) -> int:
        """Stitches that the row works before a place."""
        return sum(segment.plain or takes(segment.items) for segment in self.segments[:at])

    def insert(self, at: int, items: Iterable[Item]) -> None:
        """Puts shaping at a place."""
        self.segments.insert(at, shaping(items))


def _plained(segment: Segment) -> Segment:
    count = takes(segment.items)
    if not segment.items or count != makes(segment.items):
        return segment
    return Segment(segment.place, count, KNIT)


def _ends(at: int, step: int) -> tuple[int, int | None]:
    return (at, None) if step > 0 else (0, at)
