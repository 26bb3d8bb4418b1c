"""Patterns in the shawl: stitches counted by hand from the start, the edges, the spine and the increases."""

from collections.abc import Iterator

import pytest
from halfhank.grammar.problems.problem import Problem
from halfhank.model.checks.fit_advice import advise, stretches
from halfhank.model.design.design import Design
from halfhank.model.design.resolve import resolve
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.rows.worked import row_table, work
from halfhank.model.stitches.fit import Fit, fitted, needle_of
from halfhank.model.stitches.pattern import patterns_of

from tests.model.stitches import writing

MESH = "row 1: k1, *k1, yo, ssk, k1, k2tog, yo*\nrow 2: purl"
TRIANGLE = """
shape triangle
  garter tab 3 sts 6 rows
  edge 3 sts garter
  spine 1 st
  increase 1 at each edge and 1 at spine every 2 rows
"""


def grown(*lines: str) -> Design:
    """The design of `writing.grown`."""
    return resolve(writing.grown(*lines))


def worked(design: Design) -> tuple[list[WorkedPart], Rows]:
    parts, problem = work(design, 0)
    assert problem is None
    return parts, row_table(StitchMeasures(design), parts)


def fits(design: Design) -> list[Fit]:
    parts, rows = worked(design)
    patterns, needle = patterns_of(StitchMeasures(design)), needle_of(design, rows)
    return [fitted(patterns[one.stitch], one, needle, rows) for one in stretches(parts) if one.stitch in patterns]


def told(design: Design) -> dict[str, Problem]:
    parts, rows = worked(design)
    return {problem.code: problem for problem in advise(design, patterns_of(StitchMeasures(design)), parts, rows)}


