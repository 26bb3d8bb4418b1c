"""Numbers on every second contour: the yarn used so far, on a light plate along the row."""

import math

from halfhank.grammar.description import GRAMS_IN
from halfhank.model.outline.curve import Point
from halfhank.model.words.drawn_words import phrase_of
from halfhank.renderer.paper.house_style import INK, LIGHT
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.plane.path_data import segment
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, distance_to, length_of
from halfhank.renderer.plane.text_boxes import label_along
from halfhank.renderer.schematic.annotations.badges import Badge
from halfhank.renderer.schematic.annotations.direction import Arrow
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import contour_rows, contour_step

SIZE, PLATE = 2.6, 3.0
"""Height of the type and of its plate, mm."""
BEYOND, CLEAR = 0.3, 0.5
SHARES = (0.75, 0.71, 0.79, 0.67, 0.83, 0.63, 0.87, 0.25, 0.29, 0.21, 0.33, 0.17, 0.59, 0.41, 0.91, 0.09)
"""Where along its row a number is tried, as a share of the row; the first that is free is taken."""


class _Number:
    """One number at a place on its row."""

    def __init__(self, words: str, centre: Point, tangent: Point) -> None:
        half = text_width(words, SIZE) / 2 + BEYOND
        (x, y), (dx, dy) = centre, tangent
        self.ends = ((x - dx * half, y - dy * half), (x + dx * half, y + dy * half))
        reach = half + PLATE / 2
        self.spots = [(x + dx * reach * share, y + dy * reach * share) for share in (-1.0, -0.5, 0.0, 0.5, 1.0)]
        self.label: Label = label_along(centre, tangent, words, SIZE, INK)

    def keeps_off(self, line: Points, clear: float = CLEAR) -> bool:
        """Whether the plate stays so far clear of a line."""
        return all(distance_to(spot, line) > PLATE / 2 + clear for spot in self.spots)

    @property
    def items(self) -> list[Element]:
        return [Path(segment(*self.ends), Style(stroke=LIGHT, width=PLATE, cap="round")), self.label]


def contour_numbers(piece: DrawnPiece, marks: list[DrawnMark], badges: list[Badge], arrow: Arrow | None) -> Group:
    """Every second contour's number where it finds room on the fabric, else that of the contour before it.

    Numbers keep off marks, badges, arrow and seams, and off the part bounds if they can.
    """
    step, unit = contour_step(piece), piece.shawl.skein.unit
    lines: list[Points] = [*[piece.points(mark.row) for mark in marks], *piece.seams]
    lines += [[arrow.tail, arrow.tip]] if arrow is not None else []
    bounds: list[Points] = [piece.points(part.last_row) for part in piece.shawl.parts[:-1]]
    placed: list[_Number] = []
    rows = {int(piece.shawl.used_g[row] // (step * GRAMS_IN[unit])): row for row in contour_rows(piece, step)}
    for count in range(2, max(rows, default=0) + 1, 2):
        tries = [(n, off) for n in (count, count - 1) if n in rows for off in ([*lines, *bounds], lines)]
        places = (
            _place(piece, rows[n], phrase_of("measure", unit, number=f"{n * step:,g}"), off, badges, placed)
            for n, off in tries
        )
        found = next((place for place in places if place is not None), None)
        placed += [found] if found is not None else []
    return Group("contour-numbers", tuple(item for number in placed for item in number.items))


def _place(
    piece: DrawnPiece, row: int, words: str, lines: list[Points], badges: list[Badge], placed: list[_Number]
) -> _Number | None:
    points = piece.points(row)
    length, closed = length_of(points), [*piece.silhouette, piece.silhouette[0]]
    for share in SHARES:
        number = _Number(words, *at_length(points, share * length))
        if (
            all(inside(spot, piece.silhouette) for spot in number.spots)
            and number.keeps_off(closed, 0.1)
            and all(number.keeps_off(line) for line in lines)
            and all(number.keeps_off(other.ends) for other in placed)
            and all(_is_off(number, badge) for badge in badges)
        ):
            return number
    return None


def _is_off(number: _Number, badge: Badge) -> bool:
    reach = PLATE / 2 + CLEAR + badge.box.height / 2
    return all(math.dist(spot, end) > reach for spot in number.spots for end in badge.axis)
