"""The outline of random shawls against shapely: finite, whole, of the right size and area."""

import math

import pytest
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from shapely import Polygon

from tests.pipe.drawing.outlines import border
from tests.pipe.random_shawls.making import seeded_plan

STEP = 20


@pytest.fixture(scope="module", params=range(0, 160, STEP))
def some(request: pytest.FixtureRequest) -> list[Shawl]:
    found = [seeded_plan(number).shawl for number in range(request.param, request.param + STEP)]
    return [one for one in found if one is not None]


def knitted_cm2(shawl: Shawl) -> float:
    rows = shawl.rows
    return sum(n * w * h for n, w, h in zip(rows.stitches[1:], rows.width_cm[1:], rows.height_cm[1:], strict=True))


def test_every_point_is_finite(some: list[Shawl]) -> None:
    for shawl in some:
        for row in range(shawl.rows.count + 1):
            for after in (False, True):
                points = shawl.outline.boundary(row, after).flattened()
                assert all(math.isfinite(value) for point in points for value in point)


def test_ends_are_the_boundaries_own(some: list[Shawl]) -> None:
    for shawl in some:
        for row in range(shawl.rows.count + 1):
            curve = shawl.outline.boundary(row)
            for point, end in zip((curve.start, curve.end), shawl.outline.ends(row), strict=True):
                assert point == pytest.approx(end, abs=1e-6)


def test_size_is_the_upright_box(some: list[Shawl]) -> None:
    for shawl in some:
        points = border(shawl)
        for row in range(shawl.rows.count + 1):
            points += shawl.outline.boundary(row).flattened()
        xs, ys = [x for x, _ in points], [y for _, y in points]
        size = shawl.outline.size
        assert min(xs) == pytest.approx(0, abs=0.01) and min(ys) == pytest.approx(0, abs=0.01)
        assert max(xs) == pytest.approx(size.wingspan_cm, abs=0.02)
        assert max(ys) == pytest.approx(size.depth_cm, abs=0.02)


def test_last_row_is_as_long_as_its_stitches(some: list[Shawl]) -> None:
    """But for rows around one centre that lie stretched: it is as long as it is drawn."""
    for shawl in some:
        spread = shawl.outline.stretch is not None and not shawl.outline.curved
        if spread and not shawl.outline.pinned and shawl.outline.ruffle is None:
            drawn = length_cm(shawl.outline.boundary(shawl.rows.count).flattened())
            assert shawl.outline.size.last_row_cm == pytest.approx(drawn, rel=1e-3)
        elif not shawl.outline.pinned and not spread:
            length, found = shawl.rows.stitches[-1] * shawl.rows.width_cm[-1], shawl.outline.size.last_row_cm
            assert found == pytest.approx(length) or (found < 0.001 and drawn_together(shawl))


def length_cm(points: list[Point]) -> float:
    return sum(map(math.dist, points, points[1:]))


def drawn_together(shawl: Shawl) -> bool:
    return shawl.bind_off.method == "draw through"


def test_area_is_what_the_rows_cover(some: list[Shawl]) -> None:
    for shawl in some:
        if shawl.outline.pinned:
            continue
        size = shawl.outline.size
        assert size.area_cm2 == pytest.approx(knitted_cm2(shawl), rel=1e-3)


def test_outline_encloses_what_the_rows_cover_and_never_crosses_itself(some: list[Shawl]) -> None:
    """By shapely: to 0.1 %, in pieces of a few rows to 1 %; a fan cut down to what can lie flat holds less, and so does
    a last row that is drawn together."""
    for shawl in some:
        if shawl.outline.pinned or any(problem.code == "ruffles" for problem in shawl.outline.problems):
            continue
        polygon = Polygon(border(shawl))
        assert polygon.is_valid
        within = 1e-3 if shawl.rows.count >= 20 else 1e-2
        if drawn_together(shawl):
            lost = shawl.outline.size.area_cm2 - polygon.area
            assert -within <= lost / shawl.outline.size.area_cm2 <= 0.25
            continue
        assert polygon.area == pytest.approx(shawl.outline.size.area_cm2, rel=within, abs=0.05)
