"""The drift of tension: how it is split off a swatch's error, and what weighings make of it."""

import math

import numpy as np
import pytest
from halfhank.model.marks_and_stops.variants import with_more
from halfhank.model.weighings.forecast import forecast
from halfhank.model.weighings.posterior import Posterior
from halfhank.model.weighings.tension import DRIFT_SD, LEVELS, MOST_SHARE, increments, split
from halfhank.model.weighings.weighing_model import WeighingModel
from halfhank.model.yarn.ledger import hanging_m
from halfhank.model.yarn.uncertainty import sd_of

from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, weighing_model

BY_GAUGE = BANDED.replace("  swatch 40 sts 60 rows weighs 10.6 g\n", "")
SWATCHED = BANDED.replace("  row 1: k1, *yo, k2tog*", "  swatch 41 sts 60 rows weighs 9 g\n  row 1: k1, *yo, k2tog*")
BY_WIDTH = BANDED.replace("bind off picot", "bind off takes 5 times the width")


def covariance(belief: Posterior) -> np.ndarray:
    """The belief's covariance as a whole matrix."""
    whole = np.diag(belief.variances)
    for column in belief.shared:
        whole += np.outer(column, column)
    for column in belief.columns:
        whole -= np.outer(column, column)
    return whole


def levels(model: WeighingModel) -> np.ndarray:
    """The covariance of the levels of tension before anything is weighed."""
    return covariance(model.prior)[model.levels.start :, model.levels.start :]


@pytest.mark.parametrize("text", [PLAIN, BANDED, BY_GAUGE, SWATCHED, BY_WIDTH])
def test_the_whole_is_as_sure_as_its_swatches_and_gauges_make_it(text: str) -> None:
    """7 % of all that hangs on a swatch, 12 % by gauge, 8 % more of a ratio: the drift is a part of it, not on top."""
    plan = plan_of(text)
    sd_g = sd_of(hanging_m(plan.table, plan.ledger.by_use())) / plan.design.yarn.metres_per_gram
    model = weighing_model(plan)
    assert model.prior.estimate(model.used(model.end())).sd == pytest.approx(sd_g, rel=1e-12)
    assert 0 < model.drift.constant < 1 and model.drift.scale == 1


def test_the_levels_are_those_of_a_random_walk() -> None:
    """Its covariance at two places is that of the earlier: 0.04 squared times the middle of the earlier stretch."""
    middle = (np.arange(LEVELS) + 0.5) / LEVELS
    assert np.allclose(levels(weighing_model(plan_of(PLAIN))), DRIFT_SD**2 * np.minimum.outer(middle, middle))


def test_each_stretch_takes_the_same_yarn() -> None:
    model = weighing_model(plan_of(PLAIN))
    steps = [*model.steps, model.bind_off]
    grams = [-sum(step.weights.get(k, 0.0) for step in steps) for k in model.levels]
    assert sum(grams) == pytest.approx(-sum(step.constant for step in steps))
    assert max(grams) - min(grams) < 2 * max(-step.constant for step in steps)


def test_many_swatches_whose_errors_cancel_leave_a_constant_part() -> None:
    """Ten stitches with a swatch each, alike in yarn: 7 % of a tenth ten times is 2.2 % of all, hardly the drift's."""
    head, tail = PLAIN.split("stitch garter\n")
    measures, _ = tail.split("shape")
    stitches = "".join(f"stitch s{k}\n{measures}" for k in range(10))
    bands = "".join(f"  s{k} 12 rows\n" for k in range(10))
    shape = 'shape rectangle\n  cast on 100 sts\npart "all"\n'
    text = f"{head}stitch garter\n{measures}{stitches}{shape}{bands}"
    model = weighing_model(plan_of(text))
    assert model.drift.scale < 1
    assert model.drift.constant == pytest.approx(math.sqrt(1 - MOST_SHARE), rel=1e-9)


@pytest.mark.parametrize("text", [PLAIN, BANDED, BY_GAUGE, SWATCHED])
@pytest.mark.parametrize("start", [[], ["before cast on 100 g"]])
def test_a_weighing_never_widens_the_forecast(text: str, start: list[str]) -> None:
    """Whatever row is weighed next, no row's range and neither the end's nor the total's gets wider."""
    plan = plan_of(text)
    log: list[str] = []
    before = forecast(plan_of(logged(text, *start)) if start else plan)
    for row in (1, 2, 30, 31, 64, 90, 100):
        log.append(f"after row {row} {before.rows[row].mean:.1f} g left")
        after = forecast(plan_of(logged(text, *start, *log)))
        assert not any(weighing.disputed for weighing in after.weighings)
        assert after.total.sd <= before.total.sd + 1e-9 and after.end.sd <= before.end.sd + 1e-9
        assert all(new.sd <= old.sd + 1e-9 for new, old in zip(after.rows, before.rows, strict=True))
        before = after


def test_weighing_the_skein_never_makes_it_less_sure_than_its_label() -> None:
    small = PLAIN.replace("skein 100 g 380 m", "skein 8 g 30 m").replace("48 ridges", "4 ridges")
    assert weighing_model(plan_of(logged(small, "before cast on 8 g"))).sds[0] == pytest.approx(0.02)


def test_after_the_last_weighing_tension_is_expected_to_stay() -> None:
    """A random walk is expected to be where it was last known: all later rows are corrected alike."""
    plan = plan_of(logged(PLAIN, "before cast on 100.0 g", "after row 40 92.5 g left", "after row 90 58.0 g left"))
    rows = np.diff(plan.shawl.used_g) / np.diff(plan_of(PLAIN).shawl.used_g)
    assert np.allclose(rows[90:], plan.table.corrections.factor(()) * rows[-1], atol=1e-12)
    assert np.ptp(rows[:90]) > 0.001


def test_a_longer_shawl_is_the_same_knitter_s() -> None:
    """One repeat more does not change what is known of the rows that both have."""
    plan = plan_of(logged(BANDED, "before cast on 100.0 g", "after row 28 95.0 g left", "after row 60 79.0 g left"))
    variant = with_more(plan, 1)
    assert variant is not None
    shared = plan.rows.count - 10
    here = forecast(plan).rows[shared]
    there = variant.log.posterior.estimate(variant.model.left([shared])[shared])
    assert there[:2] == pytest.approx(here[:2], abs=1e-9)


def test_of_many_swatches_the_drift_takes_half_of_the_variance() -> None:
    """Sixteen stitches of 6 g, each off by 7 %: their sum is off by 1.7 g, and a drift alone would be off by 2.3 g."""
    drift = split(96.0, [12.0] * LEVELS, [0.07 * 6.0] * 16)
    walk_g = math.sqrt(sum((sd * 12.0 * (LEVELS - k)) ** 2 for k, sd in enumerate(increments(LEVELS))))
    swatches_g = 0.07 * 6.0 * 4
    assert walk_g > swatches_g
    assert drift.constant == pytest.approx(math.sqrt(1 / 2))
    assert math.hypot(drift.constant * swatches_g, drift.scale * walk_g) == pytest.approx(swatches_g)
