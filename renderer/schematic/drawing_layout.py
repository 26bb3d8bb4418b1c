"""The layout of the drawing, in the piece's own mm: badges, flags, arrow, dimensions, all kept apart."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.model.phrases import depth_name
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.measure_words import length_words
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.schematic.annotations.badges import SHORT_LEADERS, Badge, inner_badges, outer_badges
from halfhank.renderer.schematic.annotations.dimensions import (
    Dimension,
    along_edge,
    depth,
    spine,
    spine_differs,
    wingspan,
)
from halfhank.renderer.schematic.annotations.direction import Arrow, arrow_of
from halfhank.renderer.schematic.annotations.edge_lengths import edge_lengths
from halfhank.renderer.schematic.annotations.flags import Flag, corridor, place_flags
from halfhank.renderer.schematic.annotations.part_names import part_names
from halfhank.renderer.schematic.detail import (
    EVERYTHING,
    Detail,
    column_walls,
    flagged,
    is_wall,
    marks_in_words,
    stacked,
)
from halfhank.renderer.schematic.fabric.bind_off_edges import overhang_of
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark, drawn_marks, end_flags
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.ruffled_edge import RISE_MM


class DrawingLayout(NamedTuple):
    """The piece with all its annotations, and the box around it all; `in_words`: what found no room and is given in
    words under the drawing, the lengths in one sentence, each mark in its own."""

    piece: DrawnPiece
    marks: list[DrawnMark]
    flags: list[Flag]
    badges: list[Badge]
    dimensions: list[Dimension]
    in_words: list[str]
    marks_in_words: list[str]
    arrow: Arrow | None
    bounds: Box
    names: list[Label]


class Annotations(NamedTuple):
    """All but the dimensions, and the obstacles that these have to keep clear of. `flags` is None where they found no
    room."""

    piece: DrawnPiece
    marks: list[DrawnMark]
    flags: list[Flag] | None
    badges: list[Badge]
    arrow: Arrow | None
    obstacles: Obstacles
    overhang: float
    content: float


def place_annotations(
    shawl: Shawl, scale: float, content: float, detail: Detail = EVERYTHING, narrow: bool = False
) -> Annotations:
    """Places arrow, badges and flags from the inside outwards; `content` is the width that texts may use, mm; in a
    `narrow` column nothing stands outside it.

    Badges on short leaders come before the flags but leave the path of their leaders free; the others come after them.
    Where the flags find no room then, they come first; where they find none at all (None), they are given in words.
    """
    piece = DrawnPiece(shawl, 10 / scale)
    overhang = overhang_of(shawl.bind_off.method) + (RISE_MM if piece.ruffle is not None else 0.0)
    marks = drawn_marks(shawl)
    flags_of = flagged([*marks, *end_flags(shawl)], detail)
    obstacles = Obstacles(Box(0, 0, piece.width, piece.height).grown(overhang))
    if narrow:
        obstacles.boxes += column_walls(piece.width, content, detail.depth)
    lines: list[Points] = [piece.points(mark.row) for mark in marks]
    arrow = arrow_of(piece, lines)
    lines += piece.seams
    if arrow is not None:
        lines.append([arrow.tail, arrow.tip])
    badges = inner_badges(piece, lines, obstacles)
    for reaches in (SHORT_LEADERS, ()):
        tried = obstacles.copy()
        near = _near_badges(piece, flags_of, badges, tried, overhang, reaches)
        spare = max(0.0, content - piece.width) / 2
        flags = place_flags(piece, flags_of, tried, (-spare, piece.width + spare), overhang)
        if flags is not None:
            break
    badges |= near
    badges |= outer_badges(piece, _missing(shawl, badges), tried, overhang)
    return Annotations(piece, marks, flags, list(dict.fromkeys(badges.values())), arrow, tried, overhang, content)


def _near_badges(
    piece: DrawnPiece,
    marks: list[DrawnMark],
    badges: dict[int, Badge],
    obstacles: Obstacles,
    overhang: float,
    reaches: tuple[float, ...],
) -> dict[int, Badge]:
    """Badges outside the piece on short leaders that leave the path of the flags' leaders free."""
    before = len(obstacles.lines)
    obstacles.lines += [corridor(piece, mark.row) for mark in marks]
    found = outer_badges(piece, _missing(piece.shawl, badges), obstacles, overhang, reaches)
    del obstacles.lines[before : before + len(marks)]
    return found


