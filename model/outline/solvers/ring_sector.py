"""All rows around one centre and of one angle: the sector of a ring that has the fabric's area."""

import math

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.arcs import ArcRadii, arc_grain, arc_rows
from halfhank.model.outline.solvers.smoothing import fitted_line
from halfhank.model.outline.solvers.strip import Cells, Strip, settled
from halfhank.model.problems import plan_problems as known

LEAST_FAN, MOST_FAN = math.radians(0.06), math.radians(350)
"""Fans (radians) that are drawn: beyond them rows run straight, or the fabric ruffles."""


LEAST_START = 1e-6
"""The smallest inner arc, as a share of the height, so that no radius is divided by 0."""

INNER_CM = 2.0
"""Rows so near the inner end bound the inner arc: no longer than they are on average."""


class Sector(NamedTuple):
    """`fan`: the angle that the fabric makes; `drawn`: the angle that it is drawn with (radians); `start_cm`: length of
    the inner arc; `turned`: the last row is the inner one."""

    fan: float
    drawn: float
    start_cm: float
    turned: bool


def sector_of(layout: Layout, cells: Cells, straight: bool) -> Sector:
    """The sector of a ring whose arcs are the line of least squares through the rows' lengths; the shorter end is
    inside.

    It has the fabric's area and height: `A = x H + fan H^2 / 2`, which gives the fan where the inner arc is held. An
    inner end that is drawn together is a point. Rows of a ruffle are left out.
    """
    first = layout.rows.stitches[0] * cells.width_cm[0]
    last = layout.rows.stitches[-1] * cells.width_cm[-1]
    heights, lengths = cells.height_cm[: layout.flat_rows], cells.length_cm[: layout.flat_rows]
    if last < first:
        heights, lengths = heights[::-1], lengths[::-1]
    height, area = sum(heights), sum(x * h for x, h in zip(lengths, heights, strict=True))
    fitted = fitted_line(heights, lengths)[0]
    gathered = layout.gathered and last < first
    start = min(max(0.0 if gathered else fitted, LEAST_START * height), _inner_cm(heights, lengths))
    fan = 2 * (area - start * height) / height**2
    drawn = math.pi if straight else min(max(fan, LEAST_FAN), MOST_FAN)
    if drawn == LEAST_FAN:
        start = max(area / height - drawn * height / 2, min(first, last) / 4)
    return Sector(max(fan, 0.0), drawn, start, last < first)


def _inner_cm(heights: list[float], lengths: list[float]) -> float:
    """The mean length of the first 2 cm of rows."""
    area = along = 0.0
    for height, length in zip(heights, lengths, strict=True):
        area, along = area + height * length, along + height
        if along >= INNER_CM:
            break
    return area / along


def lay_sector(layout: Layout, cells: Cells, sector: Sector, straight: bool = False) -> LocalOutline:
    """Rows of one angle around one centre."""
    along = cells.along_cm
    if sector.turned:
        along = [along[-1] - at for at in reversed(along)]
    lengths = [sector.start_cm + sector.drawn * at for at in along]
    arcs = arc_rows(Strip(along, lengths, lengths), ArcRadii(sector.start_cm / sector.drawn), sector.turned)
    drawn = lengths[::-1] if sector.turned else lengths
    return LocalOutline(
        kind="fan",
        ends=arcs.ends,
        regions=one_panel(arcs.ends, arcs.curve),
        reach=arcs.reach,
        lengths=_lengths_from_end if sector.turned else _lengths_from_start,
        grain=arc_grain(arcs.turns, _stretched(layout, cells, drawn, sector.turned)),
        formed=True,
        laid_ends=None if straight else (drawn[0], 0.0 if layout.gathered and sector.turned else drawn[-1]),
        straight=straight,
        problems=(_ruffles(layout, sector),) if sector.fan > MOST_FAN else (),
    )


def _stretched(layout: Layout, cells: Cells, drawn: list[float], turned: bool) -> list[float]:
    """By how much each row (from 1) is drawn longer than it settles; the inner 2 cm and a ruffle as the row beside
    them.

    Counts rise at once where the circle grows steadily: settling evens out steps of a few stitches, not doublings.
    """
    lies, height = settled(layout.rows).strip, cells.along_cm[-1]
    rows = range(1, layout.rows.count + 1)
    inside = [height - cells.along_cm[row] if turned else cells.along_cm[row - 1] for row in rows]
    counted = [row for row in rows if row <= layout.flat_rows and inside[row - 1] >= INNER_CM] or [rows[-1]]
    stretched = [0.0]
    for row in rows:
        near = min(max(row, counted[0]), counted[-1])
        length = lies.after[near - 1] + lies.before[near]
        stretched.append((drawn[near - 1] + drawn[near]) / length - 1 if length > 0 else 0.0)
    return stretched


def _lengths_from_start(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(0) + piece.edge_cm(1), None)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(-1) + piece.edge_cm(1), None)


def _ruffles(layout: Layout, sector: Sector) -> Problem:
    kind = known.RUFFLES_INWARDS if sector.turned else known.RUFFLES
    return kind.at(layout.shape_span, degrees=math.degrees(sector.fan), most=math.degrees(MOST_FAN))
