"""Weighings that cannot be true: found in any order, and no confident nonsense after them."""

import math
import re
from itertools import pairwise, permutations

import numpy as np
import pytest
from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
from halfhank.model.marks_and_stops.stops import stops
from halfhank.model.weighings.disputes import DISPUTED_SDS, ODDS, WIDENED_SDS, Reading, inflation, screened, taken_in
from halfhank.model.weighings.forecast import Forecast, forecast
from halfhank.model.weighings.log import disagreements, log_of
from halfhank.model.weighings.posterior import BAND_SDS, LinearSum, fewest, prior
from halfhank.model.weighings.weighing_model import WeighingModel

from tests.model.weighings.invented import knits, shown
from tests.model.weighings.knits import BANDED, PLAIN, codes, logged, plan_of, planned, weighing_model

START = "before cast on 101.3 g"
ROWS = (20, 60, 100)
TRUE_G = (99.0, 83.3, 52.0)


def after(*weighings: tuple[int, float]) -> Forecast:
    """The forecast after these weighings of grams left."""
    return forecast(plan_of(logged(PLAIN, START, *(f"after row {row} {left:.1f} g left" for row, left in weighings))))


def with_slip(place: int, grams: float) -> Forecast:
    """The true weighings with a slip in the place of one."""
    return after(
        *[(row, grams if k == place else left) for k, (row, left) in enumerate(zip(ROWS, TRUE_G, strict=True))]
    )


def test_true_weighings_are_believed() -> None:
    assert not any(weighing.disputed for weighing in after(*zip(ROWS, TRUE_G, strict=True)).weighings)


@pytest.mark.parametrize(("place", "grams"), [(0, 90.0), (1, 98.3), (1, 58.0), (2, 5.2), (2, 25.0), (2, 82.0)])
def test_the_slip_is_found_wherever_it_stands(place: int, grams: float) -> None:
    found = with_slip(place, grams)
    assert [weighing.disputed for weighing in found.weighings] == [k == place for k in range(3)]
    true = after(*zip(ROWS, TRUE_G, strict=True))
    assert found.end.low < true.end.mean < found.end.high
    assert found.end.sd > true.end.sd


def test_nothing_is_sure_after_one_digit_is_left_out() -> None:
    """5.2 g for 52: it may be true, and then the yarn is short by far; it may be a slip, and then it lasts."""
    text = logged(PLAIN, START, "after row 20 99.0 g left", "after row 60 83.3 g left", "after row 100 5.2 g left")
    plan = plan_of(text)
    found = forecast(plan)
    assert 0.1 < plan.shawl.yarn.chance_enough < 0.9
    assert found.end.mean <= 5.2 and found.end.low < 0
    assert ("log-disagrees", 20) in codes(planned(text))
    assert "counted very little" in next(p.message for p in plan.shawl.problems if p.code == "log-disagrees")


@pytest.mark.parametrize(("row", "grams"), [(20, 9.9), (20, 60.0), (8, 10.0)])
def test_an_early_slip_does_not_make_the_forecast_endless(row: int, grams: float) -> None:
    """The range stays that of some bad swatch: no deviation over five of those before, nothing short by more than a
    skein."""
    alone, found = after(), after((row, grams))
    assert found.weighings[0].disputed
    assert alone.end.sd < found.end.sd < (1 + WIDENED_SDS * math.sqrt(ODDS)) * alone.end.sd
    assert -101.3 < found.end.low < found.end.high <= 102.1


def test_what_is_bound_off_is_taken_from_what_the_scale_showed() -> None:
    """Where the last weighing is not believed, what is left over is the scale's figure less the bind-off at most."""
    plan = plan_of(
        logged(PLAIN, START, "after row 20 99.0 g left", "after row 60 83.3 g left", "after row 100 5.2 g left")
    )
    shawl = plan.shawl
    assert shawl.yarn.left_g <= 5.2 - shawl.yarn.bind_off_g + 1e-9
    assert forecast(plan).end.mean == pytest.approx(shawl.yarn.left_g, abs=1e-6)
    for stop in stops(plan):
        assert stop.left.mean <= max(5.2 - stop.bind_off_g, 0) + 1e-9 or stop.row < 100
    found = repeat_choices(plan)
    assert found is None or all(choice.left_g <= 5.2 for choice in found.choices)


def test_after_a_last_weighing_in_doubt_the_readings_go_down() -> None:
    """In the same proportion as without it: 52 g were to be there, 5.2 g are shown."""
    log = (START, "after row 20 99.0 g left", "after row 60 83.3 g left")
    alone, plan = forecast(plan_of(logged(PLAIN, *log))), plan_of(logged(PLAIN, *log, "after row 100 5.2 g left"))
    found = forecast(plan)
    means = [one.mean for one in found.rows[100:]]
    assert means[0] == pytest.approx(5.2)
    assert all(before - after > 0.02 for before, after in pairwise(means))
    assert means[20] / means[0] == pytest.approx(alone.rows[120].mean / alone.rows[100].mean, rel=0.03)
    assert plan.shawl.bands[-1].left_g == pytest.approx(means[-1], rel=1e-6)


def test_a_bind_off_that_the_scale_does_not_pay_for_is_advised_on() -> None:
    """The skein has enough for what is planned, but after row 100 the scale showed less than the bind-off takes."""
    found = planned(logged(PLAIN, START, "after row 60 83.3 g left", "after row 100 1.2 g left"))
    assert found.plan is not None and found.plan.shawl.yarn.total_g < 101.3
    [advice] = [problem for problem in found.problems if problem.code == "yarn-short"]
    assert re.fullmatch(r"The bind-off takes [\d.]+ g; after row 100 the scale shows less\.", advice.message)
    assert advice.span is not None and advice.span.line == 19


