"""Curves as polylines: how near they stay."""

import math

import pytest
from halfhank.model.outline.curve import MOST_BOW, Curve, bowed
from shapely import Polygon


@pytest.mark.parametrize("turn", [0.0, math.pi / 2, 1.0])
def test_a_cubic_is_cut_as_finely_whichever_way_it_bends(turn: float) -> None:
    """Second differences of the control points: (0, 6) and (0, -6), so n = sqrt(0.75 x 6 / 0.005) = 30 exactly."""
    cos, sin = math.cos(turn), math.sin(turn)
    points = [(x * cos - y * sin, x * sin + y * cos) for x, y in ((0.0, 0.0), (2.0, 3.0), (4.0, 0.0), (6.0, 3.0))]
    (start, *rest) = points
    assert len(Curve(start, (tuple(rest),)).flattened(0.00501)) == 31


@pytest.mark.parametrize("area", [4.0, -4.0, 0.5])
def test_a_bow_encloses_its_area_to_the_right_of_its_way(area: float) -> None:
    """On the page, with y downwards: from left to right, that is below the line."""
    found = bowed((1.0, 2.0), (11.0, 2.0), area)
    assert Polygon(found.flattened(0.0005)).area == pytest.approx(abs(area), rel=5e-3)
    assert all((y - 2) * area >= 0 for _, y in found.flattened())


def test_a_bow_has_a_largest_area() -> None:
    assert bowed((0.0, 0.0), (6.0, 8.0), 1e9) == bowed((0.0, 0.0), (6.0, 8.0), MOST_BOW * 100)
    assert bowed((3.0, 3.0), (3.0, 3.0), 5.0).flattened() == [(3.0, 3.0), (3.0, 3.0)]


@pytest.mark.parametrize("area", [9.0, -9.0])
def test_the_furthest_points_of_a_cubic_make_its_box(area: float) -> None:
    for last in ((10.0, 0.5), (0.5, 10.0), (8.0, -3.0), (10.0, 0.0)):
        found = bowed((0.0, 0.0), last, area)
        box, points = [found.start, found.end, *found.furthest()], found.flattened(1e-5)
        for axis in (0, 1):
            values = [point[axis] for point in box]
            assert (min(values), max(values)) == pytest.approx(
                (min(point[axis] for point in points), max(point[axis] for point in points)), abs=1e-3
            )
