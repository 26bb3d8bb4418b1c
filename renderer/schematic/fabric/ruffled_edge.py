"""A ruffle: rows that are too long to lie flat, drawn in waves that grow from the fabric to the edge."""

import math
from itertools import pairwise

from halfhank.model.outline.curve import Curve, Point
from halfhank.renderer.plane.curve_cutting import curve_length
from halfhank.renderer.plane.polylines import at_length

WAVE_MM, RISE_MM = 5.8, 1.2
"""Length of a wave and how far its crests stand out beyond the piece at the edge."""
FOLD_MM = 1.9
"""How far folds run into the fabric from the edge's hollows, at most."""

_STEPS = 8
_FINE_MM = 0.01


def waves_along(length_mm: float) -> int:
    """How many waves an edge of that length has."""
    return max(1, round(length_mm / WAVE_MM))


def waved(curve: Curve, waves: int, rise_mm: float, side: int) -> Curve:
    """The curve in waves that stand out to one `side` of it (1: to the right of its direction on the page, -1).

    It starts and ends where it did: the waves are `rise sin^2`, so hollows lie on the curve itself.
    """
    if curve_length(curve) <= 0 or rise_mm <= 0:
        return curve
    points = curve.flattened(_FINE_MM)
    length = sum(math.dist(p, q) for p, q in pairwise(points))
    count = waves * _STEPS
    rises = [rise_mm * side * math.sin(math.pi * k / _STEPS) ** 2 for k in range(_STEPS)]
    places = [_place(points, length * k / count, rises[k % _STEPS]) for k in range(1, count)]
    places = [curve.start, *places, curve.end]
    return Curve(curve.start, tuple(_piece(places, k) for k in range(count)))


def _place(points: list[Point], at_mm: float, off_mm: float) -> Point:
    (x, y), (dx, dy) = at_length(points, at_mm)
    return (x - dy * off_mm, y + dx * off_mm)


def _piece(places: list[Point], k: int) -> tuple[Point, Point, Point]:
    """The cubic from one place to the next, smooth with its neighbours (Catmull and Rom 1974)."""
    before, start = places[max(k - 1, 0)], places[k]
    end, after = places[k + 1], places[min(k + 2, len(places) - 1)]
    return (
        (start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6),
        (end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6),
        end,
    )


def folds(curve: Curve, waves: int, reach_mm: float, side: int) -> list[tuple[Point, Point]]:
    """Short lines from the hollows of a waved edge into the fabric; `curve` is the edge without its waves."""
    points = curve.flattened(_FINE_MM)
    length = curve_length(curve)
    reach = min(FOLD_MM, reach_mm) * side
    hollows = [length * k / waves for k in range(1, waves)]
    return [(_place(points, at, 0.0), _place(points, at, -reach)) for at in hollows]
