"""The piece's lines: sides, heavy start, bound-off edge by its kind, part bounds, spine, contours."""

from itertools import pairwise

from halfhank.grammar.description import GRAMS_IN
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.paper.house_style import EDGE, HEAVY, INK, LIGHT, THIN
from halfhank.renderer.paper.ramp import Ramp, ink_on
from halfhank.renderer.paper.scene import Group, Path, PathData, Style
from halfhank.renderer.plane.curve_cutting import curve_length
from halfhank.renderer.plane.path_data import open_path, polyline, segment
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import at_length, distance_to, offset
from halfhank.renderer.schematic.fabric.bind_off_edges import strokes_before, strokes_behind
from halfhank.renderer.schematic.fabric.drawn_bands import share_at
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.ruffled_edge import folds

BOUND_WIDTH, CLOSEST_MM = 0.9, 0.5
CONTOURS_MM = 1.5
SPINE_CASING = 0.48
EDGE_ROOM = 3.0
PLEAT_MM, PLEAT_PITCH = 2.6, 1.1


def side_lines(piece: DrawnPiece) -> Group:
    """Both side edges, thin."""
    sides = [polyline(piece.edge(side, 0, piece.last)) for side in (LEFT, RIGHT)]
    style = Style(stroke=INK, width=EDGE, cap="round")
    return Group("sides", tuple(Path(side, style) for side in sides))


def start_line(piece: DrawnPiece) -> Group:
    """The cast-on or tab, heavy."""
    style = Style(stroke=INK, width=HEAVY, cap="round", join="round")
    return Group("start", (Path(open_path(piece.curve(0)), style),))


def part_bounds(piece: DrawnPiece) -> Group:
    """A line cased in white where one part ends and the next begins, finer between thin parts so that the fabric is
    seen."""
    lines = []
    for row, width in bound_widths(piece).items():
        data = open_path(piece.curve(row))
        lines += [Path(data, Style(stroke=LIGHT, width=width)), Path(data, Style(stroke=INK, width=width / 3))]
    return Group("part-bounds", tuple(lines))


def bound_widths(piece: DrawnPiece) -> dict[int, float]:
    """The rows with a line and its width with the casing, mm: at most a third of the distance to the next one; none
    where that is hardly to be seen."""
    rows = [part.last_row for part in piece.shawl.parts[:-1]]
    drawn: list[int] = []
    for row in rows:
        if piece.rise(drawn[-1] if drawn else 0, row) >= CLOSEST_MM and piece.rise(row, piece.last) >= CLOSEST_MM:
            drawn.append(row)
    heights = [piece.rise(first, last) for first, last in pairwise([0, *drawn, piece.last])]
    return {row: min(BOUND_WIDTH, min(heights[k : k + 2]) / 3) for k, row in enumerate(drawn)}


def spine_line(piece: DrawnPiece) -> Group:
    """The spine, thin and cased in white: a line, or both sides of a panel."""
    styles = (Style(stroke=LIGHT, width=SPINE_CASING), Style(stroke=INK, width=SPINE_CASING / 4))
    return Group("spine", tuple(Path(polyline(seam), style) for seam in piece.seams for style in styles))


def ruffle_folds(piece: DrawnPiece, ramp: Ramp) -> Group:
    """Folds of a ruffle, from the hollows of its edge into the fabric."""
    if piece.ruffle is None:
        return Group("folds", ())
    reach = piece.rise(0, piece.last) / 4
    lines = [
        segment(*fold)
        for curve, waves in zip(piece.ruffle_edge, piece.ruffle_waves, strict=True)
        for fold in folds(curve, waves, reach, piece.outer_side)
    ]
    ink = ink_on(ramp.lab(share_at(piece.shawl, piece.last)), 0.36)
    style = Style(stroke=ink, width=0.2, cap="round")
    return Group("folds", tuple(Path(line, style) for line in lines))


