"""Charts square by square, drawn on squared paper by hand from the rows, as letters from left to right."""

import pytest
from halfhank.model.instructions.abbreviations import key_abbreviation
from halfhank.model.stitch_counts.appearance import Sign, sign_of
from halfhank.model.stitches.chart import Chart, chart_of
from halfhank.model.stitches.chart_columns import settle
from halfhank.model.stitches.pattern import pattern_of
from halfhank.model.stitches.worked_rows import too_large

from tests.model.stitches.test_checks import GOOD
from tests.model.stitches.writing import items, stitch

LETTERS = {
    "k": "k",
    "yo": "o",
    "k2tog": "/",
    "ssk": "\\",
    "s2kp": "^",
    "cable": "x",
    "in one": "v",
    "sl": "s",
    "bind off": "-",
    "cast on": "u",
}


def charted(rows: str, multiple: str = "", turned: bool = False) -> Chart:
    pattern = pattern_of(stitch(rows, multiple))
    assert pattern
    return chart_of(pattern, turned)


def drawn(chart: Chart) -> list[str]:
    """The chart's rows from the bottom up; a dot is a square without a stitch, a purl is `p`, | the box."""
    lines = []
    for row in chart.rows:
        squares = ["."] * chart.columns
        for column, sign in row.cells:
            letter = "p" if sign.kind == "k" and sign.purl else LETTERS[sign.kind]
            squares[column : column + sign.width] = letter * sign.width
        for edge in sorted(row.box or (), reverse=True):
            squares.insert(edge, "|")
        lines.append("".join(squares))
    return lines


def test_right_side_rows_run_from_right_to_left() -> None:
    assert drawn(charted("row 1: k2tog, yo, *k3*, p1\nrow 2: purl", "3 sts + 3")) == ["p|kkk|o/", "k|kkk|kk"]


def test_wrong_side_rows_run_from_left_to_right_and_are_seen_from_the_right_side() -> None:
    rows = "row 1: knit\nrow 2: k1, *p3, k2tog, yo, k1*"
    assert drawn(charted(rows, "6 sts + 1")) == ["k|kkkkkk|", "p|kkk/op|"]


def test_a_lace_of_eight_and_one_over_twelve_rows() -> None:
    """Read off squared paper: RS rows as worked from the right, WS rows all knit as seen."""
    rows = GOOD.replace("row 7: " + GOOD.split("row 7: ")[1].split("\n")[0], "row 7: k1, *yo, k2, s2kp, k2, yo, k1*")
    plain = "|kkkkkkkk|k"
    assert drawn(charted(rows, "8 sts + 1")) == [
        "|kokk^kko|k",
        plain,
        "|kkok^kok|k",
        plain,
        "|kkko^okk|k",
        plain,
        "|kokk^kko|k",
        plain,
        "|ko/kkk\\o|k",
        plain,
        "|kko/k\\ok|k",
        plain,
    ]


def test_where_stars_start_earlier_two_multiples_are_shown() -> None:
    """Row 7 takes one stitch of the next multiple at its end, so one multiple alone has no pass of it."""
    chart = charted(GOOD, "8 sts + 1")
    assert chart.multiples == 2 and chart.columns == 17
    assert drawn(chart)[6] == "\\kkokokk|^kkokokk|/"


def test_squares_without_a_stitch_lie_where_stitches_were_lost() -> None:
    rows = "row 1: *k3, s2kp, k3*\nrow 2: purl\nrow 3: *k3, [k1, yo, k1] in 1, k3*\nrow 4: purl"
    assert drawn(charted(rows, "9 sts")) == ["|kkk.^.kkk|", "|kkk.k.kkk|", "|kkkvvvkkk|", "|kkkkkkkkk|"]


def test_stitches_bound_off_and_cast_on_have_squares_of_their_own() -> None:
    """A square in the row that binds them off, none above it; at the end of a right-side row they are on the left."""
    rows = "row 1: bind off 2, k4, cast on 1\nrow 2: purl\nrow 3: k5, cast on 1\nrow 4: knit"
    assert drawn(charted(rows)) == ["ukkkk--", "kkkkk..", "ukkkkk.", "pppppp."]


def test_dropped_wraps_have_no_square() -> None:
    assert drawn(charted("row 1: k3 with 2 wraps\nrow 2: drop wraps, purl\nrow 3: k3\nrow 4: p3")) == ["kkk"] * 4
    assert drawn(charted("row 1: k3 with 2 wraps\nrow 2: drop wraps, p3")) == ["kkk"] * 2


def test_squares_without_a_stitch_lie_under_stitches_to_come() -> None:
    rows = "row 1: knit\nrow 2: purl\nrow 3: *k2, yo, k2*\nrow 4: purl\nrow 5: *k1, k2tog, k2*\nrow 6: purl"
    chart = charted(rows, "4 sts")
    assert chart.no_stitch and chart.columns == 10
    assert drawn(chart)[:3] == ["kk.kk|kk.kk|", "kk.kk|kk.kk|", "kkokk|kkokk|"]
    assert all(len(line) == 12 for line in drawn(chart))


def test_the_last_row_may_be_the_widest() -> None:
    """Row 1 makes 3 of 4; row 2 makes 4 again, so the free square lies under its yarn over."""
    assert drawn(charted("row 1: *k2tog, k2*\nrow 2: *p1, yo, p2*", "4 sts")) == ["k.k/|k.k/|", "kokk|kokk|"]


def test_a_decrease_lies_over_both_stitches_that_it_takes() -> None:
    """Row 1 fills 5 columns in each multiple; the wrong-side decrease takes the two leftmost and lies left."""
    rows = "row 1: *k4, yo*\nrow 2: *p2tog, p3*"
    assert drawn(charted(rows, "4 sts")) == ["okkkk|okkkk|", "/.kkk|/.kkk|"]


