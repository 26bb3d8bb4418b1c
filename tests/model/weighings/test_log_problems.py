"""A log that cannot be is told at its line, by name."""

import pytest

from tests.model.weighings.knits import BANDED, PLAIN, codes, logged, planned


@pytest.mark.parametrize(
    ("weighings", "told"),
    [
        (["after row 129 20 g left"], [("no-such-row", 17)]),
        (["after row 20 96 g left", "after row 200 20 g left", "after row 300 10 g left"],
         [("no-such-row", 18), ("no-such-row", 19)]),
        (["after row 64 140 g left"], [("log-mass", 17)]),
        (["before cast on 100.0 g", "after row 64 102.0 g left"], [("log-mass", 18)]),
        (["after row 64 75 g left", "after row 32 70 g left"], [("log-order", 18)]),
        (["after row 64 75 g left", "after row 64 75 g left"], [("log-order", 18)]),
        (["after row 32 80 g left", "after row 64 90 g left"], [("log-mass", 18)]),
    ],
)  # fmt: skip
def test_each_is_a_mistake_at_its_line(weighings: list[str], told: list[tuple[str, int]]) -> None:
    plan = planned(logged(PLAIN, *weighings))
    assert plan.shawl is None
    assert codes(plan) == told


def test_negative_grams_are_no_number() -> None:
    plan = planned(logged(PLAIN, "after row 64 -5 g left"))
    assert plan.shawl is None and [line for _, line in codes(plan)] == [17]


def test_a_row_that_no_yarn_reaches_is_told_where_the_yarn_sets_the_rows() -> None:
    assert planned(logged(BANDED, "after row 150 2.0 g left")).shawl is not None
    plan = planned(logged(BANDED, "after row 400 2.0 g left"))
    assert plan.shawl is None
    assert codes(plan) == [("no-such-row", 29)]
    assert codes(planned(logged(BANDED, "after row 19999 2.0 g left"))) == [("no-such-row", 29)]


def test_rows_up_to_the_last_are_there() -> None:
    assert planned(logged(PLAIN, "after row 128 20 g left")).shawl is not None


def test_a_log_has_a_limit() -> None:
    lines = [f"after row {row} {99 - row / 10:.1f} g left" for row in range(1, 202)]
    long = PLAIN.replace("48 ridges", "148 ridges").replace("weighs 11.2 g", "weighs 2.2 g")
    assert planned(logged(long, *lines[:200])).shawl is not None
    plan = planned(logged(long, *lines))
    assert plan.shawl is None and ("too-many-weighings", 217) in codes(plan)


@pytest.mark.parametrize("weighing", ["after row 1 0.0 g left", "after row 128 100 g left", "after row 128 0 g used"])
def test_an_absurd_weighing_is_advice_and_the_plan_stays_finite(weighing: str) -> None:
    plan = planned(logged(PLAIN, "before cast on 100.0 g", weighing))
    told = [code for code, _ in codes(plan)]
    if plan.shawl is None:
        assert told
        return
    assert "log-disagrees" in told
    assert 0 < plan.shawl.yarn.total_g < 1e6 and 0 <= plan.shawl.yarn.chance_enough <= 1


@pytest.mark.parametrize(("left", "less", "more"), [("70.0", 1, 0), ("90.0", 0, 1)])
def test_a_surprise_says_which_way_it_goes(left: str, less: int, more: int) -> None:
    """78.4 g are what was to be left."""
    found = planned(logged(PLAIN, "before cast on 100.0 g", f"after row 64 {left} g left"))
    (message,) = [problem.message for problem in found.problems if problem.code == "log-disagrees"]
    assert (message.count("g less."), message.count("g more.")) == (less, more)


def test_what_was_advice_for_a_log_is_gone() -> None:
    plan = planned(logged(PLAIN, "before cast on 100.0 g", "after row 64 78.4 g left"))
    assert plan.problems == ()
