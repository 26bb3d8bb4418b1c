"""The checks of a pattern's rows: what is found, where, and with which counts."""

import pytest
from halfhank.grammar.problems.problem import ADVICE, MISTAKE, Problem
from halfhank.model.stitches.pattern import pattern_of
from halfhank.model.stitches.row_checks import check_pattern

from tests.model.stitches.writing import stitch

# A lace of our own over 8 + 1 and 12 rows, counted by hand: every right-side row takes 8 and leaves 8.
GOOD = """
row 1: k1, *yo, k2, s2kp, k2, yo, k1*
rows 2, 4, 6, 8, 10, 12: purl
row 3: k1, *k1, yo, k1, s2kp, k1, yo, k2*
row 5: k1, *k2, yo, s2kp, yo, k3*
row 7: k2tog, *k2, yo, k1, yo, k2, s2kp; rep from * to end
row 9: k1, *yo, ssk, k3, k2tog, yo, k1*
row 11: k1, *k1, yo, ssk, k1, k2tog, yo, k2*
"""


def problems(rows: str, multiple: str = "") -> tuple[Problem, ...]:
    found = pattern_of(stitch(rows, multiple))
    assert found
    return check_pattern(found)


def told(rows: str, multiple: str, line: str) -> Problem:
    """The one problem, which must stand on the row that starts with `line` (or on the multiple)."""
    found = problems(rows, multiple)
    assert len(found) == 1, found
    source = ["multiple", *[one.strip() for one in rows.strip().splitlines()]]
    assert found[0].span and source[found[0].span.line - 8].startswith(line), found
    return found[0]


def pointed(rows: str, multiple: str) -> str:
    """The words that the one problem points at."""
    found = problems(rows, multiple)
    assert len(found) == 1 and found[0].span, found
    span = found[0].span
    source = ["  multiple of " + multiple, *["  " + one.strip() for one in rows.strip().splitlines()]]
    return source[span.line - 8 + (0 if multiple else 1)][span.column - 1 : span.end - 1]


GOOD_7 = "k2tog, *k2, yo, k1, yo, k2, s2kp*, k2, yo, k1, yo, k2, ssk"
GOOD = GOOD.replace("k2tog, *k2, yo, k1, yo, k2, s2kp; rep from * to end", GOOD_7)


def test_a_lace_that_balances_is_left_alone() -> None:
    assert problems(GOOD, "8 sts + 1") == ()
    assert problems(GOOD) == ()


@pytest.mark.parametrize(
    ("rows", "multiple"),
    [
        ("row 1: *k1, sl1*, k1\nrow 2: *p1 tbl, k1*, p1", "2 sts + 1"),
        ("row 1: *k2tog, yo twice, ssk*\nrow 2: purl", "4 sts"),
        ("row 1: *k2tog, yo*\nrow 2: purl\nrow 3: *k4, 2/2 rc*\nrow 4: purl", "8 sts"),
        ("row 1: *k4, yo*\nrow 2: purl\nrow 3: *k3, k2tog*\nrow 4: purl", "4 sts"),
        ("row 1: k3, *yo, k2tog, k6*, yo, k2tog, k2\nrow 2: purl", "8 sts + 7"),
        ("row 1: p2, k4, p2\nrow 2: k2, 2/2 rc, k2", ""),
        ("row 1: *[k1, yo, k1] in 1, p3tog*\nrow 2: purl", "4 sts"),
        ("row 1: *[k1, p1, k1] in 1*\nrow 2: purl\nrow 3: *k3tog*\nrow 4: purl", "1 st"),
        ("row 1: knit\nrow 2: purl", ""),
        ("row 1: *k2tog, yo*, k3\nrow 2: purl\nrow 3: k1, *k1, yo, ssk, k3*, k2", "6 sts + 3"),
    ],
)
def test_rows_that_can_be_worked(rows: str, multiple: str) -> None:
    assert problems(rows, multiple) == ()


# What is planted, the multiple written, the code, the words pointed at, and counts that must be said.
PLANTED = [
    ("k2, yo, k1*\n", "k2, k1*\n", "row-unbalanced", "s2kp", ("takes 8", "leaves 7", "row 3 needs")),
    ("yo, s2kp, yo, k3*", "yo, s2kp, yo, yo, k3*", "row-unbalanced", "yo", ("takes 8", "leaves 9", "row 7 needs")),
    (
        "k1, *k2, yo, s2kp",
        "k1, *k3, yo, s2kp",
        "row-count",
        "*k3, yo, s2kp, yo, k3*",
        ("Row 5", "9 sts + 1", "8 sts + 1"),
    ),
    ("k1, *yo, ssk, k3", "k2, *yo, ssk, k3", "row-count", "k2", ("Row 9", "8 sts + 2", "8 sts + 1")),
    (
        "ssk, k1, k2tog, yo, k2*",
        "ssk, k1, yo, k2*",
        "row-count",
        "*k1, yo, ssk, k1, yo, k2*",
        ("Row 11", "6 sts", "8 sts"),
    ),
    ("ssk, k1, k2tog, yo, k2*", "ssk, k1, k2tog, k2*", "row-unbalanced", "k2tog", ("Row 11 takes 8 and leaves 7",)),
    ("yo, k2, ssk\n", "yo, k4\n", "row-unbalanced", "yo", ("Row 7", "takes 9 and leaves 10", "outside")),
    ("row 9: k1, *yo, ssk, k3, k2tog, yo, k1*", "row 9: k2, yo, ssk, k2", "no-stars", "k2, yo, ssk, k2", ("only 6",)),
    ("k1, *yo, k2, s2kp, k2, yo, k1*", "k1, *yo*", "stars-take-nothing", "*yo*", ()),
    ("k1, *k2, yo, s2kp", "k1, *[k2, ssk] in 1, k1, yo, s2kp", "in-one-item", "ssk", ()),
]


