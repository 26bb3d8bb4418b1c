"""The border of a piece, put together from the ends of its rows."""

from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl


def border(shawl: Shawl) -> list[Point]:
    """The outline as a closed ring: the start, the right ends, the last row back, the left ends back."""
    outline, last = shawl.outline, shawl.rows.count
    left, right = [], []
    for row in range(1, last):
        for after in (False, True):
            one, two = outline.ends(row, after)
            left.append(one)
            right.append(two)
    start, end = outline.boundary(0, after=True).flattened(), outline.boundary(last).flattened()
    return [*start, *right, *end[::-1], *left[::-1]]
