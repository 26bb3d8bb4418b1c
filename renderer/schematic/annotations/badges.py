"""Part numbers in small white badges: on the fabric where the part is high enough, else outside on a short leader."""

import math
from collections.abc import Iterator
from itertools import product

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.paper.house_style import BADGE_RADIUS, INK, LIGHT, THIN
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.crossings import lines_meet
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of
from halfhank.renderer.plane.spreading import spread
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

ALONG = (0.3, 0.25, 0.35, 0.2, 0.4, 0.15, 0.45, 0.7, 0.65, 0.75, 0.6, 0.8, 0.55, 0.85, 0.1, 0.9, 0.5)
"""Where along its row a badge is tried, as a share of the row; the first that is free is taken."""
ALONG_SIDEWAYS = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8)
ALONG_LAST = (0.68, 0.74, 0.62, 0.8, 0.56, 0.86, 0.5, 0.32, 0.26, 0.38, 0.2, 0.14)
ALONG_ROWS = (0.5, 0.4, 0.6, 0.3, 0.7)
SHORT_LEADERS, LEADERS = (2.2, 4.0), (2.2, 4.0, 6.5, 9.5, 13.0, 17.0, 22.0)
ROW_REACHES = (2.2, 4.0, 6.5)
IN_A_ROW = 3
"""So many badges that find no room on the fabric stand in a row."""
TOGETHER = (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50, 100, 200)
APART, BRACKET_OFF, FLAG_ROOM, FAR = 1.1, 0.9, 1.0, 1e6
LONG_SIZE, OUTLINE = BADGE_RADIUS * 1.2, 0.28
SLANTS = tuple(math.radians(degrees) for degrees in (15, 30, 37, 45, 53, 60, 75))


class Badge(NamedTuple):
    """A placed badge; `leader` is empty on the fabric.

    One that stands for the parts up to `last` is drawn long, with a `bracket` along their edge.
    """

    number: int
    centre: Point
    leader: tuple[Point, ...] = ()
    last: int | None = None
    bracket: tuple[Point, ...] = ()

    @property
    def numbers(self) -> range:
        """The parts that it stands for."""
        return range(self.number, (self.last or self.number) + 1)

    @property
    def words(self) -> str:
        """What stands in it: `4` or `4–7`."""
        return str(self.number) if self.last is None else f"{self.number}–{self.last}"

    @property
    def half(self) -> float:
        """Half of its width."""
        return BADGE_RADIUS if self.last is None else text_width(self.words, LONG_SIZE, bold=True) / 2 + 1.3

    @property
    def box(self) -> Box:
        """The box around it."""
        x, y = self.centre
        return Box(x - self.half, y - BADGE_RADIUS, x + self.half, y + BADGE_RADIUS)

    @property
    def axis(self) -> tuple[Point, ...]:
        """The line from which everything of it lies within its radius."""
        x, y = self.centre
        reach = self.half - BADGE_RADIUS
        return ((x - reach, y), (x + reach, y)) if reach > 0 else (self.centre,)


def badge_items(number: int, x: float, y: float, radius: float = BADGE_RADIUS) -> list[Element]:
    """A number in a white disc."""
    size = radius * (1.42 if number < 10 else 1.2 if number < 100 else 0.95)
    disc = Circle(x, y, radius, Style(fill=LIGHT, stroke=INK, width=OUTLINE))
    return [disc, Label(x, y + size * CAP_HEIGHT / 2, str(number), size, INK, bold=True, anchor="middle")]


def _long_items(badge: Badge) -> list[Element]:
    """The numbers of several parts in a long white badge."""
    x, y = badge.centre
    widths = ((INK, 2 * BADGE_RADIUS + OUTLINE), (LIGHT, 2 * BADGE_RADIUS - OUTLINE))
    body: list[Element] = [Path(polyline(badge.axis), Style(stroke=ink, width=w, cap="round")) for ink, w in widths]
    words = Label(x, y + LONG_SIZE * CAP_HEIGHT / 2, badge.words, LONG_SIZE, INK, bold=True, anchor="middle")
    return [*body, words]


