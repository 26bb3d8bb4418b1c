"""Rows bent into arcs, by hand and by the points of the curves themselves."""

import math
from itertools import pairwise

import pytest
from halfhank.model.outline.solvers.arcs import ArcRadii, arc_rows, right_end, row_curve
from halfhank.model.outline.solvers.strip import Strip

BOWS = [
    ArcRadii(10.0),
    ArcRadii(8.0, math.radians(70), 20.0),
    ArcRadii(8.0, math.radians(100), 20.0),
    ArcRadii(8.0, math.radians(95)),
]


def test_the_end_of_a_row_with_straight_wings() -> None:
    """The arc of radius 10 turns 30 degrees, 5.236 cm; 4 cm go on straight, down its tangent."""
    x, y = right_end(ArcRadii(10.0, math.pi / 6), 0.0, 2 * (10 * math.pi / 6 + 4))
    assert (x, y) == pytest.approx((5 + 4 * math.sqrt(3) / 2, 10 * math.sqrt(3) / 2 - 4 / 2))


@pytest.mark.parametrize("radii", BOWS)
def test_a_row_is_as_long_as_it_is_knitted(radii: ArcRadii) -> None:
    points = row_curve(radii, 2.0, 50.0).flattened(1e-4)
    assert sum(math.dist(a, b) for a, b in pairwise(points)) == pytest.approx(50, rel=1e-3)


@pytest.mark.parametrize("radii", BOWS)
def test_the_reach_of_a_row_that_turns_back_is_that_of_its_curve(radii: ArcRadii) -> None:
    """The last row is 60 cm long and turns past a quarter turn to each side, so its ends are not its widest points."""
    strip = Strip([0.0, 3.0], [50.0, 60.0], [50.0, 60.0])
    widest = max(x for x, _ in row_curve(radii, 3.0, 60.0).flattened(1e-4))
    assert widest > right_end(radii, 3.0, 60.0)[0] + 0.01
    assert max(x for x, _ in arc_rows(strip, radii, False).reach) == pytest.approx(widest, abs=1e-2)
