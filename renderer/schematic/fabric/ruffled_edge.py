"""A ruffle: rows that are too long to lie flat, drawn in waves that grow from the fabric to the edge."""

from itertools import pairwise

from halfhank.model.outline.curve import Curve, Point
from halfhank.renderer.plane.curve_cutting import curve_length
from halfhank.renderer.plane.polylines import at_length, length_of

WAVE_MM, RISE_MM = 5.8, 1.2
"""Length of a wave and how far its crests stand out beyond the piece at the edge."""
FOLD_MM = 1.9
"""How far folds run into the fabric from the edge's hollows, at most."""

_HANDLE = 0.3642
"""Handles of a cubic from a hollow to a crest, as a share of their distance, that make it nearest to a sine."""
_FINE_MM = 0.01

Spot = tuple[Point, Point]


def waves_along(length_mm: float) -> int:
    """How many waves an edge of that length has."""
    return max(1, round(length_mm / WAVE_MM))


def waved(curve: Curve, waves: int, rise_mm: float, side: int) -> Curve:
    """The curve in waves that stand out to one `side` of it (1: to the right of its direction on the page, -1).

    It starts and ends where it did, and the hollows lie on it: nearly `rise sin^2`.
    """
    if curve_length(curve) <= 0 or rise_mm <= 0:
        return curve
    points, count = curve.flattened(_FINE_MM), 2 * waves
    length = length_of(points)
    spots = [_spot(points, length * k / count, rise_mm * side * (k % 2)) for k in range(1, count)]
    ends = [(point, at_length(points, at)[1]) for point, at in ((curve.start, 0.0), (curve.end, length))]
    spots = [ends[0], *spots, ends[1]]
    return Curve(curve.start, tuple(_half_wave(*pair, _HANDLE * length / count) for pair in pairwise(spots)))


def _spot(points: list[Point], at_mm: float, off_mm: float) -> Spot:
    """A place so far beside a polyline, and the polyline's direction there."""
    (x, y), (dx, dy) = at_length(points, at_mm)
    return (x - dy * off_mm, y + dx * off_mm), (dx, dy)


def _half_wave(one: Spot, other: Spot, handle: float) -> tuple[Point, Point, Point]:
    (px, py), (ux, uy) = one
    (qx, qy), (vx, vy) = other
    return (px + ux * handle, py + uy * handle), (qx - vx * handle, qy - vy * handle), (qx, qy)


def folds(curve: Curve, waves: int, reach_mm: float, side: int) -> list[tuple[Point, Point]]:
    """Short lines from the hollows of a waved edge into the fabric; `curve` is the edge without its waves."""
    points = curve.flattened(_FINE_MM)
    length = curve_length(curve)
    reach = min(FOLD_MM, reach_mm) * side
    hollows = [length * k / waves for k in range(1, waves)]
    return [(_spot(points, at, 0.0)[0], _spot(points, at, -reach)[0]) for at in hollows]
