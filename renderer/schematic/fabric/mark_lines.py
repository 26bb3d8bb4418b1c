"""The marks as lines on the fabric, each along its row."""

from halfhank.renderer.paper.house_style import CASING_WIDTH, LIGHT
from halfhank.renderer.paper.scene import Group, Path, PathData, Style
from halfhank.renderer.plane.curve_cutting import curve_length, trimmed
from halfhank.renderer.plane.path_data import open_path
from halfhank.renderer.schematic.fabric.bind_off_edges import scallop_pitch
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece


def mark_lines(piece: DrawnPiece, marks: list[DrawnMark]) -> Group:
    """Each mark along its row, cased in white; of two that would touch the more important one alone."""
    lines = {mark.row: mark for k, mark in enumerate(marks) if not _is_hidden(piece, mark, marks[k + 1 :])}
    groups = []
    for row, mark in lines.items():
        data = open_path(piece.curve(row))
        style = mark.style._replace(dash=even_dash(piece, row, mark.style.dash))
        casing = Style(stroke=LIGHT, width=CASING_WIDTH)
        if row == piece.last:  # beads leave the kind of the bound-off edge to be seen between them
            style, data = _on_edge(piece, style)
            casing = style._replace(stroke=LIGHT, width=style.width + 0.55)
        groups.append(Group(f"mark-{mark.kind}", (Path(data, casing), Path(data, style)), title=mark.words))
    return Group("marks", tuple(groups))


def _is_hidden(piece: DrawnPiece, mark: DrawnMark, others: list[DrawnMark]) -> bool:
    rows = [sorted((mark.row, other.row)) for other in others]
    return any(piece.rise(first, last) < CASING_WIDTH for first, last in rows)


def even_dash(piece: DrawnPiece, row: int, dash: tuple[float, ...]) -> tuple[float, ...]:
    """The dash with its gap stretched so that a row ends, and turns at its middle, in the middle of a dash."""
    length = curve_length(piece.curve(row))
    stroke, gap = dash
    sideways = piece.shawl.outline.sideways
    room = length - stroke if sideways else (length - stroke) / 2
    count = max(1, round(room / (stroke + gap)))
    return (stroke, max(room / count - stroke, 0.4))


def _on_edge(piece: DrawnPiece, style: Style) -> tuple[Style, PathData]:
    """The mark on the bound-off edge: one bead to a scallop where it has scallops."""
    curve = piece.curve(piece.last)
    pitch = scallop_pitch(piece.shawl.bind_off.method, curve)
    if pitch is None:
        return style, open_path(curve)
    dotted = style._replace(dash=(0.0, pitch), cap="round")
    return dotted, open_path(trimmed(curve, pitch, pitch - 0.005) or curve)
