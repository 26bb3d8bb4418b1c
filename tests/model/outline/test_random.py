"""Many random pieces: whole, finite, true in area, and never across themselves."""

import math
from itertools import cycle, product
from random import Random

import pytest
from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline import lay_out
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.solvers.strip import settled

from tests.model.outline.measuring import FINE_CM, polygon, row_cm
from tests.model.outline.pieces import (
    STRAIGHT,
    Line,
    Run,
    drop,
    garter,
    knitted_cm2,
    lace,
    layout,
    pinned_to,
    stockinette,
)

STEP, COUNT = 40, 400


def random_runs(pick: Random) -> list[Run]:
    runs: list[Run] = []
    for _ in range(pick.randint(1, 6)):
        make = pick.choice((garter, garter, stockinette, lace))
        runs.append(make(2 * pick.randint(1, 25)))
        if pick.random() < 0.25:
            runs += drop()
    return runs


def random_lines(pick: Random, shape: str, rows: int) -> list[Line]:
    half = pick.choice((0, rows // 2))
    if shape == "triangle":
        lines = [Line(pick.randint(1, 2), "each", pick.randint(1, 4), 1, half)]
        lines.append(Line(1, "spine", pick.randint(1, 4), pick.choice((1, 1, rows // 3 + 1))))
    elif shape == "crescent":
        lines = [Line(pick.randint(1, 3), "each", pick.randint(1, 3), 1, half)]
    elif shape == "half-circle":
        lines = [Line(pick.randint(1, 9), "evenly", pick.randint(2, 8))]
        lines.append(Line(pick.randint(5, 60), "evenly", 0, rows // 2 + 1))
    elif shape == "rectangle":
        return []
    else:
        lines = [Line(pick.randint(1, 2), pick.choice(("upper", "lower")), pick.randint(1, 4), 1, half)]
        if pick.random() < 0.4:
            lines.append(Line(-pick.randint(3, 7), pick.choice(("upper", "lower")), 12, 13, 0, True))
    if pick.random() < 0.3 and shape != "half-circle":
        lines.append(Line(-1, "each" if shape in ("triangle", "crescent") else "upper", 2, rows // 2 + 1))
    if pick.random() < 0.15:
        lines.append(Line(pick.randint(5, 12), "each", 6, 7))
    if pick.random() < 0.15:
        lines.append(Line(pick.randint(5, 40), "evenly", 0, rows // 3 + 1))
    return lines


def random_layout(seed: int) -> Layout:
    pick = Random(seed)
    shape = pick.choice(("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle"))
    runs = random_runs(pick)
    lines = random_lines(pick, shape, sum(run.rows for run in runs))
    start = pick.choice((9, 9, 12, 20, 60, 150))
    return layout(shape, start, runs, lines)


def is_true(told: Layout) -> bool:
    """Whether nothing of the piece was capped or lifted, which costs area."""
    found = settled(told.rows)
    lifted = found.reach_cm < 1 and min(found.strip.before) > 0
    return not lifted


@pytest.mark.parametrize("first", range(0, COUNT, STEP))
def test_outlines_are_whole_and_true(first: int) -> None:
    for seed in range(first, first + STEP):
        told = random_layout(seed)
        outline, rows = lay_out(told), told.rows
        assert not isinstance(outline, Problem)
        drawn = polygon(outline, rows.count)
        assert drawn.is_valid, seed
        left, top, right, bottom = drawn.bounds
        assert (left, top) == pytest.approx((0, 0), abs=5 * FINE_CM), seed
        assert (right, bottom) == pytest.approx(outline.size[:2], abs=5 * FINE_CM), seed
        if is_true(told) and not any(one.code == "ruffles" for one in outline.problems):
            assert drawn.area == pytest.approx(knitted_cm2(rows), rel=2e-3), seed
        assert outline.size.area_cm2 == pytest.approx(knitted_cm2(rows)), seed
        spread = outline.stretch and not outline.curved
        last_cm = row_cm(outline, rows.count) if spread else rows.stitches[-1] * rows.width_cm[-1]
        assert outline.size.last_row_cm == pytest.approx(last_cm, rel=1e-3 if spread else 1e-6), seed


@pytest.mark.parametrize("first", range(0, COUNT, 4 * STEP))
def test_ends_are_the_curves_own(first: int) -> None:
    for seed in range(first, first + STEP):
        told = random_layout(seed)
        outline = lay_out(told)
        assert not isinstance(outline, Problem)
        for row in range(0, told.rows.count + 1, 7):
            for after in (False, True):
                curve = outline.boundary(row, after)
                assert curve.start == outline.ends(row, after)[0]
                assert curve.end == outline.ends(row, after)[1]


SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")
TINY = [Run(1, 0.5, 0.25)], [Run(2, 0.5, 0.25)], [Run(1, 1e-10, 1e-10)], [Run(3, 1e8, 1e8)], [Run(3, 1e-9, 1e9)]
TINY += [Run(3, 0.0, 0.0)], [Run(30, 0.5, 0.0)], [Run(2, 1e-6, 1e6), Run(2, 1e6, 1e-6)], [Run(5, 1e308, 1e308)]
TINY += [Run(4, 1e6, 1e-6), Run(4, 0.5, 0.25)], [Run(300, 0.05, 1e-5)]
LINES = [], [Line(1, "each", 2)], [Line(1, "spine", 1)], [Line(-1, "each", 1)], [Line(9000, "evenly", 0, 2)]
LINES += [Line(-1, "spine", 2), Line(5, "upper", 1)], [Line(-8, "lower", 0, 2, 0, True), Line(20, "upper", 0, 3)]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("start", [1, 9, 20_000])
def test_everything_is_finite_whatever_comes(shape: str, start: int) -> None:
    pinnings = cycle((None, STRAIGHT, None, pinned_to(1e9, 1e-3)))
    for runs, lines in product(TINY, LINES):
        told = layout(shape, start, runs, lines, pinned=next(pinnings))
        outline = lay_out(told)
        if isinstance(outline, Problem):
            assert outline.code == "fan-not-straight"
            continue
        numbers = [value for value in outline.size if isinstance(value, float)]
        numbers += list(outline.size.sides_cm or ()) + list(outline.stretch or ())
        for row in {0, 1, told.rows.count}:
            points = outline.boundary(row).flattened()
            assert len(points) < 20_000
            numbers += [value for point in points for value in point]
        assert all(math.isfinite(value) for value in numbers), (runs, lines, told.pinned)
