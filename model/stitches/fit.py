"""Patterns in the growing shawl: how many multiples fit into each wing, what is over, how new stitches come in.

In the first row of a band the pattern is placed again: from the spine, with what is not enough for a multiple at the
edge; in one panel in the middle where both edges are shaped alike, else from the upper edge. Up to the end of the
band it stays in its columns; stitches gained at a side are worked in the fill stitch there, until they make a whole
multiple at the start of a vertical repeat. Stitches that a repeat's shaping is worked over or between are in the fill
stitch from its start.
"""

from collections.abc import Iterator, Sequence
from itertools import accumulate

from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.design.shaping_methods import LEAST_CAST_ON
from halfhank.model.rows.row_table import Rows
from halfhank.model.stitches.pattern import Pattern


class Needle(NamedTuple):
    """How the live stitches of every row divide: `edge` at each side, `spine` between two wings, and the wings.

    `right` and `left` are the wings' stitches after each row, index 0 the start; `left` is empty where there is one
    panel, which is `right`. On right-side rows the right wing is worked first.
    """

    edge: int
    spine: int
    right: tuple[int, ...]
    left: tuple[int, ...]

    @property
    def wings(self) -> int:
        """How many panels a row has."""
        return 2 if self.left else 1


class PatternRows(NamedTuple):
    """Some rows worked in one stitch: a band, with where the description writes it."""

    stitch: str
    first_row: int
    last_row: int
    span: Span | None

    @property
    def rows(self) -> int:
        return self.last_row - self.first_row + 1


class LaidRepeat(NamedTuple):
    """A panel when a vertical repeat begins: `stitches`, `multiples` in pattern, filled stitches at both sides.

    `room`: those of the filled stitches that the repeat's shaping is worked over.
    """

    row: int
    stitches: int
    multiples: int
    at_edge: int
    at_spine: int
    room: int = 0


class Fit(NamedTuple):
    """A pattern in one stretch.

    `right` and `left` as in `Needle`, each with one entry for every vertical repeat begun.
    """

    pattern: Pattern
    stretch: PatternRows
    right: tuple[LaidRepeat, ...]
    left: tuple[LaidRepeat, ...]

    @property
    def wings(self) -> tuple[tuple[LaidRepeat, ...], ...]:
        return (self.right, self.left) if self.left else (self.right,)


