"""Textures that distinguish stitch patterns without colour: lines, dots and rungs that follow the rows.

All are strokes along rows. Dots are round dashes without length and rungs are short dashes of a stroke as wide as the
elongated row, so that one path draws a whole row of either. No two marks of a fabric lie closer than 1.5 mm.
"""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Curve
from halfhank.model.shawl import BandPlan, Shawl
from halfhank.renderer.paper.ramp import Lab, Ramp, ink_on
from halfhank.renderer.paper.scene import Path, PathData, Style
from halfhank.renderer.plane.curve_cutting import halfway_between, trimmed
from halfhank.renderer.plane.path_data import open_path
from halfhank.renderer.schematic.fabric.drawn_bands import DrawnBand, share_at
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

LINE_PITCH = 1.75
DOT_PITCH, DOT_SPACING = 1.55, 2.8
RUNG_WIDTH, RUNG_HEIGHT = 0.3, 1.2
LINES, DOTS, RUNGS = "plain", "openwork", "drop"
LINE_DASHES: tuple[tuple[float, ...], ...] = ((), (2.6, 1.5), (0.9, 1.5), (4.5, 1.5, 0.9, 1.5))
DOT_LENGTHS = (0.0, 1.2, 0.0, 2.0)
DOT_WIDTHS = (0.52, 0.4, 0.8, 0.3)
RUNG_GAPS = (1.5, 2.5, 3.7, 5.2)
INK_STEPS = 12
LINE_INK, MARK_INK = 0.34, 0.38
"""Differences of lightness that make 3:1 with the fabric, the least at which lines that carry meaning are seen
(WCAG 2.2, success criterion 1.4.11)."""


class Texture(NamedTuple):
    """A texture: its kind, and which variation of it, 0…3."""

    kind: str
    variation: int


Textures = dict[tuple[str, int], Texture]


def textures_of(shawl: Shawl) -> Textures:
    """A pattern for each fabric that a band is worked in, by name and wraps.

    Fabrics of one kind take turns; garter, the commonest, is always the plainest.
    """
    kinds = {fabric.name: fabric.texture for fabric in shawl.fabrics}
    patterns: Textures = {}
    counts: dict[str, int] = {}
    keys = dict.fromkeys(map(fabric_key, shawl.bands))
    for stitch, wraps in sorted(keys, key=lambda key: key[0] != "garter"):
        kind = RUNGS if wraps > 1 else kinds.get(stitch, LINES)
        patterns[stitch, wraps] = Texture(kind, counts.get(kind, 0) % 4)
        counts[kind] = counts.get(kind, 0) + 1
    return patterns


def fabric_key(band: BandPlan) -> tuple[str, int]:
    """What distinguishes two fabrics: the stitch, and for elongated rows the wraps."""
    return band.stitch, band.wraps


def line_style(pattern: Texture, lab: Lab) -> Style:
    """Stroke of a line in plain fabric."""
    return Style(stroke=ink_on(lab, LINE_INK), width=0.12, dash=LINE_DASHES[pattern.variation])


def dot_style(pattern: Texture, lab: Lab, spacing: float = DOT_SPACING) -> Style:
    """Stroke of a row of dots, `spacing` between their middles."""
    length = DOT_LENGTHS[pattern.variation]
    gap = spacing - length if spacing - length >= 1.5 else 1.5
    return Style(stroke=ink_on(lab, MARK_INK), width=DOT_WIDTHS[pattern.variation], dash=(length, gap), cap="round")


def rung_style(pattern: Texture, lab: Lab, height: float) -> Style:
    """Stroke along the middle of an elongated row of that height, whose dashes are its rungs."""
    return Style(stroke=ink_on(lab, MARK_INK), width=height, dash=(RUNG_WIDTH, RUNG_GAPS[pattern.variation]))


def texture(piece: DrawnPiece, span: DrawnBand, pattern: Texture, ramp: Ramp) -> list[Path]:
    """The texture of one span."""
    if pattern.kind == RUNGS:
        return _rungs(piece, span, pattern, ramp)
    if pattern.kind == DOTS:
        return _dots(piece, span, pattern, ramp)
    return _lines(piece, span, pattern, ramp)


