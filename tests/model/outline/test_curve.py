"""Curves as polylines: how near they stay."""

import math

import pytest
from halfhank.model.outline.curve import Curve


@pytest.mark.parametrize("turn", [0.0, math.pi / 2, 1.0])
def test_a_cubic_is_cut_as_finely_whichever_way_it_bends(turn: float) -> None:
    """Second differences of the control points: (0, 6) and (0, -6), so n = sqrt(0.75 x 6 / 0.005) = 30 exactly."""
    cos, sin = math.cos(turn), math.sin(turn)
    points = [(x * cos - y * sin, x * sin + y * cos) for x, y in ((0.0, 0.0), (2.0, 3.0), (4.0, 0.0), (6.0, 3.0))]
    (start, *rest) = points
    assert len(Curve(start, (tuple(rest),)).flattened(0.00501)) == 31
