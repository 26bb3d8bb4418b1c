"""The smoother against a dense solution, and what it must keep."""

from random import Random

import numpy as np
import pytest
from halfhank.model.outline.solvers.pentadiagonal import solve_pentadiagonal
from halfhank.model.outline.solvers.smoothing import corners, smooth
from halfhank.model.outline.solvers.strip import settled
from scipy.linalg import lstsq

from tests.model.outline.pieces import Line, Run, drop, from_neck, garter, lace, table


def dense(heights: list[float], cells: list[float], sharp: list[int], reach: float) -> np.ndarray:
    """The same minimum as a plain least-squares problem: one equation for each cell and each boundary between two."""
    n = len(heights)
    h = np.array(heights)
    means = np.zeros((n, n + 1))
    for i in range(n):
        means[i, i] = means[i, i + 1] = 0.5
    bends = []
    for i in range(1, n):
        if i in sharp:
            continue
        row = np.zeros(n + 1)
        span = h[i - 1] + h[i]
        row[i - 1 : i + 2] = 2 / (h[i - 1] * span), -2 / (h[i - 1] * h[i]), 2 / (h[i] * span)
        bends.append(row * reach**2 * np.sqrt(span / 2))
    left = np.vstack([means * np.sqrt(h)[:, None], *bends])
    right = np.concatenate([np.array(cells) * np.sqrt(h), np.zeros(len(bends))])
    return np.asarray(lstsq(left, right)[0])


@pytest.mark.parametrize("seed", range(25))
def test_smoother_is_the_dense_solution(seed: int) -> None:
    pick = Random(seed)
    n = pick.randint(2, 60)
    heights = [pick.choice((0.2, 0.25, 0.35, 1.2, 2.5)) for _ in range(n)]
    cells = [pick.uniform(1, 80) for _ in range(n)]
    sharp = sorted(pick.sample(range(2, n - 1), min(pick.randint(0, 3), max(0, n - 3))))
    reach = pick.choice((3.0, 1.5, 0.75))
    np.testing.assert_allclose(smooth(heights, cells, sharp, reach), dense(heights, cells, sharp, reach), atol=1e-5)


def test_pentadiagonal_solution() -> None:
    pick = Random(4)
    n = 40
    first, second = [pick.uniform(-1, 1) for _ in range(n - 1)], [pick.uniform(-1, 1) for _ in range(n - 2)]
    main, right = [pick.uniform(4.5, 6) for _ in range(n)], [pick.uniform(-9, 9) for _ in range(n)]
    matrix = np.diag(main) + np.diag(first, 1) + np.diag(first, -1) + np.diag(second, 2) + np.diag(second, -2)
    np.testing.assert_allclose(solve_pentadiagonal(main, first, second, right), np.linalg.solve(matrix, right))


@pytest.mark.parametrize("sharp", [[], [7], [5, 20]])
def test_linear_sequences_stay(sharp: list[int]) -> None:
    heights = [0.25, 0.33, 1.2, 0.25, 0.3] * 6
    along = np.concatenate([[0], np.cumsum(heights)])
    line = 4 + 2.5 * along
    cells = ((line[:-1] + line[1:]) / 2).tolist()
    np.testing.assert_allclose(smooth(heights, cells, sharp, 3.0), line, atol=1e-9)


def test_a_sharp_corner_stays() -> None:
    heights = [0.25] * 80
    along = np.concatenate([[0], np.cumsum(heights)])
    kinked = np.minimum(along, 10.0)
    cells = ((kinked[:-1] + kinked[1:]) / 2).tolist()
    np.testing.assert_allclose(smooth(heights, cells, [40], 3.0), kinked, atol=1e-9)
    assert abs(smooth(heights, cells, [], 3.0)[40] - 10) > 0.3


def test_one_row_is_as_long_at_both_sides() -> None:
    assert smooth([0.25], [7.5], [], 3.0) == [7.5, 7.5]


def test_corners_keep_their_distance() -> None:
    along = [0.25 * i for i in range(41)]
    assert corners([1, 2, 7, 8, 20, 38, 39], along, 3.0) == [2, 8, 20, 38]
    assert corners([1, 2, 7, 8, 20, 38, 39], along, 1.5) == [2, 7, 20, 38]


def test_no_corner_is_nearer_than_two_rows_to_an_end() -> None:
    along = [0.25 * i for i in range(41)]
    assert [corners([one], along, 3.0) for one in (1, 2, 38, 39)] == [[], [2], [38], []]


@pytest.mark.parametrize(("gap_cm", "kept"), [(1.49, [2]), (1.51, [2, 3])])
def test_corners_are_half_a_reach_apart(gap_cm: float, kept: list[int]) -> None:
    assert corners([2, 3], [0, 1, 2, 2 + gap_cm, 6, 7], 3.0) == kept


