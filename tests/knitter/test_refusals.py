"""For everything that the machine refuses, a piece with that one mistake; the message names the row."""

import pytest

from tests.knitter.machine import knit
from tests.knitter.refusal import RefusedError
from tests.knitter.test_machine import TAB, off, top_down
from tests.knitter.writing import CUT, flat, page

GOOD = top_down(3)
CHANGES = {
    "stitches left over": ("k5, m1l, k3 (21", "k4, m1l, k3 (21", r"Row 5 \(RS\): 1 st left over"),
    "stitches missing": ("k5, m1l, k3 (21", "k6, m1l, k3 (21", r"Row 5 \(RS\): `k` needs 1 st, on the left needle: 0"),
    "another count": ("k3 (17 sts)", "k3 (16 sts)", r"Row 3 \(RS\): 17 sts on the needle after row 3, not 16"),
    "a whole row's count": ("knit (17 sts)", "knit (18 sts)", r"Row 4 \(WS\): 17 sts on the needle"),
    "a missing row": ("  Row 4 (WS): knit (17 sts)\n", "", r"Row 5 \(RS\): row 4 comes next"),
    "a row twice": ("Row 4 (WS)", "Row 3 (RS)", r"Row 3 \(RS\): row 4 comes next"),
    "rows out of order": ("Row 2 (WS): knit", "Rows 4-2: knit", "Rows 4-2: rows from a later"),
    "the wrong side": ("Row 4 (WS)", "Row 4 (RS)", r"Row 4 \(RS\): row 4 is a WS row"),
    "a side for two rows": ("Row 6 (WS):", "Rows 6-7 (RS):", "no row that can be read: `Rows 6-7"),
    "no side for one row": ("Row 6 (WS):", "Row 6:", "no row that can be read: `Row 6:"),
    "no count": ("Row 2 (WS): knit (13 sts)", "Row 2 (WS): knit", "no row that can be read"),
    "a wrong plural": ("times (1 st)", "times (1 sts)", "1 sts"),
    "an increase at the edge": ("k3, m1r, k1,", "m1r, k3, k1,", r"Row 1 \(RS\): `m1r`: no strand"),
    "an increase at the end": ("k1, m1l, k3 (13", "k1, k3, m1l (13", r"Row 1 \(RS\): `m1l` at the end"),
    "one strand twice": ("m1r, k1, yo, k1, yo, k1, m1l", "m1r, m1r, k1, yo, k1, k1, m1l", "no strand between"),
    "one strand twice around a yo": ("m1r, k1, yo, k1, yo, k1", "m1r, yo, m1r, k2, k1", "no strand between"),
    "not explained": ("  m1l: make 1 leaning to the left\n", "", "Abbreviations: not explained: m1l"),
    "explained in vain": ("  yo: ", "  ssk: together\n  yo: ", "Abbreviations: explained in vain: ssk"),
    "explained twice": ("  yo: ", "  yo: over\n  yo: ", "explained twice"),
    "not explained at all": ("  yo: yarn over", "  yo:", "`yo:`: no explanation"),
    "an unknown abbreviation": ("  yo: ", "  inc: more\n  yo: ", "`inc` is no abbreviation"),
    "an unknown item": ("k3, m1r, k1, yo", "k3, inc, k1, yo", r"Row 1 \(RS\): `inc` is no item"),
    "an unknown sentence in a part": ("  Row 2", "  Work evenly from here.\n  Row 2", "read: `Work evenly"),
    "an unknown sentence in the start": ("  Knit 6 rows.", "  Knit 6 rows loosely.", "Start: cannot be read here"),
    "an unknown sentence at the end": ("  Cut the yarn and", "  Cut the wool and", "Bind off: cannot be read here"),
    "a sentence too much": ("  Cut the", "  Weave in the ends.\n  Cut the", "Bind off: a bind-off row, or none"),
    "a heading too much": ("\nBind off", "\nBlocking\n  Pin it.\n\nBind off", "the sections are"),
    "a part that is not counted": ("Part 1", "Part 2", "this is part 1"),
    "a part without rows": ("Part 1,", "Part 1, none\n\nPart 2,", "Part 1, none: no rows"),
    "ridges that are not there": ("each of the 3 ridges", "each of the 4 ridges", "Start: the tab has 3 ridges, not 4"),
    "ridges passed by": ("each of the 3 ridges", "each of the 2 ridges", "Start: the tab has 3 ridges, not 2"),
    "a tab of other rows": ("Knit 6 rows", "Knit 8 rows", "Start: the tab has 4 ridges, not 3"),
    "half a ridge": ("Knit 6 rows", "Knit 7 rows", "Start: 7 rows are no whole ridges"),
    "a cast-on edge too short": ("then 3 sts from", "then 4 sts from", "Start: the cast-on edge has 3 sts"),
    "a wrong sum picked up": ("edge (9 sts)", "edge (8 sts)", "Start: 9 sts on the needle, not 8"),
    "a set-up row of another count": ("(WS): knit (9 sts)", "(WS): knit (8 sts)", "Set-up row: 9 sts"),
    "no set-up row": ("  Set-up row (WS): knit (9 sts)\n", "", "Start: a cast-on, or"),
    "a set-up row on the right side": ("Set-up row (WS)", "Set-up row (RS)", r"a set-up row \(WS\) is due"),
    "too few bound off": ("20 times (1 st)", "19 times (1 st)", r"Bind-off row \(RS\): 2 sts on the needle, not 1"),
    "too many bound off": ("20 times (1 st)", "21 times (1 st)", "the repeat does not come out, time 21 of 21"),
    "bound off on the wrong side": ("Bind-off row (RS)", "Bind-off row (WS)", "this is a RS row"),
    "another end": (
        "draw it through the last st",
        "draw it through the last 2 sts",
        "1 st on the needle, and the yarn",
    ),
    "a yarn that is not cut": (f"  {CUT}", "", "Bind off: cannot be read here: `Bind-off row`"),
    "nothing of stitches in a row": ("Row 2 (WS): knit", "Row 2 (WS): pass over", "PassOver.* belongs to the bind-off"),
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_good_piece_with_one_change(name: str) -> None:
    old, new, message = CHANGES[name]
    assert GOOD.count(old) >= 1
    knit(GOOD)
    with pytest.raises(RefusedError, match=message):
        knit(GOOD.replace(old, new, 1))


# Rows over 8 stitches in the plain frame: the terms of the rows, the rows, what is left, the message.
ROWS = {
    "a repeat": ("k2tog, yo", ["Row 1 (RS): [yo, k2tog] 5 times (8 sts)"], r"Row 1 \(RS\): the repeat .*time 5 of 5"),
    "a repeat inside another": (
        "",
        ["Row 1 (RS): [k1, [k1] 2 times] 3 times (8 sts)"],
        "out, time 3 of 3.*time 2 of 2",
    ),
    "wraps that stay": (
        "with N wraps",
        ["Row 1 (RS): k8 with 2 wraps (8 sts)", "Row 2 (WS): knit (8 sts)"],
        "Row 2 .*drop",
    ),
    "wraps dropped late": (
        "drop wraps, with N wraps",
        ["Row 1 (RS): k8 with 2 wraps (8 sts)", "Row 2 (WS): k1, drop wraps, k7 (8 sts)"],
        "Row 2 .*are not dropped",
    ),
    "wraps that are not there": ("drop wraps", ["Row 1 (RS): drop wraps, k8 (8 sts)"], "Row 1 .*nothing to drop"),
    "wraps dropped twice": (
        "drop wraps, with N wraps",
        ["Row 1 (RS): k8 with 2 wraps (8 sts)", "Row 2 (WS): drop wraps, drop wraps, k8 (8 sts)"],
        "Row 2 .*nothing to drop",
    ),
    "one wrap": ("with N wraps", ["Row 1 (RS): k8 with 1 wraps (8 sts)"], "1 wrap is no extra wrap"),
    "a cable": ("2/2 rc", ["Row 1 (RS): k6, 2/2 rc (8 sts)"], "Row 1 .*`2/2 rc` needs 4 sts, on the left needle: 2"),
    "a decrease": ("ssk", ["Row 1 (RS): k7, ssk (8 sts)"], "Row 1 .*`ssk` needs 2 sts, on"),
    "all bound off": ("bind off", ["Row 1 (RS): bind off 8 (8 sts)"], "Row 1 .*no stitch to pass over"),
    "too much bound off": ("bind off", ["Row 1 (RS): k6, bind off 3 (8 sts)"], "Row 1 .*`bind off 3` needs 1 st"),
    "a yarn over for a stitch": (
        "bind off, yo",
        ["Row 1 (RS): bind off 2, yo, k6 (8 sts)"],
        "after `bind off` one stitch",
    ),
    "m1 after a bind-off": ("bind off, m1", ["Row 1 (RS): bind off 2, m1, k6 (8 sts)"], "after `bind off` one stitch"),
    "no strand where stitches are gone": (
        "bind off, m1",
        ["Row 1 (RS): k2, bind off 2, k4 (6 sts)", "Row 2 (WS): k5, m1, k1 (7 sts)"],
        "Row 2 .*no strand",
    ),
    "a left needle in a row": (
        "cast on N to the left needle",
        ["Row 1 (RS): cast on 2 to the left needle, k10 (10 sts)"],
        "Row 1 .*in a bind-off, and there alone",
    ),
    "m1 at a cast-on": ("cast on, m1", ["Row 1 (RS): cast on 2, m1, k8 (11 sts)"], "Row 1 .*no strand"),
    "a whole row and more": ("", ["Row 1 (RS): k1, knit (8 sts)"], "a whole row stands alone"),
    "a whole row twice": ("", ["Row 1 (RS): knit, knit (8 sts)"], "a whole row stands alone"),
    "a whole row in brackets": ("", ["Row 1 (RS): [knit] 2 times (8 sts)"], "a whole row in brackets"),
    "a bare letter": ("", ["Row 1 (RS): k, k7 (8 sts)"], "`k` is no item"),
    "none": ("", ["Row 1 (RS): k0, k8 (8 sts)"], "`k0` is no item"),
    "no times": ("", ["Row 1 (RS): [k1] 0 times, k8 (8 sts)"], "0 times` is no item"),
    "an open bracket": ("", ["Row 1 (RS): [k1, k7 (8 sts)"], "a bracket is not closed"),
    "a closed bracket": ("", ["Row 1 (RS): k1], k7 (8 sts)"], "a bracket is closed that was not opened"),
    "a comma too much": ("", ["Row 1 (RS): k1, , k7 (8 sts)"], "`` is no item"),
    "other work in one stitch": ("[ ] in 1, k2tog", ["Row 1 (RS): [k1, k2tog] in 1, k7 (8 sts)"], "only k, p and yo"),
    "in stitches that are not there": ("[ ] in 1", ["Row 1 (RS): k5, [k1] in 4 (6 sts)"], "in 4` needs 4 sts"),
    "two kinds of cable": ("1/1 lc", ["Row 1 (RS): k6, 1/1 rc (8 sts)"], "not explained: 1/1 rc"),
    "a modifier": ("", ["Row 1 (RS): k8 tbl (8 sts)"], "not explained: tbl"),
    "rows that end too soon": ("", ["Rows 1-3: k4, k2, k1 (8 sts)"], "Rows 1-3: 1 st left over"),
}


@pytest.mark.parametrize("name", ROWS)
def test_rows_over_eight_stitches(name: str) -> None:
    terms, rows, message = ROWS[name]
    with pytest.raises(RefusedError, match=message):
        knit(flat(8, rows, 8, terms))


BIND_OFFS = {
    "nothing to pass over": ("[pass over] 7 times (1 st)", CUT, "no stitch to pass over"),
    "nothing to slip back": ("k1, [k1, pass over] 7 times, sl2 back (1 st)", CUT, "`sl2 back`: only 1 st "),
    "a cast-on to the right": ("k8, cast on 2, [pass over] 9 times (1 st)", CUT, "and there alone"),
    "half bound off": ("k1, [k1, pass over] 3 times (1 st)", CUT, "5 sts on the needle, not 1"),
    "wrong at the draw": ("k1, [k1, pass over] 3 times (5 sts)", CUT, "5 sts on the needle, and the yarn"),
    "bound off by a word": ("bind off 7, k1 (1 st)", CUT, "inside the bind-off"),
}


@pytest.mark.parametrize("name", BIND_OFFS)
def test_ends_over_eight_stitches(name: str) -> None:
    row, cut, message = BIND_OFFS[name]
    used = {"pass over", "k", "sl2 back", "cast on", "bind off", "[ ] N times"}
    terms = sorted(term for term in used if (term in row if term != "k" else "k1" in row or "k8" in row))
    terms += ["[ ] N times"] if "times" in row else []
    with pytest.raises(RefusedError, match=message):
        knit(page(", ".join(terms), ["Cast on 8 sts."], ["Rows 1-2: knit (8 sts)"], [f"Bind-off row (RS): {row}", cut]))


def test_wraps_are_dropped_before_the_bind_off() -> None:
    row = "Row 1 (RS): k8 with 2 wraps (8 sts)"
    with pytest.raises(RefusedError, match=r"Bind-off row \(WS\): the extra wraps"):
        knit(flat(8, [row], 8, "with N wraps"))
    good = flat(8, [row], 8, "drop wraps, with N wraps").replace("(WS): k1", "(WS): drop wraps, k1")
    assert knit(good).rows[0].extra_wraps == 8


def test_no_title_no_sections() -> None:
    for text in ("", "Piece", "Piece\nStart\n", "Piece\n\n  Cast on 3 sts.\n"):
        with pytest.raises(RefusedError):
            knit(text)


def test_the_pieces_that_are_changed_are_good() -> None:
    assert knit(GOOD).stitches_left == 0
    assert knit(page("[ ] N times, k, pass over", TAB, ["Rows 1-2: knit (9 sts)"], off(9))).stitches_left == 0
