"""Bayesian linear regression in closed form: the posterior of errors with a normal prior after several weighings.

The errors e_1 … e_k are relative; those that are correlated before anything is weighed are so by a few columns p.
Every quantity is a sum `constant + weights . e`; each weighing is the value of one such sum plus noise. The posterior
is then normal too, and follows from one rank-one update for each weighing (Kalman's update for a constant state; the
batch form is Bishop, "Pattern Recognition and Machine Learning", 2006, 3.49 to 3.51). The covariance is stored as `D +
sum p p' - sum u u'`, D diagonal, with at most 2 k columns u for k errors however many weighings there are, and no
matrix is ever inverted.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from operator import mul

from halfhank.grammar.record import NamedTuple

BAND_SDS = 1.6448536269514722
"""Half the width of a band that holds 90 % of a normal distribution, in standard deviations."""


Column = tuple[float, ...]
"""One number for each error."""

RANK_SHARE = 1e-15
"""What is left of the largest variance once rounding is all that is left."""


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
    """A quantity in grams, as far as it is known: normal with this mean and standard deviation.

    `most`: what its 90 % range cannot exceed. `lowered`: by how much the mean was put down to what it cannot exceed;
    the range still reaches as high as without that.
    """

    mean: float
    sd: float
    most: float = math.inf
    lowered: float = 0.0

    @property
    def low(self) -> float:
        """Lower end of the 90 % band."""
        return min(self.mean - BAND_SDS * self.sd, self.most)

    @property
    def high(self) -> float:
        """Upper end of the 90 % band."""
        return min(self.mean + self.lowered + BAND_SDS * self.sd, self.most)

    @property
    def chance_positive(self) -> float:
        """The chance that it is more than nothing: the normal distribution's tail."""
        if self.sd <= 0:
            return 1.0 if self.mean >= 0 else 0.0
        return 0.5 * math.erfc(-self.mean / (self.sd * math.sqrt(2)))

    def noisy(self, noise_sd: float) -> "Estimate":
        """The same as a reading with this much independent noise."""
        return self._replace(sd=math.hypot(self.sd, noise_sd))

    def at_most(self, mean: float, most: float) -> "Estimate":
        """The same where it cannot be more than `mean`, nor its band reach beyond `most`."""
        lowered = self.lowered + max(self.mean - mean, 0.0)
        return Estimate(min(self.mean, mean), self.sd, min(self.most, most), lowered)


class Posterior(NamedTuple):
    """What is known of the errors: their means, and their covariance.

    That is `diag(variances) + sum p p' - sum u u'` with p over `shared` and u over `columns`.
    """

    means: tuple[float, ...]
    variances: tuple[float, ...]
    shared: tuple[Column, ...]
    columns: tuple[Column, ...]

    def estimate(self, asked: LinearSum) -> Estimate:
        """A sum as far as it is known."""
        mean = asked.constant + _dot(asked.weights, self.means)
        spread = sum(w * w * v for w, v in zip(asked.weights, self.variances, strict=True))
        spread += sum(_dot(column, asked.weights) ** 2 for column in self.shared)
        known = sum(_dot(column, asked.weights) ** 2 for column in self.columns)
        return Estimate(mean, math.sqrt(max(spread - known, 0.0)))

    def covariances(self, what: LinearSum) -> list[float]:
        """The covariance of each error with a sum."""
        found = list(map(mul, self.variances, what.weights))
        for column in self.shared:
            share = _dot(column, what.weights)
            found = [g + share * p for g, p in zip(found, column, strict=True)]
        for column in self.columns:
            share = _dot(column, what.weights)
            found = [g - share * u for g, u in zip(found, column, strict=True)]
        return found

    def _gain(self, what: LinearSum, noise_sd_g: float) -> tuple[list[float], float]:
        """The covariance of each error with a reading of the sum, and that reading's variance."""
        gain = self.covariances(what)
        return gain, max(_dot(what.weights, gain), 0.0) + noise_sd_g * noise_sd_g

    def moved_by(self, what: LinearSum, reading_g: float, noise_sd_g: float) -> Column:
        """By how much a reading of the sum would move the means."""
        gain, spread = self._gain(what, noise_sd_g)
        surprise = (reading_g - what.constant - _dot(what.weights, self.means)) / spread
        return tuple([g * surprise for g in gain])

    def weighed(self, what: LinearSum, reading_g: float, noise_sd_g: float) -> "Posterior":
        """The belief after the sum was read off as `reading_g` with noise of this standard deviation (above 0)."""
        gain, spread = self._gain(what, noise_sd_g)
        surprise = (reading_g - what.constant - _dot(what.weights, self.means)) / spread
        means = tuple([m + g * surprise for m, g in zip(self.means, gain, strict=True)])
        root = math.sqrt(spread)
        columns = self.columns if len(self.columns) < 2 * len(means) else fewest(self.columns)
        return self._replace(means=means, columns=(*columns, tuple([g / root for g in gain])))

    def widened(self, columns: Iterable[Column]) -> "Posterior":
        """The same, known less well by what these columns add to the covariance."""
        return self._replace(shared=(*self.shared, *columns))

    def along(self, start: LinearSum, steps: Iterable[Step]) -> Iterator[Estimate]:
        """The start's estimate, then one after each step.

        Each step takes time by what it changes and the number of weighings, not by the number of errors.
        """
        weights = list(start.weights)
        mean = start.constant + _dot(weights, self.means)
        spread = sum(w * w * v for w, v in zip(weights, self.variances, strict=True))
        raised = [_dot(column, weights) for column in self.shared]
        shares = [_dot(column, weights) for column in self.columns]
        yield _estimate(mean, spread, raised, shares)
        for step in steps:
            mean += step.constant
            for k, change in step.weights.items():
                mean += change * self.means[k]
                spread += change * (2 * weights[k] + change) * self.variances[k]
                weights[k] += change
                raised = [s + change * column[k] for s, column in zip(raised, self.shared, strict=True)]
                shares = [s + change * column[k] for s, column in zip(shares, self.columns, strict=True)]
            yield _estimate(mean, spread, raised, shares)


def fewest(columns: Sequence[Column]) -> tuple[Column, ...]:
    """As many columns as there are errors at most, with the same `sum u u'`: its Cholesky factor, the largest first."""
    errors = range(len(columns[0]))
    whole = [[sum(column[i] * column[j] for column in columns) for j in errors] for i in errors]
    least = RANK_SHARE * max(whole[k][k] for k in errors)
    found: list[Column] = []
    for _ in errors:
        pivot = max(errors, key=lambda k: whole[k][k])
        if whole[pivot][pivot] <= least:
            break
        root = math.sqrt(whole[pivot][pivot])
        new = tuple([row[pivot] / root for row in whole])
        whole = [
            [known - one * other for known, other in zip(row, new, strict=True)]
            for row, one in zip(whole, new, strict=True)
        ]
        found.append(new)
    return tuple(found)


def prior(sds: Iterable[float], shared: Iterable[Column] = ()) -> Posterior:
    """The belief before anything is weighed: errors of mean 0, independent but for what they share."""
    variances = tuple(sd * sd for sd in sds)
    return Posterior((0.0,) * len(variances), variances, tuple(shared), ())


def _dot(one: Iterable[float], other: Iterable[float]) -> float:
    return float(sum(map(mul, one, other)))


def _estimate(mean: float, spread: float, raised: Iterable[float], shares: Iterable[float]) -> Estimate:
    variance = spread + sum(s * s for s in raised) - sum(s * s for s in shares)
    return Estimate(mean, math.sqrt(max(variance, 0.0)))
