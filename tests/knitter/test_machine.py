"""Pieces written and counted by hand, which the machine knits to the last stitch."""

from collections import Counter

import pytest

from tests.knitter.machine import Knit, knit
from tests.knitter.writing import CUT, STANDARD, flat, page

TAB = [
    "Cast on 3 sts.",
    "Knit 6 rows.",
    "Turn the work 90° clockwise; pick up and knit 1 st in each of the 3 ridges, "
    "then 3 sts from the cast-on edge (9 sts).",
    "Set-up row (WS): knit (9 sts)",
]


def stitches(knitted: Knit) -> list[int]:
    return [row.stitches for row in knitted.rows]


def loops(knitted: Knit) -> list[int]:
    return [row.loops for row in knitted.rows]


def top_down(ridges: int) -> str:
    """A triangle from the neck: 4 stitches more every right-side row, as every such pattern has it."""
    rows = []
    for ridge in range(ridges):
        wing = 1 + 2 * ridge
        count = 13 + 4 * ridge
        rows += [
            f"Row {2 * ridge + 1} (RS): k3, m1r, k{wing}, yo, k1, yo, k{wing}, m1l, k3 ({count} sts)",
            f"Row {2 * ridge + 2} (WS): knit ({count} sts)",
        ]
    off = [f"Bind-off row (RS): k1, [k1, pass over] {8 + 4 * ridges} times (1 st)", CUT]
    return page("[ ] N times, k, m1l, m1r, pass over, yo", TAB, rows, off)


def test_a_triangle_from_a_garter_tab_has_the_counts_that_everybody_knows() -> None:
    """A tab of 3 stitches and 6 rows gives 9; at 4 more every 2 rows, 73 after 16 ridges."""
    knitted = knit(top_down(16))
    assert knitted.start_stitches == 9 and knitted.start_loops == 3 + 18 + 6 + 9
    assert stitches(knitted)[:4] == [13, 13, 17, 17] and stitches(knitted)[-1] == 73
    assert [row.number for row in knitted.rows] == list(range(1, 33))
    assert loops(knitted) == stitches(knitted) and knitted.bind_off_loops == 73
    assert knitted.stitches_left == 0


def test_faces_are_those_of_the_right_side() -> None:
    """Garter is knit on right-side rows and shows purl on the others; a yarn over is neither."""
    first, second, *_ = knit(top_down(2)).rows
    assert first.faces == {"knit": 11, "": 2} and second.faces == {"purl": 13}
    assert first.shaping == {"m1r": 1, "m1l": 1, "yo": 2} and not second.shaping


def test_lace_in_mirrored_wings() -> None:
    """17 stitches: edges of 3, wings of 5, a spine of 1; each wing 2 repeats and a stitch over."""
    lace = "k3, k1, [yo, k2tog] 2 times, k1, [ssk, yo] 2 times, k1, k3 (17 sts)"
    rows = [f"Row 1 (RS): {lace}", "Row 2 (WS): k3, p11, k3 (17 sts)", "Rows 3-4: knit (17 sts)"]
    piece = page("[ ] N times, k, k2tog, p, pass over, ssk, yo", ["Cast on 17 sts."], rows, off(17))
    knitted = knit(piece)
    assert stitches(knitted) == loops(knitted) == [17] * 4
    assert knitted.rows[0].shaping == {"yo": 4, "k2tog": 2, "ssk": 2}
    assert knitted.rows[1].faces == {"purl": 6, "knit": 11}
    assert knitted.pattern.parts[0].name == "all of it"


def off(count: int, side: str = "RS") -> list[str]:
    return [f"Bind-off row ({side}): k1, [k1, pass over] {count - 1} times (1 st)", CUT]


def test_saw_teeth_at_both_ends_of_a_row() -> None:
    """12 stitches; 4 bound off at the start, 3 at the end; 2 cast on at each edge."""
    rows = [
        "Row 1 (RS): bind off 4, k8 (8 sts)",
        "Row 2 (WS): cast on 2, k8 (10 sts)",
        "Row 3 (RS): k10, cast on 2 (12 sts)",
        "Row 4 (WS): k9, bind off 3 (9 sts)",
        "Row 5 (RS): bind off 2, [k2tog] 2 times, k3 (5 sts)",
        "Row 6 (WS): knit (5 sts)",
    ]
    knitted = knit(flat(12, rows, 5, "bind off, cast on, k2tog"))
    assert stitches(knitted) == [8, 10, 12, 9, 5, 5]
    assert loops(knitted) == [12, 10, 12, 12, 7, 5]
    assert knitted.rows[0].shaping == {"bind off": 4} and knitted.rows[1].shaping == {"cast on": 2}
    assert knitted.bind_off_loops == 5


def test_elongated_rows() -> None:
    rows = [
        "Row 1 (RS): k8 with 3 wraps (8 sts)",
        "Row 2 (WS): drop wraps, k8 (8 sts)",
        "Row 3 (RS): k1, [k1 with 2 wraps, k2tog with 4 wraps] 2 times, k1 (6 sts)",
        "Row 4 (WS): drop wraps, purl (6 sts)",
    ]
    knitted = knit(flat(8, rows, 6, "drop wraps, k2tog, with N wraps"))
    assert [row.extra_wraps for row in knitted.rows] == [16, 0, 1 + 3 + 1 + 3, 0]
    assert stitches(knitted) == loops(knitted) == [8, 8, 6, 6]


