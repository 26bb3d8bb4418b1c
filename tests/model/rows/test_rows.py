"""Rows: bands put out, shaping in time, the way back."""

import pytest
from halfhank.model.design.band_walk import count_rows, total_rows
from halfhank.model.design.design import Design
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.rows.row_table import NO_RATES, Rates, Rows
from halfhank.model.rows.sections import section_of, sections
from halfhank.model.rows.worked import row_table, work
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.model.texts import GARTER, described

WINGS = "increase 1 at each edge and 1 at spine every 2 rows"


def table(design: Design) -> Rows:
    parts, problem = work(design, 0)
    assert problem is None, problem
    return row_table(StitchMeasures(design), parts)


def counts(
    *parts: str, start: int = 9, lines: tuple[str, ...] = (), tail: str = "", shape: str = "triangle"
) -> list[int]:
    """Live stitches, the start first."""
    return list(table(described(*parts, start=f"cast on {start} sts", lines=lines, tail=tail, shape=shape)).stitches)


def rows_of(*parts: str) -> list[tuple[str, int]]:
    """The bands of all parts as put out: stitch and rows."""
    return [(run.stitch, run.rows) for section in sections(described(*parts), 0) for run in section.runs]


# Bands.


def test_ridges_and_drops_are_two_rows() -> None:
    assert rows_of("garter 3 ridges\ndrop 2 wraps\ngarter 1 row") == [("garter", 6), ("drop", 2), ("garter", 1)]


def test_a_list_takes_its_values_pass_by_pass_and_starts_over() -> None:
    assert [n for _, n in rows_of("repeat 5 times\n  garter 3, 5, 4 rows")] == [3, 5, 4, 3, 5]


def test_a_list_starts_anew_whenever_its_repeat_is_entered() -> None:
    assert [n for _, n in rows_of("repeat 2 times\n  repeat 2 times\n    garter 1, 2, 3 rows\n  garter 7, 8 rows")] == [
        1, 2, 7, 1, 2, 8,
    ]  # fmt: skip


def test_repeats_are_of_the_stitchs_own_rows() -> None:
    stitches = f"{GARTER}\nstitch rib\n  rows 1-4: *k1, p1*"
    design = described("rib 3 repeats", stitches=stitches)
    assert [run.rows for run in section_of(0, design.parts[0], 0).runs] == [12]


@settings(max_examples=60)
@given(st.lists(st.integers(1, 4), min_size=1, max_size=4), st.integers(1, 7), st.integers(1, 4))
def test_rows_are_counted_without_putting_them_out(values: list[int], inner: int, outer: int) -> None:
    listed = ", ".join(map(str, values))
    nested = f"  repeat {inner} times\n    garter {listed} rows\n    drop 2 wraps"
    bands = f"repeat {outer} times\n  garter {listed} ridges\n{nested}"
    design = described(bands)
    part = design.parts[0]
    assert count_rows(part.bands, 0) == sum(run.rows for run in section_of(0, part, 0).runs)


def test_a_thousand_million_repeats_are_counted_at_once() -> None:
    many = "repeat 1000000000 times\n  repeat 1000000000 times\n    garter 1, 2 rows"
    assert total_rows(described(many), 0) == 15 * 10**17


# Shaping in time.


def test_four_stitches_every_two_rows() -> None:
    """From 9: 13, 13, 17, 17 …; 2 (9 k + 2 k (k + 1)) stitches over 2 k rows."""
    for k in (1, 5, 64):
        live = counts(f"garter {2 * k} rows", lines=(WINGS,))[1:]
        assert live[:4] == [13, 13, 17, 17][: 2 * k]
        assert sum(live) == 2 * (9 * k + 2 * k * (k + 1))


def test_garter_tab_gives_nine_stitches() -> None:
    """A tab of 3 stitches and 6 rows: 3, 3 picked up and 3 from the cast-on (several pattern pages)."""
    assert table(described("garter 1 row", start="garter tab 3 sts 6 rows")).stitches[0] == 9


def test_crescent_of_six_every_two_rows() -> None:
    """4 on the right side, 2 on the wrong side (craftsy.com top-down shawls; ponderosaguild.org)."""
    lines = ("increase 2 at each edge every 2 rows", "increase 1 at each edge every 2 rows from row 2")
    assert counts("garter 4 rows", lines=lines, shape="crescent") == [9, 13, 15, 19, 21]


def test_half_circle_of_doublings() -> None:
    """17, 29, 53, 101, 197, 389 with 3, 7, 15, 31, 63 rows between (rhyflowerknits.com; counts by arithmetic)."""
    rows, targets = [1, 5, 13, 29, 61, 125], [17, 29, 53, 101, 197, 389]
    lines = tuple(f"increase evenly to {n} sts from row {row}" for row, n in zip(rows, targets, strict=True))
    live = counts("garter 125 rows", lines=lines, shape="half-circle")
    assert [live[row] for row in rows] == targets
    assert [live[row - 1] for row in rows] == [9, *targets[:-1]]