def drawn_together(piece: DrawnPiece) -> bool:
    """Whether the last stitches are drawn together, and not bound off."""
    return piece.shawl.bind_off.method == "draw through"


def gathers(piece: DrawnPiece, ramp: Ramp) -> Group:
    """Pleats that run into the fabric from stitches drawn together along an edge that is no point."""
    edge = piece.curve(piece.last)
    length = curve_length(edge)
    if not drawn_together(piece) or length < PLEAT_PITCH:
        return Group("gathers", ())
    points, count = edge.flattened(), round(length / PLEAT_PITCH)
    reach = min(PLEAT_MM, 0.7 * piece.rise(piece.shawl.parts[-1].first_row - 1, piece.last))
    lines = []
    for k in range(count):
        (x, y), (dx, dy) = at_length(points, length * (k + 0.5) / count)
        far = piece.outer_side * reach * (1.0 if k % 2 else 0.6)
        foot = (x + dy * far, y - dx * far)
        off_seams = all(distance_to(foot, seam) > PLEAT_PITCH for seam in piece.seams)
        lines += [segment((x, y), foot)] if inside(foot, piece.silhouette) and off_seams else []
    style = Style(stroke=ink_on(ramp.lab(1.0), 0.36), width=0.2, cap="round")
    return Group("gathers", tuple(Path(line, style) for line in lines))


def edge_behind(piece: DrawnPiece) -> Group:
    """What of the bound-off edge lies behind the fabric; nothing of it shows above the other edges at a thin tip."""
    strokes = strokes_behind(piece.shawl.bind_off.method, piece.curve(piece.last))
    clip = _beyond_edge(piece) if strokes and piece.ruffle is None else None
    return Group("edge-behind", tuple(strokes), clip=clip)


def _beyond_edge(piece: DrawnPiece) -> PathData:
    """The room beside the last boundary on its outer side, some of the boundary's own stroke in it."""
    points, side = piece.points(piece.last), piece.outer_side
    around = [*offset(points, side * EDGE / 2), *offset(points, -side * EDGE_ROOM)[::-1]]
    return (*polyline(around), ("Z", ()))


def edge_before(piece: DrawnPiece) -> Group:
    """The bound-off edge itself."""
    strokes = strokes_before(piece.shawl.bind_off.method, piece.curve(piece.last))
    return Group("bind-off", tuple(strokes))


def contour_lines(piece: DrawnPiece, ramp: Ramp) -> Group:
    """A thin line at the first row after each step of yarn."""
    lines = []
    for row in contour_rows(piece, contour_step(piece)):
        ink = ink_on(ramp.lab(share_at(piece.shawl, row)), 0.36)
        lines.append(Path(open_path(piece.curve(row)), Style(stroke=ink, width=THIN + 0.05)))
    return Group("contours", tuple(lines))


def contour_step(piece: DrawnPiece) -> float:
    """The mass from one contour to the next, in the unit that masses are shown in: 10 g or 0.5 oz, or as much as keeps
    the lines 1.5 mm apart and fewer than fifty."""
    steps = [step * 10.0**power for power in range(-1, 13) for step in (1, 2, 5)]
    least = 10 if piece.shawl.skein.unit == "g" else 0.5
    return next(step for step in steps if step >= least and _are_apart(piece, contour_rows(piece, step)))


def _are_apart(piece: DrawnPiece, rows: list[int]) -> bool:
    return len(rows) < 50 and all(piece.rise(first, last) >= CONTOURS_MM for first, last in pairwise(rows))


def contour_rows(piece: DrawnPiece, step: float) -> list[int]:
    """The rows after which so much is used, twice as much, and so on."""
    used, step_g = piece.shawl.used_g, step * GRAMS_IN[piece.shawl.skein.unit]
    rows: list[int] = []
    done = 0
    for row in range(1, piece.last):
        if used[row] // step_g > done:
            done = int(used[row] // step_g)
            rows.append(row)
    return rows
