"""Outlines measured from outside: rings and lengths by shapely."""

from halfhank.model.outline.curve import Point
from halfhank.model.outline.outline import Outline
from shapely import LineString, Polygon

FINE_CM = 0.001


def ring(outline: Outline, rows: int, tolerance_cm: float = FINE_CM) -> list[Point]:
    """The border: the start, the right ends down, the last row back, the left ends up."""
    left: list[Point] = []
    right: list[Point] = []
    for row in range(rows + 1):
        for after in sorted({row == 0, row != rows}):
            one, two = outline.ends(row, after)
            left.append(one)
            right.append(two)
    start = outline.boundary(0, after=True).flattened(tolerance_cm)
    end = outline.boundary(rows).flattened(tolerance_cm)
    points = [*start, *right, *end[::-1], *left[::-1]]
    return [point for k, point in enumerate(points) if point != points[k - 1]]


def polygon(outline: Outline, rows: int) -> Polygon:
    return Polygon(ring(outline, rows))


def row_cm(outline: Outline, row: int, after: bool = False) -> float:
    return float(LineString(outline.boundary(row, after).flattened(FINE_CM)).length)
