"""The scale readings to expect on the way: a table to print and tick off."""

from typing import NamedTuple

from halfhank.grammar.description import Description, Mass
from halfhank.model.scale.forecast import Forecast
from halfhank.model.scale.posterior import Estimate
from halfhank.model.scale.yarn_model import noise_sd_g
from halfhank.model.shawl import BandPlan, Shawl

FINE_SCALE = 1
"""Decimals of a kitchen scale of which the description says nothing."""


class Checkpoint(NamedTuple):
    """After `row` (0: the start) the scale is to show `reading`, its own noise in; `band` ends there, if one does.

    `weighed_g` is what the log has for this row, as grams left.
    """

    row: int
    stitches: int
    band: BandPlan | None
    reading: Estimate
    weighed_g: float | None


def checkpoints(shawl: Shawl, forecast: Forecast, every: int | None = None) -> list[Checkpoint]:
    """One checkpoint after the start, one at each band's end, and one every so many rows."""
    ends = {band.last_row: band for band in shawl.bands}
    rows = {0, *ends, *(range(every, shawl.rows.count + 1, every) if every else ())}
    weighed = {reading.row: reading.left_g for reading in forecast.readings}
    noise = scale_noise_g(shawl.description)
    return [
        Checkpoint(row, shawl.rows.stitches[row], ends.get(row), forecast.rows[row].noisy(noise), weighed.get(row))
        for row in sorted(rows)
    ]


def scale_noise_g(description: Description) -> float:
    """Standard deviation of a reading on the knitter's scale, as fine as the log's last figure shows it to be."""
    masses = [weighing.mass for weighing in description.log]
    return noise_sd_g(masses[-1] if masses else Mass(0.0, "g", FINE_SCALE, description.title.span))
