"""Sums that every plan must keep, on random shawls."""

import math
from itertools import pairwise

import pytest
from halfhank.model.shawl import Shawl

from tests.pipe.random_shawls.making import seeded_plan

STEP = 20


def shawls(first: int) -> list[Shawl]:
    found = [seeded_plan(number).shawl for number in range(first, first + STEP)]
    return [one for one in found if one is not None]


@pytest.fixture(scope="module", params=range(0, 200, STEP))
def some(request: pytest.FixtureRequest) -> list[Shawl]:
    made = shawls(request.param)
    assert len(made) > STEP // 2
    return made


def test_columns_run_side_by_side(some: list[Shawl]) -> None:
    for shawl in some:
        assert {len(column) for column in shawl.rows} == {shawl.rows.count + 1}
        assert len(shawl.used_g) == shawl.rows.count + 1


def test_gains_make_the_counts(some: list[Shawl]) -> None:
    for shawl in some:
        rows = shawl.rows
        for i in range(1, rows.count + 1):
            gained = rows.upper[i] + rows.lower[i] + 2 * rows.spine[i] + rows.evenly[i]
            assert rows.stitches[i] - rows.stitches[i - 1] == gained
            assert rows.stitches[i] >= 1


def test_bands_and_parts_cover_the_rows(some: list[Shawl]) -> None:
    for shawl in some:
        for cut in (shawl.bands, shawl.parts):
            bounds = [(one.first_row, one.last_row) for one in cut]
            assert bounds[0][0] == 1 and bounds[-1][1] == shawl.rows.count
            assert all(after[0] == before[1] + 1 for before, after in pairwise(bounds))
            assert all(one.stitches_at_end == shawl.rows.stitches[one.last_row] for one in cut)


def holds_left(shawl: Shawl, left_g: float, used_g: float) -> None:
    """What is left is what is not used; after a weighing it may be less, no more than the scale showed."""
    if shawl.yarn.basis == "weighed":
        assert left_g <= shawl.yarn.skein_g - used_g + 1e-9
    else:
        assert left_g == pytest.approx(shawl.yarn.skein_g - used_g, abs=1e-9)


def test_yarn_adds_up(some: list[Shawl]) -> None:
    for shawl in some:
        yarn = shawl.yarn
        assert all(after > before for before, after in pairwise(shawl.used_g))
        assert shawl.used_g[0] == pytest.approx(yarn.start_g)
        assert shawl.used_g[-1] - shawl.used_g[0] == pytest.approx(yarn.knitting_g)
        assert yarn.start_g + yarn.knitting_g + yarn.bind_off_g == pytest.approx(yarn.total_g)
        holds_left(shawl, yarn.left_g, yarn.total_g)
        assert yarn.total_m / yarn.total_g == pytest.approx(yarn.skein_m / yarn.skein_g)
        assert 0 <= yarn.chance_enough <= 1 and yarn.sd_g > 0


def test_shares_make_one(some: list[Shawl]) -> None:
    for shawl in some:
        rest = (shawl.yarn.start_g + shawl.yarn.bind_off_g) / shawl.yarn.total_g
        for cut in (shawl.bands, shawl.parts):
            assert sum(one.share for one in cut) + rest == pytest.approx(1)
            assert sum(one.used_g for one in cut) == pytest.approx(shawl.yarn.knitting_g)
            for one in cut:
                holds_left(shawl, one.left_g, shawl.used_g[one.last_row])


def test_heights_are_the_bands(some: list[Shawl]) -> None:
    for shawl in some:
        for band in shawl.bands:
            heights = shawl.rows.height_cm[band.first_row : band.last_row + 1]
            assert sum(heights) == pytest.approx(band.height_cm)
            assert all(h > 0 and math.isfinite(h) for h in heights)


def test_what_yarn_allows_is_paid_for(some: list[Shawl]) -> None:
    for shawl in some:
        if shawl.allowed is not None:
            assert shawl.yarn.total_g <= shawl.yarn.skein_g - shawl.yarn.keep_g + 1e-9


def test_marks_lie_where_they_may(some: list[Shawl]) -> None:
    for shawl in some:
        for mark in shawl.marks:
            if mark is None:
                continue
            assert mark.beyond == (mark.row > shawl.rows.count)
            holds_left(shawl, mark.left_g, mark.used_g)
            if not mark.beyond:
                assert mark.used_g == pytest.approx(shawl.used_g[mark.row])
        if shawl.marks.bind_off_by:
            assert shawl.marks.bind_off_by.row % 2 == 0