def test_rounds_that_double() -> None:
    """Rounds of 8, 8, 16, 16 … 64, 64 are 576 stitches; 70 % of the rows are about half of the work, half a quarter
    (cromulentknitter, October 2006)."""
    live = counts("garter 16 rows", start=8, lines=("increase 8 evenly every 2 rows from row 3",), shape="half-circle")[
        1:
    ]
    assert sum(live) == 576
    assert sum(live[:8]) / 576 == pytest.approx(0.25, abs=0.05)
    assert sum(live[:11]) / 576 == pytest.approx(0.5, abs=0.06)


def test_tip_to_tip_scarf() -> None:
    """Gruendl, Perla Color 20181: 3 cast on, +1 every 4 rows: 19 stitches after row 64, 51 after row 192."""
    live = counts("garter 192 rows", start=3, lines=("increase 1 at upper edge every 4 rows",), shape="tip-to-tip")
    assert (live[64], live[192]) == (19, 51)


def test_triangle_from_its_long_edge() -> None:
    """Gruendl, Cotton Quick Print: 334 cast on, -4 every 2 rows from row 5, ends at 6 stitches."""
    lines = ("decrease 1 at each edge and 1 at spine every 2 rows from row 5 until 6 sts",)
    live = counts("garter 180 rows", start=334, lines=lines)
    assert live[4] == 334 and live[5] == 330 and live[-1] == 6


def test_crescent_of_194_rows() -> None:
    """From 9, +2 every row: 194 rows end at 397 (rhyflowerknits.com)."""
    assert counts("garter 194 rows", lines=("increase 1 at each edge every row",), shape="crescent")[-1] == 397


def test_lines_run_on_through_parts_without_their_own() -> None:
    line = "increase 1 at each edge every 4 rows"
    assert counts("garter 3 rows", "garter 7 rows", lines=(line,)) == counts("garter 10 rows", lines=(line,))


def test_a_parts_own_lines_replace_the_shapes_and_start_in_its_first_row() -> None:
    own = "increase 3 at upper edge every 3 rows\ngarter 5 rows"
    assert counts("garter 2 rows", own, "garter 4 rows", start=9, lines=("increase 1 at each edge every 4 rows",)) == [
        9, 11, 11, 14, 14, 14, 17, 17, 17, 19, 19, 19,
    ]  # fmt: skip


def test_even_rests_the_shapes_lines() -> None:
    assert counts("even\ngarter 4 rows", "garter 2 rows", lines=("increase 1 at each edge every row",)) == [
        9, 9, 9, 9, 9, 11, 13,
    ]  # fmt: skip


def test_lines_on_one_row_act_in_file_order_on_what_the_earlier_left() -> None:
    lines = ("increase 2 at upper edge every row until 13 sts", "increase 1 at lower edge every row until 14 sts")
    assert counts("garter 4 rows", lines=lines) == [9, 12, 13, 14, 14]


def test_a_line_stays_stopped() -> None:
    """At 11 one more pair passes 12; the decrease makes room again, but the increase has stopped."""
    lines = ("increase 1 at each edge every row until 12 sts", "decrease 3 at upper edge from row 3")
    assert counts("garter 5 rows", lines=lines) == [9, 11, 11, 8, 8, 8]


def test_a_line_acts_whole_or_not_at_all() -> None:
    assert counts("garter 3 rows", lines=("increase 2 at each edge every row until 16 sts",)) == [9, 13, 13, 13]


def test_a_one_time_line_acts_once() -> None:
    assert counts("garter 4 rows", lines=("increase 5 at lower edge from row 3",)) == [9, 9, 9, 14, 14]


def test_saw_teeth_bind_off() -> None:
    lines = ("increase 1 at lower edge every 2 rows", "bind off 5 at lower edge every 10 rows from row 10")
    live = counts("garter 20 rows", start=5, lines=lines, shape="asymmetric")
    assert live[9:12] == [10, 5, 6] and live[20] == 5


def test_gains_stand_at_their_places() -> None:
    lines = (
        "increase 2 at each edge and 3 at spine every 4 rows",
        "increase 1 at upper edge and 4 at lower edge from row 2",
    )
    rows = table(described("garter 2 rows", lines=lines))
    assert (rows.upper, rows.lower, rows.spine, rows.evenly) == ((0, 2, 1), (0, 2, 4), (0, 3, 0), (0, 0, 0))


# What the outline draws as steps, and the rates in force.


@pytest.mark.parametrize(
    ("line", "row", "step"),
    [
        ("increase 5 at lower edge every 6 rows from row 2", 2, 5),
        ("increase 4 at lower edge every 6 rows from row 2", 2, 0),
        ("increase 5 at lower edge every 5 rows from row 2", 2, 0),
        ("increase 5 at lower edge from row 3", 3, 5),
        ("bind off 3 at lower edge every 2 rows from row 2", 2, -3),
        ("bind off 3 at lower edge every 9 rows", 1, 0),
        ("decrease 6 at lower edge every 8 rows from row 2", 2, 0),
    ],
)
def test_steps(line: str, row: int, step: int) -> None:
    rows = table(described("garter 4 rows", start="cast on 30 sts", lines=(line,), shape="asymmetric"))
    assert rows.lower_jump[row] == step
    assert not any(rows.upper_jump)