PIECES = {
    "triangle": (9, [garter(128)], from_neck()),
    "bands": (9, [garter(32), lace(8), *drop(), garter(6), lace(8), *drop(), garter(10)], from_neck()),
    "even border": (9, [garter(60), garter(20)], [Line(1, "each", 2, 1, 60), Line(1, "spine", 2, 1, 60)]),
    "teeth": (3, [garter(144)], [Line(1, "lower", 1), Line(-6, "lower", 12, 13, 0, True)]),
    "steps": (20, [garter(90)], [Line(6, "each", 6, 7)]),
    "once": (9, [garter(40), lace(20)], [Line(40, "evenly", 0, 21)]),
}


@pytest.mark.parametrize("name", PIECES)
def test_settling_keeps_the_area(name: str) -> None:
    rows = table(*PIECES[name])
    strip = settled(rows).strip
    means = [(a + b) / 2 for a, b in zip(strip.after, strip.before[1:], strict=False)]
    area = sum(x * h for x, h in zip(means, rows.height_cm[1:], strict=True))
    knitted = sum(n * w * h for n, w, h in zip(rows.stitches[1:], rows.width_cm[1:], rows.height_cm[1:], strict=True))
    assert area == pytest.approx(knitted, rel=1e-9)


def test_bound_off_stitches_are_a_jump_where_they_were() -> None:
    """Six stitches bound off in row 13 go from boundary 12, at the width of row 12; nothing else steps."""
    start, runs, lines = PIECES["teeth"]
    strip = settled(table(start, runs, lines)).strip
    steps = [after - before for before, after in zip(strip.before, strip.after, strict=True)]
    assert steps[12] == pytest.approx(-3.0)
    assert [i for i, step in enumerate(steps) if step] == list(range(12, 144, 12))


def test_many_stitches_at_one_edge_are_a_jump_at_their_own_width() -> None:
    runs = [garter(12), Run(12, 0.8, 0.25)]
    strip = settled(table(20, runs, [Line(10, "lower", 0, 13)])).strip
    assert strip.after[12] - strip.before[12] == pytest.approx(8.0)


def test_nothing_is_negative_after_a_steep_fall() -> None:
    strip = settled(table(200, [garter(30)], [Line(-195, "evenly", 0, 16)])).strip
    assert min(strip.before) >= 0 and min(strip.after) >= 0
    steep = settled(table(4000, [Run(4, 0.5, 0.25)], [Line(-3998, "evenly", 0, 3)])).strip
    assert min(steep.before) >= 0


def test_what_cannot_settle_is_lifted_to_a_quarter() -> None:
    """Rows of 2,000, 2,000, 1 and 1 cm swing below zero whatever the reach."""
    found = settled(table(4000, [Run(4, 0.5, 0.25)], [Line(-3998, "evenly", 0, 3)]))
    assert found.reach_cm == 0.75
    assert 0.25 in found.strip.before and found.strip.after == found.strip.before


RAMP = [Line(6, "evenly", 0, row) for row in range(13, 25)]


@pytest.mark.parametrize(("start", "reach"), [(40, 3.0), (14, 1.5), (10, 0.75)])
def test_the_reach_is_the_longest_that_leaves_nothing_negative(start: int, reach: float) -> None:
    """Twelve rows of six more stitches each make no corner: the curve dips before them, below nothing where the start
    is narrow. The dense solution has no reaches to choose from."""
    rows = table(start, [garter(36)], RAMP)
    tried = {cm: dense([0.25] * 36, [n * 0.5 for n in rows.stitches[1:]], [], cm) for cm in (3.0, 1.5, 0.75)}
    assert all(min(lengths) < 0 for cm, lengths in tried.items() if cm > reach)
    np.testing.assert_allclose(settled(rows).strip.before, tried[reach], atol=1e-6)


def test_on_a_bound_off_edge_each_side_is_lifted_by_its_own_row() -> None:
    """Rows of 2,000, 2,000, then four of 50 cm, and of 10 cm after 80 stitches are bound off in row 7."""
    lines = [Line(-3900, "evenly", 0, 3), Line(-80, "lower", 0, 7, 0, True)]
    strip = settled(table(4000, [Run(8, 0.5, 0.25)], lines)).strip
    assert (strip.before[6], strip.after[6]) == (50 / 4, 10 / 4)


def test_twenty_thousand_rows_settle() -> None:
    strip = settled(table(9, [garter(20_000)], [Line(1, "each", 8)])).strip
    assert len(strip.before) == 20_001 and min(strip.before) >= 0
