"""The bound-off edge by its kind: each has strokes of its own, so that a drawing is not taken for another bind-off."""

from halfhank.model.outline.curve import Curve
from halfhank.renderer.paper.house_style import EDGE, INK, LIGHT
from halfhank.renderer.paper.scene import Path, Style
from halfhank.renderer.plane.curve_cutting import curve_length, trimmed
from halfhank.renderer.plane.path_data import open_path

SCALLOP_WIDTH, SCALLOP_PITCH = 2.0, 2.2
LOOSE_REACH, LOOSE_WIDTH, LOOSE_PITCH, LOOSE_DASH = 1.0, 0.26, 3.0, 1.9
GRADUATION_REACH, GRADUATION_PITCH = 1.05, 2.2
STROKE = 0.25
CORD_WIDTH, GATHER_PITCH = 1.3, 1.2
GATHERED = 1.1
"""The dot at which stitches are drawn together, mm."""
OVERHANG = {
    "picot": 1.25,
    "elastic": LOOSE_REACH,
    "measured": GRADUATION_REACH,
    "measured each": GRADUATION_REACH,
    "i-cord": CORD_WIDTH / 2,
    "draw through": 0.6,
}
"""How far an edge's drawing stands out beyond the piece, mm; a standard one 0.3."""


def overhang_of(method: str) -> float:
    """How far the edge's strokes stand out beyond the piece, mm."""
    return OVERHANG.get(method, 0.3)


def strokes_behind(method: str, edge: Curve) -> list[Path]:
    """What lies behind the fabric, which hides its inner half.

    Scallops for picot, a loose broken thread beside the edge for elastic, graduations for measured ones.
    """
    if method == "picot":
        return _scallops(edge)
    if method == "elastic":
        thread = _dashed(edge, LOOSE_PITCH, LOOSE_DASH, 2 * LOOSE_REACH)
        return [thread, Path(open_path(edge), Style(stroke=LIGHT, width=2 * (LOOSE_REACH - LOOSE_WIDTH)))]
    if method in ("measured", "measured each"):
        return [_dashed(edge, GRADUATION_PITCH, STROKE, 2 * GRADUATION_REACH)]
    return []


def strokes_before(method: str, edge: Curve) -> list[Path]:
    """What lies on the fabric: a line; two for an i-cord; a dot where the yarn is drawn through, or gathers along an
    edge that is no point."""
    if method == "i-cord":
        widths = ((INK, CORD_WIDTH), (LIGHT, 0.75))
        return [Path(open_path(edge), Style(stroke=ink, width=width, cap="round")) for ink, width in widths]
    line = Path(open_path(edge), Style(stroke=INK, width=EDGE + 0.15, cap="round"))
    if curve_length(edge) <= 0:
        return [line._replace(style=line.style._replace(width=GATHERED))]
    return [line, _dashed(edge, GATHER_PITCH, STROKE, 1.2)] if method == "draw through" else [line]


def scallop_pitch(method: str, edge: Curve) -> float | None:
    """Width of one scallop, a whole number of them to the edge; None for an edge without scallops."""
    length = curve_length(edge)
    return length / max(1, round(length / SCALLOP_PITCH)) if method == "picot" and length > 0 else None


def _scallops(edge: Curve) -> list[Path]:
    """Round dashes on the edge, dark then a little smaller in white."""
    pitch = scallop_pitch("picot", edge) or SCALLOP_PITCH
    placed = open_path(trimmed(edge, pitch, pitch - 0.005) or edge)
    widths = ((INK, SCALLOP_WIDTH + 0.5), (LIGHT, SCALLOP_WIDTH))
    return [Path(placed, Style(stroke=ink, width=width, dash=(0.0, pitch), cap="round")) for ink, width in widths]


def _dashed(edge: Curve, pitch: float, stroke: float, width: float) -> Path:
    """Strokes of a width about `pitch` apart, as many on each half of the edge, none on its middle or its ends."""
    length = curve_length(edge)
    each = length / (2 * max(1, round(length / pitch / 2)))
    stroke = min(stroke, 0.7 * each)
    begun = trimmed(edge, (each - stroke) / 2, 0.0)
    return Path(open_path(begun or edge), Style(stroke=INK, width=width, dash=(stroke, each - stroke)))
