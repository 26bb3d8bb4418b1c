"""How far pinning stretches the fabric."""

import math

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import Grain, LocalOutline
from halfhank.model.outline.outline import Stretch
from halfhank.model.problems import plan_problems as known

PLAIN_BEARS, OPENWORK_BEARS = 0.10, 0.15
"""What fabrics bear to be stretched when they are blocked (common practice, no source)."""
_ROUNDING = 1e-9


class _Worst(NamedTuple):
    """The stretch that is furthest over what its fabric bears."""

    over: float
    along: bool
    openwork: bool
    stretch: float
    row: int


def stretch_of(layout: Layout, local: LocalOutline, scales: tuple[float, float]) -> tuple[Stretch, tuple[Problem, ...]]:
    """The largest stretch along the rows and across them, and the advice where a fabric bears less.

    A unit vector u becomes `M u` under the pinning's map M; it is stretched by `|M u| - 1`.
    """
    largest = Stretch(-math.inf, -math.inf)
    worst = _Worst(0.0, True, False, 0.0, 0)
    for row in range(1, layout.rows.count + 1):
        here = _row_stretch(local.grain(row), scales)
        largest = Stretch(max(largest.along, here.along), max(largest.across, here.across))
        bears = OPENWORK_BEARS if layout.openwork[row] else PLAIN_BEARS
        for along, part in ((True, here.along), (False, here.across)):
            if part - bears > max(worst.over, _ROUNDING):
                worst = _Worst(part - bears, along, layout.openwork[row], part, row)
    return largest, (_too_far(layout, worst),) if worst.over > 0 else ()


def _row_stretch(grain: Grain, scales: tuple[float, float]) -> Stretch:
    across, down = scales
    return Stretch(
        (1 + grain.along) * _largest(across, down, grain) - 1, (1 + grain.across) * _largest(down, across, grain) - 1
    )


def _largest(level: float, upright: float, grain: Grain) -> float:
    """The largest `|M u|` over the directions of a row, for M scaling by `level` and `upright`."""
    factors = []
    for share in (math.cos(grain.least) ** 2, math.cos(min(grain.most, math.pi / 2)) ** 2):
        factors.append(math.hypot(level * math.sqrt(share), upright * math.sqrt(1 - share)))
    return max(factors)


def _too_far(layout: Layout, worst: _Worst) -> Problem:
    span = layout.pinned.span if layout.pinned else None
    fabric = "openwork" if worst.openwork else "plain fabric"
    bears = OPENWORK_BEARS if worst.openwork else PLAIN_BEARS
    return known.OVERSTRETCHED.at(
        span,
        stretch=_percent(worst.stretch),
        direction="along" if worst.along else "across",
        row=worst.row,
        fabric=fabric,
        bears=_percent(bears),
    )


def _percent(part: float) -> str:
    return f"{100 * part:.0f} %" if part < 10 else f"{part + 1:,.0f} times"
