"""The lengths along a piece's edges that are shown, beside its wingspan and depth."""

from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.plane.curve_cutting import curve_length
from halfhank.renderer.plane.polylines import Points, distance_to, length_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import drawn_together

EdgeLength = tuple[str, float, list[Points]]
SHORTEST_MM = 24.0
OF_RS = "-of-rs"
"""The name of an edge that says where right-side rows start or end."""
MOST_POINTS = 400
WAVY_MM = 1.5
ALIKE = 0.03
"""A side within 3 % of an arm of the last row is that arm: settling lengthens it a little."""


def edge_lengths(piece: DrawnPiece) -> list[EdgeLength]:
    """The name of each, its length in cm, and the edges that it may stand along, the best first; none where the length
    is to be given in words only, as a ruffle's is.

    Left out are lengths that the drawing gives already, those of less than a twentieth of the wingspan, and that of
    stitches drawn together.
    """
    size = piece.shawl.outline.size
    given = (size.wingspan_cm, size.depth_cm)
    last_edge: list[Points] = [piece.points(piece.last)] if piece.ruffle is None else []
    found = _arms(piece) or _sides(piece)
    if not drawn_together(piece):
        found = [*found, ("bind-off-edge", size.last_row_cm, [] if _arms(piece) else last_edge)]
    chosen = [edge for edge in found if edge[1] > given[0] / 20 and all(abs(edge[1] - cm) > 0.015 * cm for cm in given)]
    return [(name, cm, [_evened(edge) for edge in edges if _is_drawable(edge)]) for name, cm, edges in chosen]


def _arms(piece: DrawnPiece) -> list[EdgeLength]:
    """One side, where the last row's two arms are the sides; the bind-off edge is then given in words."""
    size = piece.shawl.outline.size
    if size.sides_cm is None or not piece.spine:
        return []
    arms = piece.ruffle_edge if piece.ruffle is not None else piece.stretches(piece.last)
    arm = arms[0]
    if abs(size.sides_cm[0] * piece.mm - curve_length(arm)) > ALIKE * curve_length(arm):
        return []
    return [("side", size.sides_cm[0], [arm.flattened(), arms[-1].flattened()])]


def _sides(piece: DrawnPiece) -> list[EdgeLength]:
    """Upper and lower edge of a piece worked sideways; else both sides, or one where they are equally long."""
    sides = piece.shawl.outline.size.sides_cm
    if sides is None:
        return []
    left, right = (piece.edge(side, 0, piece.last) for side in (LEFT, RIGHT))
    same = abs(sides[0] - sides[1]) < 0.01 * max(sides)
    if piece.shawl.outline.sideways:
        if same:
            return [("long-edge", sides[0], [right, left])]
        teeth = "sawtooth" in piece.shawl.outline.words
        lower: EdgeLength = ("lower-edge-along-the-teeth", sides[1], []) if teeth else ("lower-edge", sides[1], [right])
        return [("upper-edge", sides[0], [left]), lower]
    if same:
        return [("side", sides[0], [*_side_lines(piece, sides[0], LEFT), *_side_lines(piece, sides[0], RIGHT)])]
    return [(f"upper-edge{OF_RS}", sides[0], [left]), (f"lower-edge{OF_RS}", sides[1], [right])]


def _side_lines(piece: DrawnPiece, cm: float, side: int) -> list[Points]:
    """What a side's length stands along: the edge, or the wing of the first row where that is the side."""
    edge = piece.edge(side, 0, piece.last)
    lines: list[Points] = [edge, piece.stretches(0)[0 if side == LEFT else -1].flattened()] if piece.spine else [edge]
    return [line for line in lines if abs(length_of(line) - cm * piece.mm) <= ALIKE * cm * piece.mm][:1]


def _is_drawable(edge: Points) -> bool:
    return len(edge) < MOST_POINTS and length_of(edge) > SHORTEST_MM


def _evened(edge: Points) -> Points:
    """The chord of an edge that only waves about it a little, so that its dimension line is straight."""
    chord = [edge[0], edge[-1]]
    return chord if all(distance_to(point, chord) < WAVY_MM for point in edge) else edge