def _missing(shawl: Shawl, badges: dict[int, Badge]) -> list[int]:
    return [number for number in range(1, len(shawl.parts) + 1) if number not in badges]


def _without_badges(annotations: Annotations) -> list[str]:
    """The parts whose badges found no room, in words."""
    shown = {number: badge for badge in annotations.badges for number in badge.numbers}
    missing = ", ".join(str(number) for number in _missing(annotations.piece.shawl, shown))
    return [phrase("badges.none", numbers=missing)] if missing else []


def with_dimensions(annotations: Annotations, detail: Detail = EVERYTHING) -> DrawingLayout:
    """The layout with its dimensions; those that `detail` leaves out are given in words, which takes less room."""
    obstacles = annotations.obstacles.copy()
    placed, in_words = _edge_dimensions(annotations, detail, obstacles)
    obstacles.boxes = [box for box in obstacles.boxes if not is_wall(box)]
    piece, overhang = annotations.piece, annotations.overhang
    across = wingspan(piece, obstacles, overhang)
    upright, said = _upright_dimensions(annotations, detail, obstacles)
    for dimension in upright:
        dimension.add_to(obstacles)
    across = stacked(across, annotations.content, obstacles.bounds)
    across.add_to(obstacles)
    placed += [*upright, across]
    marks, flags, badges = annotations.marks, annotations.flags or [], annotations.badges
    spoken = marks_in_words([*marks, *end_flags(piece.shawl)], annotations.flags, detail)
    arrow, in_words = annotations.arrow, said + in_words + _without_badges(annotations)
    names = part_names(piece, badges, flags, obstacles, annotations.content)
    return DrawingLayout(piece, marks, flags, badges, placed, in_words, spoken, arrow, obstacles.bounds, names)


def _edge_dimensions(
    annotations: Annotations, detail: Detail, obstacles: Obstacles
) -> tuple[list[Dimension], list[str]]:
    """The dimensions along edges, and the words of those that find no room."""
    piece, overhang = annotations.piece, annotations.overhang
    placed: list[Dimension] = []
    in_words: list[str] = []
    for name, cm, edges in edge_lengths(piece):
        found = along_edge(piece, obstacles, overhang, name, cm, edges) if detail.edges and edges else None
        if found is None:
            in_words.append(phrase_of("edge", name, length=length_words(cm, piece.shawl.units)))
        else:
            found.add_to(obstacles)
            placed.append(found)
    return placed, in_words


def _upright_dimensions(
    annotations: Annotations, detail: Detail, obstacles: Obstacles
) -> tuple[list[Dimension], list[str]]:
    """Depth and spine, each as a dimension or in words."""
    piece, overhang = annotations.piece, annotations.overhang
    units, size = piece.shawl.units, piece.shawl.outline.size
    placed: list[Dimension] = []
    in_words: list[str] = []
    side = RIGHT
    if detail.depth:
        placed.append(depth(piece, obstacles, overhang))
        side = LEFT if placed[0].labels[0].x > piece.width / 2 else RIGHT
    else:
        in_words.append(phrase_of("upright", depth_name(piece.shawl), length=length_words(size.depth_cm, units)))
    if size.spine_cm is None or not spine_differs(size):
        return placed, in_words
    along = spine(piece, obstacles, overhang, side) if detail.spine else None
    if along is None:
        in_words.append(phrase("upright.spine", length=length_words(size.spine_cm, units)))
    else:
        placed.append(along)
    return placed, in_words
