"""Ruffles: last rows that are longer than the fabric under them can lie, laid as long as the boundary before them."""

from itertools import accumulate

from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline.layout import Layout
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rows

LAST_SHARE = 1 / 8
MOST_GROWTH = 0.25
"""A piece ruffles where rows in its last eighth grow by more than a quarter, edges left out (both a choice)."""
MOST_SHARE, STEP_GROWTH = 1 / 4, 0.05
"""Ruffles upon ruffles are in the last quarter; a row next to a ruffle that grows by more than a twentieth is of it
(choices)."""

_ROUNDING = 1e-9


def without_ruffle(layout: Layout) -> Layout:
    """What lies flat: the ruffle's rows with the stitches and the gauge of the row before it, and what edges gain."""
    first = ruffle_row(layout.rows)
    return layout if first is None else layout._replace(rows=_without_growth(layout.rows, first), ruffle=first)


def ruffle_row(rows: Rows) -> int | None:
    """The first row of a ruffle, None where there is none.

    From the last row back, growth is multiplied up until it is over a quarter; then it starts again with the rows
    before that, and their last eighth. Rows next to a ruffle that grow by more than a twentieth each belong to it.
    Stitches gained at the edges or at the spine do not count, as they have room.
    """
    height = list(accumulate(rows.height_cm[1:], initial=0.0))
    end, first, grown = height[-1], None, 1.0
    for row in range(rows.count, 1, -1):
        room = max((1 - LAST_SHARE) * end, (1 - MOST_SHARE) * height[-1])
        if height[row - 1] < room - _ROUNDING * height[-1]:
            break
        growth = _growth(rows, row)
        grown = growth * max(1.0, grown)
        if growth > 1 and (grown > 1 + MOST_GROWTH or (row + 1 == first and growth > 1 + STEP_GROWTH)):
            first, grown, end = row, 1.0, height[row - 1]
    return first


def _growth(rows: Rows, row: int) -> float:
    """How many times as long a row is as the one before it, by increases between its stitches and by gauge."""
    before = rows.stitches[row - 1] * rows.width_cm[row - 1]
    return (rows.stitches[row - 1] + rows.evenly[row]) * rows.width_cm[row] / before if before > 0 else 1.0


def _without_growth(rows: Rows, first: int) -> Rows:
    live, stitches = rows.stitches[first - 1], list(rows.stitches[:first])
    for row in range(first, rows.count + 1):
        live += rows.upper[row] + rows.lower[row] + 2 * rows.spine[row]
        stitches.append(max(live, 1))
    after = rows.count + 1 - first
    rates = tuple(rate._replace(evenly=0.0) if rate.evenly else rate for rate in rows.rates[first:])
    return rows._replace(
        stitches=tuple(stitches),
        width_cm=rows.width_cm[:first] + (rows.width_cm[first - 1],) * after,
        evenly=rows.evenly[:first] + (0,) * after,
        rates=rows.rates[:first] + rates,
    )


def ruffle_advice(layout: Layout, knitted: Rows) -> tuple[Problem, ...]:
    """Advice where there is a ruffle; `knitted` are the rows with all its stitches."""
    if layout.ruffle is None:
        return ()
    flat = layout.rows
    times = max(
        knitted.stitches[row] * knitted.width_cm[row] / (flat.stitches[row] * flat.width_cm[row])
        for row in range(layout.ruffle, flat.count + 1)
    )
    return (known.RUFFLES_AT_END.at(layout.shape_span, row=layout.ruffle, times=times),)