def test_rates_are_those_of_the_repeating_lines_in_force() -> None:
    lines = (WINGS, "increase 3 at upper edge every 4 rows from row 3", "increase 9 at lower edge from row 2")
    rates = table(described("garter 4 rows", "even\ngarter 1 row", lines=lines)).rates
    assert rates[1] == rates[2] == Rates(0.5, 0.5, 0.5)
    assert rates[3] == rates[4] == Rates(1.25, 0.5, 0.5)
    assert rates[0] == rates[5] == NO_RATES


def test_on_the_way_back_a_line_is_in_force_as_many_rows() -> None:
    """One act on row 5 of 8 is in force on rows 5 to 8; undone on row 9, which four rows hang on, then no more."""
    lines = ("increase 1 at upper edge every 4 rows from row 5",)
    turned = described("garter 8 rows", start="cast on 3 sts", lines=lines, shape="tip-to-tip", tail="turn back")
    assert [rate.upper for rate in table(turned).rates] == [0, *[0] * 4, *[0.25] * 4, *[-0.25] * 4, *[0] * 4]


def test_a_stopped_line_is_no_longer_in_force() -> None:
    rates = table(described("garter 6 rows", lines=("increase 1 at each edge every 2 rows until 12 sts",))).rates
    assert [rate.upper for rate in rates] == [0, 0.5, 0.5, 0, 0, 0, 0]


def test_bind_offs_have_no_rate_and_decreases_a_negative_one() -> None:
    lines = ("decrease 1 at upper edge every 4 rows", "bind off 2 at lower edge every 2 rows from row 2")
    rates = table(described("garter 2 rows", start="cast on 30 sts", lines=lines, shape="asymmetric")).rates
    assert rates[1] == rates[2] == Rates(upper=-0.25)


# The way back.


def test_the_way_back_by_hand() -> None:
    """Increases on rows 1, 3, 5 of six rows; back on 1, 3, 5 of the part, which are right-side rows."""
    assert counts("garter 6 rows", lines=("increase 1 at each edge every 2 rows",), tail="turn back") == [
        9, 11, 11, 13, 13, 15, 15, 13, 13, 11, 11, 9, 9,
    ]  # fmt: skip


def test_a_line_that_stopped_waits_on_the_way_back() -> None:
    """It acted on rows 1 and 3 of eight: back, the first decrease is on row 1 + 8 - 3 - 2 + 1 = 5."""
    line = "increase 1 at each edge every 2 rows until 13 sts"
    assert counts("garter 8 rows", lines=(line,), tail="turn back")[8:] == [13, 13, 13, 13, 13, 11, 11, 9, 9]


def test_decreases_move_on_to_a_right_side_row() -> None:
    """The way back starts with row 12, a wrong-side row; it would start with a decrease."""
    line = "increase 1 at each edge every 4 rows"
    live = counts("garter 11 rows", lines=(line,), tail="turn back")
    assert live[11:14] == [15, 15, 13] and live[-1] == 9


@pytest.mark.parametrize(("acted", "undone"), [(2, 9), (3, 9), (4, 7), (5, 7)])
def test_a_line_that_acted_once_is_undone_as_far_from_the_end(acted: int, undone: int) -> None:
    """Row `last` of ten, with K = 1, comes back on row `11 - last`, or a row later where that is a wrong-side row."""
    live = counts("garter 10 rows", lines=(f"increase 4 evenly from row {acted}",), tail="turn back")
    assert live[10:] == [13] * undone + [9] * (11 - undone)


def test_where_there_is_no_room_to_move_on_the_count_still_comes_out() -> None:
    live = counts("garter 5 rows", lines=("increase 1 at each edge every 2 rows",), tail="turn back")
    assert live == [9, 11, 11, 13, 13, 15, 13, 13, 11, 11, 9]


def test_around_works_the_last_part_once_and_names_the_way_back() -> None:
    design = described("garter 4 rows", "garter 2 rows", "garter 6 rows", tail='turn back around "3"')
    assert [section.name for section in sections(design, 0)] == ["1", "2", "3", "2, mirrored", "1, mirrored"]


def test_bands_and_passes_come_back_in_reverse_order() -> None:
    design = described("repeat 3 times\n  garter 1, 2, 3 rows\n  drop 2 wraps", tail="turn back")
    runs = [(run.stitch, run.rows) for run in sections(design, 0)[1].runs]
    assert runs == [("drop", 2), ("garter", 3), ("drop", 2), ("garter", 2), ("drop", 2), ("garter", 1)]


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 3), st.integers(1, 7)), min_size=1, max_size=4),
    st.integers(9, 60),
)
def test_every_part_ends_as_it_began(parts: list[tuple[int, int, int]], until: int) -> None:
    written = [
        f"increase {amount} at each edge every {every} rows until {until} sts\ngarter {rows} rows"
        for rows, amount, every in parts
    ]
    live = counts(*written, tail="turn back")
    total = sum(rows for rows, _, _ in parts)
    bounds = [sum(rows for rows, _, _ in parts[:k]) for k in range(len(parts) + 1)]
    for bound in bounds:
        assert live[2 * total - bound] == live[bound]
