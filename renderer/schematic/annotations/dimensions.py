"""Dimensions as on a technical drawing: extension lines, oblique ticks, the measure in a gap of its line."""

import math
from collections.abc import Iterator
from itertools import pairwise

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.outline import Size
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.model.phrases import blocking_words, depth_name
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.house_style import DIMENSION, INK, SMALL, THIN
from halfhank.renderer.paper.measure_words import length_words
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import ASCENT, CAP_HEIGHT, DESCENT, text_width
from halfhank.renderer.plane.crossings import lines_meet
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of, offset, part_of
from halfhank.renderer.plane.text_boxes import label_along, text_box
from halfhank.renderer.schematic.annotations.edge_lengths import OF_RS
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

EXTENSION = Style(stroke="#8796a0", width=0.15)
LINE = Style(stroke=INK, width=THIN)
TICK = Style(stroke=INK, width=0.45)
TICK_LENGTH, SHORTEST_TICK = 2.6, 1.2
CLEAR, BEYOND, NEAR = 1.4, 1.1, 0.8
COLUMN = 5.0
UNBROKEN = 7
"""Lines of an upright dimension with one gap at most: extension lines in three, its own in two, two ticks."""
LEADING = 1.25
LEAST_TURNED, TO_TURNED, OVER_LINE = 0.75, 1.2, 12.0
ALIKE = 0.05
EDGE_OFFSETS = (5.5, 8.5, 11.5, 14.5)
STRAIGHT_MM, LINE_TO_WORDS = 0.5, 3.8
NEARLY_LEVEL = math.sin(math.radians(8))
WORDS_ALONG = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74)
"""Where the words of a bent edge are tried, as a share of its length."""


class Dimension(NamedTuple):
    """One dimension: its lines as polylines with their styles, and its text in one or two lines."""

    name: str
    lines: tuple[tuple[tuple[Point, ...], Style], ...]
    labels: tuple[Label, ...]

    @property
    def group(self) -> Group:
        """The dimension's items."""
        items: list[Element] = []
        for points, style in self.lines:
            items.append(Path(polyline(points), style))
        return Group(self.name, (*items, *self.labels))

    def add_to(self, obstacles: Obstacles) -> None:
        """Makes the dimension an obstacle."""
        for points, _ in self.lines:
            obstacles.add_dimension_line(points)
        for label in self.labels:
            obstacles.add_label(label)


def straight(
    name: str, start: Point, end: Point, words: str, extensions: list[tuple[Point, Point]], side: int = RIGHT
) -> Dimension:
    """A dimension along a straight line; its text stands to one side of the line where that is too short to hold it,
    in smaller type too."""
    length = math.dist(start, end)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    labels = _beside_line(start, end, words, side)
    runs = [(start, end)]
    for size, least in ((DIMENSION, 5.6), (SMALL, 4.1)):
        if length >= text_width(words, size) + least:
            gap = text_width(words, size) + 2.6
            ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
            labels = (label_along(middle, (ux, uy), words, size, INK),)
            near = (middle[0] - ux * gap / 2, middle[1] - uy * gap / 2)
            runs = [(start, near), ((middle[0] + ux * gap / 2, middle[1] + uy * gap / 2), end)]
            break
    lines = [(line, EXTENSION) for line in extensions] + [(run, LINE) for run in runs]
    ticks = [_styled_tick(point, start, end, length) for point in (start, end)]
    return Dimension(name, (*lines, *ticks), labels)


def _styled_tick(point: Point, start: Point, end: Point, length: float) -> tuple[tuple[Point, Point], Style]:
    """A tick, shorter and finer on a line so short that two of them would run into one another."""
    size = min(TICK_LENGTH, max(0.6 * length, SHORTEST_TICK))
    return _tick(point, start, end, size), TICK._replace(width=min(TICK.width, max(0.3 * length, THIN)))


