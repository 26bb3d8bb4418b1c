"""No figure of a forecast that cannot be: random logs, slips among them."""

import random
from itertools import pairwise

import pytest
from halfhank.cli.report.checkpoint_report import checkpoint_report
from halfhank.cli.report.plan_report import plan_report
from halfhank.cli.report.stop_report import stop_report
from halfhank.cli.report.terminal_writer import report_text, text_layout
from halfhank.cli.report.weighing_report import weighing_report
from halfhank.model.marks_and_stops.stops import one_more
from halfhank.model.plan import Plan
from halfhank.model.weighings.checkpoints import checkpoints, scale_readings
from halfhank.model.weighings.forecast import forecast

from tests.cli.report.reports import values_in
from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, planned

SHORT = PLAIN.replace("skein 100 g 380 m", "skein 70 g 266 m")


def random_log(text: str, seed: int) -> list[str]:
    """Weighings that fall, most as planned, some far off; row 0 among them or not."""
    rng = random.Random(seed)
    rows = sorted(rng.sample(range(1, 110), rng.randint(1, 5)))
    planned_g, skein_g = plan_of(text).working.left_g, plan_of(text).shawl.yarn.skein_g
    lines, most = [f"before cast on {skein_g:.1f} g"] if rng.random() < 0.5 else [], skein_g
    for row in rows:
        slip = rng.choice([1, 1, 1, 1, 1, 1, 1, 1, 0.8, 0.1, 0.5])
        left_g = min(max(planned_g[row], 0.0) * slip + rng.gauss(0, 1), most)
        most = max(round(left_g, 1), 0.0)
        used = bool(lines) and "before" in lines[0] and rng.random() < 0.3
        lines.append(f"after row {row} {skein_g - most if used else most:.1f} g {'used' if used else 'left'}")
    return lines


def holds(plan: Plan) -> None:
    """Nothing left is more than the scale showed; expected readings never rise, nor fall below nothing."""
    found, last = forecast(plan), forecast(plan).weighings[-1]
    later = [*found.rows[last.row :], found.end]
    assert max(e.mean for e in later) <= last.left_g + 1e-9
    assert last.disputed or max(e.high for e in later) <= last.left_g + 1e-9
    assert plan.shawl.yarn.left_g <= last.left_g + 1e-9
    assert max(e.high for e in found.rows) <= 1.04 * plan.design.yarn.skein_g
    lefts = [b.left_g for b in [*plan.shawl.bands, *plan.shawl.parts] if b.last_row >= last.row]
    assert max(lefts, default=0.0) <= last.left_g + 1e-9
    readings = scale_readings(plan)
    for figures in ([r.mean for r in readings], [r.low for r in readings], [r.high for r in readings]):
        assert min(figures) >= 0
        assert all(after <= before for before, after in pairwise(figures))
    assert all(r.low <= r.mean <= r.high for r in readings)
    more = one_more(plan)
    assert more is None or more.takes_g >= 0


@pytest.mark.parametrize("seed", range(24))
def test_no_figure_is_one_that_cannot_be(seed: int) -> None:
    text = (PLAIN, BANDED, SHORT)[seed % 3]
    description = logged(text, *random_log(text, seed))
    plan = planned(description).plan
    if plan is None:
        assert any(problem.severity == "mistake" for problem in planned(description).problems)
        return
    holds(plan)
    row = forecast(plan).weighings[-1].row
    reports = [
        plan_report(plan, True),
        checkpoint_report(plan, 10),
        stop_report(plan),
        weighing_report(plan_of(text), plan, row, False),
    ]
    for report in reports:
        masses = [value for value in values_in(report) if value.unit == "g"]
        assert all(value.number >= -0.05 for value in masses), [v for v in masses if v.number < 0]
        assert " -" not in report_text(report, text_layout(100)).replace(" - ", " ")


def test_the_logs_hold_slips_and_none() -> None:
    disputed = []
    for seed in range(24):
        text = (PLAIN, BANDED, SHORT)[seed % 3]
        plan = planned(logged(text, *random_log(text, seed))).plan
        disputed += [any(weighing.disputed for weighing in forecast(plan).weighings)] if plan else []
    assert 5 < sum(disputed) < len(disputed) - 5


def test_the_table_shows_the_readings_as_bounded() -> None:
    plan = plan_of(logged(PLAIN, "before cast on 100.0 g", "after row 100 40.0 g left", "after row 120 39.9 g left"))
    assert [point.reading for point in checkpoints(plan, 1)] == scale_readings(plan)
