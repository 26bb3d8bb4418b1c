"""The fabric: bands shaded by the yarn used, each with its texture and what hovering shows."""

from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Path, Style
from halfhank.renderer.schematic.fabric.drawn_bands import ColourStrip, DrawnBand, spans_of, strips_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.textures import Textures, fabric_key, texture


def fabric_group(piece: DrawnPiece, patterns: Textures, ramp: Ramp) -> Group:
    """All bands in working order; each strip reaches under the next, so the order is what hides their seams."""
    bands = [band_group(piece, k, span, patterns, ramp) for k, span in enumerate(spans_of(piece), 1)]
    return Group("fabric", tuple(bands))


def band_group(piece: DrawnPiece, number: int, span: DrawnBand, patterns: Textures, ramp: Ramp) -> Group:
    """One band: its strips, then its texture."""
    items: list[Element] = [strip_path(piece, strip, ramp) for strip in strips_of(piece, span)]
    if len(span.bands) == 1:
        items += texture(piece, span, patterns[fabric_key(span.bands[0])], ramp)
    return Group(f"band-{number}", tuple(items), title=span.title(piece.shawl.skein.unit))


def strip_path(piece: DrawnPiece, strip: ColourStrip, ramp: Ramp) -> Path:
    """One strip in its colour."""
    return Path(piece.closed(strip.first, strip.reach), Style(fill=ramp.colour(strip.share)))
