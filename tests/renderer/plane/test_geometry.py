"""Plane geometry against shapely's."""

import itertools
import math

import pytest
from halfhank.model.outline.curve import Curve, arc, line
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.crossings import crosses, lines_meet
from halfhank.renderer.plane.curve_cutting import curve_length, cut_at
from halfhank.renderer.plane.polygons import area_of, inside
from halfhank.renderer.plane.polylines import at_length, distance_to, length_of, offset, part_of, simplified
from halfhank.renderer.plane.spreading import spread
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box

PLACES = st.floats(-50, 50).map(lambda value: round(value, 2))
POINTS = st.lists(st.tuples(PLACES, PLACES), min_size=3, max_size=12, unique=True)
STAR = [(0.0, 0.0), (10.0, 1.0), (9.0, 8.0), (5.0, 3.0), (1.0, 9.0)]


@given(POINTS, st.tuples(PLACES, PLACES))
def test_distance(points: list[tuple[float, float]], point: tuple[float, float]) -> None:
    assert distance_to(point, points) == pytest.approx(LineString(points).distance(Point(point)), abs=1e-9)


@given(POINTS)
def test_length_and_parts(points: list[tuple[float, float]]) -> None:
    whole = LineString(points)
    assert length_of(points) == pytest.approx(whole.length)
    part = part_of(points, whole.length * 0.2, whole.length * 0.7)
    assert length_of(part) == pytest.approx(whole.length * 0.5)
    assert at_length(points, whole.length * 0.3)[0] == pytest.approx(whole.interpolate(0.3, normalized=True).coords[0])


@given(POINTS, st.tuples(PLACES, PLACES), st.floats(0.1, 40), st.floats(0.1, 40))
def test_crossing_a_box(points: list[tuple[float, float]], corner: tuple[float, float], w: float, h: float) -> None:
    x, y = corner
    inner = box(x, y, x + w, y + h).buffer(-1e-6)
    found = crosses(points, Box(x, y, x + w, y + h))
    if LineString(points).intersects(inner):
        assert found
    elif LineString(points).distance(inner) > 1e-5:
        assert not found


@given(st.tuples(PLACES, PLACES))
def test_inside(point: tuple[float, float]) -> None:
    polygon = Polygon(STAR)
    if polygon.boundary.distance(Point(point)) > 1e-6:
        assert inside(point, STAR) == polygon.contains(Point(point))


def test_area() -> None:
    assert area_of(STAR) == pytest.approx(Polygon(STAR).area)


@given(POINTS, st.floats(0.01, 5))
def test_simplified_stays_near(points: list[tuple[float, float]], tolerance: float) -> None:
    kept = simplified(points, tolerance)
    assert (kept[0], kept[-1]) == (points[0], points[-1])
    assert all(distance_to(point, kept) <= tolerance + 1e-9 for point in points)


def test_simplified_straight_line_keeps_its_ends_alone() -> None:
    assert simplified([(k / 10, k / 5) for k in range(20000)]) == [(0.0, 0.0), (1999.9, 3999.8)]


def test_offset_of_a_corner_keeps_the_distance() -> None:
    moved = offset([(0.0, 0.0), (10.0, 10.0), (20.0, 0.0)], 2.0)
    assert all(distance_to(p, [(0.0, 0.0), (10.0, 10.0), (20.0, 0.0)]) >= 1.999 for p in moved)
    assert moved[1] == pytest.approx((10.0, 10.0 - 2 * math.sqrt(2)))


def test_lines_that_cross_and_that_do_not() -> None:
    assert lines_meet([(0, 0), (5, 5)], [(0, 5), (5, 0)])
    assert not lines_meet([(0, 0), (5, 5)], [(3, 0), (8, 5)])


def test_cut_curves_join_to_the_whole() -> None:
    curve = Curve((0.0, 0.0), (*line([(0.0, 0.0), (3.0, 4.0)]).pieces, *arc((3.0, 9.0), 5.0, -math.pi / 2, 1.0).pieces))
    whole = curve_length(curve)
    assert whole == pytest.approx(5 + 5 * (math.pi / 2 + 1), rel=2e-3)
    for share in (0.1, 0.4, 0.5, 0.9):
        first, second = cut_at(curve, share * whole)
        assert curve_length(first) == pytest.approx(share * whole, rel=0.01)
        assert first.end == second.start
        assert (first.start, second.end) == (curve.start, curve.end)


@given(st.lists(st.floats(0, 100), min_size=1, max_size=12).map(sorted))
def test_spread_places_lie_apart_within_their_limits(places: list[float]) -> None:
    moved = spread(places, 5.0, 0.0, 100.0)
    assert all(b - a >= 5.0 - 1e-9 for a, b in itertools.pairwise(moved))
    assert moved[0] >= -1e-9 and moved[-1] <= 100.0 + 1e-9


def test_places_that_lie_apart_stay() -> None:
    assert spread([10.0, 20.0, 30.0], 5.0, 0.0, 100.0) == [10.0, 20.0, 30.0]
    assert spread([10.0, 11.0], 5.0, 0.0, 100.0) == [8.0, 13.0]
