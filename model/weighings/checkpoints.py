"""The scale readings to expect on the way: a table to print and tick off."""

from functools import partial
from itertools import accumulate

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.plan import Plan
from halfhank.model.shawl import BandPlan
from halfhank.model.weighings.forecast import forecast
from halfhank.model.weighings.log import log_of
from halfhank.model.yarn.uncertainty import noise_sd_g

FINE_STEP_G = 0.1
"""Last figure of a kitchen scale of which the description says nothing."""


class ScaleReading(NamedTuple):
    """What the scale is to show, in g: nine readings in ten lie from `low` to `high`."""

    mean: float
    low: float
    high: float


class Checkpoint(NamedTuple):
    """After `row` (0: the start) the scale is to show `reading`, its own noise in; `band` ends there, if one does.

    `weighed_g` is what the log has for this row, as grams left.
    """

    row: int
    stitches: int
    band: BandPlan | None
    reading: ScaleReading
    weighed_g: float | None


def checkpoints(plan: Plan, every: int | None = None) -> list[Checkpoint]:
    """One checkpoint after the start, one at each band's end, and one every so many rows."""
    ends = {band.last_row: band for band in plan.shawl.bands}
    rows = {0, *ends, *(range(every, plan.rows.count + 1, every) if every else ())}
    weighed = {weighing.row: weighing.left_g for weighing in log_of(plan).weighings}
    expected = scale_readings(plan)
    return [
        Checkpoint(row, plan.rows.stitches[row], ends.get(row), expected[row], weighed.get(row)) for row in sorted(rows)
    ]


def scale_readings(plan: Plan) -> list[ScaleReading]:
    """What the scale is to show after each row from 0: never less than nothing, and never more than a row before."""
    noise = scale_noise_g(plan.design)
    readings = [left.noisy(noise) for left in forecast(plan).rows]
    figures = ([one.mean for one in readings], [one.low for one in readings], [one.high for one in readings])
    return list(map(ScaleReading, *(accumulate(map(partial(max, 0.0), column), min) for column in figures)))


def scale_noise_g(design: Design) -> float:
    """Standard deviation of a reading on the knitter's scale, as fine as the log's last figure shows it to be."""
    return noise_sd_g(design.log[-1].step_g if design.log else FINE_STEP_G)
