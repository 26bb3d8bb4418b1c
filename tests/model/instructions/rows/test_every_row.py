"""Rows written out, against rows worked out by hand; whether they can be knitted is shown by `tests/knitter`."""

import re

import pytest
from halfhank.model.instructions.rows.evenly import decrease_evenly
from halfhank.model.instructions.rows.every_row import every_row
from halfhank.model.instructions.rows.row_notation import notation
from halfhank.model.instructions.rows.segments import FIRST_EDGE, LAST_EDGE, WING, Line, Segment, stitch_item

from tests.whole import planned

FRAME = """shawl "By hand"
yarn
  skein 1000 g 40000 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
{stitches}shape {shape}
part "all"
{bands}
bind off standard
"""
LACE = "stitch lace\n  multiple of 4 sts + 1\n  row 1: k1, *yo, s2kp, yo, k1*\n  row 2: purl\n"


def rows(shape: str, bands: str, stitches: str = "") -> dict[int, str]:
    """Each row with its count, by number."""
    text = FRAME.format(shape=_set_in(shape), bands=_set_in(bands, "  "), stitches=stitches)
    plan = planned(text).plan
    assert plan
    return {one.row: f"{notation(one.items)} ({one.stitches})" for one in every_row(plan)}


def _set_in(text: str, first: str = "") -> str:
    return first + re.sub(r"; *", "\n  ", text)


def test_a_triangle_from_the_neck() -> None:
    """Four more every right-side row: one inside each edge of 3, one on each side of the spine."""
    found = rows(
        "triangle; garter tab 3 sts 6 rows; edge 3 sts; increase 1 at each edge and 1 at spine every 2 rows",
        "garter 16 ridges; lace 4 rows",
        LACE.replace("4 sts + 1", "2 sts + 1").replace("s2kp, yo, k1", "k2tog"),
    )
    assert found[1] == "k3, m1r, k1, yo, k1, yo, k1, m1l, k3 (13)"
    assert found[2] == "knit (13)"
    assert found[31] == "k3, m1r, k31, yo, k1, yo, k31, m1l, k3 (73)"
    assert found[33] == "k3, m1r, k1, [yo, k2tog] 16 times, yo, k1, yo, [ssk, yo] 16 times, k1, m1l, k3 (77)"
    assert found[34] == "k3, p71, k3 (77)"
    assert found[35] == "k3, m1r, k2, [yo, k2tog] 16 times, k1, yo, k1, yo, k1, [ssk, yo] 16 times, k2, m1l, k3 (81)"


def test_several_at_one_edge_have_a_stitch_between_them() -> None:
    """The wing's, which are kept out of a pattern; on wrong-side rows the left edge comes first."""
    shape = "crescent; cast on 31 sts; edge 3 sts; increase 3 at each edge every 2 rows"
    shape += "; increase 1 at each edge every 2 rows from row 2"
    found = rows(shape, "garter 2 rows; stockinette 2 rows")
    assert found[1] == "k3, m1r, k1, m1r, k1, m1r, k21, m1l, k1, m1l, k1, m1l, k3 (37)"
    assert found[2] == "k3, m1l, k31, m1r, k3 (39)"
    assert found[4] == "k3, m1lp, p39, m1rp, k3 (47)"
    lace = rows(shape, "lace 2 rows", LACE)
    assert lace[1] == "k3, m1r, k1, m1r, k1, m1r, k1, [yo, s2kp, yo, k1] 5 times, m1l, k1, m1l, k1, m1l, k3 (37)"


@pytest.mark.parametrize(
    ("named", "row"),
    [
        ("yo", "k2, yo, k16, yo, k2 (22)"),
        ("kfb", "k2, kfb, k14, kfb, k2 (22)"),
        ("m1", "k2, m1r, k16, m1l, k2 (22)"),
    ],
)
def test_increases_as_named(named: str, row: str) -> None:
    assert (
        rows(f"crescent; cast on 20 sts; edge 2 sts; increase 1 {named} at each edge every 2 rows", "garter 2 rows")[1]
        == row
    )


@pytest.mark.parametrize(
    ("named", "row"),
    [
        ("1", "k2, ssk, k12, k2tog, k2 (18)"),
        ("1 k2tog", "k2, k2tog, k12, k2tog, k2 (18)"),
        ("2", "k2, [ssk] 2 times, k8, [k2tog] 2 times, k2 (16)"),
        ("2 s2kp", "k2, s2kp, k10, s2kp, k2 (16)"),
        ("5", "bind off 5, k10, bind off 5 (10)"),
    ],
)
def test_decreases_as_named(named: str, row: str) -> None:
    assert (
        rows(f"crescent; cast on 20 sts; edge 2 sts; decrease {named} at each edge every 2 rows", "garter 2 rows")[1]
        == row
    )


