"""Crescent: a fan while it grows slowly; beyond that parallel curves of three arcs, whose wings come up level."""

import math

from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.arcs import ArcRadii, arc_grain, arc_rows, half_row
from halfhank.model.outline.solvers.level_wings import level_radii
from halfhank.model.outline.solvers.ring_sector import lay_sector, sector_of
from halfhank.model.outline.solvers.strip import Strip, cells_of, settled

NEARLY_FULL = 0.999
LEAST_FAN = 0.02
MOST_TURN = math.radians(100)
"""How far a row may turn to each side."""


def lay(layout: Layout) -> LocalOutline:
    """The construction that the growth of the rows makes."""
    cells = cells_of(layout.rows)
    sector = sector_of(layout, cells, False)
    strip, turned = settled(layout.rows).strip, sector.turned
    strip = strip.turned() if turned else strip
    words = "crescent and back" if layout.turned_back else "crescent"
    growth = growth_of(strip)
    radii = fan_radii(strip, growth) if growth <= math.pi else level_radii(strip, growth)
    if radii is None or _turns_too_far(strip, radii):
        return lay_sector(layout, cells, sector)._replace(words=words)
    arcs = arc_rows(strip, radii, turned)
    degrees = math.degrees(max(growth, LEAST_FAN)) if growth <= math.pi else None
    return LocalOutline(
        words=words,
        ends=arcs.ends,
        regions=one_panel(arcs.ends, arcs.curve),
        reach=arcs.reach,
        lengths=_lengths_from_end if turned else _lengths_from_start,
        grain=arc_grain(arcs.turns),
        fan_degrees=degrees,
        fan_words=None if degrees is None else f"grows slowly: a fan of {degrees:.0f} degrees",
    )


def growth_of(strip: Strip) -> float:
    """By how much rows gain on each other for each cm between them, up to the first that is nearly the longest."""
    longest = max(max(strip.before), max(strip.after))
    for at, before, after in zip(strip.along_cm[1:], strip.before[1:], strip.after[1:], strict=True):
        if max(before, after) >= NEARLY_FULL * longest:
            return (max(before, after) - strip.before[0]) / at
    return 0.0


def fan_radii(strip: Strip, growth: float) -> ArcRadii:
    """A fan around one centre: its angle is what rows gain for each cm of radius."""
    return ArcRadii(strip.before[0] / max(growth, LEAST_FAN))


def _turns_too_far(strip: Strip, radii: ArcRadii) -> bool:
    rows = zip(strip.along_cm, map(max, strip.before, strip.after), strict=True)
    return any(half_row(radii, at, length).turn > MOST_TURN for at, length in rows)


def _lengths_from_start(piece: Measured) -> EdgeLengths:
    return _lengths(piece, 0)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return _lengths(piece, -1)


def _lengths(piece: Measured, inner: int) -> EdgeLengths:
    """The top runs along both edges and the inner row between them."""
    return EdgeLengths(piece.edge_cm(0) + piece.row_cm(inner) + piece.edge_cm(1), None)