def _beside_line(start: Point, end: Point, words: str, side: int) -> tuple[Label, ...]:
    """Above a level line, in two lines where it is much shorter than its text; beside an upright one turned along it,
    or in two or three lines."""
    if abs(end[0] - start[0]) >= abs(end[1] - start[1]):
        measure, _, rest = words.partition(", ")
        wide = text_width(words, DIMENSION) > abs(end[0] - start[0]) + OVER_LINE
        x, y = (start[0] + end[0]) / 2, start[1] - BEYOND - 1.7
        lines = [line for line in (rest, measure) if line] if wide else [words]
        return tuple(
            Label(x, y - k * DIMENSION * LEADING, line, DIMENSION, INK, anchor="middle") for k, line in enumerate(lines)
        )
    if abs(end[1] - start[1]) >= LEAST_TURNED * text_width(words, DIMENSION):
        middle = (start[0], (start[1] + end[1]) / 2)
        above, below = DIMENSION * (ASCENT - CAP_HEIGHT / 2), DIMENSION * (DESCENT + CAP_HEIGHT / 2)
        drop = -TO_TURNED - below if side == LEFT else TO_TURNED + above
        return (label_along(middle, (0.0, 1.0), words, DIMENSION, INK, drop),)
    lines = _broken_words(words, abs(end[1] - start[1]) >= 3 * DIMENSION * LEADING)
    y = (start[1] + end[1]) / 2 + DIMENSION * (CAP_HEIGHT - LEADING * (len(lines) - 1)) / 2
    x, anchor = (start[0] - 2.5, "end") if side == LEFT else (start[0] + 2.5, "start")
    return tuple(
        Label(x, y + k * DIMENSION * LEADING, line, DIMENSION, INK, anchor=anchor) for k, line in enumerate(lines)
    )


def _broken_words(words: str, three: bool) -> list[str]:
    """`depth 21 cm` and `(8.1 in)`, or the name on a line of its own."""
    measure, bracket, other = words.partition(" (")
    name, _, first = measure.partition(" ") if three else ("", "", measure)
    return [line for line in (name, first, bracket.strip() + other) if line]


def _tick(point: Point, start: Point, end: Point, size: float = TICK_LENGTH) -> tuple[Point, Point]:
    """An oblique stroke through a point, at 45 degrees to the line."""
    angle = math.atan2(end[1] - start[1], end[0] - start[0]) - math.pi / 4
    dx, dy = math.cos(angle) * size / 2, math.sin(angle) * size / 2
    return ((point[0] - dx, point[1] - dy), (point[0] + dx, point[1] + dy))


def wingspan(piece: DrawnPiece, obstacles: Obstacles, overhang: float) -> Dimension:
    """The width of the piece's box, above everything that stands there."""
    left = min(piece.silhouette, key=lambda p: (round(p[0], 1), p[1]))
    right = max(piece.silhouette, key=lambda p: (round(p[0], 1), -p[1]))
    y = min(obstacles.bounds.top - 4.0, -overhang - 6.0)
    outline = piece.shawl.outline
    length = length_words(outline.size.wingspan_cm, piece.shawl.units)
    words = phrase("dimension.wingspan", length=length, blocking=blocking_words(outline))
    extensions = []
    for x, point in ((0.0, left), (piece.width, right)):
        start = _free_start(x, point[1] - CLEAR - overhang, obstacles)
        extensions.append(((x, start), (x, y - BEYOND)))
    return straight("wingspan", (0.0, y), (piece.width, y), words, extensions)


def _free_start(x: float, start: float, obstacles: Obstacles) -> float:
    """Where an upward extension line begins: above all that would touch it."""
    for box in obstacles.boxes:
        if box.left - 0.8 < x < box.right + 0.8 and box.top < start:
            start = min(start, box.top - 0.8)
    for text in obstacles.turned:
        box = text.bounds
        if box.left - 0.8 < x < box.right + 0.8 and box.top < start:
            start = min(start, box.top - 0.8)
    for line in obstacles.lines + obstacles.dimension_lines:
        near = [py for px, py in line if abs(px - x) < 0.9]
        if near and min(near) < start:
            start = min(near) - 0.8
    return start


def depth(piece: DrawnPiece, obstacles: Obstacles, overhang: float) -> Dimension:
    """The height of the piece's box on its right, or on its left where flags stand there or more is in the way."""
    sides = (LEFT, RIGHT) if obstacles.bounds.right > piece.width + 10 else (RIGHT, LEFT)
    both = [_upright(piece, obstacles, "depth", side, (0.0, piece.height), overhang) for side in sides]
    return min(both, key=lambda dimension: len(dimension.lines))


