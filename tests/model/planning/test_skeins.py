"""The same shawl from other skeins, and the readings to expect on the way."""

import math

import pytest
from halfhank.model.planning.skeins import skein_plans
from halfhank.model.weighings.checkpoints import checkpoints
from halfhank.model.weighings.forecast import forecast

from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of


def test_the_skein_of_the_description_gives_the_shawl_of_the_description() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    (same,) = skein_plans(made, [390.0])
    assert same.shawl.rows == shawl.rows
    assert same.shawl.yarn.total_g == pytest.approx(shawl.yarn.total_g)
    assert same.shawl.marks.halfway.row == shawl.marks.halfway.row


def test_metres_of_a_stitch_stay_and_grams_follow_the_yarn() -> None:
    made = plan_of(PLAIN)
    shawl = made.shawl
    for one in skein_plans(made, [320.0, 420.0]):
        assert one.shawl.yarn.total_m == pytest.approx(shawl.yarn.total_m)
        assert one.shawl.yarn.total_g == pytest.approx(shawl.yarn.total_m * 100 / one.metres_per_100g)
        assert one.shawl.yarn.skein_m == pytest.approx(one.metres_per_100g)


def test_longer_skeins_make_more_rows() -> None:
    found = skein_plans(plan_of(BANDED), [250.0, 320.0, 400.0, 500.0])
    counts = [one.shawl.allowed for one in found]
    assert counts == sorted(counts) and len(set(counts)) == 4
    spans = [one.shawl.outline.size.wingspan_cm for one in found]
    assert spans == sorted(spans)


def test_a_swatch_given_as_a_length_is_the_same_as_one_weighed() -> None:
    metres = 11.2 * 3.8
    by_length = plan_of(PLAIN.replace("weighs 11.2 g", f"takes {metres:.2f} m"))
    for one, other in zip(skein_plans(plan_of(PLAIN), [350.0]), skein_plans(by_length, [350.0]), strict=True):
        assert one.shawl.yarn.total_g == pytest.approx(other.shawl.yarn.total_g)


def test_a_skein_that_does_not_pay_is_told() -> None:
    (short,) = skein_plans(plan_of(BANDED), [20.0])
    assert short.shawl is None and [problem.code for problem in short.problems if problem.severity == "mistake"]


def test_other_skeins_keep_what_the_log_has_taught() -> None:
    made = plan_of(logged(PLAIN, "before cast on 101.2 g", "after row 64 76.0 g left"))
    shawl = made.shawl
    (same,) = skein_plans(made, [380.0])
    assert same.shawl.yarn.total_g == pytest.approx(shawl.yarn.total_g)
    assert same.shawl.yarn.skein_g == 100.0


def test_a_skein_of_another_mass_is_counted_by_100_g() -> None:
    (one,) = skein_plans(plan_of(PLAIN.replace("100 g 380 m", "150 g 570 m")), [400.0])
    assert one.shawl.yarn.skein_m == pytest.approx(600.0)


def test_checkpoints_stand_at_the_ends_of_bands_and_every_so_many_rows() -> None:
    made = plan_of(BANDED)
    shawl = made.shawl
    found = forecast(made)
    points = checkpoints(made, 25)
    rows = [point.row for point in points]
    assert rows == sorted({0, *(band.last_row for band in shawl.bands), *range(25, shawl.rows.count + 1, 25)})
    noise = math.sqrt(0.45**2 + 0.01 / 12)
    for point in points:
        assert point.stitches == shawl.rows.stitches[point.row]
        assert point.reading.mean == pytest.approx(100 - shawl.used_g[point.row])
        reach = 1.6448536269514722 * math.hypot(found.rows[point.row].sd, noise)
        if point.reading.low > 0:
            assert point.reading.high - point.reading.low == pytest.approx(2 * reach)
    assert len(checkpoints(made)) == len(shawl.bands) + 1


def test_checkpoints_show_what_was_weighed() -> None:
    made = plan_of(logged(BANDED, "before cast on 100 g", "after row 28 95 g left", "after row 50 12 g used"))
    weighed = {p.row: p.weighed_g for p in checkpoints(made, 10) if p.weighed_g is not None}
    assert weighed == pytest.approx({28: 95.0, 50: 88.0}, abs=0.2)
    reading = checkpoints(made)[1].reading
    assert reading.high - reading.low >= 2 * 1.64 / math.sqrt(12)
