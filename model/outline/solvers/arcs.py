"""Rows that are arcs at constant distances: a middle arc around one centre, outer arcs of another radius at its ends.

Two curves at a constant distance bound a strip as wide as that distance everywhere, so lengths, heights and area are as
knitted.
"""

import math
from collections.abc import Callable, Sequence

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Curve, Point, arc, joined, line
from halfhank.model.outline.local_outline import Grain
from halfhank.model.outline.region import RowEnds
from halfhank.model.outline.solvers.strip import Strip

WHOLE = math.inf
"""The turn of a middle arc that no row is longer than: all rows are arcs around one centre."""

_DOWN = math.pi / 2


class ArcRadii(NamedTuple):
    """The arcs that the rows consist of. The centre of the middle arcs is the origin, their middle straight below it.

    `middle_cm`: radius of the first boundary's middle arc; `turn`: the angle (radians) that the middle arcs turn to
    each side; `outer_cm`: radius of the first boundary's outer arcs, infinite where they are straight.
    """

    middle_cm: float
    turn: float = WHOLE
    outer_cm: float = math.inf


class HalfRow(NamedTuple):
    """Half a row: the angle that its middle part turns, the length of its outer part, and the whole angle it turns."""

    middle: float
    outer_cm: float
    turn: float


def half_row(radii: ArcRadii, along_cm: float, length_cm: float) -> HalfRow:
    """One half of a row of this length, at this distance from the first boundary."""
    radius, half = radii.middle_cm + along_cm, length_cm / 2
    if half <= radii.turn * radius:
        return HalfRow(half / radius, 0.0, half / radius)
    outer = half - radii.turn * radius
    return HalfRow(radii.turn, outer, radii.turn + outer / (radii.outer_cm + along_cm))


def right_end(radii: ArcRadii, along_cm: float, length_cm: float) -> Point:
    """The right end of a row; the left one is its mirror image."""
    half = half_row(radii, along_cm, length_cm)
    radius = radii.middle_cm + along_cm
    x, y = radius * math.sin(half.middle), radius * math.cos(half.middle)
    if half.outer_cm > 0:
        if math.isinf(radii.outer_cm):
            return x + half.outer_cm * math.cos(half.middle), y - half.outer_cm * math.sin(half.middle)
        chord = 2 * (radii.outer_cm + along_cm) * math.sin((half.turn - half.middle) / 2)
        mean = (half.turn + half.middle) / 2
        return x + chord * math.cos(mean), y - chord * math.sin(mean)
    return x, y


def row_curve(radii: ArcRadii, along_cm: float, length_cm: float) -> Curve:
    """A row from its left end to its right one."""
    half = half_row(radii, along_cm, length_cm)
    middle = arc((0.0, 0.0), radii.middle_cm + along_cm, _DOWN + half.middle, _DOWN - half.middle)
    if half.outer_cm == 0:
        return middle
    right = right_end(radii, along_cm, length_cm)
    if math.isinf(radii.outer_cm):
        outer = line((middle.end, right))
    else:
        off = radii.middle_cm - radii.outer_cm
        centre = (off * math.sin(radii.turn), off * math.cos(radii.turn))
        outer = arc(centre, radii.outer_cm + along_cm, _DOWN - radii.turn, _DOWN - half.turn)
    return joined((outer.mapped(_mirrored).reversed(), middle, outer))


def _mirrored(point: Point) -> Point:
    return -point[0], point[1]


class ArcRows(NamedTuple):
    """A strip in arcs: ends and curves of its boundaries, what the box has to hold, and each half row's turn."""

    ends: list[tuple[RowEnds, RowEnds]]
    curve: Callable[[int, bool], Curve]
    reach: list[Point]
    turns: list[float]


def arc_rows(strip: Strip, radii: ArcRadii, turned: bool) -> ArcRows:
    """All boundaries of a strip; `turned`: it is laid out from the last row, and rows are to be counted back."""
    ends, reach, turns = [], [(0.0, radii.middle_cm + strip.height_cm)], []
    for at, before, after in zip(strip.along_cm, strip.before, strip.after, strict=True):
        first = _ends(radii, at, before)
        ends.append((first, first if after == before else _ends(radii, at, after)))
        turns.append(half_row(radii, at, max(before, after)).turn)
        reach.extend(_sides(radii, at, max(before, after)))
    if turned:
        ends, turns = [(after, before) for before, after in reversed(ends)], turns[::-1]
        strip = strip._replace(along_cm=strip.along_cm[::-1], before=strip.after[::-1], after=strip.before[::-1])

    def curve(row: int, after: bool) -> Curve:
        bare = row_curve(radii, strip.along_cm[row], (strip.after if after else strip.before)[row])
        left, right = ends[row][after]
        return Curve(left, (*bare.pieces[:-1], (*bare.pieces[-1][:-1], right)))

    return ArcRows(ends, curve, reach, turns)


def _ends(radii: ArcRadii, along_cm: float, length_cm: float) -> RowEnds:
    right = right_end(radii, along_cm, length_cm)
    return _mirrored(right), right


def _sides(radii: ArcRadii, along_cm: float, length_cm: float) -> list[Point]:
    """The outermost points of a row that turns back towards the middle."""
    half = half_row(radii, along_cm, length_cm)
    if half.turn <= _DOWN:
        return []
    if half.middle > _DOWN or math.isinf(radii.outer_cm):
        x = radii.middle_cm + along_cm
        y = 0.0
    else:
        off = radii.middle_cm - radii.outer_cm
        x = off * math.sin(radii.turn) + radii.outer_cm + along_cm
        y = off * math.cos(radii.turn)
    return [(-x, y), (x, y)]


def arc_grain(turns: Sequence[float], along: Sequence[float] | None = None) -> Callable[[int], Grain]:
    """The grain of rows that turn so far to each side; `along`: how far each row is stretched as it lies."""

    def grain(row: int) -> Grain:
        return Grain(along[row] if along else 0.0, 0.0, 0.0, turns[row])

    return grain