def test_purled_rows_have_the_purl_form() -> None:
    found = rows("crescent; cast on 20 sts; decrease 1 at each edge every row until 10 sts", "stockinette 2 rows")
    assert found[1] == "ssk, k16, k2tog (18)" and found[2] == "p2tog, p14, ssp (16)"


def test_decreases_at_the_spine() -> None:
    shape = "triangle; cast on 25 sts; edge 2 sts; decrease {} at spine every 2 rows"
    assert rows(shape.format("1"), "garter 2 rows")[1] == "k10, k2tog, k1, ssk, k10 (23)"
    assert rows(shape.format("2 s2kp"), "garter 2 rows")[1] == "k11, s2kp, k11 (23)"
    assert rows(shape.format("2 s2kp"), "stockinette 4 rows")[3] == "k10, s2kp, k10 (21)"


def test_decreases_are_never_taken_from_a_pattern() -> None:
    """21 sts hold five repeats of 4 + 1; in two rows one st each is decreased, worked over 2 and then 2 of those left:
    3 sts must lie beside the pattern, which leaves 18 for 4 repeats of 4 + 1."""
    found = rows("asymmetric; cast on 21 sts; decrease 1 at lower edge every row until 9 sts", "lace 4 rows", LACE)
    assert found[1] == "ssk, k3, [yo, s2kp, yo, k1] 4 times (20)"
    assert found[2] == "p18, ssp (19)"
    for row, text in found.items():
        assert int(re.findall(r"\((\d+)\)", text)[0]) == 21 - row


def test_saw_teeth_are_bound_off_at_the_very_edge() -> None:
    """On a right-side row at its start, on a wrong-side row at its end; after that no strand lies beside the stitch."""
    shape = "asymmetric; cast on 6 sts; increase 1 at lower edge every row"
    shape += "; bind off 4 at lower edge every {} rows from row {}"
    right = rows(shape.format(6, 7), "garter 8 rows")
    assert right[7] == "bind off 4, k1, m1r, k7 (9)" and right[8] == "k8, m1r, k1 (10)"
    wrong = rows(shape.format(6, 6), "garter 8 rows")
    assert wrong[6] == "k6, m1r, k1, bind off 4 (8)" and wrong[7] == "k2, m1r, k6 (9)"


def test_many_at_once_are_cast_on() -> None:
    found = rows(
        "asymmetric; cast on 12 sts; increase 8 at lower edge every 8 rows; increase 4 at upper edge from row 2",
        "garter 2 rows",
    )
    assert found[1] == "cast on 8, k12 (20)"
    assert found[2] == "k1, m1l, k1, m1l, k1, m1l, k1, m1l, k16 (24)"


def test_elongated_rows_and_their_release() -> None:
    found = rows("crescent; cast on 20 sts; edge 2 sts; increase 1 at each edge every 2 rows", "drop 3 wraps")
    assert found[1] == "k2 with 3 wraps, m1r, k16 with 3 wraps, m1l, k2 with 3 wraps (22)"
    assert found[2] == "drop wraps, knit (22)"


def test_evenly() -> None:
    shape = "half-circle; cast on {} sts; edge 2 sts; increase {} evenly every 8 rows"
    assert rows(shape.format(24, 4), "garter 2 rows")[1] == "k4, m1, [k5, m1] 3 times, k5 (28)"
    assert rows(shape.format(24, "4 kfb"), "garter 2 rows")[1] == "k4, kfb, [k4, kfb] 3 times, k4 (28)"
    assert (
        rows("half-circle; cast on 4 sts; increase 8 evenly", "garter 2 rows")[1] == "[[k1, p1, k1] in 1] 4 times (12)"
    )


def test_a_pattern_that_changes_its_count_is_counted_as_it_is() -> None:
    stitches = "stitch holes\n  multiple of 2 sts\n  row 1: *k1, yo, k1*\n  row 2: *p2tog, p1*\n"
    found = rows("rectangle; cast on 10 sts", "holes 3 rows; garter 1 row", stitches)
    assert found[1] == "[k1, yo, k1] 5 times (15)" and found[2] == "[p2tog, p1] 5 times (10)"
    assert found[3] == "knit (10)", "the band ends inside the repeat: its last row is worked in the fill stitch"
    assert found[4] == "knit (10)"


