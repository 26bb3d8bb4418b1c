"""Even sequences that the yarn ends are told, with an uneven list of the same total."""

import pytest
from halfhank.grammar.parse import parse
from halfhank.model.design.resolve import resolve
from halfhank.model.marks_and_stops.sequences import check_even_sequence, uneven

TEXT = """shawl "Sluice"
yarn "plain"
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch mesh
  multiple of 2 sts
  row 1: *yo, k2tog*
  row 2: purl
shape triangle
  garter tab 3 sts 6 rows
  increase 1 at each edge and 1 at spine every 2 rows
part "body"
  repeat as yarn allows
    mesh 8 rows
    garter 4 ridges
part "border"
  garter 4 ridges
"""


def told(old: str = "", new: str = ""):
    parsed = parse(TEXT.replace(old, new) if old else TEXT)
    assert parsed.description is not None and not parsed.problems
    return check_even_sequence(resolve(parsed.description))


def test_an_even_sequence_is_told_at_its_repeat_with_a_list_of_the_same_total() -> None:
    (problem,) = told()
    assert (problem.code, problem.severity, problem.span.line) == ("even-sequence", "advice", 15)
    assert "`garter 3, 5, 4 ridges`" in problem.hint
    assert sum((3, 5, 4)) == 3 * 4


@pytest.mark.parametrize(
    "old, new",
    [
        ("    garter 4 ridges\n", "    garter 3, 5, 4 ridges\n"),
        ("    mesh 8 rows\n", "    mesh 8, 6 rows\n"),
        ("    mesh 8 rows\n", "    garter 8 rows\n"),
        ("repeat as yarn allows", "repeat 5 times"),
        ("    mesh 8 rows\n", "    repeat 2 times\n      mesh 4, 6 rows\n      garter 1 ridge\n"),
        ('part "border"\n  garter 4 ridges\n', "turn back\n"),
    ],
)
def test_uneven_plain_and_counted_sequences_are_not(old: str, new: str) -> None:
    assert told(old, new) == ()


def test_a_list_of_equal_counts_is_even() -> None:
    assert len(told("    garter 4 ridges\n", "    garter 4, 4 ridges\n")) == 1


def test_drop_rows_make_a_sequence() -> None:
    (problem,) = told("    mesh 8 rows\n", "    drop 2 wraps\n")
    assert "garter 3, 5, 4 ridges" in problem.hint


def test_patterned_bands_change_by_whole_repeats() -> None:
    (problem,) = told("    garter 4 ridges\n", "    garter 1 ridge\n")
    assert "`mesh 6, 10, 8 rows`" in problem.hint


def test_nothing_is_proposed_where_nothing_can_be_varied() -> None:
    (problem,) = told("    mesh 8 rows\n    garter 4 ridges\n", "    mesh 2 rows\n    garter 1 ridge\n")
    assert problem.hint is None


@pytest.mark.parametrize("count", range(2, 60))
def test_the_proposed_list_keeps_the_total_and_varies(count: int) -> None:
    varied = uneven(count)
    assert varied is not None and sum(varied) == 3 * count and len(set(varied)) == 3 and min(varied) > 0
    assert uneven(1) is None


@pytest.mark.parametrize(("count", "varied"), [(13, (10, 16, 13)), (15, (11, 19, 15)), (2, (1, 3, 2))])
def test_the_proposed_list_varies_by_a_quarter(count: int, varied: tuple[int, int, int]) -> None:
    """A quarter of 13 is 3.25, of 15 it is 3.75; at least one."""
    assert uneven(count) == varied