def needle_of(design: Design, rows: Rows) -> Needle:
    """The division of every row. What is gained evenly is shared by the wings.

    A row narrower than its edges is edge all over, then comes the spine: stitches that come in fill up these first.
    """
    edge, spine = design.edge.stitches, design.spine.stitches
    inside = [max(0, live - 2 * edge - spine) for live in rows.stitches]
    if not spine and not any(rows.spine):
        return Needle(edge, spine, tuple(inside), ())
    first = (rows.stitches[0] - 2 * edge - spine) // 2
    half = [e // 2 for e in accumulate(rows.evenly)]
    lower = accumulate(w + s for w, s in zip(rows.lower, rows.spine, strict=True))
    wings = (first + gained + shared for gained, shared in zip(lower, half, strict=True))
    right = tuple(min(max(0, wing), both) for wing, both in zip(wings, inside, strict=True))
    return Needle(edge, spine, right, tuple(both - wing for both, wing in zip(inside, right, strict=True)))


def fitted(pattern: Pattern, stretch: PatternRows, needle: Needle, rows: Rows) -> Fit:
    """The pattern laid out in a stretch of rows."""
    bare = int(not needle.edge)
    if not needle.left:
        span = slice(stretch.first_row, stretch.last_row + 1)
        sides = Sides(rows.lower, rows.upper, bare, bare, rows.lower[span] == rows.upper[span])
        return Fit(pattern, stretch, tuple(_laid(pattern, stretch, needle.right, sides)), ())
    right = _laid(pattern, stretch, needle.right, Sides(rows.lower, rows.spine, bare, 0))
    left = _laid(pattern, stretch, needle.left, Sides(rows.upper, rows.spine, bare, int(not needle.spine)))
    return Fit(pattern, stretch, tuple(right), tuple(left))


class Sides(NamedTuple):
    """What each row gains at a panel's edge and at the spine's side of it.

    `bare_edge`, `bare_spine`: 1 where no edge or spine stitch lies there, beside which increases could be made.
    `even`: both are edges, shaped alike, so that the pattern stands in the middle.
    """

    edge: Sequence[int]
    spine: Sequence[int]
    bare_edge: int
    bare_spine: int
    even: bool = False


def whole_multiples(pattern: Pattern, stitches: int) -> int:
    """How many multiples so many stitches hold; 0 where fewer than the rows need."""
    each, extra = pattern.multiple
    if each == 0:
        return int(stitches >= extra)
    found = (stitches - extra) // each
    return found if found >= pattern.least else 0


def in_pattern(pattern: Pattern, multiples: int) -> int:
    """Stitches of so many multiples with their extra, 0 of none."""
    return pattern.multiple.stitches(multiples) if multiples else 0


def _laid(pattern: Pattern, stretch: PatternRows, wing: Sequence[int], sides: Sides) -> Iterator[LaidRepeat]:
    """The panel at the start of each vertical repeat."""
    each, length = pattern.multiple.each, len(pattern.rows)
    at_spine = multiples = 0
    for row in range(stretch.first_row, stretch.last_row + 1, length):
        stitches = wing[row - 1]
        edge_room, spine_room = _rooms(range(row, min(row + length, stretch.last_row + 1)), wing, sides)
        if multiples:
            at_spine += sum(sides.spine[row - length : row])
            new, at_spine = divmod(at_spine - spine_room, each) if each else (0, at_spine - spine_room)
            multiples, at_spine = max(0, multiples + new), at_spine + spine_room
            at_edge = stitches - at_spine - pattern.multiple.stitches(multiples)
            multiples += (at_edge - edge_room) // each if each else 0
            if multiples < pattern.least or (not each and min(at_spine - spine_room, at_edge - edge_room) < 0):
                multiples = 0
        room = edge_room + spine_room
        if not multiples:
            multiples = whole_multiples(pattern, stitches - room)
            spare = (stitches - room - in_pattern(pattern, multiples)) if sides.even else 0
            at_spine = spine_room + spare // 2 if multiples else 0
        filled = stitches - in_pattern(pattern, multiples) - at_spine
        yield LaidRepeat(row, stitches, multiples, filled, at_spine, room)


def _rooms(rows: range, wing: Sequence[int], sides: Sides) -> tuple[int, int]:
    """Stitches that must lie beside the pattern at the edge and at the spine for the repeat's shaping.

    What is increased or decreased in a repeat is never worked into the pattern, whose rows would not come out then.
    """
    edge_room = spine_room = edge = middle = 0
    for row in rows:
        at_spine = sides.spine[row]
        at_edge = wing[row] - wing[row - 1] - at_spine
        lost = _over(min(at_edge, sides.edge[row]))
        edge_room = max(edge_room, max(lost, _between(sides.edge[row], sides.bare_edge)) - edge)
        spine_room = max(spine_room, max(_over(at_spine), _between(at_spine, sides.bare_spine)) - middle)
        edge, middle = edge + at_edge, middle + at_spine
    return edge_room, spine_room


def _over(gained: int) -> int:
    """Stitches that the decreases of a row are worked over, at most two for each that is gone."""
    return -2 * gained if gained < 0 else 0


def _between(gained: int, bare: int) -> int:
    """Stitches that lie between the increases of a row at one place: none where they are cast on."""
    return gained - 1 + bare if 0 < gained < LEAST_CAST_ON else 0


def gains(stretch_first: int, last: int, column: Sequence[int]) -> int:
    """What some rows gain at one place."""
    return sum(column[stretch_first : last + 1])
