"""Closed polygons"""

from halfhank.model.outline.curve import Point
from halfhank.renderer.plane.polylines import Points


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
