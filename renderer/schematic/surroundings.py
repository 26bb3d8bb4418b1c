"""The drawing laid out around the fabric, in the piece's own mm: badges, flags, arrow, dimensions, all kept apart."""

from typing import NamedTuple

from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.measure_words import length_words
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.occupied import Arrangement
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.schematic.around.badges import SHORT_LEADERS, Badge, inner_badges, outer_badges
from halfhank.renderer.schematic.around.dimensions import Dimension, along_edge, depth, spine, wingspan
from halfhank.renderer.schematic.around.direction import Arrow, arrow_of
from halfhank.renderer.schematic.around.edge_lengths import edge_lengths
from halfhank.renderer.schematic.around.flags import Flag, corridor, place_flags
from halfhank.renderer.schematic.fabric.bind_off_edges import overhang_of
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark, drawn_marks
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece


class Sheet(NamedTuple):
    """What surrounds the fabric, and the box around it all; `untold` is what found no room."""

    piece: DrawnPiece
    marks: list[DrawnMark]
    flags: list[Flag]
    badges: list[Badge]
    dimensions: list[Dimension]
    untold: list[str]
    arrow: Arrow | None
    bounds: Box


class Surroundings(NamedTuple):
    """Everything but the dimensions, and the room that is taken."""

    piece: DrawnPiece
    marks: list[DrawnMark]
    flags: list[Flag] | None
    badges: list[Badge]
    arrow: Arrow | None
    taken: Arrangement
    overhang: float


def surround(shawl: Shawl, scale: float, content: float) -> Surroundings:
    """Places arrow, badges and flags from the inside outwards; `content` is the width that texts may use, mm.

    Badges on short leaders come before the flags but leave their leaders' way free; the others come after them. Where
    the flags find no room then, they come first; where they find none at all (None), they are told in words.
    """
    piece = DrawnPiece(shawl, 10 / scale)
    overhang = overhang_of(shawl.bind_off.method)
    marks = drawn_marks(shawl)
    taken = Arrangement(Box(0, 0, piece.width, piece.height).grown(overhang))
    lines: list[Points] = [piece.points(mark.row) for mark in marks]
    arrow = arrow_of(piece, lines)
    if piece.spine:
        lines.append(piece.spine)
    if arrow is not None:
        lines.append([arrow.tail, arrow.tip])
    badges = inner_badges(piece, lines, taken)
    for reaches in (SHORT_LEADERS, ()):
        tried = taken.copy()
        near = _near_badges(piece, marks, badges, tried, overhang, reaches)
        spare = max(0.0, content - piece.width) / 2
        flags = place_flags(piece, marks, tried, (-spare, piece.width + spare), overhang)
        if flags is not None:
            break
    badges |= near
    badges |= outer_badges(piece, _missing(shawl, badges), tried, overhang)
    return Surroundings(piece, marks, flags, list(badges.values()), arrow, tried, overhang)


def _near_badges(
    piece: DrawnPiece,
    marks: list[DrawnMark],
    badges: dict[int, Badge],
    taken: Arrangement,
    overhang: float,
    reaches: tuple[float, ...],
) -> dict[int, Badge]:
    """Badges outside the piece on short leaders that leave the way of the flags' leaders free."""
    before = len(taken.lines)
    taken.lines += [corridor(piece, mark.row) for mark in marks]
    found = outer_badges(piece, _missing(piece.shawl, badges), taken, overhang, reaches)
    del taken.lines[before : before + len(marks)]
    return found


def _missing(shawl: Shawl, badges: dict[int, Badge]) -> list[int]:
    return [number for number in range(1, len(shawl.parts) + 1) if number not in badges]


def with_dimensions(around: Surroundings, edges_too: bool) -> Sheet:
    """The sheet with its dimensions; without `edges_too` those along edges are told in words, which takes less room."""
    piece, taken, overhang = around.piece, around.taken.copy(), around.overhang
    units, size = piece.shawl.units, piece.shawl.outline.size
    placed: list[Dimension] = []
    untold: list[str] = []
    for name, cm, points in edge_lengths(piece):
        found = along_edge(piece, taken, overhang, name, cm, points) if points and edges_too else None
        if found is None:
            untold.append(f"{name} {length_words(cm, units)}")
        else:
            found.take(taken)
            placed.append(found)
    upright = depth(piece, taken, overhang)
    along = spine(piece, taken, overhang, LEFT if upright.labels[0].x > piece.width / 2 else RIGHT)
    for dimension in (upright, along, wingspan(piece, taken, overhang)):
        if dimension is not None:
            dimension.take(taken)
            placed.append(dimension)
    if along is None and size.spine_cm is not None:
        untold.insert(0, f"spine {length_words(size.spine_cm, units)}")
    if around.flags is None:
        untold += [mark.words for mark in around.marks]
    return Sheet(piece, around.marks, around.flags or [], around.badges, placed, untold, around.arrow, taken.bounds)