def test_a_row_without_free_squares_says_so() -> None:
    assert not charted(GOOD, "8 sts + 1").no_stitch


def test_the_box_steps_where_the_stars_move() -> None:
    """Row 3 decreases over the line that row 1 begins at, so that its multiple can only begin a stitch further on."""
    rows = "row 1: k1, *yo, k2tog, k2*, k3\nrow 2: purl\nrow 3: k2tog, yo, *k2, k2tog, yo*, k2\nrow 4: purl"
    assert [row.box for row in charted(rows, "4 sts + 4").rows] == [(3, 7), (3, 7), (2, 6), (2, 6)]


def test_the_box_stays_where_one_multiple_more_only_works_it_once_more() -> None:
    """The stars of rows 2 and 3 begin elsewhere, but what they work repeats in the same columns."""
    rows = "row 1: p2, *k4, p2*\nrow 2: k2, *p4, k2*\nrow 3: p2, k4, *p2, k4*, p2\nrow 4: purl"
    assert len({row.box for row in charted(rows, "6 sts + 2").rows}) == 1


def test_the_box_stays_where_the_stars_move_to_the_beginning_of_the_row() -> None:
    """`*k2, p4*, k2` is `k2, *p4, k2*`; columns of the box are counted from the left."""
    rows = "row 1: k2, *p4, k2*\nrow 2: purl\nrow 3: *k2, p4*, k2\nrow 4: purl"
    assert [row.box for row in charted(rows, "6 sts + 2").rows] == [(0, 6)] * 4


def test_a_panel_has_no_box() -> None:
    chart = charted("row 1: p1, 2/2 rc, p1\nrow 2: k1, p4, k1")
    assert [row.box for row in chart.rows] == [None, None] and drawn(chart) == ["pxxxxp", "pkkkkp"]


@pytest.mark.parametrize(
    ("wrong_side", "right_side"),
    [
        ("k1", "p1"),
        ("p1", "k1"),
        ("k2tog", "p2tog"),
        ("p2tog", "k2tog"),
        ("ssk", "ssp"),
        ("ssp", "ssk"),
        ("p3tog", "k3tog"),
        ("k3tog", "p3tog"),
        ("sssp", "sssk"),
        ("sssk", "sssp"),
        ("s2pp", "s2kp"),
        ("s2kp", "s2pp"),
        ("m1lp", "m1l"),
        ("m1rp", "m1r"),
        ("m1l", "m1lp"),
        ("bind off 1", "bind off 1"),
        ("cast on 1", "cast on 1"),
        ("yo", "yo"),
        ("p1 tbl", "k1 tbl"),
        ("sl1 wyif", "sl1"),
        ("sl1", "sl1 wyif"),
        ("p1 with 3 wraps", "k1 with 3 wraps"),
        ("[p1, yo, k1] in 1", "[p1, yo, k1] in 1"),
    ],
)
def test_what_is_worked_on_the_wrong_side_looks_like(wrong_side: str, right_side: str) -> None:
    """The published lists pair them so: a symbol stands for k on RS and p on WS, k2tog on RS and p2tog on WS …"""
    assert sign_of(items(wrong_side)[0], True) == sign_of(items(right_side)[0], False)


def test_a_cable_seen_from_behind_keeps_its_lean_and_shows_its_back() -> None:
    """Followed strand by strand: 3/1 rc on the wrong side brings, seen from the right, 1 stitch over 3 to the right."""
    assert sign_of(items("3/1 rc")[0], True) == Sign("cable", purl=True, over=1, under=3, turn="rc", width=4)


def test_a_sign_is_listed_once_with_the_items_of_both_sides() -> None:
    uses = charted("row 1: *yo, k2tog*\nrow 2: purl", "2 sts").uses
    found = [
        (use.sign.kind, *(list(map(key_abbreviation, side)) for side in (use.right_side, use.wrong_side)))
        for use in uses
    ]
    assert found == [("yo", ["yo"], []), ("k2tog", ["k2tog"], []), ("k", [], ["p"])]


def test_a_sign_of_a_wrong_side_row_is_listed_wherever_it_stands() -> None:
    uses = charted("row 1: *yo, k2tog*\nrow 2: *p1, p1 tbl*", "2 sts").uses
    assert [list(map(key_abbreviation, use.wrong_side)) for use in uses] == [[], [], ["p"], ["p tbl"]]


@pytest.mark.parametrize(
    ("written", "key"),
    [("k3", "k"), ("sl2 wyif", "sl wyif"), ("m1l", "M1L"), ("yo twice", "yo twice"), ("bind off 3", "bind off")],
)
def test_the_key_leaves_out_the_number(written: str, key: str) -> None:
    assert key_abbreviation(items(written)[0]) == key


def test_settling_keeps_order_and_room() -> None:
    assert settle([0.0, 0.0, 5.0, 5.0], [1, 1, 1, 1], 6) == [0, 1, 4, 5]
    assert settle([9.0, 9.0], [2, 2], 5) == [1, 3]
    assert settle([], [], 3) == []


@pytest.mark.parametrize(
    ("rows", "large"),
    [
        ("row 1: k200", False), ("row 1: k201", True), ("rows 1-400: knit", False), ("rows 1-401: knit", True),
    ],
)  # fmt: skip
def test_a_chart_holds_two_hundred_stitches_and_four_hundred_rows(rows: str, large: bool) -> None:
    pattern = pattern_of(stitch(rows))
    assert pattern
    assert (too_large(pattern) is not None) == large