def test_cables_increases_into_stitches_and_slipped_stitches() -> None:
    rows = [
        "Row 1 (RS): p2, 2/2 rc, p2 (8 sts)",
        "Row 2 (WS): k2, p4, k2 (8 sts)",
        "Row 3 (RS): kfb, 1/3 lc, pfb, sl1 wyif, k1 tbl (10 sts)",
        "Row 4 (WS): [k1, [yo, k1] 1 time] in 1, [p1] in 4, sl2, s2pp (7 sts)",
        "Row 5 (RS): work 7 in net (7 sts)",
    ]
    terms = "1/3 lc, 2/2 rc, [ ] in 1, kfb, p, pfb, s2pp, sl, tbl, work N in NAME, wyif, yo"
    knitted = knit(flat(8, rows, 7, terms))
    assert stitches(knitted) == [8, 8, 10, 7, 7]
    assert loops(knitted) == [8, 8, 9, 5, 7]
    assert [row.crossed for row in knitted.rows] == [4, 0, 4, 0, 0]
    assert knitted.rows[0].faces == {"purl": 4, "knit": 4} == knitted.rows[1].faces
    assert knitted.rows[3].faces == {"purl": 2, "": 1, "knit": 2}


def test_count_changing_lace_and_even_increases() -> None:
    rows = [
        "Row 1 (RS): k1, [yo, k2] 3 times, yo, k1 (12 sts)",
        "Row 2 (WS): p2, [p2tog, p1] 3 times, p1 (9 sts)",
        "Row 3 (RS): [k3, m1] 2 times, k3 (11 sts)",
        "Row 4 (WS): p1, m1rp, p9, m1lp, p1 (13 sts)",
        "Row 5 (RS): k1, yo, m1l, k12 (15 sts)",
    ]
    knitted = knit(flat(8, rows, 15, "m1, m1l, m1lp, m1rp, p, p2tog, yo"))
    assert stitches(knitted) == loops(knitted) == [12, 9, 11, 13, 15]
    assert knitted.rows[2].shaping == Counter({"m1": 2})


def test_a_strand_is_still_there_on_the_other_side() -> None:
    """A strand lifted in one row is a stitch in the next, and has a strand at each of its sides."""
    rows = ["Row 1 (RS): k1, m1, k1 (3 sts)", "Row 2 (WS): k1, m1, k1, m1, k1 (5 sts)"]
    assert stitches(knit(flat(2, rows, 5, "m1"))) == [3, 5]


PICOT = "[cast on 2 to the left needle, k1, [k1, pass over] 4 times, sl1 back] {} times, {} (1 st)"
METHODS = {
    "elastic": ("[ ] N times, k, k2tog, slN back, tbl", 9, "k1, [k1, sl2 back, k2tog tbl] 8 times (1 st)", 17, "st"),
    "picot": ("[ ] N times, cast on … to the left needle, k, pass over, sl1 back", 9, PICOT.format(4, "k1"), 29, "st"),
    "picot, 2 left over": (
        "[ ] N times, cast on N to the left needle, k, pass over, sl1 back",
        10,
        PICOT.format(4, "k1, [k1, pass over] 1 time"),
        30,
        "st",
    ),
    "i-cord": (
        "[ ] N times, cast on N to the left needle, k, k2tog, sl3 back, tbl",
        5,
        "cast on 3 to the left needle, [k2, k2tog tbl, sl3 back] 5 times (3 sts)",
        18,
        "3 sts",
    ),
}


@pytest.mark.parametrize("method", METHODS)
def test_bind_offs(method: str) -> None:
    """Loops by hand. Elastic: 1 and 8 x 2. Picot: 4 x (2 cast on and 5), and what is left. I-cord: 3 and 5 x 3."""
    terms, count, row, drawn, last = METHODS[method]
    cut = f"Cut the yarn and draw it through the last {last}."
    rows = [f"Rows 1-2: knit ({count} sts)"]
    knitted = knit(page(terms, [f"Cast on {count} sts."], rows, [f"Bind-off row (RS): {row}", cut]))
    assert knitted.bind_off_loops == drawn and knitted.stitches_left == 0


def test_drawn_through_and_a_note() -> None:
    notes = ["Note: any other way to end will do.", "Cut the yarn and draw it through the last 4 sts."]
    head = "Point\n\nStart\n  Cast on 4 sts.\n\nPart 1, -\n  Rows 1-2: knit (4 sts)\n\nBind off\n  "
    knitted = knit(head + "\n  ".join(notes))
    assert knitted.bind_off_loops == 0 and knitted.start_loops == 4 and knitted.stitches_left == 0


def test_two_parts_and_a_bind_off_on_the_wrong_side() -> None:
    text = flat(5, ["Row 1 (RS): knit (5 sts)"], 5, "")
    parts = "Part 2, all of it, mirrored\n  Rows 2-4: purl (5 sts)\n  Row 5 (RS): knit (5 sts)\n\nBind off"
    knitted = knit(text.replace("Bind off", parts, 1))
    assert [part.number for part in knitted.pattern.parts] == [1, 2] and len(knitted.rows) == 5
    assert [row.faces["knit"] for row in knitted.rows] == [5, 5, 0, 5, 5]


def test_the_plain_bind_off_is_the_one_of_these_pages() -> None:
    assert STANDARD == "[ ] N times, k, pass over"
