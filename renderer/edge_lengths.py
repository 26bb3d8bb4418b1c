"""The lengths along a piece's edges that are worth telling, beside its wingspan and depth."""

from halfhank.renderer.frame import LEFT, RIGHT, Frame
from halfhank.renderer.geometry import Points, length_of

EdgeLength = tuple[str, float, Points]
SHORTEST_MM = 24.0
MOST_POINTS = 400


def edge_lengths(frame: Frame) -> list[EdgeLength]:
    """Name, length in cm, and the edge itself; it is empty where the length is to be told in words only.

    Left out are lengths that the drawing gives already, and those of less than a twentieth of the wingspan.
    """
    size = frame.shawl.outline.size
    told = (size.wingspan_cm, size.depth_cm)
    found = _arms(frame) or [*_sides(frame), ("last edge", size.last_row_cm, frame.points(frame.last))]
    chosen = [edge for edge in found if edge[1] > told[0] / 20 and all(abs(edge[1] - cm) > 0.015 * cm for cm in told)]
    return [(name, cm, edge if _is_drawable(edge) else []) for name, cm, edge in chosen]


def _arms(frame: Frame) -> list[EdgeLength]:
    """One side, and the last edge in words, where the last row's two arms are the sides."""
    size = frame.shawl.outline.size
    if size.sides_cm is None or abs(sum(size.sides_cm) - size.last_row_cm) > 0.01 * size.last_row_cm:
        return []
    half = len(frame.curve(frame.last).pieces) // 2
    arm = frame.points(frame.last)[: half + 1] if half else []
    return [("side", size.sides_cm[0], arm), ("last edge", size.last_row_cm, [])]


def _sides(frame: Frame) -> list[EdgeLength]:
    """Upper and lower edge of a piece worked sideways; else both sides, or one where they are equally long."""
    sides = frame.shawl.outline.size.sides_cm
    if sides is None:
        return []
    left, right = (frame.edge(side, 0, frame.last) for side in (LEFT, RIGHT))
    if frame.shawl.outline.sideways:
        return [("upper edge", sides[0], left), ("lower edge", sides[1], right)]
    if abs(sides[0] - sides[1]) < 0.01 * max(sides):
        return [("side", sides[0], left)]
    return [("left side", sides[0], left), ("right side", sides[1], right)]


def _is_drawable(edge: Points) -> bool:
    return len(edge) < MOST_POINTS and length_of(edge) > SHORTEST_MM