def spine(piece: DrawnPiece, obstacles: Obstacles, overhang: float, side: int) -> Dimension | None:
    """The spine from the start to the point, on one side; None where there is none or the depth says as much."""
    size = piece.shawl.outline.size
    if size.spine_cm is None or not piece.spine or not spine_differs(size):
        return None
    low, high = sorted((piece.spine[0][1], piece.spine[-1][1]))
    if high - low < 6 or abs((high - low) - size.spine_cm * piece.mm) > 0.02 * (high - low):
        return None
    found = _upright(piece, obstacles, "spine", side, (low, high), overhang)
    return found if len(found.lines) <= UNBROKEN else None


def spine_differs(size: Size) -> bool:
    """Whether the spine is a measure of its own: more than 5 % off the depth."""
    return size.spine_cm is not None and abs(size.spine_cm - size.depth_cm) > ALIKE * size.depth_cm


def _upright(
    piece: DrawnPiece, obstacles: Obstacles, name: str, side: int, heights: tuple[float, float], overhang: float
) -> Dimension:
    sign = -1 if side == LEFT else 1
    edge = min(0.0, obstacles.bounds.left) if side == LEFT else max(piece.width, obstacles.bounds.right)
    length = length_words((heights[1] - heights[0]) / piece.mm, piece.shawl.units)
    words = phrase_of("upright", depth_name(piece.shawl) if name == "depth" else name, length=length)
    x = edge + sign * COLUMN
    extensions = []
    for y in heights:
        start = _outermost(piece, side, y) + sign * (CLEAR + overhang)
        extensions += _broken((start, y), (x + sign * BEYOND, y), obstacles) if sign * (x - start) > 0 else []
    return straight(name, (x, heights[0]), (x, heights[1]), words, extensions, side)


def _broken(start: Point, end: Point, obstacles: Obstacles) -> list[tuple[Point, Point]]:
    """An extension line with a gap around each line, text and badge that it crosses."""
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    runs, done = [], 0.0
    for first, last in [*obstacles.gaps(start, end), (length, length)]:
        if first - done > 0.5:
            runs.append(((start[0] + ux * done, start[1] + uy * done), (start[0] + ux * first, start[1] + uy * first)))
        done = max(done, last)
    return runs


def _outermost(piece: DrawnPiece, side: int, y: float) -> float:
    """The outermost place at which the outline comes within 0.8 mm of a height."""
    closed = [*piece.silhouette, piece.silhouette[0]]
    places = []
    for (px, py), (qx, qy) in pairwise(closed):
        for height in (y - NEAR, y, y + NEAR):
            if min(py, qy) <= height <= max(py, qy) and py != qy:
                places.append(px + (height - py) / (qy - py) * (qx - px))
        places += [x for x, height in ((px, py), (qx, qy)) if abs(height - y) <= NEAR]
    if not places:
        return 0.0 if side == LEFT else piece.width
    return min(places) if side == LEFT else max(places)


def along_edge(
    piece: DrawnPiece, obstacles: Obstacles, overhang: float, name: str, cm: float, edges: list[Points]
) -> Dimension | None:
    """A dimension along one of the edges outside the piece, as far out as it must be.

    Along an edge that bends stands only the text: a line around a corner would cross others. None where it finds no
    room, or the edges are too short for its words.
    """
    for points in edges:
        outside = _outer_side(piece, points)
        for distance in EDGE_OFFSETS:
            for found in _along(piece, name, cm, points, outside * (distance + overhang)):
                if _has_room(found, obstacles) and _off_fabric(piece, found):
                    return found
    return None


def _outer_side(piece: DrawnPiece, points: Points) -> int:
    """The side of an edge, 1 or -1, on which lines beside it meet the least of the fabric, however the edge bends."""

    def met(side: int) -> int:
        lines = [offset(points, side * distance) for distance in EDGE_OFFSETS]
        spots = [at_length(line, length_of(line) * share)[0] for line in lines for share in (0.2, 0.35, 0.5, 0.65, 0.8)]
        return sum(inside(spot, piece.silhouette) for spot in spots)

    return min((1, -1), key=met)


