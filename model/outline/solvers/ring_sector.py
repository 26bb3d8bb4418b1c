"""All rows around one centre and of one angle: the sector of a ring that has the fabric's area."""

import math
from itertools import pairwise

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.arcs import ArcRadii, arc_grain, arc_rows
from halfhank.model.outline.solvers.strip import Cells, Strip
from halfhank.model.problems import plan_problems as known

LEAST_FAN, MOST_FAN = math.radians(0.06), math.radians(350)
"""Fans (radians) that are drawn: beyond them rows run straight, or the fabric ruffles."""


class Sector(NamedTuple):
    """`fan`: the angle that the fabric makes; `drawn`: the angle that it is drawn with (radians); `start_cm`: length of
    the inner arc; `turned`: the last row is the inner one."""

    fan: float
    drawn: float
    start_cm: float
    turned: bool


def sector_of(layout: Layout, cells: Cells, straight: bool) -> Sector:
    """The sector of a ring that has the fabric's area, its height, and the shorter end for its inner arc.

    `A = x H + fan H^2 / 2`, the area of a ring's sector, solved for the fan.
    """
    first = layout.rows.stitches[0] * cells.width_cm[0]
    last = layout.rows.stitches[-1] * cells.width_cm[-1]
    start, height = min(first, last), cells.along_cm[-1]
    area = sum(x * h for x, h in zip(cells.length_cm, cells.height_cm, strict=True))
    fan = 2 * (area - start * height) / height**2
    drawn = math.pi if straight else min(max(fan, LEAST_FAN), MOST_FAN)
    if drawn == LEAST_FAN:
        start = max(area / height - drawn * height / 2, start / 4)
    return Sector(max(fan, 0.0), drawn, start, last < first)


def lay_sector(layout: Layout, cells: Cells, sector: Sector, straight: bool = False) -> LocalOutline:
    """Rows of one angle around one centre."""
    along = cells.along_cm
    if sector.turned:
        along = [along[-1] - at for at in reversed(along)]
    lengths = [sector.start_cm + sector.drawn * at for at in along]
    arcs = arc_rows(Strip(along, lengths, lengths), ArcRadii(sector.start_cm / sector.drawn), sector.turned)
    stretched = None
    if layout.pinned:
        drawn = lengths[::-1] if sector.turned else lengths
        stretched = _stretched(layout, cells, drawn)
    return LocalOutline(
        words="fan",
        ends=arcs.ends,
        regions=one_panel(arcs.ends, arcs.curve),
        reach=arcs.reach,
        lengths=_lengths_from_end if sector.turned else _lengths_from_start,
        grain=arc_grain(arcs.turns, stretched),
        straight=straight,
        problems=(_ruffles(layout, sector),) if sector.fan > MOST_FAN else (),
    )


def _stretched(layout: Layout, cells: Cells, drawn: list[float]) -> list[float]:
    """By how much each row (from 1) is drawn longer than knitted, on average between two shaping rows.

    Counts rise at once where the circle grows steadily: only the average says how far the fabric is stretched.
    """
    count, stitches = layout.rows.count, layout.rows.stitches
    bounds = [0, *(row - 1 for row in range(2, count + 1) if stitches[row] != stitches[row - 1]), count]
    stretched = [0.0]
    for first, last in pairwise(bounds):
        rows = range(first, last)
        area = sum((drawn[i] + drawn[i + 1]) / 2 * cells.height_cm[i] for i in rows)
        knitted = sum(cells.length_cm[i] * cells.height_cm[i] for i in rows)
        stretched += [area / knitted - 1 if knitted > 0 else 0.0] * len(rows)
    return stretched


def _lengths_from_start(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(0) + piece.edge_cm(1), None)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(-1) + piece.edge_cm(1), None)


def _ruffles(layout: Layout, sector: Sector) -> Problem:
    return known.RUFFLES.at(layout.shape_span, degrees=math.degrees(sector.fan), most=math.degrees(MOST_FAN))
