"""Plane geometry of the layout, in mm: boxes, polylines, and cutting curves to a length along them."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from halfhank.model.outline.curve import Curve, Point

Points = Sequence[Point]


class Box(NamedTuple):
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    def grown(self, by: float) -> "Box":
        """The box with a margin around it."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: "Box") -> bool:
        """Whether the two share more than their edges."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def joined(self, other: "Box") -> "Box":
        """The smallest box around both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


def box_of(points: Iterable[Point]) -> Box:
    """The smallest box around points, of which there is at least one."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def length_of(points: Points) -> float:
    """Length of a polyline."""
    return sum([math.dist(p, q) for p, q in pairwise(points)])


def at_length(points: Points, length: float) -> tuple[Point, Point]:
    """The point at a length along a polyline, and the unit tangent there; ends are kept to."""
    run = 0.0
    for p, q in pairwise(points):
        step = math.dist(p, q)
        if step > 0 and (run + step >= length or q is points[-1]):
            t = min(max((length - run) / step, 0.0), 1.0)
            tangent = ((q[0] - p[0]) / step, (q[1] - p[1]) / step)
            return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])), tangent
        run += step
    return points[-1], (1.0, 0.0)


def distance_to(point: Point, points: Points) -> float:
    """Distance of a point from a polyline."""
    x, y = point
    px, py = points[0]
    best = (x - px) ** 2 + (y - py) ** 2
    for qx, qy in points[1:]:
        ux, uy, vx, vy = qx - px, qy - py, x - px, y - py
        along = ux * vx + uy * vy
        if along > 0:  # else the segment's first end is nearest, which has been looked at
            square = ux * ux + uy * uy
            t = along / square if along < square else 1.0
            vx, vy = vx - t * ux, vy - t * uy
            here = vx * vx + vy * vy
            if here < best:
                best = here
        px, py = qx, qy
    return math.sqrt(best)


def inside(point: Point, polygon: Points) -> bool:
    """Whether a point lies in a closed polygon (even-odd rule)."""
    x, y = point
    odd = False
    px, py = polygon[-1]
    for qx, qy in polygon:
        if (qy > y) != (py > y) and x < (px - qx) * (y - qy) / (py - qy) + qx:
            odd = not odd
        px, py = qx, qy
    return odd


def area_of(polygon: Points) -> float:
    """Area of a closed polygon (the shoelace formula)."""
    total = 0.0
    px, py = polygon[-1]
    for qx, qy in polygon:
        total += px * qy - qx * py
        px, py = qx, qy
    return abs(total) / 2


def simplified(points: Points, tolerance: float = 0.01) -> list[Point]:
    """The polyline without the points that lie within the tolerance of what is left (Douglas and Peucker 1973)."""
    kept = {0, len(points) - 1}
    spans = [(0, len(points) - 1)]
    while spans:
        first, last = spans.pop()
        where = _farthest(points, first, last, tolerance * tolerance)
        if where:
            kept.add(where)
            spans += [(first, where), (where, last)]
    return [points[i] for i in sorted(kept)]


def _farthest(points: Points, first: int, last: int, limit: float) -> int:
    """The point between two farthest from the segment between them; 0 where none is beyond the limit (squared)."""
    ax, ay = points[first]
    ux, uy = points[last][0] - ax, points[last][1] - ay
    square = ux * ux + uy * uy
    where = 0
    for i in range(first + 1, last):
        vx, vy = points[i][0] - ax, points[i][1] - ay
        along = ux * vx + uy * vy
        if along <= 0:
            distance = vx * vx + vy * vy
        elif along >= square:
            distance = (vx - ux) ** 2 + (vy - uy) ** 2
        else:
            distance = (ux * vy - uy * vx) ** 2 / square
        if distance > limit:
            limit, where = distance, i
    return where


def offset(points: Points, distance: float) -> list[Point]:
    """The polyline moved sideways, to the left of its direction on the page where positive; corners are mitred."""
    normals = [_normal(p, q) for p, q in pairwise(points) if p != q]
    corners = [p for p, q in pairwise(points) if p != q] + [points[-1]]
    moved = []
    for i, (x, y) in enumerate(corners):
        before, after = normals[max(i - 1, 0)], normals[min(i, len(normals) - 1)]
        nx, ny = before[0] + after[0], before[1] + after[1]
        scale = 2 * distance / max(nx * nx + ny * ny, 0.5)
        moved.append((x + nx * scale, y + ny * scale))
    return moved


def _normal(p: Point, q: Point) -> Point:
    """Unit normal to the left of the direction p to q, as seen on the page (y downwards)."""
    step = math.dist(p, q)
    return ((q[1] - p[1]) / step, -(q[0] - p[0]) / step)


def curve_length(curve: Curve) -> float:
    """Length of a curve, to about a thousandth."""
    return sum(_lengths(curve))


def _lengths(curve: Curve) -> list[float]:
    lengths = []
    start = curve.start
    for piece in curve.pieces:
        lengths.append(math.dist(start, piece[0]) if len(piece) == 1 else _samples(start, piece)[-1])
        start = piece[-1]
    return lengths


def _samples(start: Point, piece: tuple[Point, ...]) -> list[float]:
    """Lengths along a cubic at eight equal steps of its parameter, from 0."""
    run, before = [0.0], start
    for step in range(1, 9):
        point = _split(start, piece, step / 8)[0][-1]
        run.append(run[-1] + math.dist(before, point))
        before = point
    return run


def _split(start: Point, piece: tuple[Point, ...], t: float) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """A piece cut in two at its parameter (de Casteljau): the pieces of the two halves."""

    def between(p: Point, q: Point) -> Point:
        return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))

    if len(piece) == 1:
        return (between(start, piece[0]),), piece
    a, b, c = between(start, piece[0]), between(piece[0], piece[1]), between(piece[1], piece[2])
    d, e = between(a, b), between(b, c)
    middle = between(d, e)
    return (a, d, middle), (e, c, piece[2])


def _parameter(start: Point, piece: tuple[Point, ...], length: float, whole: float) -> float:
    """The parameter of a piece at a length along it."""
    if len(piece) == 1:
        return length / whole
    run = _samples(start, piece)
    for step in range(1, 9):
        if run[step] >= length:
            return (step - 1 + (length - run[step - 1]) / max(run[step] - run[step - 1], 1e-12)) / 8
    return 1.0


def cut_at(curve: Curve, length: float) -> tuple[Curve, Curve]:
    """A curve cut in two at a length along it, which lies strictly inside."""
    start, run = curve.start, 0.0
    pieces = curve.pieces
    for i, (piece, whole) in enumerate(zip(pieces, _lengths(curve), strict=True)):
        if run + whole > length or i == len(pieces) - 1:
            t = min(max(_parameter(start, piece, length - run, whole), 0.0), 1.0) if whole > 0 else 1.0
            first, second = _split(start, piece, t)
            return Curve(curve.start, (*pieces[:i], first)), Curve(first[-1], (second, *pieces[i + 1 :]))
        start, run = piece[-1], run + whole
    return curve, Curve(curve.end, ())


def crosses(points: Points, box: Box) -> bool:
    """Whether a polyline passes through the inside of a box."""
    return any(_segment_crosses(p, q, box) for p, q in pairwise(points))


def _segment_crosses(p: Point, q: Point, box: Box) -> bool:
    """Clips the segment by the box's four sides (Liang and Barsky 1984)."""
    (px, py), (qx, qy) = p, q
    if max(px, qx) <= box.left or min(px, qx) >= box.right or max(py, qy) <= box.top or min(py, qy) >= box.bottom:
        return False
    enter, leave = 0.0, 1.0
    sides = ((px - qx, px - box.left), (qx - px, box.right - px), (py - qy, py - box.top), (qy - py, box.bottom - py))
    for direction, room in sides:
        if direction == 0:
            continue
        t = room / direction
        if direction < 0:
            enter = max(enter, t)
        else:
            leave = min(leave, t)
    return enter < leave