def test_of_two_that_contradict_each_other_alone_both_are_disputed() -> None:
    found = after((60, 87.5), (64, 75.0))
    assert [weighing.disputed for weighing in found.weighings] == [True, True]
    assert found.end.sd > after((60, 83.3)).end.sd


def test_one_in_doubt_that_lies_near_is_said_to_contradict_another() -> None:
    far = after((60, 87.5), (64, 75.0)).weighings[0]
    near = far._replace(expected=far.expected._replace(mean=far.left_g + far.expected.sd))
    log = log_of(plan_of(PLAIN))
    assert "contradict each other" in disagreements(log._replace(weighings=(near,)), "g")[0].message
    assert "counted very little" in disagreements(log._replace(weighings=(far,)), "g")[0].message


def test_one_that_the_next_confirms_is_believed() -> None:
    """Far from the plan, but both alike: it is the swatch that was wrong."""
    alone, both = after((60, 73.0)), after((60, 73.0), (80, 53.0))
    assert [weighing.disputed for weighing in alone.weighings] == [True]
    assert [weighing.disputed for weighing in both.weighings] == [False, False]
    assert both.end.sd < alone.end.sd


def random_readings(seed: int) -> tuple[list[Reading], list[float]]:
    """Readings of a sum that grows, two of them wrong."""
    rng = np.random.default_rng(seed)
    sds = [0.07, 0.08, 0.02]
    errors = rng.normal(0, sds)
    weights = np.cumsum(rng.uniform(2, 12, (6, 3)), axis=0)
    grams = 100 - weights.sum(axis=1) - weights @ errors + rng.normal(0, 0.4, 6)
    grams[[1, 4]] += rng.choice([-15.0, 12.0], 2)
    sums = [LinearSum(100 - w.sum(), tuple((-w).tolist())) for w in weights]
    return [Reading(what, float(g), 0.4) for what, g in zip(sums, grams, strict=True)], sds


@pytest.mark.parametrize("seed", range(4))
def test_the_order_of_the_readings_does_not_matter(seed: int) -> None:
    readings, sds = random_readings(seed)
    belief = prior(sds)
    expected = dict(zip(readings, screened(belief, readings).noises, strict=True))
    assert sum(noise > 0.4 for noise in expected.values()) >= 2
    for order in list(permutations(range(6)))[::97]:
        turned = [readings[k] for k in order]
        noises = screened(belief, turned).noises
        assert noises == pytest.approx([expected[reading] for reading in turned], rel=1e-6)


@pytest.mark.parametrize("seed", range(3))
def test_what_is_expected_of_a_reading_is_what_the_others_say(seed: int) -> None:
    """The leverage formula against leaving each one out in turn."""
    readings, sds = random_readings(seed)
    found = screened(prior(sds), readings)
    for k, reading in enumerate(readings):
        others = [one for j, one in enumerate(readings) if j != k]
        noises = [noise for j, noise in enumerate(found.noises) if j != k]
        expected = taken_in(prior(sds), others, noises).estimate(reading.what).noisy(reading.noise_sd_g)
        assert found.expected[k][:2] == pytest.approx(expected[:2], rel=1e-6)
        off = abs(reading.grams - expected.mean) / expected.sd
        assert found.disputed(k, reading) or off <= DISPUTED_SDS


def test_the_fewest_columns_say_the_same() -> None:
    columns = [tuple(row) for row in np.random.default_rng(9).normal(0, 0.02, (40, 5)).tolist()]
    few = fewest(columns)
    assert len(few) == 5
    assert np.allclose(sum(np.outer(c, c) for c in few), sum(np.outer(c, c) for c in columns), rtol=1e-10, atol=1e-15)


SLIPS = {
    "the point left out or moved": lambda grams: round(grams / 10, 1),
    "something on the scale": lambda grams: grams + 9,
    "yarn beside the scale": lambda grams: max(grams - 12, 0.0),
}


@pytest.mark.parametrize("text", [PLAIN, BANDED])
@pytest.mark.parametrize("place", range(3))
def test_the_range_holds_the_truth_after_a_slip(text: str, place: int) -> None:
    """In knits invented by another model: wherever the slip stands, and whatever it is."""
    model, rows = weighing_model(plan_of(logged(text, "before cast on 100.0 g"))), (64, 90, 110)
    rng = np.random.default_rng(place)
    made = knits(model, "walk 2 %", 20, rng)
    first_g, readings = shown(made.skein_g, 0.1, rng), shown(made.left_g[:, list(rows)], 0.1, rng)
    inside = cases = 0
    for slip in SLIPS.values():
        for k in range(20):
            grams = [slip(g) if j == place else g for j, g in enumerate(readings[k])]
            if grams == sorted(grams, reverse=True) and grams[0] < first_g[k]:
                taken = [
                    Reading(model.left([r])[r], g - first_g[k] + 100, 0.45) for r, g in zip(rows, grams, strict=True)
                ]
                inside += _holds(model, taken, made.left_g[k, -1] - first_g[k] + 100)
                cases += 1
    assert cases >= 20 and inside / cases >= 0.9


def _holds(model: WeighingModel, readings: list[Reading], truth_g: float) -> bool:
    found = screened(model.prior, readings)
    posterior = taken_in(model.prior, readings, found.noises)
    end = posterior.widened(inflation(posterior, readings, found)).estimate(model.end())
    return abs(end.mean - truth_g) <= BAND_SDS * end.sd
