"""Asymmetric triangles and bias strips: worked sideways, then turned so that the longest plain side is level on top."""

import math
from collections.abc import Callable

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import BIAS_STRIP, EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.upright_rows import UPRIGHT, edges_of
from halfhank.model.rows.row_table import Rows

AS_LONG = 0.99
"""Sides within 1 % of the longest count as as long; the first of them is taken."""

AS_WIDE = 0.75
"""A strip on the bias is nowhere narrower than this share of its widest row (a choice by eye)."""


class Side(NamedTuple):
    """One side of the piece: its chord, walked so that the fabric lies to the right of it on the page (below, where it
    runs from left to right), whether it has teeth, and its length on the placed piece."""

    chord: Point
    teeth: bool
    length: Callable[[Measured], float]


def lay(layout: Layout) -> LocalOutline:
    """A piece whose two edges are shaped differently."""
    edges = edges_of(layout.rows, layout.gathered)
    upright = edges.laid(UPRIGHT)
    first, last = upright[0][1], upright[-1][0]
    top = _longest(_sides(layout.rows, (first[0], last[0], last[1], first[1])))
    size = math.hypot(*top.chord)
    c, s = (top.chord[0] / size, top.chord[1] / size) if size > 0 else (1.0, 0.0)
    ends = edges.laid(((c, -s), (s, c)))
    slant = math.atan2(abs(c), abs(s))
    return LocalOutline(
        kind=_kind(layout),
        toothed=_toothed(layout.rows),
        ends=ends,
        regions=one_panel(ends),
        reach=[],
        lengths=lambda piece: EdgeLengths(top.length(piece), (piece.edge_cm(0), piece.edge_cm(1))),
        grain=lambda row: Grain(0.0, 0.0, slant, slant),
        sideways=True,
        laid_ends=edges.ends_cm,
    )


def _sides(rows: Rows, corners: tuple[Point, Point, Point, Point]) -> list[Side]:
    """Upper edge, lower edge, last row, first row; `corners` run round the piece from the start of the upper edge."""
    start, end, end_below, start_below = corners
    return [
        Side(_from(start, end), any(rows.upper_jump[2:]), lambda piece: piece.edge_cm(0)),
        Side(_from(end_below, start_below), any(rows.lower_jump[2:]), lambda piece: piece.edge_cm(1)),
        Side(_from(end, end_below), False, lambda piece: piece.end_row_cm(-1)),
        Side(_from(start_below, start), False, lambda piece: piece.end_row_cm(0)),
    ]


def _from(one: Point, other: Point) -> Point:
    return (other[0] - one[0], other[1] - one[1])


def _longest(sides: list[Side]) -> Side:
    """The longest of the sides without teeth, by its chord; the earlier one of two that are nearly as long."""
    plain = [side for side in sides if not side.teeth]
    longest = max(math.hypot(*side.chord) for side in plain)
    return next(side for side in plain if math.hypot(*side.chord) >= AS_LONG * longest)


def _toothed(rows: Rows) -> bool:
    return any(jump < 0 for jump in rows.upper_jump[2:] + rows.lower_jump[2:])


def _kind(layout: Layout) -> str:
    rows = layout.rows
    opposite = all(rates.upper * rates.lower < 0 for rates in rows.rates[1:])
    strip = opposite and min(rows.stitches) >= AS_WIDE * max(rows.stitches)
    return BIAS_STRIP if strip else "asymmetric-triangle"