def inner_badges(piece: DrawnPiece, lines: list[Points], obstacles: Obstacles) -> dict[int, Badge]:
    """The badges that find room on the fabric, by number; `lines` are marks, spine and arrow that they keep off."""
    badges: dict[int, Badge] = {}
    for number, part in enumerate(piece.shawl.parts, 1):
        badge = _on_fabric(piece, number, part.first_row - 1, part.last_row, lines, list(badges.values()))
        if badge is not None:
            badges[number] = badge
            obstacles.add_box(badge.box)
    return badges


def _on_fabric(
    piece: DrawnPiece, number: int, first: int, last: int, lines: list[Points], others: list[Badge]
) -> Badge | None:
    clear = BADGE_RADIUS + 0.4
    if piece.rise(first, last) < 2 * clear:
        return None
    region = piece.region(first, last)
    closed = [*region, region[0]]
    shares = ALONG_SIDEWAYS if piece.shawl.outline.sideways else ALONG
    for rows in ALONG_ROWS:
        row = points_of_row(piece, first, last, rows)
        length = length_of(row)
        for share in shares:
            centre = at_length(row, share * length)[0]
            if not inside(centre, region) or distance_to(centre, closed) < clear:
                continue
            if all(distance_to(centre, line) > BADGE_RADIUS + 1.1 for line in lines) and all(
                math.dist(centre, other.centre) > 2 * BADGE_RADIUS + 1 for other in others
            ):
                return Badge(number, centre)
    return None


def points_of_row(piece: DrawnPiece, first: int, last: int, share: float) -> list[Point]:
    """The boundary nearest to a share of the height between two, as a polyline."""
    heights = piece.shawl.rows.height_cm
    wanted = share * sum(heights[first + 1 : last + 1])
    run, row = 0.0, first
    while row < last - 1 and run + heights[row + 1] / 2 < wanted:
        row += 1
        run += heights[row]
    return piece.points(row if row > first or last - first == 1 else first + 1)


def outer_badges(
    piece: DrawnPiece, missing: list[int], obstacles: Obstacles, overhang: float, reaches: tuple[float, ...] = LEADERS
) -> dict[int, Badge]:
    """Badges outside the piece for the parts that are too thin, by number; one that finds no room is left out.

    A few stand each near its part. More of them, or those that do not all find room so, stand in one row along an edge,
    in order; where they are too many for that, neighbours share a badge.
    """
    outside = _Outside(piece)
    badges: dict[int, Badge] = {}
    if len(missing) < IN_A_ROW:
        badges = _one_by_one(outside, missing, obstacles.copy(), overhang, reaches)
    if len(badges) < len(missing) and reaches:
        badges = _in_a_row(outside, missing, obstacles) or badges
    if not badges and reaches == LEADERS:
        badges = _one_by_one(outside, missing, obstacles.copy(), overhang, reaches)
    for badge in dict.fromkeys(badges.values()):
        _add(badge, obstacles)
    return badges


def _add(badge: Badge, obstacles: Obstacles) -> None:
    obstacles.add_box(badge.box)
    for line in (badge.leader, badge.bracket):
        if line:
            obstacles.add_line(line)


class _Outside:
    """Where badges find room outside the piece. Whether one is clear of the fabric is looked at once."""

    def __init__(self, piece: DrawnPiece) -> None:
        self.piece = piece
        self._clear: dict[Badge, bool] = {}

    def has_room(self, badge: Badge, obstacles: Obstacles) -> bool:
        """Whether a badge and its leader meet neither the fabric nor what is there already."""
        return (
            self._is_clear(badge)
            and obstacles.free(badge.box, FLAG_ROOM)
            and obstacles.line_free(badge.leader, 0.3)
            and not any(lines_meet(badge.leader, line) for line in obstacles.lines)
        )

    def _is_clear(self, badge: Badge) -> bool:
        if badge not in self._clear:
            silhouette = self.piece.silhouette
            closed = [*silhouette, silhouette[0]]
            self._clear[badge] = (
                not any(inside(spot, silhouette) for spot in (*badge.axis, *_spots(badge)))
                and distance_to(badge.centre, closed) > BADGE_RADIUS + 0.8
                and all(distance_to(spot, closed) > BADGE_RADIUS + 0.8 for spot in badge.axis)
            )
        return self._clear[badge]