@pytest.mark.parametrize(("good", "bad", "code", "words", "said"), PLANTED)
def test_a_planted_mistake_is_named_at_its_place(
    good: str, bad: str, code: str, words: str, said: tuple[str, ...]
) -> None:
    planted = GOOD.replace(good, bad, 1)
    assert planted != GOOD
    (found,) = problems(planted, "8 sts + 1")
    assert (found.code, found.severity) == (code, MISTAKE)
    assert pointed(planted, "8 sts + 1") == words
    assert all(part in found.message for part in said), found.message


def test_of_a_multiple_and_several_rows_the_multiple_is_wrong() -> None:
    found = told(GOOD, "6 sts + 1", "multiple")
    assert found.code == "wrong-multiple" and found.hint == "write `multiple of 8 sts + 1`"
    assert told(GOOD, "8 sts + 3", "multiple").hint == "write `multiple of 8 sts + 1`"


def test_of_a_multiple_and_one_row_the_row_is_shown_with_both_counts() -> None:
    found = told("row 1: k1, *yo, k3, s2kp, k2, yo, k1*\nrow 2: purl", "8 sts + 1", "row 1")
    assert "9 sts + 1" in found.message and "8 sts + 1" in found.message
    assert found.hint == "remove 1 st between the stars"


@pytest.mark.parametrize(("row", "hint"), [("k7", "add 1 st"), ("k6", "add 2 sts")])
def test_what_is_missing_is_said_in_the_singular_and_the_plural(row: str, hint: str) -> None:
    assert told(f"row 1: *{row}*\nrow 2: purl\nrow 3: *k8*", "8 sts", "row 1").hint == f"{hint} between the stars"


def test_a_row_that_does_not_fit_is_taken_as_it_is_meant_by_the_rows_after_it() -> None:
    """A stitch too many before the stars; each of their two passes adds one stitch, so that row 2 finds 8."""
    rows = "row 1: k1, *k3, yo*\nrow 2: *p8*\nrow 3: *k2, k2tog*\nrow 4: purl"
    assert told(rows, "6 sts", "row 1").code == "row-count"


def test_what_is_made_and_what_is_decreased_is_counted_by_hand() -> None:
    """Between the stars of row 1: one yarn over makes 1; k2tog takes 1 away and k3tog 2."""
    found = told("row 1: *k2tog, yo, k3tog, k3*\nrow 2: purl", "8 sts", "row 1")
    assert found.message.startswith("Row 1 takes 8 and leaves 6 between its stars: 1 made, 3 decreased")


def test_rows_that_never_come_back_to_the_start() -> None:
    found = told("row 1: *k3, yo*\nrow 2: purl\nrow 3: *k4, yo*\nrow 4: purl", "3 sts", "row 4")
    assert found.code == "count-not-kept"
    assert "5 sts" in found.message and "3 sts" in found.message


def test_a_count_that_grows_by_whole_multiples_is_only_told() -> None:
    found = told("row 1: *k2, [yo, k1] 2 times*\nrow 2: purl\nrow 3: *k3, yo, k3, yo*", "4 sts", "row 3")
    assert (found.code, found.severity) == ("count-changes", ADVICE)
    assert "8 sts" in found.message


def test_two_mistakes_are_two_problems_and_no_cascade() -> None:
    twice = GOOD.replace("k2, yo, k1*\n", "k2, k1*\n", 1).replace("k1, *yo, ssk, k3", "k1, *yo, ssk, k4")
    assert [one.code for one in problems(twice, "8 sts + 1")] == ["row-unbalanced", "row-count"]


def test_huge_numbers_are_told_and_never_walked() -> None:
    found = told("row 1: *[[k999999999] 999999999 times] 999999999 times*", "8 sts", "row 1")
    assert found.code == "row-too-wide"


@pytest.mark.parametrize(
    ("row", "wide"),
    [("k20000", False), ("k20001", True), ("[k1, yo] 10000 times", False), ("[k1, yo] 10001 times", True)],
)
def test_a_row_takes_and_makes_at_most_twenty_thousand(row: str, wide: bool) -> None:
    assert ("row-too-wide" in [one.code for one in problems(f"row 1: {row}")]) == wide


def test_with_a_row_missing_nothing_is_said_of_what_follows_it() -> None:
    pattern = pattern_of(stitch("row 1: *k4, yo*\nrow 2: purl\nrow 3: *k3, k2tog*\nrow 4: purl", "4 sts"))
    assert pattern and check_pattern(pattern) == ()
    assert check_pattern(pattern._replace(rows=(pattern.rows[0], *pattern.rows[3:]))) == ()
