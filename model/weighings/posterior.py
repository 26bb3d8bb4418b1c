"""Bayesian linear regression in closed form: what several weighings say of errors that are normal beforehand.

The errors e_1 … e_k are relative and independent before anything is weighed. Everything that is asked is a sum
`constant + weights . e`; each weighing is the value of one such sum plus noise. The posterior is then normal too, and
follows from one rank-one update for each weighing (Kalman's update for a state that does not move; the batch form is
Bishop, "Pattern Recognition and Machine Learning", 2006, 3.49 to 3.51). The covariance is kept as `D - sum u u'`,
D diagonal, so that k errors and m weighings take k m numbers and no matrix is ever inverted.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from operator import mul

from halfhank.grammar.record import NamedTuple

BAND_SDS = 1.6448536269514722
"""Half the width of a band that holds 90 % of a normal distribution, in standard deviations."""


class LinearSum(NamedTuple):
    """`constant + weights . e`, in grams: `weights[k]` is what the sum gains when error k is 1 (a whole 100 %)."""

    constant: float
    weights: tuple[float, ...]

    def moved(self, step: "Step") -> "LinearSum":
        """The sum after a step."""
        weights = list(self.weights)
        for k, change in step.weights.items():
            weights[k] += change
        return LinearSum(self.constant + step.constant, tuple(weights))


class Step(NamedTuple):
    """What a sum gains from one row to the next: in its constant, and in the few weights that change."""

    constant: float
    weights: Mapping[int, float]


class Estimate(NamedTuple):
    """A quantity in grams, as far as it is known: normal with this mean and standard deviation."""

    mean: float
    sd: float

    @property
    def low(self) -> float:
        """Lower end of the 90 % band."""
        return self.mean - BAND_SDS * self.sd

    @property
    def high(self) -> float:
        """Upper end of the 90 % band."""
        return self.mean + BAND_SDS * self.sd

    @property
    def chance_positive(self) -> float:
        """The chance that it is more than nothing: the normal distribution's tail."""
        if self.sd <= 0:
            return 1.0 if self.mean >= 0 else 0.0
        return 0.5 * math.erfc(-self.mean / (self.sd * math.sqrt(2)))

    def noisy(self, noise_sd: float) -> "Estimate":
        """The same as a reading with this much independent noise."""
        return Estimate(self.mean, math.hypot(self.sd, noise_sd))


class Posterior(NamedTuple):
    """What is known of the errors: their means, and their covariance `diag(variances) - sum u u'` over `columns`."""

    means: tuple[float, ...]
    variances: tuple[float, ...]
    columns: tuple[tuple[float, ...], ...]

    def estimate(self, asked: LinearSum) -> Estimate:
        """A sum as far as it is known."""
        mean = asked.constant + _dot(asked.weights, self.means)
        spread = sum(w * w * v for w, v in zip(asked.weights, self.variances, strict=True))
        known = sum(_dot(column, asked.weights) ** 2 for column in self.columns)
        return Estimate(mean, math.sqrt(max(spread - known, 0.0)))

    def weighed(self, what: LinearSum, reading_g: float, noise_sd_g: float) -> "Posterior":
        """The belief after the sum was read off as `reading_g` with noise of this standard deviation (above 0)."""
        gain = list(map(mul, self.variances, what.weights))
        for column in self.columns:
            share = _dot(column, what.weights)
            gain = [g - share * u for g, u in zip(gain, column, strict=True)]
        spread = max(_dot(what.weights, gain), 0.0) + noise_sd_g * noise_sd_g
        surprise = (reading_g - what.constant - _dot(what.weights, self.means)) / spread
        means = tuple([m + g * surprise for m, g in zip(self.means, gain, strict=True)])
        root = math.sqrt(spread)
        return Posterior(means, self.variances, (*self.columns, tuple([g / root for g in gain])))

    def along(self, start: LinearSum, steps: Iterable[Step]) -> Iterator[Estimate]:
        """The start's estimate, then one after each step.

        Each step takes time by what it changes and the number of weighings, not by the number of errors.
        """
        weights = list(start.weights)
        mean = start.constant + _dot(weights, self.means)
        spread = sum(w * w * v for w, v in zip(weights, self.variances, strict=True))
        shares = [_dot(column, weights) for column in self.columns]
        yield _estimate(mean, spread, shares)
        for step in steps:
            mean += step.constant
            for k, change in step.weights.items():
                mean += change * self.means[k]
                spread += change * (2 * weights[k] + change) * self.variances[k]
                weights[k] += change
                shares = [s + change * column[k] for s, column in zip(shares, self.columns, strict=True)]
            yield _estimate(mean, spread, shares)


def prior(sds: Iterable[float]) -> Posterior:
    """The belief before anything is weighed: independent errors of mean 0 and these standard deviations."""
    variances = tuple(sd * sd for sd in sds)
    return Posterior((0.0,) * len(variances), variances, ())


def _dot(one: Iterable[float], other: Iterable[float]) -> float:
    return float(sum(map(mul, one, other)))


def _estimate(mean: float, spread: float, shares: Iterable[float]) -> Estimate:
    return Estimate(mean, math.sqrt(max(spread - sum(s * s for s in shares), 0.0)))
