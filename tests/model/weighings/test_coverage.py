"""Whether the bands say the truth: 2,000 invented knits drawn from the priors, each weighed and forecast anew."""

from collections.abc import Callable

import numpy as np
import pytest
from halfhank.grammar import description as written
from halfhank.grammar.problems.problem import Span
from halfhank.model.design.design import Aside, Weighing
from halfhank.model.weighings.log import log_posterior
from halfhank.model.weighings.weighing_model import WeighingModel
from halfhank.model.yarn.uncertainty import SKEIN_ERROR

from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, weighing_model

KNITS = 2_000
HERE = Aside(written.Weighing(1, written.Mass(1.0, "g", 0, Span(1, 1, 2)), False, Span(1, 1, 2)))


class Knit:
    """One knit whose every error is drawn; yarn of a ratio is the product of both factors, not their linear sum."""

    def __init__(self, of: WeighingModel, parts: "Parts", rng: np.random.Generator) -> None:
        errors = rng.normal(0, of.sds)
        alone, hanging, parent = parts
        grams = (1 + errors[parent]) * (alone + hanging @ (1 + errors))
        skein_g = of.skein_g * (1 + errors[0])
        self.used = np.cumsum(grams[:-1])
        self.left_g = skein_g - self.used
        self.end_g = self.left_g[-1] - grams[-1]


Parts = tuple[np.ndarray, np.ndarray, int]


def split(of: WeighingModel) -> Parts:
    """Grams of each row and the bind-off: what hangs on the one parent alone, and on which child the rest hangs."""
    parent = next(k for k, name in enumerate(of.errors) if name.kind in ("swatch", "gauge"))
    steps = [*of.steps, of.bind_off]
    hanging = np.zeros((len(steps), len(of.errors)))
    for row, step in enumerate(steps):
        for k, weight in step.weights.items():
            hanging[row, k] = -weight if k != parent else 0.0
    assert of.errors[0] == SKEIN_ERROR and not hanging[:, 0].any()
    return np.array([-step.constant for step in steps]) - hanging.sum(axis=1), hanging, parent


def scale(rng: np.random.Generator, true_g: float, step_g: float) -> float:
    """What a scale shows: handling of 0.15 g, rounded to its last figure."""
    return max(round((true_g + rng.normal(0, 0.15)) / step_g) * step_g, 0.0)


def weighings(knit: Knit, rows: list[int], decimals: int, used: bool, rng: np.random.Generator):
    """The log of a knit."""
    step = 0.1 if decimals else 1.0
    true = knit.used if used else knit.left_g
    return tuple(Weighing(row, scale(rng, true[row], step), step, used, HERE) for row in rows)


def held(of: WeighingModel, rows: list[int], decimals: int, used: bool, ask: Callable, seed: int) -> float:
    """The share of knits whose true value lies in its 90 % band."""
    rng = np.random.default_rng(seed)
    inside, parts = 0, split(of)
    for _ in range(KNITS):
        knit = Knit(of, parts, rng)
        log = log_posterior(of, weighings(knit, rows, decimals, used, rng))
        what, truth = ask(knit)
        estimate = log.posterior.estimate(what)
        inside += estimate.low <= truth <= estimate.high
    return inside / KNITS


CASES = [
    (PLAIN, [], 1, False),
    (PLAIN, [64], 1, False),
    (PLAIN, [40, 64, 90], 0, False),
    (BANDED, [60], 1, False),
    (BANDED, [28, 60, 100], 1, False),
    (BANDED, [28, 60, 100], 0, True),
    (logged(BANDED, "before cast on 101.2 g"), [44, 80], 1, False),
    (BANDED.replace("  swatch 40 sts 60 rows weighs 10.6 g\n", ""), [50, 70], 1, False),
]


@pytest.mark.parametrize("case", range(len(CASES)))
def test_the_band_of_the_end_holds_the_truth_in_nine_knits_of_ten(case: int) -> None:
    text, rows, decimals, used = CASES[case]
    of = weighing_model(plan_of(text))
    end = of.end()
    assert 0.88 <= held(of, rows, decimals, used, lambda knit: (end, knit.end_g), seed=case) <= 0.92


@pytest.mark.parametrize(("row", "seed"), [(70, 11), (100, 12)])
def test_so_does_the_band_of_a_row_on_the_way(row: int, seed: int) -> None:
    of = weighing_model(plan_of(BANDED))
    left = of.left([row])[row]
    assert 0.88 <= held(of, [44], 1, False, lambda knit: (left, knit.left_g[row]), seed) <= 0.92
