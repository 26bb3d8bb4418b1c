"""Random shawls with random logs: the corrected plan is the forecast's mean."""

import math

import pytest
from halfhank.model.weighings.forecast import forecast

from tests.model.weighings.knits import planned
from tests.pipe.random_shawls.making import seeded
from tests.pipe.random_shawls.writing import write

STEP = 25


def logged(numbers: range) -> list[int]:
    """Those of the shawls that have weighings after rows."""
    return [number for number in numbers if any(weighing.row for weighing in seeded(number).weighed)]


def test_there_are_logs_to_look_at() -> None:
    assert len(logged(range(300))) > 30


def hold(text: str) -> None:
    """Hold the corrected plan of a description against its forecast."""
    plan = planned(text)
    if plan.shawl is None:
        assert any(problem.severity == "mistake" for problem in plan.problems), text
        return
    shawl, found = plan.shawl, forecast(plan.plan)
    means = zip((e.mean for e in found.rows), plan.plan.working.left_g, strict=True)
    assert all(abs(mean - left_g) <= 1e-7 for mean, left_g in means)
    assert found.end.mean == pytest.approx(shawl.yarn.left_g, abs=1e-7)
    assert found.total[:2] == pytest.approx((shawl.yarn.total_g, shawl.yarn.sd_g), abs=1e-7)
    pairs = zip(found.rows, found.plan, strict=True)
    disputed = any(weighing.disputed for weighing in found.weighings)
    assert all(math.isfinite(after.sd) and (disputed or after.sd <= before.sd + 1e-9) for after, before in pairs)
    assert shawl.rows.count >= found.weighings[-1].row


@pytest.mark.parametrize("first", range(0, 600, STEP))
def test_the_corrected_plan_is_the_forecasts_mean(first: int) -> None:
    for number in logged(range(first, first + STEP)):
        hold(write(seeded(number)))
