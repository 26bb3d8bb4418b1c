"""What a technical editor finds in rows that can be worked."""

from halfhank.grammar.problems.problem import ADVICE, Problem
from halfhank.model.checks.technical_edit import edit
from halfhank.model.stitches.pattern import pattern_of
from halfhank.model.stitches.row_checks import check_pattern

from tests.model.stitches.test_checks import GOOD
from tests.model.stitches.writing import stitch


def found(rows: str, multiple: str) -> list[Problem]:
    pattern = pattern_of(stitch(rows, multiple))
    assert pattern and not check_pattern(pattern)
    problems = list(edit(pattern))
    assert all(problem.severity == ADVICE and problem.span for problem in problems)
    return problems


def words(rows: str, problem: Problem) -> str:
    """What a problem points at."""
    assert problem.span
    line = ["", *["  " + one.strip() for one in rows.strip().splitlines()]][problem.span.line - 8]
    return line[problem.span.column - 1 : problem.span.end - 1]


def test_a_double_decrease_astride_the_box() -> None:
    (problem,) = found(GOOD, "8 sts + 1")
    assert problem.code == "astride-the-line" and "Row 7" in problem.message
    assert words(GOOD, problem) in ("k2tog", "s2kp", "ssk")


def test_a_lace_within_its_box_is_left_alone() -> None:
    assert (
        found(
            "row 1: k1, *yo, k2, s2kp, k2, yo, k1*\nrow 2: purl\n"
            "row 3: k1, *k1, yo, k1, s2kp, k1, yo, k2*\nrow 4: purl",
            "8 sts + 1",
        )
        == []
    )


def test_a_double_yarn_over_worked_alike_on_the_next_row() -> None:
    rows = "row 1: *k2tog, yo twice, ssk*\nrow 2: purl"
    (problem,) = found(rows, "4 sts")
    assert problem.code == "double-yarn-over" and words(rows, problem) == "yo twice" and "Row 2" in problem.message


def test_a_double_yarn_over_worked_as_two() -> None:
    """The trade's way: knit one loop, purl the other."""
    assert found("row 1: *k2tog, yo twice, ssk*\nrow 2: *p1, p1, k1, p1*", "4 sts") == []


def test_a_double_yarn_over_taken_together() -> None:
    rows = "row 1: *k2, yo, yo*\nrow 2: *k2tog, k2*"
    assert [one.code for one in found(rows + "\nrow 3: *k1, k2tog*\nrow 4: purl", "2 sts")] == ["double-yarn-over"]


def test_yarn_overs_that_meet_at_the_line_of_the_multiple() -> None:
    rows = "row 1: *yo, k1, s2kp, k1, yo*, k1\nrow 2: *k1, p4*, k1"
    codes = [one.code for one in found(rows, "5 sts + 1")]
    assert "yarn-overs-meet" in codes


def test_a_yarn_over_without_its_partner_in_the_partial_repeat() -> None:
    rows = "row 1: k1, yo, *k2, yo, k2tog*, k2tog, k2\nrow 2: purl"
    (problem,) = found(rows, "4 sts + 1")
    assert problem.code == "unpaired-outside" and words(rows, problem) == "yo"
