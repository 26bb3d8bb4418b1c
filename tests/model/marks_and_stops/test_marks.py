"""Halfway, bind off by, turn back by: against longer shawls and by hand."""

import math

import pytest
from halfhank.model.design.design import Design
from halfhank.model.marks_and_stops.marks import marks
from halfhank.model.yarn.row_yarn import bind_off_m
from halfhank.model.yarn.working import Working

from tests.model.texts import described
from tests.model.yarn.test_yarn import WINGS, working_of


def test_half_the_yarn_lies_at_the_root_of_a_half() -> None:
    """A triangle that grows steadily from nothing: half at 70.7 % of its rows, the last tenth takes 19 %."""
    working = working_of(described("garter 2000 rows", start="cast on 1 st", lines=WINGS))
    half = marks(working).halfway
    assert half is not None and half.row / 2000 == pytest.approx(math.sqrt(0.5), abs=0.002)
    assert 1 - working.used_m[1800] / working.used_m[2000] == pytest.approx(0.19, abs=0.002)


def test_halfway_is_the_first_row_that_reaches_it() -> None:
    working = working_of(described("garter 128 rows", lines=WINGS))
    half = marks(working).halfway
    assert half is not None
    assert working.used_m[half.row - 1] < working.total_m / 2 <= working.used_m[half.row]


def test_halfway_is_none_where_only_the_bind_off_reaches_it() -> None:
    assert marks(working_of(described("garter 1 row", start="cast on 50 sts", tail="bind off i-cord"))).halfway is None


@pytest.mark.parametrize("skein", ["30 g 114 m", "75 g 285 m", "100 g 380 m", "180 g 684 m"])
@pytest.mark.parametrize(
    "last", ["garter 33 rows", "drop 2 wraps", "increase 1 at each edge every 3 rows\ngarter 7 rows"]
)
def test_bind_off_by_is_the_last_even_row_that_is_paid_for(skein: str, last: str) -> None:
    """Against working the longer shawl: the last part goes on in its last band."""
    design = described("garter 96 rows", last, lines=WINGS, skein=skein)
    mark = marks(working_of(design)).bind_off_by
    longer = gone_on_with(design)
    paid = [row for row in range(2, 250, 2) if is_paid(longer, row)]
    assert (mark.row if mark else None) == (paid[-1] if paid else None)


def gone_on_with(design: Design) -> Working:
    """The same with its last band over and over."""
    first, second = design.parts
    tall = [band for _ in range(150) for band in second.bands[-1:]]
    return working_of(design._replace(parts=(first, second._replace(bands=(*second.bands, *tall)))))


def is_paid(working: Working, rows: int) -> bool:
    """Whether a shawl bound off after that many rows leaves the margin."""
    part, at_row = (0, rows) if rows <= 96 else (1, rows - 96)
    live = working.parts[part].counts[at_row - 1]
    return working.used_m[rows] + live * bind_off_m(working.table, "garter") <= working.supply.budget_m


def test_a_strip_that_gains_what_it_loses_goes_on() -> None:
    """51 stitches in every row: the rows that are paid for are a quotient."""
    bias = ("increase 1 at upper edge every 2 rows", "decrease 1 at lower edge every 2 rows")
    working = working_of(described("garter 120 rows", start="cast on 51 sts", lines=bias))
    row_m = (working.used_m[120] - working.used_m[0]) / 120
    rows = (working.supply.budget_m - working.used_m[0] - 51 * bind_off_m(working.table, "garter")) / row_m
    mark = marks(working).bind_off_by
    assert mark is not None and (mark.row, mark.beyond) == (2 * int(rows / 2), True)


def test_nothing_goes_on_where_the_last_part_narrows() -> None:
    design = described("garter 40 rows", "decrease 1 at each edge every 4 rows\ngarter 10 rows", lines=WINGS)
    mark = marks(working_of(design)).bind_off_by
    assert mark is not None and (mark.row, mark.beyond) == (50, False)


@pytest.mark.parametrize(("keep", "turned_at_g"), [("", 45), ("keep 6 g", 47)])
def test_a_skein_turns_before_half_of_it_is_used(keep: str, turned_at_g: float) -> None:
    """Common practice, no source: a 100 g skein turns at 45 g, 10 g kept; at 47 g with 6 g kept."""
    lines = ("increase 1 at upper edge every 4 rows",)
    more = {"shape": "tip-to-tip", "start": "cast on 3 sts", "lines": lines, "keep": keep}
    mark = marks(working_of(described("garter 800 rows", tail="turn back\nbind off draw through", **more))).turn_back
    assert mark is not None and mark.used_g == pytest.approx(turned_at_g, abs=0.7)


def test_turn_back_by_is_the_last_row_whose_way_back_is_paid_for() -> None:
    def turned(rows: int) -> Working:
        return working_of(described(f"garter {rows} rows", "garter 6 rows", lines=WINGS, tail='turn back around "2"'))

    mark = marks(turned(160)).turn_back
    assert mark is not None and 40 < mark.row < 160 and mark.row % 2 == 0
    for row, paid in ((mark.row, True), (mark.row + 2, False)):
        working = turned(row)
        assert working.supply.pays(working.total_m) == paid


def test_an_end_set_by_the_most_rows_is_no_mark() -> None:
    """One stitch a row: the most rows that a shawl may have are worked long before the skein is out."""
    assert marks(working_of(described("garter 2 rows", start="cast on 1 st"))).bind_off_by is None