def test_stitches_in_each_wing_after_a_neck() -> None:
    """9 + 4 x 16 = 73 after 32 rows.

    Less 3 + 3 edges and 1 spine 66, 33 in each wing: 5 multiples of 6 + 1, and 2 over.
    """
    (fit,) = fits(grown(MESH, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 12 rows'))
    assert [(wing[0].stitches, wing[0].multiples, wing[0].at_edge) for wing in fit.wings] == [(33, 5, 2), (33, 5, 2)]


def test_new_multiples_come_in_from_both_sides() -> None:
    """Each wing gains 1 at the edge and 1 at the spine in two rows.

    2 over at the edge make 6 after 8 rows, 0 at the spine after 12.
    """
    (fit,) = fits(grown(MESH, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 26 rows'))
    assert [(one.row, one.multiples, one.at_edge, one.at_spine) for one in fit.right] == [
        (33, 5, 2, 0),
        (35, 5, 3, 1),
        (37, 5, 4, 2),
        (39, 5, 5, 3),
        (41, 6, 0, 4),
        (43, 6, 1, 5),
        (45, 7, 2, 0),
        (47, 7, 3, 1),
        (49, 7, 4, 2),
        (51, 7, 5, 3),
        (53, 8, 0, 4),
        (55, 8, 1, 5),
        (57, 9, 2, 0),
    ]
    assert all(one.stitches == one.multiples * 6 + 1 + one.at_edge + one.at_spine for one in fit.right)


def test_a_multiple_that_does_not_come_out_is_told_with_its_mend() -> None:
    """33 in each wing, + 2 in two rows: 37 after four rows are 6 x 6 + 1. Or 4 more in each wing."""
    found = told(
        grown(
            MESH,
            "6 sts + 1",
            TRIANGLE,
            'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 2 rows\n  garter 9 ridges',
        )
    )
    problem = found["multiple-over"]
    assert "Row 33" in problem.message and "33 sts in each wing" in problem.message
    assert "5 multiples of 6 + 1" in problem.message and "2 sts over" in problem.message
    assert problem.hint == "start 4 rows later or start with 4 sts more in each wing"


def test_the_mend_may_lie_on_the_last_row_of_the_shawl() -> None:
    """As above, in a shawl of 36 rows: 37 stitches in each wing are there after the last of them."""
    found = told(grown(MESH, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 4 rows'))
    assert found["multiple-over"].hint == "start 4 rows later or start with 4 sts more in each wing"


@pytest.mark.parametrize(
    ("more", "steady"), [("", True), ("  increase 1 at each edge every 2 rows from row 41\n", False)]
)
def test_growth_is_told_only_where_every_repeat_gains_alike(more: str, steady: bool) -> None:
    crescent = f"shape crescent\n  cast on 60 sts\n  increase 1 at each edge every 2 rows\n{more}"
    parts = 'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 24 rows'
    assert ("growth-out-of-step" in told(grown(MESH, "6 sts + 1", crescent, parts))) == steady


def test_a_multiple_that_comes_out_is_not_told() -> None:
    parts = 'part "neck"\n  garter 18 ridges\npart "lace"\n  lace 2 rows'
    assert set(told(grown(MESH, "6 sts + 1", TRIANGLE, parts))) == {"yarn-over-beside-increase"}


def test_a_pattern_wider_than_the_wing_is_told() -> None:
    """Before row 3 there are 13 stitches: 3 in each wing."""
    found = told(grown(MESH, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 1 ridge\npart "lace"\n  lace 2 rows'))
    assert "3 sts in each wing" in found["no-multiple-fits"].message
    assert "at least 7 sts" in found["no-multiple-fits"].message


def test_a_rectangle_is_one_panel_between_its_edges() -> None:
    rectangle = "shape rectangle\n  cast on 60 sts\n  edge 4 sts garter"
    (fit,) = fits(grown(MESH, "6 sts + 1", rectangle, 'part "one"\n  lace 4 rows'))
    assert len(fit.wings) == 1 and fit.right[0][1:] == (52, 8, 2, 1, 0)
    found = told(grown(MESH, "6 sts + 1", rectangle, 'part "one"\n  lace 4 rows'))
    assert found["multiple-over"].hint == "start with 3 sts more"


def test_a_gain_out_of_step_with_the_multiple() -> None:
    """The case of the trade: 4 at each side in an 8-row repeat against a multiple of 6 comes round after 24 rows."""
    eight = "row 1: k1, *k1, yo, ssk, k1, k2tog, yo*\nrows 2, 4, 6, 8: purl\nrows 3, 5, 7: knit"
    found = told(grown(eight, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 18 ridges\npart "lace"\n  lace 48 rows'))
    message = found["growth-out-of-step"].message
    assert "8 rows gains 4 sts" in message and "multiple is 6" in message and "every 24 rows" in message


@pytest.mark.parametrize("rows", [6, 12])
def test_a_gain_in_step_is_not_told(rows: int) -> None:
    """12 rows gain 6 at each side: one multiple in each repeat."""
    twelve = "row 1: k1, *k1, yo, ssk, k1, k2tog, yo*\nrows 2-12: knit"
    tail = f'part "neck"\n  garter 18 ridges\npart "lace"\n  lace {2 * rows} rows'
    assert "growth-out-of-step" not in told(grown(twelve, "6 sts + 1", TRIANGLE, tail))


def test_a_band_that_ends_inside_its_repeat() -> None:
    four = "row 1: k1, *k1, yo, ssk, k1, k2tog, yo*\nrows 2, 4: purl\nrow 3: knit"
    found = told(grown(four, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 18 ridges\npart "lace"\n  lace 10 rows'))
    problem = found["ends-inside-repeat"]
    assert "4 rows" in problem.message and "row 2" in problem.message and problem.hint == "work 8 or 12 rows"


def test_a_yarn_over_beside_the_increase_at_the_spine() -> None:
    """The stars end with a yarn over at the spine's side, where the line increases on the same row."""
    parts = 'part "neck"\n  garter 18 ridges\npart "lace"\n  lace 2 rows'
    beside = grown(
        "row 1: k1, *yo, k2tog*\nrow 2: purl".replace("*yo, k2tog*", "*k2tog, yo*"), "2 sts + 1", TRIANGLE, parts
    )
    message = told(beside)["yarn-over-beside-increase"].message
    assert "Row 37" in message and "spine" in message
    apart = grown("row 1: *k1, yo, k2tog*, k1\nrow 2: purl", "3 sts + 1", TRIANGLE, parts)
    assert "yarn-over-beside-increase" not in told(apart)


def test_wings_that_cannot_mirror_one_another() -> None:
    uneven = TRIANGLE.replace("garter tab 3 sts 6 rows", "cast on 10 sts")
    found = told(grown(MESH, "6 sts + 1", uneven, 'part "neck"\n  garter 16 ridges\npart "lace"\n  lace 2 rows'))
    message = found["uneven-wings"].message
    assert "74 sts" in message and "edges 3 + 3" in message and "33 and 34" in message


def test_an_odd_repeat_is_told() -> None:
    three = "row 1: k1, *k1, yo, ssk, k1, k2tog, yo*\nrow 2: purl\nrow 3: knit"
    found = told(grown(three, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 18 ridges\npart "lace"\n  lace 12 rows'))
    assert "3 rows" in found["odd-repeat"].message


def test_edges_spine_and_wings_sum_to_every_row() -> None:
    lines = TRIANGLE + "  increase 3 evenly every 10 rows\n  increase 1 at lower edge every 3 rows\n"
    design = grown(
        MESH, "6 sts + 1", lines.replace("triangle", "crescent"), 'part "one"\n  garter 40 rows\n  lace 30 rows'
    )
    _, rows = worked(design)
    needle = needle_of(design, rows)
    sums = [
        2 * needle.edge + needle.spine + right + left for right, left in zip(needle.right, needle.left, strict=True)
    ]
    assert sums == list(rows.stitches)


NARROW = """shape asymmetric
  cast on 3 sts
  edge 2 sts garter
  increase 1 at lower edge every row
"""


def test_several_increases_at_an_edge_have_their_stitches_beside_the_pattern() -> None:
    """40 sts less 2 x 3: two increases each have a stitch between them, so 1 at each side; 32 left: 5 x 6 + 1 and 1."""
    crescent = "shape crescent\n  cast on 40 sts\n  edge 3 sts\n  increase 2 at each edge every 2 rows"
    (fit,) = fits(grown(MESH, "6 sts + 1", crescent, 'part "one"\n  lace 2 rows'))
    assert fit.right[0][1:] == (34, 5, 2, 1, 2)
    found = told(grown(MESH, "6 sts + 1", crescent, 'part "one"\n  lace 2 rows'))
    assert "2 sts beside the pattern for the shaping, and 1 st over" in found["multiple-over"].message


def test_decreases_have_their_stitches_beside_the_pattern() -> None:
    """One a row at the lower edge, in two rows: over 2, then 2 of those left, so 3; 25 - 3 = 22: 3 x 6 + 1 and 3."""
    piece = "shape asymmetric\n  cast on 25 sts\n  decrease 1 at lower edge every row"
    (fit,) = fits(grown(MESH, "6 sts + 1", piece, 'part "one"\n  lace 2 rows'))
    assert fit.right[0][1:] == (25, 3, 6, 0, 3)


def test_edges_grow_to_their_width_as_stitches_come_in() -> None:
    """3 stitches are all edge; the fourth fills up the edges, and 72 leave 68 between the edges."""
    design = grown(MESH, "6 sts + 1", NARROW, 'part "one"\n  garter 69 rows\n  lace 2 rows')
    _, rows = worked(design)
    needle = needle_of(design, rows)
    assert needle.right[:4] == (0, 0, 1, 2) and rows.stitches[69] == 72
    (fit,) = fits(design)
    assert fit.right[0][1:] == (68, 11, 1, 0, 0)


def test_wings_begin_once_edges_and_spine_are_full() -> None:
    """3 of 5; each row adds two in the first wing and one in the second, which still owe one to the edges each."""
    lines = "shape triangle\n  cast on 3 sts\n  edge 2 sts garter\n  spine 1 st\n"
    lines += (
        "  increase 2 at lower edge every row\n  increase 1 at upper edge every row\n  increase 1 at spine every row"
    )
    design = grown(MESH, "6 sts + 1", lines, 'part "one"\n  garter 20 rows')
    _, rows = worked(design)
    needle = needle_of(design, rows)
    assert (needle.right[:3], needle.left[:3]) == ((0, 2, 5), (0, 1, 3))
    sums = [right + left for right, left in zip(needle.right, needle.left, strict=True)]
    assert sums == [max(0, live - 5) for live in rows.stitches]


def test_rows_that_shrink_below_their_edges_have_nothing_between_them() -> None:
    lines = NARROW.replace("cast on 3", "cast on 20").replace("increase 1", "decrease 1")
    design = grown(MESH, "6 sts + 1", lines, 'part "one"\n  garter 18 rows')
    _, rows = worked(design)
    assert needle_of(design, rows).right[-4:] == (1, 0, 0, 0)


def _lengths(found: list[Fit]) -> Iterator[int]:
    return (fit.stretch.rows for fit in found)


def test_every_pass_of_a_repeat_is_fitted_anew() -> None:
    parts = 'part "one"\n  repeat 3 times\n    lace 4, 6 rows\n    garter 2 ridges'
    found = fits(grown(MESH, "6 sts + 1", TRIANGLE, 'part "neck"\n  garter 16 ridges\n' + parts))
    assert list(_lengths(found)) == [4, 6, 4]
    assert [fit.right[0].row for fit in found] == [33, 41, 51]
