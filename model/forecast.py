"""What the kitchen scale is going to read, row by row, and what the weighings in the log say of it."""

from typing import NamedTuple

from halfhank.grammar.problems import Span
from halfhank.model.belief import Estimate


class Reading(NamedTuple):
    """One weighing of the log as grams left after `row`; `foretold` is what was to be expected on the scale before it."""

    row: int
    left_g: float
    noise_sd_g: float
    foretold: Estimate
    span: Span

    @property
    def surprise_sds(self) -> float:
        """By how many standard deviations less is left than was foretold (negative: more is left)."""
        return (self.foretold.mean - self.left_g) / self.foretold.sd


class Forecast(NamedTuple):
    """Grams left after every row (index 0: after the start) and at the `end`, after the bind-off.

    `rows` and `end` have the log in, `plan` and `plan_end` are the same rows as they were foretold before any weighing.
    """

    rows: tuple[Estimate, ...]
    end: Estimate
    plan: tuple[Estimate, ...]
    plan_end: Estimate
    readings: tuple[Reading, ...]


def chance_words(chance: float) -> str:
    """A chance as knitters say it: `97 %`, never a certainty that nobody has."""
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{100 * chance:.0f} %"
