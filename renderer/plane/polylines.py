"""Polylines: lengths and places along them, lines beside them, fewer points"""

import math
from collections.abc import Sequence
from itertools import pairwise

from halfhank.model.outline.curve import Point

Points = Sequence[Point]


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


def part_of(points: Points, first: float, last: float) -> list[Point]:
    """The polyline between two lengths along it."""
    start, end = at_length(points, first)[0], at_length(points, last)[0]
    inner, run = [], 0.0
    for p, q in pairwise(points):
        run += math.dist(p, q)
        if first < run < last:
            inner.append(q)
    return [start, *inner, end]


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
