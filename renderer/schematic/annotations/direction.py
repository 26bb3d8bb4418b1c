"""The arrow that shows in which direction the piece is worked."""

import math
from itertools import product

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.house_style import INK, LIGHT
from halfhank.renderer.paper.scene import Group, Path, Style
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

LONGEST, SHORTEST = 10.0, 4.0
BESIDE_SPINE = 3.4
EDGE_ROOM, LINE_ROOM, ROW_STEP = 1.3, 1.5, 1.6


class Arrow(NamedTuple):
    """From `tail` to `tip`; `row` is where its tail lies."""

    tail: Point
    tip: Point
    row: int


def arrow_of(piece: DrawnPiece, lines: list[Points]) -> Arrow | None:
    """The first place near the start where an arrow has room on the fabric and keeps off `lines`.

    It keeps off part bounds too if it can. None where the fabric has no such place.
    """
    bounds: list[Points] = [piece.points(part.last_row) for part in piece.shawl.parts[:-1]]
    total = piece.rise(0, piece.last)
    rows = _tail_rows(piece, total)
    longest = min(LONGEST, total * 0.3)
    lengths = [longest * share for share in (1.0, 0.8, 0.6, 0.45) if longest * share >= SHORTEST]
    return _first_place(piece, rows, lengths, [*lines, *bounds]) or _first_place(piece, rows, lengths, lines)


def _first_place(piece: DrawnPiece, rows: list[int], lengths: list[float], lines: list[Points]) -> Arrow | None:
    closed = [*piece.silhouette, piece.silhouette[0]]
    for row, length in product(rows, lengths):
        (x, y), (dx, dy) = _tail(piece, row)
        spots = [(x + dx * length * share, y + dy * length * share) for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
        if (
            all(inside(spot, piece.silhouette) for spot in spots)
            and all(distance_to(spot, line) > LINE_ROOM for line in lines for spot in spots)
            and all(distance_to(spot, closed) >= EDGE_ROOM for spot in spots)
        ):
            return Arrow(spots[0], spots[-1], row)
    return None


def _tail_rows(piece: DrawnPiece, total: float) -> list[int]:
    """Rows from 1.6 mm after the start on, about so far apart, in the first half and at most sixty."""
    heights, mm = piece.shawl.rows.height_cm, piece.mm
    rows: list[int] = []
    run, done = 0.0, 0.0
    for row in range(1, piece.last):
        run += heights[row] * mm
        if run >= ROW_STEP:
            done += run
            rows.append(row)
            run = 0.0
        if done > total / 2 or len(rows) >= 60:
            break
    return rows


def _tail(piece: DrawnPiece, row: int) -> tuple[Point, Point]:
    """Where an arrow starts on a row, and the direction across the row towards the next ones."""
    points = piece.points(row)
    length = length_of(points)
    centre = at_length(points, length / 2)[0]
    (px, py), (qx, qy) = points[0], points[-1]
    chord = math.dist((px, py), (qx, qy)) or 1.0
    normal = ((py - qy) / chord, (qx - px) / chord)
    following = piece.points(min(row + 1, piece.last))
    later = at_length(following, length_of(following) / 2)[0]
    if (later[0] - centre[0]) * normal[0] + (later[1] - centre[1]) * normal[1] < 0:
        normal = (-normal[0], -normal[1])
    if piece.shawl.outline.sideways:
        return centre, normal
    beside = min(BESIDE_SPINE, length / 5)
    along = ((qx - px) / chord * beside, (qy - py) / chord * beside)
    return (centre[0] + along[0], centre[1] + along[1]), normal


def arrow_group(arrow: Arrow) -> Group:
    """Shaft and head, cased in white."""
    (px, py), (qx, qy) = arrow.tail, arrow.tip
    length = math.dist(arrow.tail, arrow.tip)
    ux, uy = (qx - px) / length, (qy - py) / length
    wing = 1.9
    left = (qx - wing * (ux * 0.8 - uy * 0.55), qy - wing * (uy * 0.8 + ux * 0.55))
    right = (qx - wing * (ux * 0.8 + uy * 0.55), qy - wing * (uy * 0.8 - ux * 0.55))
    data = (("M", arrow.tail), ("L", arrow.tip), ("M", left), ("L", arrow.tip), ("L", right))
    strokes = ((LIGHT, 0.9), (INK, 0.4))
    return Group("direction", tuple(Path(data, Style(stroke=ink, width=w, cap="round")) for ink, w in strokes))