def _one_by_one(
    outside: _Outside, missing: list[int], obstacles: Obstacles, overhang: float, reaches: tuple[float, ...]
) -> dict[int, Badge]:
    badges: dict[int, Badge] = {}
    for number in missing:
        for badge in _places(outside.piece, number, reaches, overhang):
            if outside.has_room(badge, obstacles):
                badges[number] = badge
                _add(badge, obstacles)
                break
    return badges


def _in_a_row(outside: _Outside, missing: list[int], obstacles: Obstacles) -> dict[int, Badge]:
    """All of them in a row along one side, as few of them in one badge as there is room for; empty where none is."""
    for together in TOGETHER:
        for side, reach in product((LEFT, RIGHT), ROW_REACHES):
            row = _row(outside.piece, _runs(missing, together), side, reach)
            if row and _row_has_room(outside, row, obstacles):
                return {number: badge for badge in row for number in badge.numbers}
        if together >= len(missing):
            break
    return {}


def _row_has_room(outside: _Outside, row: list[Badge], obstacles: Obstacles) -> bool:
    tried = obstacles.copy()
    for badge in row:
        if not outside.has_room(badge, tried):
            return False
        _add(badge, tried)
    return True


def _runs(numbers: list[int], most: int) -> list[tuple[int, int]]:
    """Neighbouring numbers together, so many at most: their first and last."""
    runs: list[tuple[int, int]] = []
    for number in numbers:
        if runs and runs[-1][1] == number - 1 and number - runs[-1][0] < most:
            runs[-1] = (runs[-1][0], number)
        else:
            runs.append((number, number))
    return runs


def _row(piece: DrawnPiece, runs: list[tuple[int, int]], side: int, reach: float) -> list[Badge]:
    """The badges of a row beside one edge; empty where one would stand too far aside of its parts."""
    parts = piece.shawl.parts
    bounds = [(parts[first - 1].first_row - 1, parts[last - 1].last_row) for first, last in runs]
    ends = [points_of_row(piece, first, last, 0.5)[0 if side == LEFT else -1] for first, last in bounds]
    start, (tx, ty), (nx, ny) = _axes(piece, side, bounds[0][0], bounds[-1][1])
    if tx == ty == 0:
        return []
    along = [(x - start[0]) * tx + (y - start[1]) * ty for x, y in ends]
    level = max((x - start[0]) * nx + (y - start[1]) * ny for x, y in ends) + reach + BADGE_RADIUS
    badges = [Badge(first, (0.0, 0.0), (), last if last > first else None) for first, last in runs]
    wide, high = 2 * max(badge.half for badge in badges) + APART, 2 * BADGE_RADIUS + APART
    gap = min(wide / max(abs(tx), 1e-9), high / max(abs(ty), 1e-9))
    level += abs(nx) * (wide - high) / 2
    found = []
    for badge, end, bound, own, place in zip(badges, ends, bounds, along, spread(along, gap, -FAR, FAR), strict=True):
        if abs(place - own) > 2 * (reach + BADGE_RADIUS):
            return []
        badge = badge._replace(centre=(start[0] + tx * place + nx * level, start[1] + ty * place + ny * level))
        if badge.last is not None:
            corners = (piece.end(side, bound[0], True), piece.end(side, bound[1]))
            bracket = tuple(_along(corner, (nx, ny), BRACKET_OFF) for corner in corners)
            badge, end = badge._replace(bracket=bracket), at_length(bracket, length_of(bracket) / 2)[0]
        found.append(badge._replace(leader=(end, _rim(badge, end))))
    return found


def _axes(piece: DrawnPiece, side: int, first: int, last: int) -> tuple[Point, Point, Point]:
    """The start of an edge between two boundaries, its direction, and the one square to it away from the fabric."""
    start, end = piece.end(side, first, True), piece.end(side, last)
    chord = math.dist(start, end)
    if chord == 0:
        return start, (0.0, 0.0), (0.0, 0.0)
    tx, ty = (end[0] - start[0]) / chord, (end[1] - start[1]) / chord
    nx, ny = (ty, -tx) if side == LEFT else (-ty, tx)
    if inside((start[0] + chord / 2 * tx + nx, start[1] + chord / 2 * ty + ny), piece.silhouette):
        nx, ny = -nx, -ny
    return start, (tx, ty), (nx, ny)


