"""Where lines cross boxes and each other"""

import math
from itertools import pairwise

from halfhank.model.outline.curve import Point
from halfhank.renderer.plane.boxes import Box, box_of
from halfhank.renderer.plane.polylines import Points


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
