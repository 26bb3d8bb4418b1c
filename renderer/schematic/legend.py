"""Under the table: a swatch of each texture, with the stitch's gauge."""

from halfhank.model.shawl import BandPlan, Fabric, Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import EDGE, SOFT, TEXT
from halfhank.renderer.paper.measure_words import fixed, plain_number
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, PathData, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.schematic.fabric.drawn_bands import fabric_words
from halfhank.renderer.schematic.fabric.textures import (
    DOT_PITCH,
    DOTS,
    RUNGS,
    Texture,
    dot_style,
    fabric_key,
    line_style,
    rung_style,
    textures_of,
)

SWATCH_WIDTH, SWATCH_HEIGHT = 8.4, 5.0
SWATCH_SHARE = 0.3
BETWEEN = 5.5
LINE_PITCH = 4.2


def legend(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp) -> PageBlock:
    """One swatch for each fabric that a band is worked in, flowing from left to right."""
    patterns = textures_of(shawl)
    items: list[Element] = []
    x, y, bottom = column.left, top, top
    for band in _first_bands(shawl):
        lines = text_lines(swatch_words(shawl, band), column.width - SWATCH_WIDTH - 2, TEXT)
        width = SWATCH_WIDTH + 1.6 + max(text_width(line, TEXT) for line in lines)
        if x > column.left and x + width > column.right:
            x, y = column.left, bottom + 1.8
        items += swatch(x, y, patterns[fabric_key(band)], ramp)
        baseline = y + SWATCH_HEIGHT / 2 + TEXT * CAP_HEIGHT / 2
        for k, line in enumerate(lines):
            items.append(Label(x + SWATCH_WIDTH + 1.6, baseline + k * LINE_PITCH, line, TEXT, SOFT))
        bottom = max(bottom, y + SWATCH_HEIGHT + (len(lines) - 1) * LINE_PITCH)
        x += width + BETWEEN
    return PageBlock(Group("legend", tuple(items)), bottom)


def _first_bands(shawl: Shawl) -> list[BandPlan]:
    bands: dict[tuple[str, int], BandPlan] = {}
    for band in shawl.bands:
        bands.setdefault(fabric_key(band), band)
    return list(bands.values())


def swatch_words(shawl: Shawl, band: BandPlan) -> str:
    """`garter 20 × 40`; elongated rows have no gauge of their own."""
    fabric = next((f for f in shawl.fabrics if f.name == band.stitch), None)
    if band.wraps > 1 or fabric is None:
        return fabric_words(band)
    return phrase("legend.swatch", stitch=band.stitch, gauge=gauge_words(fabric))


def gauge_words(fabric: Fabric) -> str:
    """Stitches by rows; where they are not measured, whole ones with a sign."""
    sts, rows = fabric.gauge
    if fabric.gauge_assumed:
        return phrase("legend.about", stitches=fixed(sts, 0), rows=fixed(rows, 0))
    return phrase("legend.gauge", stitches=plain_number(sts), rows=plain_number(rows))


def swatch(x: float, y: float, pattern: Texture, ramp: Ramp) -> list[Element]:
    """A small piece of fabric in the pattern."""
    lab = ramp.lab(SWATCH_SHARE)
    ground = Rect(x, y, SWATCH_WIDTH, SWATCH_HEIGHT, Style(fill=ramp.colour(SWATCH_SHARE)))
    frame = Rect(x, y, SWATCH_WIDTH, SWATCH_HEIGHT, Style(stroke=SOFT, width=EDGE * 0.8))
    middle = y + SWATCH_HEIGHT / 2
    if pattern.kind == RUNGS:
        style = rung_style(pattern, lab, SWATCH_HEIGHT - 1.8)
        rails = line_style(Texture("plain", 0), lab)
        edges = _level(x, SWATCH_WIDTH, middle - SWATCH_HEIGHT / 2 + 0.9) + _level(
            x, SWATCH_WIDTH, middle + SWATCH_HEIGHT / 2 - 0.9
        )
        return [ground, Path(edges, rails), Path(_level(x + 0.7, SWATCH_WIDTH - 1.4, middle), style), frame]
    if pattern.kind == DOTS:
        style = dot_style(pattern, lab)
        pitch = sum(style.dash)
        rows: PathData = ()
        for k in (-1, 0, 1):
            shift = 0.9 + (pitch / 2 if k else 0.0)
            rows += _level(x + shift, SWATCH_WIDTH - shift - 0.8, middle + k * DOT_PITCH)
        return [ground, Path(rows, style), frame]
    style = line_style(pattern, lab)
    rows = (
        _level(x, SWATCH_WIDTH, middle - 1.25)
        + _level(x, SWATCH_WIDTH, middle)
        + _level(x, SWATCH_WIDTH, middle + 1.25)
    )
    return [ground, Path(rows, style), frame]


def _level(x: float, width: float, y: float) -> PathData:
    return (("M", (x, y)), ("L", (x + width, y)))
