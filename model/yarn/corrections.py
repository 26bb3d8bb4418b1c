"""What the log has taught: corrections that the plan's arithmetic takes over from the forecast."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

LEAST_FACTOR = 0.02
"""A correction never makes yarn less than this share of what was planned, whatever a log says."""


class Learned(NamedTuple):
    """Posterior means: `skein_g` of the skein's mass (None: not learned), `means` of the relative errors by name.

    `weighed`: the stitches that were worked before the last weighing.
    """

    skein_g: float | None
    means: Mapping[str, float]
    weighed: frozenset[str]

    def factor(self, errors: Iterable[str]) -> float:
        """By how much yarn that hangs on these errors is to be multiplied; their means add up, as in the forecast."""
        return max(1.0 + sum(self.means.get(error, 0.0) for error in errors), LEAST_FACTOR)


NOTHING = Learned(None, {}, frozenset())
