"""Under the table: textures with gauges, the facts in words, the scale bar."""

from halfhank.model.shawl import BandPlan, Fabric, Shawl
from halfhank.renderer.paper.house_style import EDGE, INK, LIGHT, SMALL, SOFT, TEXT
from halfhank.renderer.paper.measure_words import CM_PER_INCH, plain_number, stitches
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, PathData, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, fit, text_width, wrap
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
from halfhank.renderer.schematic.page_block import PageBlock, PageColumn

SWATCH_WIDTH, SWATCH_HEIGHT = 8.4, 5.0
SWATCH_SHARE = 0.3
BETWEEN = 5.5
MOST_LINES = 12
"""Lines of one fact or remark; the rest is cut with an ellipsis."""


def legend(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp) -> PageBlock:
    """One swatch for each fabric that a band is worked in, flowing from left to right."""
    patterns = textures_of(shawl)
    items: list[Element] = []
    x, y = column.left, top
    for band in _first_bands(shawl):
        words = fit(swatch_words(shawl, band), column.width - SWATCH_WIDTH - 2, TEXT)
        width = SWATCH_WIDTH + 1.6 + text_width(words, TEXT)
        if x > column.left and x + width > column.right:
            x, y = column.left, y + SWATCH_HEIGHT + 1.8
        items += swatch(x, y, patterns[fabric_key(band)], ramp)
        baseline = y + SWATCH_HEIGHT / 2 + TEXT * CAP_HEIGHT / 2
        items.append(Label(x + SWATCH_WIDTH + 1.6, baseline, words, TEXT, SOFT))
        x += width + BETWEEN
    return PageBlock(Group("legend", tuple(items)), y + SWATCH_HEIGHT)


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
    return f"{band.stitch} {gauge_words(fabric)}"


def gauge_words(fabric: Fabric) -> str:
    """Stitches by rows, with a sign where they are not measured."""
    sts, rows = fabric.gauge
    sign = "≈ " if fabric.gauge_assumed else ""
    return f"{sign}{plain_number(sts)} × {plain_number(rows)}"


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


def remarks(shawl: Shawl) -> list[str]:
    """The designer's own remarks."""
    return list(shawl.remarks)


def facts(shawl: Shawl, column: PageColumn, top: float, told: list[str], scale: float) -> PageBlock:
    """The facts in words at the left, the scale bar at the right of the first, or below where that is too long."""
    items: list[Element] = []
    y = top
    for fact in told:
        for line in wrap(fact, column.width, SMALL, MOST_LINES):
            y += SMALL * 1.5
            items.append(Label(column.left, y, line, SMALL, SOFT))
    bar, bar_width = scale_bar(shawl, column, top, scale)
    if text_width(told[0], SMALL) > column.width - bar_width - 6:
        bar, _ = scale_bar(shawl, column, y + 1.0, scale)
        y += SMALL * 1.5 + 1.0
    return PageBlock(Group("facts", (*items, bar)), y + 0.8)


def shawl_facts(shawl: Shawl) -> list[str]:
    """Gauge units, needles, cast-on and final counts."""
    over = {round(f.gauge_over_cm, 3) for f in shawl.fabrics}
    over_words = _over_words(over.pop()) if len(over) == 1 else "the gauge's length"
    needles = f"{round(shawl.needles_mm, 2):g} mm needles"
    counts = stitches(shawl.start.stitches)
    start = shawl.start.words[:1].upper() + shawl.start.words[1:]
    start = start if start.endswith(counts) else f"{start}, {counts}"
    final = f"{stitches(shawl.bind_off.stitches)} after row {shawl.rows.count:,}, {shawl.bind_off.words}"
    return [f"Gauge: sts × rows over {over_words}, blocked; {needles}", f"{start}; {final}"]


def _over_words(cm: float) -> str:
    inches = cm / CM_PER_INCH
    if abs(inches - round(inches)) < 1e-6:
        return f"{plain_number(inches)} in"
    return f"{plain_number(cm)} cm"


def scale_bar(shawl: Shawl, column: PageColumn, top: float, scale: float) -> tuple[Group, float]:
    """A bar of a round length with its measure and the scale, at the right margin; and its width."""
    length, words = _bar_length(shawl.units, scale)
    told = f"{words}, 1:{scale:.4g}"
    x = column.right - text_width(told, SMALL)
    y = top + SMALL * 1.5
    bar, height = x - 1.8 - length, 1.3
    middle = y - SMALL * CAP_HEIGHT / 2 - height / 2
    items = (
        Rect(bar, middle, length, height, Style(fill=LIGHT, stroke=INK, width=THIN_FRAME)),
        Rect(bar, middle, length / 2, height, Style(fill=INK)),
        Label(x, y, told, SMALL, SOFT),
    )
    return Group("scale", items), column.right - bar


THIN_FRAME = 0.22


def _bar_length(units: str, scale: float) -> tuple[float, str]:
    """The longest round length of at most 24 mm on paper, in mm there, and its words."""
    unit_mm, name = (10 * CM_PER_INCH, "in") if units == "in" else (10.0, "cm")
    best = (0.0, "")
    for power in range(-3, 7):
        for step in (1, 2, 4, 5) if units == "in" else (1, 2, 5):
            value = step * 10**power
            drawn = value * unit_mm / scale
            if best[0] < drawn <= 24:
                best = (drawn, f"{value:g} {name}")
    return best
