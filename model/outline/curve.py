"""Plane curves of lines and cubic Béziers, in cm, x to the right and y downwards as on the drawing.

Affine maps (turning, pinning) act on the control points alone, so a row is drawn as exactly as it was computed.
"""

import math
from collections.abc import Callable, Iterable
from itertools import pairwise

from halfhank.grammar.record import NamedTuple

Point = tuple[float, float]

MOST_STEPS = 500
"""Into how many lines a cubic is cut at most, however large it is."""


MOST_BOW = 0.1
"""The largest area by which a line is bowed, as a share of the square on it."""


class Curve(NamedTuple):
    """A path from `start` through `pieces`: `(end,)` is a straight line, `(control, control, end)` a cubic Bézier."""

    start: Point
    pieces: tuple[tuple[Point, ...], ...]

    @property
    def end(self) -> Point:
        return self.pieces[-1][-1] if self.pieces else self.start

    def mapped(self, transform: Callable[[Point], Point]) -> "Curve":
        """The curve under an affine map."""
        return Curve(transform(self.start), tuple([tuple([transform(p) for p in piece]) for piece in self.pieces]))

    def reversed(self) -> "Curve":
        """The same curve from its end to its start."""
        ends = [self.start] + [piece[-1] for piece in self.pieces]
        pieces = []
        for before, piece in zip(reversed(ends[:-1]), reversed(self.pieces), strict=True):
            pieces.append((*piece[:-1][::-1], before))
        return Curve(self.end, tuple(pieces))

    def furthest(self) -> list[Point]:
        """The points of the cubics, between their ends, that lie furthest to a side or up or down."""
        found: list[Point] = []
        start = self.start
        for piece in self.pieces:
            if len(piece) == 3:
                found += [
                    bezier_point(start, *piece, t) for axis in (0, 1) for t in _flat_places(start[axis], piece, axis)
                ]
            start = piece[-1]
        return found

    def flattened(self, tolerance_cm: float = 0.005) -> list[Point]:
        """Points on the curve, its corners included, whose polyline stays within the tolerance.

        A cubic is cut into n equal steps of its parameter, n from the largest second difference of its control points
        (the bound of Wang 1984: n = sqrt(d (d-1) / 8 * max / tolerance), d = 3).
        """
        points = [self.start]
        for piece in self.pieces:
            if len(piece) == 1:
                points.append(piece[0])
                continue
            p0, (p1, p2, p3) = points[-1], piece
            bend = max(
                math.hypot(p0[0] - 2 * p1[0] + p2[0], p0[1] - 2 * p1[1] + p2[1]),
                math.hypot(p1[0] - 2 * p2[0] + p3[0], p1[1] - 2 * p2[1] + p3[1]),
            )
            steps = min(max(1, math.ceil(math.sqrt(0.75 * bend / tolerance_cm))), MOST_STEPS)
            points.extend(bezier_point(p0, p1, p2, p3, k / steps) for k in range(1, steps))
            points.append(p3)
        return points


def bezier_point(p0: Point, p1: Point, p2: Point, p3: Point, t: float) -> Point:
    """A cubic at parameter `t`, by its Bernstein form (textbook, from memory)."""
    s = 1 - t
    a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
    return (a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1])


def _flat_places(first: float, piece: tuple[Point, ...], axis: int) -> list[float]:
    """Parameters between 0 and 1 at which one coordinate of a cubic has the derivative 0."""
    one, other, last = (point[axis] for point in piece)
    if min(first, last) <= min(one, other) and max(one, other) <= max(first, last):
        return []
    a, b, c = last - first + 3 * (one - other), 2 * (first - 2 * one + other), one - first
    within = b * b - 4 * a * c
    if within < 0:
        return []
    root = -(b + math.copysign(math.sqrt(within), b)) / 2
    places = [root / a if a else math.inf, c / root if root else math.inf]
    return [t for t in places if 0 < t < 1]


def line(points: Iterable[Point]) -> Curve:
    """The polyline through the points."""
    first, *rest = points
    return Curve(first, tuple((p,) for p in rest))


def arc(centre: Point, radius: float, first: float, last: float) -> Curve:
    """A circle's arc from angle `first` to `last` (radians, y downwards, so growing angles turn clockwise on the page).

    Each quarter turn at most is one cubic with handles of 4/3 tan(angle / 4) radii, within 0.03 % of the radius.
    """
    count = max(1, math.ceil(abs(last - first) / (math.pi / 2) - 1e-9))
    step = (last - first) / count
    handle = 4 / 3 * math.tan(step / 4) * radius

    def at(angle: float, along: float = 0.0) -> Point:
        c, s = math.cos(angle), math.sin(angle)
        return (centre[0] + radius * c - along * s, centre[1] + radius * s + along * c)

    angles = [first + k * step for k in range(count + 1)]
    pieces = tuple((at(a, handle), at(b, -handle), at(b)) for a, b in pairwise(angles))
    return Curve(at(first), pieces)


def bowed(first: Point, last: Point, area_cm2: float) -> Curve:
    """A cubic from one point to the other that encloses this area with the straight line between them, on the side to
    which a clockwise quarter turn of that line points (negative: on the other); it bends most near its start.

    With handles that stand off a line of length c by p and q at its thirds, the area is c (p + q) / 4.
    """
    x, y = last[0] - first[0], last[1] - first[1]
    square = x * x + y * y
    if square <= 0:
        return line((first, last))
    most = MOST_BOW * square
    share = min(max(area_cm2, -most), most) / square
    near, far = 3 * share, share
    one = (first[0] + x / 3 - near * y, first[1] + y / 3 + near * x)
    other = (first[0] + 2 * x / 3 - far * y, first[1] + 2 * y / 3 + far * x)
    return Curve(first, ((one, other, last),))


def joined(curves: Iterable[Curve]) -> Curve:
    """The curves one after the other as one; each starts where the one before ends."""
    first, *rest = curves
    if not rest:
        return first
    pieces = list(first.pieces)
    for curve in rest:
        pieces.extend(curve.pieces)
    return Curve(first.start, tuple(pieces))
