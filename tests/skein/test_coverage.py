"""Whether the bands say the truth: 2,000 invented knits drawn from the priors, each weighed and forecast anew."""

from collections.abc import Callable

import numpy as np
import pytest
from halfhank.grammar.problems import Span
from halfhank.grammar.syntax import Mass, Weighing
from halfhank.model.accounts import SKEIN, Accounts
from halfhank.model.forecast import end_of, listen

from tests.skein.knits import BANDED, PLAIN, accounts, logged, shawl_of

KNITS = 2_000
HERE = Span(1, 1, 2)


class Knit:
    """One knit whose every error is drawn; yarn of a ratio is the product of both factors, not their linear sum."""

    def __init__(self, of: Accounts, rng: np.random.Generator) -> None:
        self.accounts = of
        draws = rng.normal(0, of.sds)
        self.error = dict(zip(of.errors, draws.tolist(), strict=True))
        self.skein_g = of.skein_g * (1 + self.error[SKEIN])
        self.used = np.cumsum([self._grams(step) for step in of.steps])
        self.left_g = self.skein_g - self.used
        self.end_g = self.left_g[-1] - self._grams(of.bind_off)

    def _grams(self, step) -> float:
        """Grams of one row: what hangs on a parent alone, and what hangs on a child times both factors."""
        names = self.accounts.errors
        hanging = {names[k]: -w for k, w in step.weights.items()}
        parent = next((name for name in hanging if name.startswith(("swatch", "gauge"))), None)
        children = {name: g for name, g in hanging.items() if name != parent}
        alone = -step.constant - sum(children.values())
        factor = 1 + (self.error[parent] if parent else 0.0)
        return factor * (alone + sum(g * (1 + self.error[name]) for name, g in children.items()))


def scale(rng: np.random.Generator, true_g: float, step_g: float) -> float:
    """What a scale shows: handling of 0.15 g, rounded to its last figure."""
    return max(round((true_g + rng.normal(0, 0.15)) / step_g) * step_g, 0.0)


def weighings(knit: Knit, rows: list[int], decimals: int, used: bool, rng: np.random.Generator):
    """The log of a knit."""
    step = 0.1 if decimals else 1.0
    true = knit.used if used else knit.left_g
    return tuple(Weighing(row, Mass(scale(rng, true[row], step), "g", decimals, HERE), used, HERE) for row in rows)


def held(of: Accounts, rows: list[int], decimals: int, used: bool, ask: Callable, seed: int) -> float:
    """The share of knits whose true value lies in its 90 % band."""
    rng = np.random.default_rng(seed)
    inside = 0
    for _ in range(KNITS):
        knit = Knit(of, rng)
        heard = listen(of, weighings(knit, rows, decimals, used, rng))
        what, truth = ask(knit)
        estimate = heard.belief.estimate(what)
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
    of = accounts(shawl_of(text))
    end = end_of(of)
    assert 0.88 <= held(of, rows, decimals, used, lambda knit: (end, knit.end_g), seed=case) <= 0.92


@pytest.mark.parametrize(("row", "seed"), [(70, 11), (100, 12)])
def test_so_does_the_band_of_a_row_on_the_way(row: int, seed: int) -> None:
    of = accounts(shawl_of(BANDED))
    left = of.left([row])[row]
    assert 0.88 <= held(of, [44], 1, False, lambda knit: (left, knit.left_g[row]), seed) <= 0.92
