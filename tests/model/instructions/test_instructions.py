"""Written instructions: against lines written by hand, and read back."""

import pytest
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.reading.instruction_reader import InstructionError, read_lines, same_items
from halfhank.model.instructions.abbreviations import explained
from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.stitches.mirror import mirrored, stand_ins
from halfhank.model.stitches.pattern import Pattern, built_in_pattern, pattern_of
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.model.stitches.test_checks import GOOD
from tests.model.stitches.writing import items, stitch


def pattern(rows: str, multiple: str = "") -> Pattern:
    found = pattern_of(stitch(rows, multiple))
    assert found
    return found


def test_rows_in_the_trades_abbreviations() -> None:
    rows = "row 1: k1, *k2, yo, ssk, k2tog, yo*\nrow 2: purl"
    assert row_lines(pattern(rows, "6 sts + 1")) == [
        "Row 1 (RS): K1, *k2, yo, ssk, k2tog, yo; rep from * to end.",
        "Row 2 (WS): Purl.",
    ]


def test_what_follows_the_stars_is_counted_off() -> None:
    assert row_lines(pattern("row 1: *yo, k2tog*, k3\nrows 2-4: knit", "2 sts + 3")) == [
        "Row 1 (RS): *Yo, k2tog; rep from * to last 3 sts, k3.",
        "Rows 2 to 4: Knit.",
    ]
    assert "to last st, k1." in row_lines(pattern("row 1: *yo, k2tog*, k1\nrow 2: purl", "2 sts + 1"))[0]


def test_rows_written_on_one_line_are_one_line() -> None:
    assert "Rows 2, 4, 6, 8, 10 and 12 (WS): Purl." in row_lines(pattern(GOOD, "8 sts + 1"))


def test_every_kind_of_item() -> None:
    rows = (
        "row 1: k2 tbl, sl1 wyif, yo twice, k1 with 3 wraps, [k1, yo, k1] in 1, "
        "[p1, [k1, m1l] 2 times] 3 times, 2/2 rc, [k1, p1, k1] in 3"
    )
    (line,) = row_lines(pattern(rows))[:1]
    assert line.startswith(
        "Row 1 (RS): K2 tbl, sl 1 wyif, yo twice, k1 wrapping yarn 3 times, (k1, yo, k1) in next st, "
        "[p1, [k1, M1L] twice] 3 times, 2/2 RC, (k1, p1, k1) in next 3 sts together."
    )


def test_what_is_worked_into_several_stitches_says_into_how_many() -> None:
    assert explained(items("[k1, yo, k1] in 1")[0]) == "work all 3 into the same stitch"
    assert explained(items("[k1, p1, k1] in 3")[0]) == "work all 3 into the next 3 stitches as one"


def test_a_count_that_changes_is_said() -> None:
    lines = row_lines(pattern("row 1: *k3, yo*\nrow 2: purl\nrow 3: *k2, k2tog*\nrow 4: purl", "3 sts"))
    assert lines[0].endswith("Each repeat now has 4 sts.") and lines[2].endswith("Each repeat now has 3 sts.")


def assert_reads_back(one: Pattern) -> None:
    read = read_lines(row_lines(one))
    rows = {number: row.items for row in read for number in row.numbers}
    left = {number: row.left_at_end for row in read for number in row.numbers}
    assert sorted(rows) == [row.number for row in one.rows]
    assert all(same_items(rows[row.number], row.items) for row in one.rows)
    assert all(left[row.number] == (row.tally.after.taken if row.across else None) for row in one.rows)


@pytest.mark.parametrize("name", STITCH_PATTERNS)
def test_built_ins_read_back(name: str) -> None:
    assert_reads_back(built_in_pattern(built_in_stitch(name)))
    assert_reads_back(mirrored(built_in_pattern(built_in_stitch(name))))


def test_lace_reads_back() -> None:
    assert_reads_back(pattern(GOOD, "8 sts + 1"))


PLAIN = st.sampled_from(
    [
        "k3",
        "p1",
        "k2 tbl",
        "yo",
        "yo twice",
        "k2tog",
        "ssk",
        "s2kp",
        "sl2",
        "sl1 wyif",
        "m1r",
        "kfb",
        "m1lp",
        "bind off 2",
    ]
)
MORE = PLAIN | st.sampled_from(
    [
        "k1 with 2 wraps",
        "k2tog with 3 wraps",
        "2/1 lc",
        "[k1, yo, k1] in 2",
        "p2tog tbl",
        "m1",
        "cast on 3",
        "m1rp",
        "pfb",
        "sssp",
        "s2pp",
    ]
)
BRACKETS = st.builds(
    lambda inner, n: f"[{', '.join(inner)}] {n} times", st.lists(MORE, min_size=1, max_size=3), st.integers(2, 5)
)
ITEMS = st.lists(MORE | BRACKETS, min_size=1, max_size=5)


@settings(max_examples=60)
@given(st.lists(MORE, max_size=2), ITEMS, st.lists(MORE | BRACKETS, max_size=2))
def test_random_rows_read_back(before: list[str], across: list[str], after: list[str]) -> None:
    text = ", ".join([*before, f"*{', '.join(['k1', *across])}*", *after])
    assert_reads_back(pattern(f"row 1: {text}"))


@pytest.mark.parametrize(
    "line",
    ["", "Purl.", "Row 1: Knt.", "Row x: Knit.", "Row 1 (RS): K1, (yo in next st."],
)
def test_lines_that_are_no_instructions(line: str) -> None:
    with pytest.raises(InstructionError):
        read_lines([line])


def test_the_second_wing_mirrors_the_first() -> None:
    one = mirrored(pattern("row 1: k1, *yo, ssk, k3, 2/1 rc, m1l, [k1, p1] 2 times*, k2tog\nrow 2: purl"))
    line = "Row 1 (RS): Ssk, *[p1, k1] twice, M1R, 2/1 LC, k3, k2tog, yo; rep from * to last st, k1."
    assert row_lines(one)[0].startswith(line)
    assert same_items(
        mirrored(one).rows[0].items,
        pattern("row 1: k1, *yo, ssk, k3, 2/1 rc, m1l, [k1, p1] 2 times*, k2tog").rows[0].items,
    )


def test_purled_leans_are_mirrored_exactly_and_wraps_are_dropped_first() -> None:
    rows = "row 1: k1 with 2 wraps, *k4*\nrow 2: drop wraps, m1lp, *sssp, p1*, cast on 3\nrow 3: drop wraps, purl"
    one = pattern(rows)
    assert stand_ins(one) == () and mirrored(mirrored(one)) == one
    assert row_lines(mirrored(one))[1:] == [
        "Row 2 (WS): Drop wraps, cast on 3, *p1, p3tog; rep from * to end, M1RP. Each repeat now has 2 sts.",
        "Row 3 (RS): Drop wraps, purl.",
    ]


def test_wraps_are_told_of_once() -> None:
    assert release_lines(pattern("row 1: k3 with 2 wraps\nrow 2: drop wraps, purl")) == []
    assert release_lines(pattern("row 1: k3 with 2 wraps\nrow 2: purl")) == [
        "On row 2, drop the extra wraps of the row before."
    ]


def test_what_has_no_exact_mirror_image_is_known() -> None:
    one = pattern("row 1: *yo, sk2p, yo*\nrow 2: purl", "3 sts")
    assert stand_ins(one) == ("sk2p",)
    assert same_items(mirrored(one).rows[0].items, items("*yo, k3tog, yo*"))
