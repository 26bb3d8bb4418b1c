"""The piece's lines: sides, heavy start, bound-off edge by its kind, part bounds, spine, contours, direction."""

import math

from halfhank.model.outline.curve import Curve
from halfhank.renderer.frame import LEFT, RIGHT, Frame
from halfhank.renderer.geometry import curve_length
from halfhank.renderer.ramp import Ramp, ink_on
from halfhank.renderer.scene import Group, Item, Path, Style
from halfhank.renderer.spans import share_at
from halfhank.renderer.style import EDGE, HEAVY, INK, LIGHT, THIN
from halfhank.renderer.textures import trimmed

SCALLOP_WIDTH, SCALLOP_PITCH = 2.0, 2.2
WAVE_WIDTH, WAVE_PITCH = 1.3, 1.9
OVERHANG = {"picot": 1.25, "elastic": 0.9, "i-cord": 0.65}
"""How far an edge's drawing stands out beyond the piece, mm; others 0.3."""


def side_lines(frame: Frame) -> Group:
    """Both side edges, thin."""
    sides = [frame.polyline(frame.edge(side, 0, frame.last)) for side in (LEFT, RIGHT)]
    style = Style(stroke=INK, width=EDGE, cap="round")
    return Group("sides", tuple(Path(side, style) for side in sides))


def start_line(frame: Frame) -> Group:
    """The cast-on or tab, heavy."""
    style = Style(stroke=INK, width=HEAVY, cap="round", join="round")
    return Group("start", (Path(frame.data(frame.curve(0)), style),))


def part_bounds(frame: Frame) -> Group:
    """A white line where one part ends and the next begins."""
    rows = [part.last_row for part in frame.shawl.parts[:-1]]
    style = Style(stroke=LIGHT, width=0.5)
    return Group("part-bounds", tuple(Path(frame.data(frame.curve(row)), style) for row in rows))


def spine_line(frame: Frame) -> Group:
    """The spine, thin and light."""
    spine = frame.shawl.outline.spine
    if spine is None:
        return Group("spine", ())
    points = [(x * frame.mm, y * frame.mm) for x, y in spine]
    return Group("spine", (Path(frame.polyline(points), Style(stroke=LIGHT, width=0.25)),))


def edge_behind(frame: Frame) -> list[Item]:
    """What of the bound-off edge lies behind the fabric: scallops for picot, small waves for an elastic bind-off."""
    method = frame.shawl.bind_off.method
    if method == "picot":
        return _scallops(frame, SCALLOP_WIDTH)
    if method == "elastic":
        return _scallops(frame, WAVE_WIDTH)
    return []


def scallop_pitch(frame: Frame) -> float | None:
    """Width of one scallop, a whole number of them to the edge; None for an edge without scallops."""
    wanted = {"picot": SCALLOP_PITCH, "elastic": WAVE_PITCH}.get(frame.shawl.bind_off.method)
    length = curve_length(frame.curve(frame.last))
    return None if wanted is None or length <= 0 else length / max(1, round(length / wanted))


def _scallops(frame: Frame, width: float) -> list[Item]:
    """Round dashes on the edge, dark then a little smaller in white; the fabric hides their inner halves."""
    curve = frame.curve(frame.last)
    pitch = scallop_pitch(frame) or SCALLOP_PITCH
    data = frame.data(trimmed(curve, pitch, pitch - 0.005) or curve)
    dash = (0.0, pitch)
    dark = Style(stroke=INK, width=width + 0.5, dash=dash, cap="round")
    light = Style(stroke=LIGHT, width=width, dash=dash, cap="round")
    return [Path(data, dark), Path(data, light)]


def edge_before(frame: Frame) -> Group:
    """The bound-off edge itself: a line; two for an i-cord; a gathered end where the yarn is drawn through."""
    data = frame.data(frame.curve(frame.last))
    line = Path(data, Style(stroke=INK, width=EDGE + 0.15, cap="round"))
    method = frame.shawl.bind_off.method
    if method == "i-cord":
        cord = Path(data, Style(stroke=INK, width=1.3, cap="round"))
        return Group("bind-off", (cord, Path(data, Style(stroke=LIGHT, width=0.75, cap="round"))))
    if method == "draw through":
        return Group("bind-off", (line, *_gathers(frame, frame.curve(frame.last))))
    return Group("bind-off", (line,))


def _gathers(frame: Frame, edge: Curve) -> list[Item]:
    """Short strokes across the edge, as live stitches drawn up on a thread."""
    length = curve_length(edge)
    count = max(1, round(length / 1.2))
    inner = trimmed(edge, length / count / 2, 0.0) if count > 1 else edge
    style = Style(stroke=INK, width=1.2, dash=(0.25, length / count - 0.25 if count > 1 else 99.0))
    return [Path(frame.data(inner or edge), style)]


def contour_lines(frame: Frame, ramp: Ramp) -> Group:
    """A thin line at the first row after each ten grams."""
    lines = []
    for _, row in contour_rows(frame):
        ink = ink_on(ramp.lab(share_at(frame.shawl, row)), 0.32)
        lines.append(Path(frame.data(frame.curve(row)), Style(stroke=ink, width=THIN + 0.05)))
    return Group("contours", tuple(lines))


def contour_rows(frame: Frame) -> list[tuple[int, int]]:
    """Grams (10, 20 …) and the first row after which so much is used."""
    used = frame.shawl.used_g
    rows: list[tuple[int, int]] = []
    row = 0
    for ten in range(1, math.floor(used[-1] / 10) + 1):
        while used[row] < 10 * ten:
            row += 1
        if 0 < row < frame.last and (not rows or rows[-1][1] != row):
            rows.append((10 * ten, row))
    return rows
