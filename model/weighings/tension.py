"""The drift of tension: a random walk along the yarn, in a few levels, shared by all stitches.

Beforehand a swatch is off by 7 % (a gauge by 12 %) against a whole shawl. Part of that is the same from the first row
to the last; the rest is tension that drifts while the shawl grows. The drift is a Gaussian random walk in the yarn used
(the discrete form of a Wiener process; textbook, from memory): it starts at nothing, reaches `DRIFT_SD` by the planned
end, and is held level within each of `LEVELS` stretches of the same yarn. Its increments are independent, so the level
of stretch j is the sum of the increments up to j, and each increment is one column that the covariance gains.

What the drift adds to the whole shawl's variance is taken off the constant part: the total is as sure as before.
"""

import math
from collections.abc import Sequence

from halfhank.grammar.record import NamedTuple
from halfhank.model.weighings.posterior import Column

DRIFT_SD = 0.04
"""Standard deviation that tension has drifted by at the planned end, against the cast-on (common practice)."""
LEVELS = 8
MOST_LEVELS = 2 * LEVELS
"""Past twice the planned yarn tension drifts no further: no shawl is planned so far beyond its plan."""
MOST_SHARE = 0.5
"""The drift never takes more of a total's variance than this: errors of many swatches cancel, a drift does not."""


class Drift(NamedTuple):
    """How the drift of one plan is counted: `planned_g` of yarn are `LEVELS` stretches.

    `scale` is what its standard deviation, `constant` what those of swatches and gauges are multiplied by.
    """

    planned_g: float
    scale: float
    constant: float

    def level(self, used_g: float) -> int:
        """The stretch in which the yarn used lies."""
        if self.planned_g <= 0:
            return 0
        return min(max(int(LEVELS * used_g / self.planned_g), 0), MOST_LEVELS - 1)

    def columns(self, before: int, levels: int) -> list[Column]:
        """The increments as columns over errors: `before` other errors, then so many levels."""
        found = []
        for first, sd in enumerate(increments(levels)):
            step = sd * self.scale
            found.append((0.0,) * (before + first) + (step,) * (levels - first))
        return found


def increments(levels: int) -> list[float]:
    """Standard deviations of the walk's steps from the cast-on to the middle of each stretch, from one to the next."""
    return [DRIFT_SD * math.sqrt((1.0 if level else 0.5) / LEVELS) for level in range(levels)]


def split(planned_g: float, by_level: Sequence[float], by_root: Sequence[float]) -> Drift:
    """How a plan's uncertainty is split into a constant part and the drift.

    `by_level` are the grams that drift in each stretch, `by_root` what swatches and gauges alone make of the total's
    standard deviation, in g.
    """
    whole = sum(sd * sd for sd in by_root)
    drifting = sum((sd * sum(by_level[first:])) ** 2 for first, sd in enumerate(increments(len(by_level))))
    if not drifting:
        return Drift(planned_g, 0.0, 1.0)
    share = min(drifting, MOST_SHARE * whole)
    return Drift(planned_g, math.sqrt(share / drifting), math.sqrt(1 - share / whole) if whole else 1.0)