def part_of(points: Points, first: float, last: float) -> list[Point]:
    """The polyline between two lengths along it."""
    start, end = at_length(points, first)[0], at_length(points, last)[0]
    inner, run = [], 0.0
    for p, q in pairwise(points):
        run += math.dist(p, q)
        if first < run < last:
            inner.append(q)
    return [start, *inner, end]


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


def lines_meet(one: Points, other: Points) -> bool:
    """Whether two polylines cross, by the turns of their segments."""
    if not box_of(one).grown(0.5).meets(box_of(other).grown(0.5)):
        return False
    for p, q in pairwise(one):
        for r, s in pairwise(other):
            if _turn(p, q, r) * _turn(p, q, s) < 0 and _turn(r, s, p) * _turn(r, s, q) < 0:
                return True
    return False


def _turn(p: Point, q: Point, r: Point) -> float:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def crossings(start: Point, end: Point, line: Points) -> list[float]:
    """Lengths along a straight line at which it crosses a polyline."""
    length = math.dist(start, end)
    found = []
    for p, q in pairwise(line):
        one, other = _turn(start, end, p), _turn(start, end, q)
        if one * other < 0 and _turn(p, q, start) * _turn(p, q, end) < 0:
            x = p[0] + (q[0] - p[0]) * one / (one - other)
            y = p[1] + (q[1] - p[1]) * one / (one - other)
            found.append(min(math.dist(start, (x, y)), length))
    return found