def texture_rows(span: DrawnBand, height: float, pitch: float) -> list[int]:
    """Boundaries inside the span, evenly at least `pitch` mm apart and half of it from its ends; `height` in mm."""
    rows = span.last - span.first + 1
    if rows < 2 or height < 0.5 * pitch:
        return []
    step = max(1, -int(-pitch * rows // height))
    count = max(1, min(rows // step, (rows - 2) // step + 1))
    first = span.first - 1 + (rows - (count - 1) * step) // 2
    return [first + k * step for k in range(count)]


def _ink_lab(piece: DrawnPiece, ramp: Ramp, row: int) -> tuple[int, Lab]:
    """The fabric's colour at a row in a few steps, so that the texture's paths can be joined by ink."""
    step = round(share_at(piece.shawl, row) * INK_STEPS)
    return step, ramp.lab(step / INK_STEPS)


def _lines(piece: DrawnPiece, span: DrawnBand, pattern: Texture, ramp: Ramp) -> list[Path]:
    by_ink: dict[Style, list[PathData]] = {}
    for row in texture_rows(span, piece.rise(span.first - 1, span.last), LINE_PITCH):
        style = line_style(pattern, _ink_lab(piece, ramp, row)[1])
        halves = [piece.curve(row)] if not style.dash else piece.halves(row)
        by_ink.setdefault(style, []).extend(open_path(half) for half in halves)
    return _joined(by_ink)


def _dots(piece: DrawnPiece, span: DrawnBand, pattern: Texture, ramp: Ramp) -> list[Path]:
    by_ink: dict[Style, list[PathData]] = {}
    for k, row in enumerate(texture_rows(span, piece.rise(span.first - 1, span.last), DOT_PITCH)):
        style = dot_style(pattern, _ink_lab(piece, ramp, row)[1])
        pitch = sum(style.dash)
        for half in piece.halves(row):
            part = trimmed(half, _lead(half, piece.shawl.outline.sideways) + pitch / 2 * (k % 2), 0.7)
            if part is not None:
                by_ink.setdefault(style, []).append(open_path(part))
    return _joined(by_ink)


def _lead(half: Curve, sideways: bool) -> float:
    """Where the first dot of a half row lies: 0.8 mm from its end or spine, so 1.6 mm from its mirror image."""
    if sideways or not half.pieces:
        return 0.8
    (px, py), (qx, qy) = half.start, half.pieces[0][0]
    length = math.hypot(qx - px, qy - py)
    return 0.8 / max(abs(qx - px) / length, 0.25) if length > 0 else 0.8


def _rungs(piece: DrawnPiece, span: DrawnBand, pattern: Texture, ramp: Ramp) -> list[Path]:
    """Rungs over the elongated row of a `drop`; in a written stitch with long rows, in bands between its rows."""
    if span.bands[0].wraps == 1:
        return _written_rungs(piece, span, pattern, ramp)
    heights = piece.shawl.rows.height_cm
    row = max(range(span.first, span.last + 1), key=lambda i: heights[i])
    height = piece.rise(row - 1, row)
    if height < 0.25:
        return []
    lab = _ink_lab(piece, ramp, row)[1]
    style = rung_style(pattern, lab, height)
    neighbours = zip(piece.stretches(row - 1, True), piece.stretches(row), strict=True)
    halves = piece.outwards([halfway_between(one, other) for one, other in neighbours])
    parts = [trimmed(half, sum(style.dash) / 2, 0.3 + height / 2) for half in halves]
    rungs = tuple(command for part in parts if part is not None for command in open_path(part))
    sides = open_path(piece.curve(row - 1, True)) + open_path(piece.curve(row))
    rails = Path(sides, Style(stroke=ink_on(lab, LINE_INK), width=0.1))
    return [rails, Path(rungs, style)] if rungs else [rails]


def _written_rungs(piece: DrawnPiece, span: DrawnBand, pattern: Texture, ramp: Ramp) -> list[Path]:
    by_ink: dict[Style, list[PathData]] = {}
    for row in texture_rows(span, piece.rise(span.first - 1, span.last), 2 * RUNG_HEIGHT):
        style = rung_style(pattern, _ink_lab(piece, ramp, row)[1], RUNG_HEIGHT)
        parts = [trimmed(half, sum(style.dash) / 2, 1.0) for half in piece.halves(row)]
        by_ink.setdefault(style, []).extend(open_path(part) for part in parts if part is not None)
    return _joined(by_ink)


def _joined(by_ink: dict[Style, list[PathData]]) -> list[Path]:
    """One path for each ink; none for rows too short to hold a mark."""
    joined = ((style, tuple(command for data in parts for command in data)) for style, parts in by_ink.items())
    return [Path(data, style) for style, data in joined if data]
