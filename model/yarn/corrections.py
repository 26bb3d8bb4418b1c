"""What the log shows: corrections of the yarn that the plan takes over from the posterior."""

from collections.abc import Iterable, Mapping

from halfhank.grammar.record import NamedTuple
from halfhank.model.yarn.uncertainty import ErrorSource

LEAST_FACTOR = 0.02
"""A correction never makes yarn less than this share of what was planned, whatever a log says."""


class Corrections(NamedTuple):
    """Posterior means: `skein_g` of the skein's mass (None: not known better), `means` of the relative errors.

    `weighed`: the stitches that were worked before the last weighing.
    """

    skein_g: float | None
    means: Mapping[ErrorSource, float]
    weighed: frozenset[str]

    def factor(self, errors: Iterable[ErrorSource]) -> float:
        """By how much yarn that hangs on these errors is to be multiplied; their means add up, as in the forecast."""
        return max(1.0 + sum(self.means.get(error, 0.0) for error in errors), LEAST_FACTOR)


NONE = Corrections(None, {}, frozenset())
