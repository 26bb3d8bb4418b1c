"""Part numbers in small white badges: on the fabric where the part is high enough, else outside on a short leader."""

import math
from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.paper.house_style import BADGE_RADIUS, INK, LIGHT, THIN
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT
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
FAN_REACH, FAR = 5.0, 1e6
SLANTS = tuple(math.radians(degrees) for degrees in (15, 30, 37, 45, 53, 60, 75))


class Badge(NamedTuple):
    """A placed badge; `leader` is empty on the fabric."""

    number: int
    centre: Point
    leader: tuple[Point, ...] = ()


def badge_items(number: int, x: float, y: float, radius: float = BADGE_RADIUS) -> list[Element]:
    """A number in a white disc."""
    size = radius * (1.42 if number < 10 else 1.2 if number < 100 else 0.95)
    disc = Circle(x, y, radius, Style(fill=LIGHT, stroke=INK, width=0.28))
    return [disc, Label(x, y + size * CAP_HEIGHT / 2, str(number), size, INK, bold=True, anchor="middle")]


def inner_badges(piece: DrawnPiece, lines: list[Points], obstacles: Obstacles) -> dict[int, Badge]:
    """The badges that find room on the fabric, by number; `lines` are marks, spine and arrow that they keep off."""
    badges: dict[int, Badge] = {}
    for number, part in enumerate(piece.shawl.parts, 1):
        badge = _on_fabric(piece, number, part.first_row - 1, part.last_row, lines, list(badges.values()))
        if badge is not None:
            badges[number] = badge
            obstacles.add_box(badge_box(badge.centre))
    return badges


def badge_box(centre: Point, radius: float = BADGE_RADIUS) -> Box:
    """The box around a badge."""
    x, y = centre
    return Box(x - radius, y - radius, x + radius, y + radius)


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

    Each stands where it finds room first; where that leaves some out, fanned ones are tried and taken if they are more.
    """
    outside = _Outside(piece)
    badges = _one_by_one(outside, missing, obstacles.copy(), overhang, reaches)
    if len(badges) < len(missing) and reaches:
        badges = max(badges, _fanned(outside, missing, obstacles, overhang, reaches), key=len)
    for badge in badges.values():
        _add(badge, obstacles)
    return badges


def _add(badge: Badge, obstacles: Obstacles) -> None:
    obstacles.add_box(badge_box(badge.centre))
    obstacles.add_line(badge.leader)


class _Outside:
    """Where badges find room outside the piece. Whether one is clear of the fabric is looked at once."""

    def __init__(self, piece: DrawnPiece) -> None:
        self.piece = piece
        self._clear: dict[Badge, bool] = {}

    def has_room(self, badge: Badge, obstacles: Obstacles) -> bool:
        """Whether a badge and its leader meet neither the fabric nor what is there already."""
        return (
            self._is_clear(badge)
            and obstacles.free(badge_box(badge.centre))
            and obstacles.line_free(badge.leader, 0.3)
            and not any(lines_meet(badge.leader, line) for line in obstacles.lines)
        )

    def _is_clear(self, badge: Badge) -> bool:
        if badge not in self._clear:
            silhouette = self.piece.silhouette
            self._clear[badge] = (
                not inside(badge.centre, silhouette)
                and not any(inside(spot, silhouette) for spot in _spots(badge))
                and distance_to(badge.centre, [*silhouette, silhouette[0]]) > BADGE_RADIUS + 0.8
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


def _fanned(
    outside: _Outside, missing: list[int], obstacles: Obstacles, overhang: float, reaches: tuple[float, ...]
) -> dict[int, Badge]:
    """Badges by turns on both sides, each side's in a row along the edge with leaders that spread like a fan."""
    best: dict[int, Badge] = {}
    for reach in sorted({*reaches, FAN_REACH}):
        tried, found = obstacles.copy(), dict[int, Badge]()
        for side, numbers in ((LEFT, missing[::2]), (RIGHT, missing[1::2])):
            for badge in _fan(outside.piece, numbers, side, reach):
                if outside.has_room(badge, tried):
                    found[badge.number] = badge
                    _add(badge, tried)
        found |= _one_by_one(outside, [number for number in missing if number not in found], tried, overhang, reaches)
        best = max(best, found, key=len)
    return best


def _fan(piece: DrawnPiece, numbers: list[int], side: int, reach: float) -> Iterator[Badge]:
    """The fan of one side; badges that would stand too far aside of their parts are left out."""
    if len(numbers) < 2:
        return
    parts = [piece.shawl.parts[number - 1] for number in numbers]
    ends = [points_of_row(piece, part.first_row - 1, part.last_row, 0.5)[0 if side == LEFT else -1] for part in parts]
    (x, y), chord = ends[0], math.dist(ends[0], ends[-1])
    if chord == 0:
        return
    tx, ty = (ends[-1][0] - x) / chord, (ends[-1][1] - y) / chord
    nx, ny = (ty, -tx) if side == LEFT else (-ty, tx)
    if inside((x + chord / 2 * tx + nx, y + chord / 2 * ty + ny), piece.silhouette):
        nx, ny = -nx, -ny
    along = [(px - x) * tx + (py - y) * ty for px, py in ends]
    level = max((px - x) * nx + (py - y) * ny for px, py in ends) + reach + BADGE_RADIUS
    places = spread(sorted(along), 2 * BADGE_RADIUS + 1.4, -FAR, FAR)
    for number, end, own, place in zip(numbers, ends, along, places, strict=True):
        if abs(place - own) < 2 * (reach + BADGE_RADIUS):
            centre = (x + tx * place + nx * level, y + ty * place + ny * level)
            length = math.dist(end, centre)
            to_disc = ((centre[0] - end[0]) / length, (centre[1] - end[1]) / length)
            yield Badge(number, centre, (end, _along(end, to_disc, length - BADGE_RADIUS)))


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
    for badge in badges:
        if badge.leader:
            data = polyline(badge.leader)
            items.append(Path(data, Style(stroke=LIGHT, width=0.7)))
            items.append(Path(data, Style(stroke=INK, width=THIN + 0.05)))
    for badge in badges:
        items += badge_items(badge.number, *badge.centre)
    return Group("badges", tuple(items))