def _off_fabric(piece: DrawnPiece, dimension: Dimension) -> bool:
    """Whether line, ticks and text lie outside the piece."""
    around = [*piece.silhouette, piece.silhouette[0]]
    shapes: list[Points] = [points for points, style in dimension.lines if style is not EXTENSION]
    shapes += [text_box(label).corners for label in dimension.labels]
    return not any(inside(shape[0], piece.silhouette) or lines_meet(shape, around) for shape in shapes)


def _along(piece: DrawnPiece, name: str, cm: float, points: Points, distance: float) -> Iterator[Dimension]:
    """Ways to give an edge's length at a distance beside it."""
    words = phrase_of("edge", name, length=length_words(cm, piece.shawl.units))
    line = offset(points, distance)
    length = length_of(line)
    gap = text_width(words, SMALL) + 2.4
    if length < gap + 6:
        return
    middle = at_length(line, length / 2)[0]
    tangent = _direction(line)
    if any(distance_to(point, (line[0], line[-1])) >= STRAIGHT_MM for point in line):
        yield from _words_along(name, words, points, distance)
        return
    runs = [part_of(line, 0, length / 2 - gap / 2), part_of(line, length / 2 + gap / 2, length)]
    labels = (label_along(middle, tangent, words, SMALL, INK),)
    extensions = [_square(points, line, 0), _square(points, line, -1)]
    ticks = [(_tick(line[0], line[0], line[1]), TICK), (_tick(line[-1], line[-2], line[-1]), TICK)]
    lines = [(e, EXTENSION) for e in extensions] + [(tuple(run), LINE) for run in runs]
    yield Dimension(_group_name(name), (*lines, *ticks), labels)


def _group_name(name: str) -> str:
    """`lower-edge`, wherever rows start."""
    return name.removesuffix(OF_RS)


def _words_along(name: str, words: str, points: Points, distance: float) -> Iterator[Dimension]:
    """The text alone beside a bent edge, near its middle, turned as the edge is there; level where that nearly is."""
    line = offset(points, math.copysign(abs(distance) - LINE_TO_WORDS, distance))
    length, half = length_of(line), text_width(words, SMALL) / 2
    for share in WORDS_ALONG:
        if not half < share * length < length - half:
            continue
        (x, y), at = at_length(line, share * length)[0], share * length
        tangent = _direction(part_of(line, at - half, at + half))
        if abs(tangent[1]) < NEARLY_LEVEL:
            tangent = (1.0, 0.0)
        px, py = at_length(points, share * length_of(points))[0]
        below = (y - py) * abs(tangent[0]) - (x - px) * math.copysign(tangent[1], tangent[0] * tangent[1]) >= 0
        drop = SMALL * (ASCENT - CAP_HEIGHT / 2) if below else -SMALL * (DESCENT + CAP_HEIGHT / 2)
        yield Dimension(_group_name(name), (), (label_along((x, y), tangent, words, SMALL, INK, drop),))


def _direction(points: Points) -> Point:
    """From the first point to the last."""
    (px, py), (qx, qy) = points[0], points[-1]
    chord = math.dist((px, py), (qx, qy)) or 1.0
    return ((qx - px) / chord, (qy - py) / chord)


def _square(points: Points, line: Points, which: int) -> tuple[Point, Point]:
    """The extension line from an end of an edge to the end of its dimension line, with a gap and a little beyond."""
    (px, py), (qx, qy) = points[which], line[which]
    length = math.dist((px, py), (qx, qy))
    ux, uy = (qx - px) / length, (qy - py) / length
    return ((px + ux * CLEAR, py + uy * CLEAR), (qx + ux * BEYOND, qy + uy * BEYOND))


def _has_room(dimension: Dimension, obstacles: Obstacles) -> bool:
    if not all(obstacles.free_for(text_box(label)) for label in dimension.labels):
        return False
    for points, _ in dimension.lines:
        if not obstacles.line_free(points, 0.3):
            return False
        if any(lines_meet(points, line) for line in obstacles.lines):
            return False
    own = [[*box.corners, box.corners[0]] for box in map(text_box, dimension.labels)]
    return not any(lines_meet(points, around) for points, _ in dimension.lines for around in own)
