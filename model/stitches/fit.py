"""Patterns in the growing shawl: how many multiples fit into each wing, what is over, how new stitches come in.

In the first row of a band the pattern is placed again: from the spine (or the left edge of a piece in one panel), with
what is not enough for a multiple at the edge. Up to the end of the band it stays in its columns; stitches gained at a
side are worked in the fill stitch there, until they make a whole multiple at the start of a vertical repeat. A
multiple that decreases would reach during a repeat is worked in the fill stitch from the start of that repeat.
"""

from collections.abc import Iterator, Sequence
from itertools import accumulate

from halfhank.grammar.problems.problem import Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
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
    """A panel when a vertical repeat begins: `stitches`, `multiples` in pattern, filled stitches at both sides."""

    row: int
    stitches: int
    multiples: int
    at_edge: int
    at_spine: int


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
    spine = rows.spine if needle.left else rows.upper
    right = _laid(pattern, stretch, needle.right, spine)
    left = _laid(pattern, stretch, needle.left, rows.spine) if needle.left else ()
    return Fit(pattern, stretch, tuple(right), tuple(left))


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


def _laid(
    pattern: Pattern, stretch: PatternRows, wing: Sequence[int], spine: Sequence[int]
) -> Iterator[LaidRepeat]:
    """The panel at the start of each vertical repeat; `spine` has what each row gains at the spine's side."""
    each = pattern.multiple.each
    at_spine = multiples = 0
    for row in range(stretch.first_row, stretch.last_row + 1, len(pattern.rows)):
        stitches = wing[row - 1]
        edge_room, spine_room = _rooms(range(row, min(row + len(pattern.rows), stretch.last_row + 1)), wing, spine)
        if multiples:
            at_spine += sum(spine[row - len(pattern.rows) : row])
            new, at_spine = divmod(at_spine - spine_room, each) if each else (0, at_spine - spine_room)
            multiples, at_spine = max(0, multiples + new), at_spine + spine_room
            at_edge = stitches - at_spine - pattern.multiple.stitches(multiples)
            multiples += (at_edge - edge_room) // each if each else 0
            if multiples < pattern.least or (not each and min(at_spine - spine_room, at_edge - edge_room) < 0):
                multiples = 0
        if not multiples:
            multiples, at_spine = whole_multiples(pattern, stitches - edge_room - spine_room), spine_room
            at_spine = at_spine if multiples else 0
        filled = stitches - in_pattern(pattern, multiples) - at_spine
        yield LaidRepeat(row, stitches, multiples, filled, at_spine)


def _rooms(rows: range, wing: Sequence[int], spine: Sequence[int]) -> tuple[int, int]:
    """Stitches that must lie beside the pattern at the edge and at the spine for all that is decreased there.

    What is decreased in a repeat is never taken from the pattern, whose rows would not come out then.
    """
    edge_room = spine_room = edge = middle = 0
    for row in rows:
        at_spine = spine[row]
        at_edge = wing[row] - wing[row - 1] - at_spine
        edge_room = max(edge_room, _taken(at_edge) - edge)
        spine_room = max(spine_room, _taken(at_spine) - middle)
        edge, middle = edge + at_edge, middle + at_spine
    return edge_room, spine_room


def _taken(gained: int) -> int:
    """Stitches that the decreases of a row are worked over, at most two for each that is gone."""
    return -2 * gained if gained < 0 else 0


def gains(stretch_first: int, last: int, column: Sequence[int]) -> int:
    """What some rows gain at one place."""
    return sum(column[stretch_first : last + 1])
