"""What the log shows: corrections of the yarn that the plan takes over from the posterior."""

from collections.abc import Iterable, Mapping

from halfhank.grammar.record import NamedTuple
from halfhank.model.yarn.uncertainty import ROOTS, ErrorSource

LEAST_FACTOR = 0.02
"""A correction never makes yarn less than this share of what was planned, whatever a log says."""


class Shown(NamedTuple):
    """What the scale showed at the last weighing: `left_g` after `row`.

    `share`: where that is in doubt, its share (at most 1) of what was expected; else 1.
    """

    row: int
    left_g: float
    share: float

    def at_most_g(self, left_g: float, bind_off_g: float) -> float:
        """Grams left after that row, a bind-off that takes so much in it: what is expected, as far as it can be.

        From what the scale showed it goes down in the same proportion, and a bind-off is taken from it in full.
        """
        return min(left_g, left_g * self.share, self.left_g - bind_off_g)


class Corrections(NamedTuple):
    """Posterior means: `skein_g` of the skein's mass (None: not known better), `means` of the relative errors.

    `weighed`: the stitches that were worked before the last weighing. `tension`: how far tension has drifted by then,
    from where it is not expected to drift either way. `past_m[i]`: what start and rows up to row i took beyond that, as
    tension was another then; rows after the last of these as much as it. `shown`: the last weighing.
    """

    skein_g: float | None
    means: Mapping[ErrorSource, float]
    weighed: frozenset[str]
    tension: float = 0.0
    past_m: tuple[float, ...] = (0.0,)
    shown: Shown | None = None

    def factor(self, errors: Iterable[ErrorSource]) -> float:
        """The factor for yarn that depends on these errors; their means add up, as in the forecast."""
        errors = tuple(errors)
        drifted = self.tension if any(error.kind in ROOTS for error in errors) else 0.0
        return max(1.0 + sum(self.means.get(error, 0.0) for error in errors) + drifted, LEAST_FACTOR)


NONE = Corrections(None, {}, frozenset())
