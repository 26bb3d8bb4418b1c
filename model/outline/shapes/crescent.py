"""Crescent: a fan while it grows slowly; beyond that parallel curves of three arcs, whose wings come up level."""

import math
from itertools import accumulate, islice

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.construction_words import crescent_words
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.arcs import ArcRadii, arc_grain, arc_rows, half_row
from halfhank.model.outline.solvers.level_wings import level_radii
from halfhank.model.outline.solvers.ring_sector import lay_sector, sector_of
from halfhank.model.outline.solvers.strip import Cells, Strip, cells_of, settled
from halfhank.model.rows.row_table import Rows

NEARLY_FULL = 0.999
LEAST_FAN = 0.02
LEAST_CURVE = 0.005
"""The least stretch for which a crescent is called blocked to a curve."""
MOST_TURN = math.radians(100)
"""How far a row may turn to each side."""


class Growth(NamedTuple):
    """By how much rows gain on each other for each cm between them, up to the first that is nearly the longest: at the
    edges, and by increases spread over the row or by gauge."""

    edges: float
    evenly: float


def lay(layout: Layout) -> LocalOutline:
    """The construction that the growth of the rows makes."""
    cells = cells_of(layout.rows)
    sector = sector_of(layout, cells, False)
    turned, inside = sector.turned, spread_cm(layout.rows, cells)
    strip, laid = settled(layout.rows).strip, settled(layout.rows, layout.gathered).strip
    if turned:
        strip, laid, inside = strip.turned(), laid.turned(), [x - inside[-1] for x in reversed(inside)]
    growth = growth_of(strip, inside)
    fan = growth.edges <= math.pi
    radii = fan_radii(strip, sum(growth)) if fan else level_radii(strip, growth.edges)
    if radii is None or growth.evenly > max(growth.edges, 0.0) or _turns_too_far(strip, radii):
        return lay_sector(layout, cells, sector)._replace(kind="crescent")
    arcs = arc_rows(laid, radii, turned)
    across = _wales(arcs.turns, strip.along_cm, inside, turned)
    curved = max(across) >= LEAST_CURVE
    degrees = math.degrees(max(sum(growth), LEAST_FAN)) if fan else None
    return LocalOutline(
        kind="crescent",
        ends=arcs.ends,
        regions=one_panel(arcs.ends, arcs.curve),
        reach=arcs.reach,
        lengths=_lengths_from_end if turned else _lengths_from_start,
        grain=arc_grain(arcs.turns, None, across),
        fan_degrees=degrees,
        fan_words=crescent_words(degrees, curved and not any(layout.rows.evenly), layout.turned_back),
        formed=curved,
        curved=curved,
        laid_ends=(laid.after[-1], laid.after[0]) if turned else (laid.before[0], laid.before[-1]),
    )


def spread_cm(rows: Rows, cells: Cells) -> list[float]:
    """What increases spread over the row have given each boundary, in cm."""
    gains = (gain * width for gain, width in zip(rows.evenly[1:], cells.width_cm, strict=True))
    return list(accumulate(gains, initial=0.0))


def growth_of(strip: Strip, inside: list[float]) -> Growth:
    """The growth of rows laid out from the inner end; `inside`: what of a boundary was gained inside the row."""
    longest = max(max(strip.before), max(strip.after))
    boundaries = zip(strip.along_cm, strip.before, strip.after, inside, strict=True)
    for at, before, after, spread in islice(boundaries, 1, None):
        if max(before, after) >= NEARLY_FULL * longest:
            gained = spread - inside[0]
            return Growth((max(before, after) - strip.before[0] - gained) / at, gained / at)
    return Growth(0.0, 0.0)


def _wales(turns: list[float], along_cm: list[float], inside: list[float], turned: bool) -> list[float]:
    """By how much the wales at the ends of each boundary (in working order) are stretched.

    A wale keeps its place in its row, counted from the middle. Where rows gained at their ends lie in parallel curves,
    one that has turned by phi slips by phi times their distance along the next: it is sqrt(1 + phi^2) times as long.
    What is gained inside the row spreads the wales and needs no slipping.
    """
    spread = [(x - inside[0]) / (2 * at) if at > 0 else 0.0 for at, x in zip(along_cm, inside, strict=True)]
    spread = spread[::-1] if turned else spread
    return [math.hypot(1.0, max(turn - own, 0.0)) - 1 for turn, own in zip(turns, spread, strict=True)]


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
