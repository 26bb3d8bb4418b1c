"""What is said of rows and counts that are nearly right: the hint keeps what the knitter meant."""

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Problem

TEXT = """\
shawl "Skerry"
yarn
  skein 100 g 380 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch mesh
  row 1: knit
shape triangle
  cast on 9 sts
part "body"
  garter 4 rows
  repeat 2 times
    mesh 4 rows
"""


def _problems(line: str, written: str) -> tuple[Problem, ...]:
    assert line + "\n" in TEXT
    return parse(TEXT.replace(line + "\n", written + "\n")).problems


@pytest.mark.parametrize(
    ("row", "sign"),
    [("k1, *yo, k2tog", 4), ("k1, yo, k2tog*", 13), ("k1, *[yo, k2tog*", 5), ("*k1, [p1] 2 times*, [k1", 20)],
)
def test_the_sign_that_stands_alone_is_pointed_at(row: str, sign: int) -> None:
    (problem,) = _problems("  row 1: knit", f"  row 1: {row}")
    assert problem.code == "unpaired-sign" and problem.span
    assert problem.span.column == len("  row 1: ") + sign + 1


def test_a_line_whose_signs_are_paired_may_be_too_short_all_the_same() -> None:
    (problem,) = _problems("  row 1: knit", "  row 1: *k1, p1*, [k1]")
    assert problem.code == "line-too-short"


@pytest.mark.parametrize(
    ("row", "hint"),
    [
        ("k1, sl1 wyib", "remove it: the yarn is at the back where nothing is said"),
        ("k1, skp, k1", "write `ssk`"),
        ("k1, skpo, k1", "write `ssk`"),
        ("2/2 rc tbl", "remove it"),
        ("[k1, p1] 2 times tbl", "remove it"),
        ("2/2 lc twice", "remove it"),
        ("k1 (yo) k1", "write `yo`"),
        ("k1, (yo, k1) 3 times", "write `[yo, k1] 3 times`"),
        ("k1, (yo, k1) twice, k2", "write `[yo, k1] 2 times`"),
        ("k1, (k1, yo, k1) in 1", "write `[k1, yo, k1] in 1`"),
        ("k1, yo 3 times, k1", "write `[yo] 3 times`"),
        ("k2tog 4 times", "write `[k2tog] 4 times`"),
        ("k1]", "remove it, or open it with `[`"),
        ("k1, yo] 2 times", "remove it, or open it with `[`"),
    ],
)
def test_rows(row: str, hint: str) -> None:
    (problem,) = _problems("  row 1: knit", f"  row 1: {row}")
    assert problem.hint == hint
    if hint.startswith("write `") and problem.span:
        start, end = problem.span.column - 1, problem.span.end - 1
        line = f"  row 1: {row}"
        mended = line[:start] + hint.removeprefix("write `").removesuffix("`") + line[end:]
        assert _problems("  row 1: knit", mended) == ()


@pytest.mark.parametrize(
    ("line", "written", "hint"),
    [
        ("  garter 4 rows", "  garter 2,5 rows", None),
        ("  garter 4 rows", "  garter 1,000 rows", "write `1000`"),
        ("    mesh 4 rows", "    mesh 2,5 rows", "write `2, 5`"),
        ("    mesh 4 rows", "    mesh 1,000 rows", "write `1, 000` or `1000`"),
        ("  cast on 9 sts", "  cast on 1,009 sts", "write `1009`"),
        ("  skein 100 g 380 m", "  skein 100 g 1,300 m", "write `1.300` or `1300`"),
    ],
)
def test_commas_in_numbers(line: str, written: str, hint: str) -> None:
    (problem,) = _problems(line, written)
    assert (problem.code, problem.hint) == ("comma-number", hint)


@pytest.mark.parametrize(
    ("row", "hint"),
    [
        ("bo, k1", "write `bind off` with its number, as in `bind off 3`"),
        ("bindoff, k1", "write `bind off` with its number, as in `bind off 3`"),
        ("co, k1", "write `cast on` with its number, as in `cast on 3`"),
        ("bind off 3 stitches, k1", "remove it: the number is of stitches"),
        ("m1pl, k1", "write `m1lp`"),
        ("M1RP, k1", "write `m1rp`"),
        ("cddp, p1", "write `s2pp`"),
    ],
)
def test_what_is_meant_by_items_of_several_words_and_by_purled_ones(row: str, hint: str) -> None:
    (problem,) = _problems("  row 1: knit", f"  row 1: {row}")
    assert (problem.code, problem.hint) == ("unknown-item", hint)
