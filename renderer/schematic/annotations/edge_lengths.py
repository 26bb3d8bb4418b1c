"""The lengths along a piece's edges that are shown, beside its wingspan and depth."""

from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.plane.curve_cutting import curve_length
from halfhank.renderer.plane.polylines import Points, distance_to, length_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

EdgeLength = tuple[str, float, Points]
SHORTEST_MM = 24.0
MOST_POINTS = 400
WAVY_MM = 1.5
ALIKE = 0.03
"""A side within 3 % of an arm of the last row is that arm: settling lengthens it a little."""


def edge_lengths(piece: DrawnPiece) -> list[EdgeLength]:
    """Name, length in cm, and the edge itself; it is empty where the length is to be given in words only, as a ruffle's
    is.

    Left out are lengths that the drawing gives already, and those of less than a twentieth of the wingspan.
    """
    size = piece.shawl.outline.size
    given = (size.wingspan_cm, size.depth_cm)
    last_edge = piece.points(piece.last) if piece.ruffle is None else []
    found = _arms(piece) or [*_sides(piece), ("last edge", size.last_row_cm, last_edge)]
    chosen = [edge for edge in found if edge[1] > given[0] / 20 and all(abs(edge[1] - cm) > 0.015 * cm for cm in given)]
    return [(name, cm, _evened(edge) if _is_drawable(edge) else []) for name, cm, edge in chosen]


def _arms(piece: DrawnPiece) -> list[EdgeLength]:
    """One side, and the last edge in words, where the last row's two arms are the sides."""
    size = piece.shawl.outline.size
    if size.sides_cm is None or not piece.spine:
        return []
    arm = piece.ruffle_edge[0] if piece.ruffle is not None else piece.stretches(piece.last)[0]
    if abs(size.sides_cm[0] * piece.mm - curve_length(arm)) > ALIKE * curve_length(arm):
        return []
    return [("side", size.sides_cm[0], arm.flattened()), ("last edge", size.last_row_cm, [])]


def _sides(piece: DrawnPiece) -> list[EdgeLength]:
    """Upper and lower edge of a piece worked sideways; else both sides, or one where they are equally long."""
    sides = piece.shawl.outline.size.sides_cm
    if sides is None:
        return []
    left, right = (piece.edge(side, 0, piece.last) for side in (LEFT, RIGHT))
    same = abs(sides[0] - sides[1]) < 0.01 * max(sides)
    if piece.shawl.outline.sideways:
        upper, lower = ("upper edge", sides[0], left), ("lower edge", sides[1], right)
        return [("long edge", *upper[1:])] if same else [upper, lower]
    if same:
        return [("side", sides[0], _side_line(piece, sides[0], left))]
    return [("left side", sides[0], left), ("right side", sides[1], right)]


def _side_line(piece: DrawnPiece, cm: float, edge: Points) -> Points:
    """What a side's length stands along: the edge, or the wing of the first row where that is the side."""
    lines = [edge, piece.stretches(0)[0].flattened()] if piece.spine else [edge]
    fits = [line for line in lines if abs(length_of(line) - cm * piece.mm) <= ALIKE * cm * piece.mm]
    return fits[0] if fits else []


def _is_drawable(edge: Points) -> bool:
    return len(edge) < MOST_POINTS and length_of(edge) > SHORTEST_MM


def _evened(edge: Points) -> Points:
    """The chord of an edge that only waves about it a little, so that its dimension line is straight."""
    chord = [edge[0], edge[-1]]
    return chord if all(distance_to(point, chord) < WAVY_MM for point in edge) else edge
