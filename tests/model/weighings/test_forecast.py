"""The log changes the plan: against a batch solution written down by hand, and by what knitters expect."""

import math

import numpy as np
import pytest
from halfhank.model.design.stitch_measures import wrap_m
from halfhank.model.plan import Plan
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.forecast import forecast
from scipy import stats

from tests.model.weighings.knits import BANDED, PLAIN, codes, logged, plan_of, planned, shawl_of

HANDLING = 0.45
LEVELS = 8
SD = {"garter": 0.07, "ratio": 0.08, "end": 0.15, "label": 0.02}


def by_stitch(shawl: Shawl, plan: Plan) -> np.ndarray:
    """Grams after each row by what they are worked in: garter, eyelets, drop; index 0 is before row 1, start left out.

    Worked out from the plan's rows and bands and the unlogged plan's yarn of a stitch: three edge stitches of garter at
    each side, the rest of an eyelet row filled up with stockinette, an elongated row wrapped in all of its stitches.
    """
    gram = 390 / 100
    metres = {fabric.name: fabric.yarn_m for fabric in plan.shawl.fabrics}
    wrap = wrap_m(plan.design)
    grams = np.zeros((shawl.rows.count + 1, 4))
    for row in range(1, shawl.rows.count + 1):
        live, band = shawl.rows.stitches[row], shawl.bands[shawl.rows.band[row]]
        worked = np.zeros(4)
        if band.stitch == "drop" and (row - band.first_row) % 2 == 0:
            worked[2] = live * (metres["drop"] + (band.wraps - 1) * wrap)
        elif band.stitch == "drop":
            worked[2] = (live - 6) * metres["drop"]
            worked[0] = 6 * metres["garter"]
        elif band.stitch == "eyelets":
            wings = [(live - 7) // 2, live - 7 - (live - 7) // 2]
            fill = sum((wing - 1) % 2 for wing in wings) + 0
            worked[1] = (live - 6 - fill) * metres["eyelets"]
            worked[0] = 6 * metres["garter"]
            worked[3] = fill * metres["garter"]
        else:
            worked[0] = live * metres["garter"]
        grams[row] = grams[row - 1] + worked / gram
    return grams


def batch(log: list[tuple[int, float]], noise: float, shawl: Shawl, plan: Plan, weighed_g: float | None):
    """Mean and standard deviation of the grams left after every row and at the end, by the batch closed form.

    Errors: skein, garter's swatch, the ratios of eyelets, drop and stockinette to it, start, bind-off.
    """
    skein = 100.0 if weighed_g is None else weighed_g
    label = SD["label"] if weighed_g is None else noise / skein
    own = np.square([label, SD["garter"], *[SD["ratio"]] * 3, SD["end"], SD["end"]])
    grams = by_stitch(shawl, plan)
    start = plan.shawl.yarn.start_g
    garter_m = next(f.yarn_m for f in plan.shawl.fabrics if f.name == "garter")
    off = garter_m / 3.9 * shawl.rows.stitches[-1] * (3 + 4.48) / 2
    design = np.zeros((shawl.rows.count + 2, 7 + LEVELS))
    design[:, 0] = skein
    rows = slice(0, shawl.rows.count + 1)
    design[rows, 1] = -(grams.sum(axis=1) + start)
    design[rows, 2:5] = -grams[:, 1:]
    design[rows, 5] = -start
    design[-1] = design[-2]
    design[-1, 1] -= off
    design[-1, 6] = -off
    prior = with_drift(own, design)
    nominal = skein + design[:, 1]
    x = np.array([design[row] for row, _ in log])
    y = np.array([left - nominal[row] for row, left in log])
    covariance = np.linalg.inv(np.linalg.inv(prior) + x.T @ x / noise**2)
    mean = covariance @ x.T @ y / noise**2
    return nominal + design @ mean, np.sqrt(np.einsum("ij,jk,ik->i", design, covariance, design))


def with_drift(own: np.ndarray, design: np.ndarray) -> np.ndarray:
    """The prior's covariance, with tension as a random walk of 4 % in eight levels; fills their columns.

    All yarn here hangs on garter's swatch. A level holds where the middle of a row's yarn lies; its covariance with
    another is 0.04 squared times the earlier one's middle. What the walk adds to the end is taken off the swatch's.
    """
    used = -design[:, 1]
    takes = np.diff(used, prepend=0.0)
    level = (LEVELS * (used - takes / 2) / used[-1]).astype(int)
    for j in range(LEVELS):
        design[:, 7 + j] = -np.cumsum(takes * (level == j))
    middle = (np.arange(LEVELS) + 0.5) / LEVELS
    walk = 0.04**2 * np.minimum.outer(middle, middle)
    end = design[-1, 7:]
    prior = np.zeros((7 + LEVELS, 7 + LEVELS))
    prior[:7, :7] = np.diag(own)
    prior[1, 1] -= end @ walk @ end / used[-1] ** 2
    prior[7:, 7:] = walk
    return prior


@pytest.mark.parametrize("weighed_g", [None, 101.2])
def test_the_posterior_is_that_of_a_batch_solution_by_hand(weighed_g: float | None) -> None:
    log = [(44, 90.4), (80, 66.5), (95, 51.9)]
    start = [] if weighed_g is None else [f"before cast on {weighed_g} g"]
    made = plan_of(logged(BANDED, *start, *(f"after row {row} {left} g left" for row, left in log)))
    shawl = made.shawl
    mean, sd = batch(log, math.sqrt(HANDLING**2 + 0.1**2 / 12), shawl, plan_of(BANDED), weighed_g)
    found = forecast(made)
    mean[log[-1][0] :] = np.minimum(mean[log[-1][0] :], log[-1][1])
    assert [e.mean for e in found.rows] == pytest.approx(mean[:-1].tolist(), abs=1e-8)
    assert [e.sd for e in found.rows] == pytest.approx(sd[:-1].tolist(), abs=1e-8)
    assert found.end[:2] == pytest.approx((mean[-1], sd[-1]), abs=1e-8)
    assert shawl.yarn.left_g == pytest.approx(mean[-1], abs=1e-8)
    assert shawl.yarn.chance_enough == pytest.approx(stats.norm.sf(0, mean[-1], sd[-1]), abs=1e-12)


LOGS = [
    (PLAIN, ["after row 64 77.1 g left"]),
    (PLAIN, ["before cast on 98.4 g", "after row 20 96.0 g left", "after row 64 24 g used"]),
    (BANDED, ["before cast on 3.53 oz", "after row 44 90.4 g left", "after row 80 62 g left"]),
    (BANDED.replace("  swatch 40 sts 60 rows weighs 10.6 g\n", ""), ["after row 50 88 g left"]),
    (BANDED.replace("bind off picot", "bind off takes 5 times the width"), ["after row 60 80.2 g left"]),
]


@pytest.mark.parametrize(("text", "log"), LOGS)
def test_the_plan_is_worked_out_again_with_the_posterior_means(text: str, log: list[str]) -> None:
    """What the corrected yarn of every stitch adds up to is the forecast's mean, row by row."""
    made = plan_of(logged(text, *log))
    shawl = made.shawl
    found = forecast(made)
    assert [e.mean for e in found.rows] == pytest.approx(made.working.left_g, abs=1e-9)
    assert found.end.mean == pytest.approx(shawl.yarn.left_g, abs=1e-9)
    assert found.total[:2] == pytest.approx((shawl.yarn.total_g, shawl.yarn.sd_g), abs=1e-9)
    assert found.end.chance_positive == pytest.approx(shawl.yarn.chance_enough, abs=1e-12)
    assert shawl.yarn.basis == "weighed"


@pytest.mark.parametrize("text", [PLAIN, BANDED])
def test_without_a_log_the_forecast_is_the_plan(text: str) -> None:
    made = plan_of(text)
    shawl = made.shawl
    found = forecast(made)
    assert found.weighings == () and found.rows == found.plan
    assert [e.mean for e in found.rows] == pytest.approx([100 - used for used in shawl.used_g], abs=1e-10)
    assert found.total[:2] == pytest.approx((shawl.yarn.total_g, shawl.yarn.sd_g), abs=1e-10)
    assert found.end.sd == pytest.approx(math.hypot(shawl.yarn.sd_g, 2.0), abs=1e-10)
    assert found.end.chance_positive == pytest.approx(shawl.yarn.chance_enough, abs=1e-12)


@pytest.mark.parametrize("weighing", ["after row 64 {left:.1f} g left", "after row 64 {used:.1f} g used"])
def test_fifteen_per_cent_more_at_half_the_rows_moves_the_total_by_nearly_as_much(weighing: str) -> None:
    plan = shawl_of(PLAIN)
    used = 1.15 * plan.used_g[64]
    made = plan_of(logged(PLAIN, "before cast on 100.0 g", weighing.format(left=100 - used, used=used)))
    shawl = made.shawl
    assert 1.12 < shawl.yarn.total_g / plan.yarn.total_g < 1.15
    assert shawl.marks.bind_off_by.row < plan.marks.bind_off_by.row
    assert shawl.yarn.sd_g < plan.yarn.sd_g / 2


def test_more_used_means_fewer_repeats_and_less_used_more() -> None:
    plan = shawl_of(BANDED)
    left = [plan.yarn.skein_g - used for used in plan.used_g]
    much = shawl_of(logged(BANDED, "before cast on 100.0 g", f"after row 80 {left[80] - 5:.1f} g left"))
    little = shawl_of(logged(BANDED, "before cast on 100.0 g", f"after row 80 {left[80] + 5:.1f} g left"))
    assert much.allowed < plan.allowed < little.allowed
    assert much.marks.halfway.row < plan.marks.halfway.row < little.marks.halfway.row


def test_the_count_never_falls_below_what_is_knitted() -> None:
    """Row 125 is in the seventh pass; so much is used that only six would be paid for."""
    made = plan_of(logged(BANDED, "before cast on 100.0 g", "after row 125 2.0 g left"))
    shawl = made.shawl
    assert shawl.allowed == 7 and shawl.rows.count >= 125
    assert shawl.yarn.left_g < 0 and shawl.yarn.chance_enough < 0.01


def test_a_yarn_that_was_planned_too_dear_even_once_is_knitted_all_the_same() -> None:
    text = BANDED.replace("weighs 10.6 g", "weighs 70 g")
    assert ("yarn-too-short", 21) in codes(planned(text))
    once = logged(text, "before cast on 100.0 g", "after row 50 60.0 g left")
    assert plan_of(once).shawl.allowed == 1
    assert plan_of(f"{once}  after row 60 53.0 g left\n").shawl.allowed >= 2


def test_turn_back_by_moves_with_the_log() -> None:
    text = PLAIN.replace("garter tab 3 sts 6 rows", "cast on 3 sts").replace(" and 1 at spine", "") + "turn back\n"
    text = text.replace("16 ridges", "80 ridges")
    plan = shawl_of(text)
    row = plan.marks.turn_back.row
    assert 100 < row < plan.rows.count / 2
    more = shawl_of(logged(text, "before cast on 100.0 g", f"after row 100 {1.15 * plan.used_g[100]:.1f} g used"))
    less = shawl_of(logged(text, "before cast on 100.0 g", f"after row 100 {0.85 * plan.used_g[100]:.1f} g used"))
    assert more.marks.turn_back.row < row < less.marks.turn_back.row
    assert more.marks.turn_back.used_g == pytest.approx(plan.marks.turn_back.used_g, abs=0.7)


def test_a_weighing_two_standard_deviations_off_is_told_at_its_line() -> None:
    plan = forecast(plan_of(logged(PLAIN, "before cast on 100.0 g"))).rows[64]
    noise = math.sqrt(HANDLING**2 + 0.1**2 / 12)
    far, near = 2.1 * math.hypot(plan.sd, noise), 1.9 * math.hypot(plan.sd, noise)
    for off, told in ((far, True), (-far, True), (near, False), (-near, False)):
        text = logged(PLAIN, "before cast on 100.0 g", f"after row 64 {plan.mean + off:.1f} g left")
        assert codes(planned(text)) == ([("log-disagrees", 18)] if told else [])


def test_a_second_weighing_is_held_against_the_first() -> None:
    """Fifteen per cent more is a surprise once; the next weighing that agrees with it is none."""
    used = [1.15 * grams for grams in shawl_of(PLAIN).used_g]
    lines = [f"after row {row} {100 - used[row]:.1f} g left" for row in (64, 90)]
    assert codes(planned(logged(PLAIN, "before cast on 100.0 g", *lines))) == [("log-disagrees", 18)]


def test_a_coarse_scale_teaches_less() -> None:
    fine = forecast(plan_of(logged(PLAIN, "before cast on 100.0 g", "after row 20 96.0 g left")))
    coarse = forecast(plan_of(logged(PLAIN, "before cast on 100.0 g", "after row 20 96 g left")))
    assert coarse.weighings[0].noise_sd_g == pytest.approx(math.sqrt(HANDLING**2 + 1 / 12))
    assert fine.weighings[0].noise_sd_g == pytest.approx(math.sqrt(HANDLING**2 + 0.01 / 12))
    assert coarse.end.sd > fine.end.sd


def test_fabrics_knitted_under_a_weighing_are_known_by_it() -> None:
    made = plan_of(logged(BANDED, "before cast on 100.0 g", "after row 28 95.0 g left"))
    shawl = made.shawl
    assert {f.name: f.basis for f in shawl.fabrics if f.name in ("garter", "eyelets")} == {
        "garter": "weighed", "eyelets": "ratio",
    }  # fmt: skip


def test_a_start_weighed_alone_is_no_forecast() -> None:
    made = plan_of(logged(PLAIN, "before cast on 104.0 g"))
    shawl = made.shawl
    assert (shawl.yarn.skein_g, shawl.yarn.basis) == (104.0, "swatch")
    assert shawl.yarn.total_g == shawl_of(PLAIN).yarn.total_g


def test_the_last_tenth_of_the_rows_takes_19_per_cent() -> None:
    """1 - 0.9 squared, of a triangle that grows steadily from nothing: from few stitches it comes near it."""
    text = PLAIN.replace("garter tab 3 sts 6 rows", "cast on 3 sts").replace("48 ridges", "184 ridges")
    found = forecast(plan_of(text)).rows
    share = (found[360].mean - found[400].mean) / (found[0].mean - found[400].mean)
    assert share == pytest.approx(0.19, abs=0.002)


def test_the_ledger_is_corrected_as_the_rows_are() -> None:
    """What a corrected plan's ledger sums to is what its rows and ends take, and no longer what was planned."""
    plan = plan_of(logged(PLAIN, "before cast on 100.0 g", "after row 40 89.9 g left", "after row 64 75.2 g left"))
    ledger_m, planned_m = (sum(one.by_use().values()) for one in (plan.working.ledger, plan.ledger))
    assert ledger_m == pytest.approx(plan.working.total_m, rel=1e-9)
    entries = [sum(amounts.values()) for amounts in plan.working.ledger.entries]
    assert np.cumsum(entries[:-1]) == pytest.approx(np.array(plan.working.used_m), rel=1e-9)
    assert ledger_m > 1.02 * planned_m


def test_a_skein_weighed_alone_is_as_sure_in_the_plan_as_in_the_forecast() -> None:
    """The scale's noise stays in the skein's mass wherever the chance is worked out."""
    plan = plan_of(logged(BANDED.replace("keep 4%", "keep 0%"), "before cast on 100 g"))
    assert plan.shawl.yarn.chance_enough == pytest.approx(forecast(plan).end.chance_positive, abs=1e-9)
    assert 0.02 < plan.shawl.yarn.chance_enough < 0.98
