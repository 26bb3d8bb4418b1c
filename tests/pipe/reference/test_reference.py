"""The model's rows and yarn against the slow reference, on random shawls."""

import math

import pytest
from halfhank.model.plan import Planned
from halfhank.model.rows.row_table import Rows
from halfhank.model.shawl import Marks
from halfhank.model.stitches.fit import Needle, needle_of
from hypothesis import given, settings

from tests.pipe.random_shawls.making import seeded, seeded_plan, specs
from tests.pipe.random_shawls.spec import Spec
from tests.pipe.random_shawls.writing import write
from tests.pipe.reference.fabrics import fabric, gram_m
from tests.pipe.reference.marks import halfway, last_bind_off, last_turn
from tests.pipe.reference.worked import Worked, reckon, row_size, runs, work
from tests.whole import planned

STEP = 25
TURNS_TRIED = 200
"""Rows of the longest shawl whose every turning point is tried."""
UNDRAWABLE = {"fan-not-straight"}
"""Told by the outline of shawls whose rows and yarn are sound."""


def unweighed(spec: Spec) -> Spec:
    """The shawl before any of its rows is weighed."""
    return spec._replace(weighed=tuple(weighing for weighing in spec.weighed if weighing.row == 0))


def agree(spec: Spec, made: Planned) -> None:
    """Hold the plan of a shawl, none of whose rows is weighed, against the reference's."""
    expected = reckon(spec)
    found, problems = made.shawl, made.problems
    if expected is None or {problem.code for problem in problems} >= UNDRAWABLE:
        assert found is None, write(spec)
        return
    assert found is not None and made.plan is not None, (write(spec), problems)
    grams = [metres / gram_m(spec) for metres in expected.used_m]
    assert found.rows.stitches == expected.stitches, write(spec)
    assert found.allowed == expected.allowed, write(spec)
    assert len(found.used_g) == len(grams), write(spec)
    assert all(math.isclose(*both, rel_tol=1e-9) for both in zip(found.used_g, grams, strict=True)), write(spec)
    assert found.yarn.total_g == pytest.approx(expected.total_m / gram_m(spec), rel=1e-9), write(spec)
    check_marks(spec, expected, found.marks)
    check_sizes(spec, expected, found.rows)
    check_edges(spec, expected, needle_of(made.plan.design, found.rows))


def check_marks(spec: Spec, expected: Worked, marks: Marks) -> None:
    half, turn, last = (mark.row if mark else None for mark in marks)
    assert half == halfway(expected), write(spec)
    if spec.turn_back is not None:
        assert last is None
        if len(expected.steps) < TURNS_TRIED:
            assert turn == last_turn(spec, expected), write(spec)
        return
    assert turn is None
    wanted = last_bind_off(spec, expected)
    if wanted is not None:
        assert (last or 0) == wanted, write(spec)


def check_sizes(spec: Spec, expected: Worked, rows: Rows) -> None:
    """Widths and heights; where drop stitch has a gauge of its own, what it says of two unlike rows is left open."""
    kinds = {(step.stitch, step.wraps): step for step in expected.steps}
    sizes = {kind: pytest.approx(row_size(spec, step), rel=1e-9) for kind, step in kinds.items()}
    unlike = {
        (step.stitch, step.wraps, rows.width_cm[row], rows.height_cm[row]): row
        for row, step in enumerate(expected.steps, 1)
    }
    for (stitch, wraps, *found), row in unlike.items():
        if stitch != "drop" or not fabric(spec, "drop").gauge:
            assert tuple(found) == sizes[stitch, wraps], (row, write(spec))


def check_edges(spec: Spec, expected: Worked, needle: Needle) -> None:
    """Stitches between the edges, by their sum: the edges are as wide as the row where it is narrower than they are."""
    between = [right + left for right, left in zip(needle.right, needle.left or [0] * len(needle.right), strict=True)]
    assert between == [sum(runs(spec, live)) for live in expected.stitches], write(spec)


@pytest.mark.parametrize("first", range(0, 400, STEP))
def test_the_plan_agrees_with_the_reference(first: int) -> None:
    for number in range(first, first + STEP):
        spec = unweighed(seeded(number))
        agree(spec, seeded_plan(number) if spec == seeded(number) else planned(write(spec)))


@settings(max_examples=40)
@given(specs())
def test_any_plan_agrees_with_the_reference(spec: Spec) -> None:
    agree(unweighed(spec), planned(write(unweighed(spec))))


def test_the_random_shawls_are_not_all_alike() -> None:
    """The generator must keep on making what the checks are for."""
    made = [seeded(number) for number in range(400)]
    assert sum(spec.turn_back is not None for spec in made) > 20
    assert sum(reckon(spec) is None for spec in made[:100]) < 5
    worked = [work(spec, 1) for spec in made]
    assert sum(w is not None and len(w.steps) > 300 for w in worked) > 10
    assert {spec.shape for spec in made} == {
        "triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle",
    }  # fmt: skip