def test_a_pattern_without_rows_is_named() -> None:
    found = rows(
        "crescent; cast on 20 sts; edge 2 sts; increase 1 at each edge every 2 rows",
        "fabric 1 row",
        "stitch fabric\n  gauge 20 sts 30 rows over 10 cm\n",
    )
    assert found[1] == "k2, m1r, work 16 in fabric, m1l, k2 (22)"


def test_an_edge_in_a_pattern_is_worked_in_its_rows() -> None:
    found = rows("rectangle; cast on 11 sts; edge 3 sts moss", "garter 2 rows")
    assert found[1] == "k1, p1, k7, p1, k1 (11)"


def test_after_a_bind_off_a_plain_stitch_comes_first() -> None:
    """The stitch that binding off leaves on the needle is worked as the first stitch of what follows."""
    shape = "asymmetric; cast on 20 sts; bind off 2 at lower edge every 8 rows; {} at lower edge every 8 rows"
    assert rows(shape.format("increase 1 kfb"), "garter 2 rows")[1] == "bind off 2, k1, kfb, k16 (19)"
    assert rows(shape.format("decrease 1"), "garter 2 rows")[1] == "bind off 2, k1, ssk, k15 (17)"


def test_decreases_among_the_items_of_a_pattern_take_what_is_there() -> None:
    """Where no two plain stitches lie together, two that are one already are worked together with a third."""
    items = tuple(stitch_item(kind) for kind in ("p2tog", "p", "p2tog", "p", "p2tog", "p"))
    line = Line([Segment(FIRST_EDGE), Segment(WING, items=items), Segment(LAST_EDGE)])
    assert decrease_evenly(line, "k2tog", 2)
    assert notation(item for segment in line.segments for item in segment.items) == "p3tog, p2tog, p1, p3tog"


def test_both_edges_have_their_share_of_a_narrow_middle() -> None:
    shape = "crescent; cast on {} sts; edge 3 sts; {} at each edge every 2 rows"
    assert rows(shape.format(10, "decrease 2"), "garter 2 rows")[1] == "k1, [ssk] 2 times, [k2tog] 2 times, k1 (6)"
    one, other = "k2, m1r, k1, m1r, k1, m1r", "m1l, k1, m1l, k1, m1l, k2"
    assert rows(shape.format(9, "increase 3"), "garter 2 rows")[1] == f"{one}, k1, {other} (15)"


def test_methods_that_differ_at_one_edge_are_all_worked() -> None:
    shape = "crescent; cast on 20 sts; edge 2 sts; increase 1 yo at each edge; increase 1 kfb at each edge from row 1"
    found = rows(shape, "garter 2 rows")[1]
    assert found.count("yo") == found.count("kfb") == 2 and found.endswith("(24)")
    shape = (
        "crescent; cast on 20 sts; edge 2 sts; decrease 1 ssk at each edge; decrease 1 k2tog at each edge from row 1"
    )
    found = rows(shape, "garter 2 rows")[1]
    assert found.count("ssk") == found.count("k2tog") == 2 and found.endswith("(16)")


def test_what_is_spread_over_a_row_leaves_the_stitch_of_the_bind_off() -> None:
    shape = "asymmetric; cast on 6 sts; bind off 2 at lower edge every 8 rows; increase 3 kfb evenly"
    assert rows(shape, "garter 2 rows")[1] == "bind off 2, k1, kfb, [kfb] 2 times (7)"


def test_increases_in_edge_stitches_leave_the_stitch_of_the_bind_off() -> None:
    shape = "asymmetric; cast on 30 sts; edge 2 sts; bind off 2 at lower edge every 8 rows"
    found = rows(shape + "; increase 2 kfb at lower edge every 8 rows", "lace 2 rows", LACE)
    assert found[1] == "bind off 2, k1, cast on 2, k1, [yo, s2kp, yo, k1] 6 times, k2 (30)"


def test_a_decrease_at_an_edge_has_its_stitches_where_as_many_are_made_evenly() -> None:
    stitches = "stitch opening\n  row 1: k1, *yo, k2*\n  row 2: *p2tog, p1*, p1\n"
    shape = "crescent; cast on 41 sts; decrease 1 at each edge every 2 rows; increase 3 evenly every 2 rows"
    found = rows(shape, "opening 2 rows", stitches)
    assert found[1].startswith("ssk, ") and "k2tog" in found[1] and found[2].endswith("(42)")
