"""The closed form against numpy's batch solution and scipy's normal distribution."""

import math

import numpy as np
import pytest
from halfhank.model.weighings.posterior import BAND_SDS, Estimate, LinearSum, Posterior, Step, prior
from scipy import stats


def covariance(belief: Posterior) -> np.ndarray:
    """The belief's covariance as a whole matrix."""
    whole = np.diag(belief.variances)
    for column in belief.columns:
        whole -= np.outer(column, column)
    return whole


def random_case(seed: int, errors: int, weighings: int):
    rng = np.random.default_rng(seed)
    sds = rng.uniform(0.02, 0.2, errors)
    weights = rng.normal(0, 30, (weighings, errors))
    constants = rng.uniform(20, 100, weighings)
    noise = rng.uniform(0.15, 0.4, weighings)
    readings = constants + weights @ rng.normal(0, sds) + rng.normal(0, noise)
    return sds, weights, constants, noise, readings


@pytest.mark.parametrize("seed, errors, weighings", [(1, 3, 1), (2, 5, 4), (3, 4, 9), (4, 8, 3), (5, 1, 6)])
def test_updates_one_by_one_equal_the_batch_solution(seed: int, errors: int, weighings: int) -> None:
    """Posterior precision is D^-1 + X' R^-1 X, its mean S X' R^-1 (y - c)."""
    sds, weights, constants, noise, readings = random_case(seed, errors, weighings)
    belief = prior(sds.tolist())
    for x, c, r, y in zip(weights, constants, noise, readings, strict=True):
        belief = belief.weighed(LinearSum(float(c), tuple(x.tolist())), float(y), float(r))
    precision = np.diag(sds**-2.0) + weights.T @ np.diag(noise**-2.0) @ weights
    posterior = np.linalg.inv(precision)
    mean = posterior @ weights.T @ np.diag(noise**-2.0) @ (readings - constants)
    assert np.allclose(belief.means, mean, rtol=1e-8, atol=1e-12)
    assert np.allclose(covariance(belief), posterior, rtol=1e-7, atol=1e-12)


def test_the_order_of_the_weighings_does_not_matter() -> None:
    sds, weights, constants, noise, readings = random_case(6, 4, 5)
    beliefs = []
    for order in (range(5), (3, 0, 4, 2, 1)):
        belief = prior(sds.tolist())
        for i in order:
            belief = belief.weighed(LinearSum(float(constants[i]), tuple(weights[i].tolist())), readings[i], noise[i])
        beliefs.append(belief)
    assert np.allclose(beliefs[0].means, beliefs[1].means, rtol=1e-9)
    assert np.allclose(covariance(beliefs[0]), covariance(beliefs[1]), rtol=1e-9, atol=1e-15)


def test_steps_along_the_rows_equal_one_estimate_for_each() -> None:
    sds, weights, constants, noise, readings = random_case(7, 6, 3)
    belief = prior(sds.tolist())
    for i in range(3):
        belief = belief.weighed(LinearSum(constants[i], tuple(weights[i].tolist())), readings[i], noise[i])
    rng = np.random.default_rng(8)
    steps = [Step(-1.5, {int(k): float(rng.normal(0, 2)) for k in rng.integers(0, 6, 2)}) for _ in range(40)]
    now, constant = np.zeros(6), 101.5
    found = list(belief.along(LinearSum(100.0, (0.0,) * 6), steps))
    assert len(found) == 41
    for step, estimate in zip([Step(-1.5, {}), *steps], found, strict=True):
        constant += step.constant
        for k, change in step.weights.items():
            now[k] += change
        whole = belief.estimate(LinearSum(constant, tuple(now.tolist())))
        assert estimate == pytest.approx(whole, abs=1e-9)


@pytest.mark.parametrize("mean, sd", [(3, 2), (-1.5, 4), (0, 1), (25, 3), (-25, 3), (1e-9, 1e-12)])
def test_the_chance_is_scipys_normal_tail(mean: float, sd: float) -> None:
    assert Estimate(mean, sd).chance_positive == pytest.approx(stats.norm.sf(0, mean, sd), rel=1e-12)


def test_a_certain_quantity_is_enough_or_not() -> None:
    assert Estimate(0.1, 0).chance_positive == 1
    assert Estimate(-0.1, 0).chance_positive == 0


def test_the_band_holds_nine_tenths() -> None:
    assert stats.norm.ppf(0.5 + 0.9 / 2) == pytest.approx(BAND_SDS, rel=1e-14)
    assert Estimate(50, 2).low == pytest.approx(50 - 2 * BAND_SDS)
    assert Estimate(50, 2).high == pytest.approx(50 + 2 * BAND_SDS)
    assert Estimate(50, 3).noisy(4) == Estimate(50, 5)


def test_a_weighing_without_weight_teaches_nothing() -> None:
    belief = prior([0.07, 0.08]).weighed(LinearSum(10.0, (0.0, 0.0)), 12.0, 0.2)
    assert belief.means == (0, 0)
    assert belief.estimate(LinearSum(0.0, (3.0, 4.0))).sd == pytest.approx(math.hypot(0.21, 0.32))