def _rim(badge: Badge, point: Point) -> Point:
    """Where a line from a point to a badge's middle meets its rim."""
    (x, y), (px, py) = badge.centre, point
    length = math.dist(badge.centre, point)
    if badge.last is None:
        share = BADGE_RADIUS / length
    else:
        share = min(badge.half / max(abs(px - x), 1e-9), BADGE_RADIUS / max(abs(py - y), 1e-9))
    return (x + (px - x) * share, y + (py - y) * share)


def _spots(badge: Badge) -> list[Point]:
    """Spots along a leader, but for its first 3 mm, which lie on a part before its edge."""
    length = length_of(badge.leader)
    return [at_length(badge.leader, 3.0 + (length - 3.0) * share)[0] for share in (0.0, 0.3, 0.6, 0.9) if length > 3.0]


def _places(piece: DrawnPiece, number: int, reaches: tuple[float, ...], overhang: float) -> Iterator[Badge]:
    """Places to try: off the bound-off edge for the last part, off the start for the first, then off the row's ends."""
    part = piece.shawl.parts[number - 1]
    first, last = part.first_row - 1, part.last_row
    middle = points_of_row(piece, first, last, 0.5)
    for reach in reaches:
        if last == piece.last:
            yield from _off_edge(piece, number, middle, piece.points(last), reach + overhang)
        for side in (LEFT, RIGHT):
            point = middle[0] if side == LEFT else middle[-1]
            for normal in _outward(piece, side, first, last):
                centre = _along(point, normal, reach + BADGE_RADIUS)
                yield Badge(number, centre, (point, _along(point, normal, reach)))
        if first == 0:
            yield from _off_edge(piece, number, middle, piece.points(0), reach)


def _off_edge(piece: DrawnPiece, number: int, middle: Points, edge: Points, reach: float) -> Iterator[Badge]:
    length = length_of(edge)
    for share in ALONG_LAST:
        point, (tx, ty) = at_length(edge, share * length)
        start = at_length(middle, share * length_of(middle))[0]
        for normal in ((ty, -tx), (-ty, tx)):
            if not inside(_along(point, normal, 0.6), piece.silhouette):
                yield Badge(number, _along(point, normal, reach + BADGE_RADIUS), (start, _along(point, normal, reach)))


def _outward(piece: DrawnPiece, side: int, first: int, last: int) -> Iterator[Point]:
    """Directions away from the fabric at a side edge: square to it, then up, down and outwards."""
    (px, py), (qx, qy) = piece.end(side, first, True), piece.end(side, last)
    length = math.dist((px, py), (qx, qy))
    if length > 0:
        sign = 1 if side == LEFT else -1
        yield (sign * (py - qy) / length, sign * (qx - px) / length)
        yield (-sign * (py - qy) / length, -sign * (qx - px) / length)
    yield from ((0.0, -1.0), (0.0, 1.0), (-1.0, 0.0), (1.0, 0.0))
    yield from ((x * math.cos(a), y * math.sin(a)) for a in SLANTS for x in (-1, 1) for y in (-1, 1))


def _along(point: Point, direction: Point, length: float) -> Point:
    return (point[0] + direction[0] * length, point[1] + direction[1] * length)


def badge_group(badges: list[Badge]) -> Group:
    """All badges of the drawing, leaders first."""
    items: list[Element] = []
    for line in [line for badge in badges for line in (badge.leader, badge.bracket) if line]:
        data = polyline(line)
        items.append(Path(data, Style(stroke=LIGHT, width=0.7)))
        items.append(Path(data, Style(stroke=INK, width=THIN + 0.05)))
    for badge in badges:
        items += badge_items(badge.number, *badge.centre) if badge.last is None else _long_items(badge)
    return Group("badges", tuple(items))
