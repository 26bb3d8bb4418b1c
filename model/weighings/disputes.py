"""Weighings that cannot be true beside the others: found whatever their order, and taken in with more noise.

Each weighing is held against what all the others let expect (the leave-one-out residual of a linear regression, from
its leverage; textbook, from memory). One further off than `DISPUTED_SDS` is disputed: its noise becomes as large as it
is off, so that it moves the means by next to nothing. Of several that are too far off the one is disputed without which
the rest fits best, and with it any without which the rest fits nearly as well: of two that contradict each other alone
nobody knows which is wrong. Then the rest is looked at again.

A disputed weighing may be true all the same. So the forecast is widened by what believing it would change: even odds
are half of that change's square on top of the variance. One further off than `WIDENED_SDS` widens it no further: an
early slip would be carried on to tenfold at the end.
"""

import math

from halfhank.grammar.record import NamedTuple
from halfhank.model.weighings.posterior import Column, Estimate, LinearSum, Posterior

DISPUTED_SDS = 3.5
"""A weighing further than this from what all the others let expect is disputed."""
NEARLY_AS_WELL = 9.0
"""How much more misfit (in squared standard deviations) is left by a reading that is disputed along with the best."""
MOST_TRIED = 4
ROUNDS = 6
"""How many readings are tried at a time, the worst, and how often; after that all that are too far off are disputed."""
ODDS = 0.5
WIDENED_SDS = 2 * DISPUTED_SDS


class Reading(NamedTuple):
    """What a weighing reads off: `grams` of the sum `what`, with noise of its own."""

    what: LinearSum
    grams: float
    noise_sd_g: float


class Screening(NamedTuple):
    """Each reading's noise as it is taken in, and what was expected of each by all the others, its own noise in."""

    noises: tuple[float, ...]
    expected: tuple[Estimate, ...]

    def disputed(self, place: int, reading: Reading) -> bool:
        """Whether that reading is."""
        return self.noises[place] != reading.noise_sd_g


def screened(prior: Posterior, readings: list[Reading]) -> Screening:
    """The noise that each reading is taken in with: its own, or where it is disputed as much as it is off."""
    noises = [reading.noise_sd_g for reading in readings]
    for turn in range(ROUNDS + 2):
        expected = _expected(taken_in(prior, readings, noises), readings, noises)
        larger = [abs(reading.grams - one.mean) for reading, one in zip(readings, expected, strict=True)]
        far = _too_far(readings, noises, expected)
        if not far:
            break
        for place in _to_dispute(prior, readings, noises, larger, far[:MOST_TRIED]) if turn < ROUNDS else far:
            noises[place] = larger[place]
    return Screening(tuple(noises), tuple(expected))


def _too_far(readings: list[Reading], noises: list[float], expected: list[Estimate]) -> list[int]:
    """The readings that are too far off and not disputed yet, the worst first."""
    off = [abs(reading.grams - one.mean) / one.sd for reading, one in zip(readings, expected, strict=True)]
    new = [k for k, reading in enumerate(readings) if noises[k] == reading.noise_sd_g and off[k] > DISPUTED_SDS]
    return sorted(new, key=lambda place: -off[place])


def _to_dispute(
    prior: Posterior, readings: list[Reading], noises: list[float], larger: list[float], far: list[int]
) -> list[int]:
    """Those of them without which the rest fits best."""
    if len(far) == 1:
        return far
    left = {place: _misfit(prior, readings, [*noises[:place], larger[place], *noises[place + 1 :]]) for place in far}
    return [place for place in far if left[place] <= min(left.values()) + NEARLY_AS_WELL]


def _misfit(prior: Posterior, readings: list[Reading], noises: list[float]) -> float:
    """How badly all readings fit together, in squared standard deviations."""
    posterior, misfit = prior, 0.0
    for reading, noise in zip(readings, noises, strict=True):
        expected = posterior.estimate(reading.what).noisy(noise)
        misfit += ((reading.grams - expected.mean) / expected.sd) ** 2
        posterior = posterior.weighed(reading.what, reading.grams, noise)
    return misfit


def taken_in(prior: Posterior, readings: list[Reading], noises: list[float] | tuple[float, ...]) -> Posterior:
    """The posterior after all readings with these noises."""
    posterior = prior
    for reading, noise in zip(readings, noises, strict=True):
        posterior = posterior.weighed(reading.what, reading.grams, noise)
    return posterior


def inflation(posterior: Posterior, readings: list[Reading], found: Screening) -> list[Column]:
    """What the covariance gains by the disputed readings: as if none were further off than `WIDENED_SDS`."""
    columns = []
    for place, reading in enumerate(readings):
        if found.disputed(place, reading):
            expected = found.expected[place]
            off = abs(reading.grams - expected.mean) / expected.sd
            share = math.sqrt(ODDS) * min(1.0, WIDENED_SDS / off if off else 1.0)
            move = posterior.moved_by(reading.what, reading.grams, reading.noise_sd_g)
            columns.append(tuple([share * change for change in move]))
    return columns


def _expected(posterior: Posterior, readings: list[Reading], noises: list[float]) -> list[Estimate]:
    """What all the others let expect of each reading, its own noise in."""
    found = []
    for reading, noise in zip(readings, noises, strict=True):
        fitted = posterior.estimate(reading.what)
        own = max(1 - (fitted.sd / noise) ** 2, 1e-9)
        spread = math.hypot(fitted.sd / math.sqrt(own), reading.noise_sd_g)
        found.append(Estimate(reading.grams - (reading.grams - fitted.mean) / own, spread))
    return found
