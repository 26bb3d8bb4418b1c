"""Stitches taken and made, and loops of yarn, worked by hand from the meaning of the trade's abbreviations."""

import pytest
from halfhank.model.stitch_counts.tally import Tally, row_tally, tally_of

from tests.model.stitches.writing import items

# Item, stitches taken, stitches made, loops drawn, extra wraps, loops in cables.
BY_HAND = [
    ("k1", 1, 1, 1, 0, 0),
    ("k7", 7, 7, 7, 0, 0),
    ("p3 tbl", 3, 3, 3, 0, 0),
    ("yo", 0, 1, 1, 0, 0),
    ("yo twice", 0, 2, 2, 0, 0),
    ("k2tog", 2, 1, 1, 0, 0),
    ("ssk", 2, 1, 1, 0, 0),
    ("p2tog", 2, 1, 1, 0, 0),
    ("ssp", 2, 1, 1, 0, 0),
    ("k3tog", 3, 1, 1, 0, 0),
    ("sssk", 3, 1, 1, 0, 0),
    ("s2kp", 3, 1, 1, 0, 0),
    ("p3tog", 3, 1, 1, 0, 0),
    ("sl2 wyif", 2, 2, 0, 0, 0),
    ("kfb", 1, 2, 2, 0, 0),
    ("m1l", 0, 1, 1, 0, 0),
    ("m1r", 0, 1, 1, 0, 0),
    ("m1", 0, 1, 1, 0, 0),
    ("m1lp", 0, 1, 1, 0, 0),
    ("m1rp", 0, 1, 1, 0, 0),
    ("pfb", 1, 2, 2, 0, 0),
    ("sssp", 3, 1, 1, 0, 0),
    ("s2pp", 3, 1, 1, 0, 0),
    ("bind off 3", 3, 0, 3, 0, 0),
    ("cast on 4", 0, 4, 4, 0, 0),
    ("drop wraps", 0, 0, 0, 0, 0),
    ("bind off 2, k4, cast on 1", 6, 5, 7, 0, 0),
    ("k1 with 3 wraps", 1, 1, 1, 2, 0),
    ("k4 with 2 wraps", 4, 4, 4, 4, 0),
    ("kfb with 2 wraps", 1, 2, 2, 2, 0),
    ("2/2 rc", 4, 4, 4, 0, 4),
    ("3/1 lc", 4, 4, 4, 0, 4),
    ("[k1, yo, k1] in 1", 1, 3, 3, 0, 0),
    ("[k1, yo, k1, yo, k1] in 3", 3, 5, 5, 0, 0),
    ("[k1, p1] 3 times", 6, 6, 6, 0, 0),
    ("[[yo, k2tog] 2 times, k1] 3 times", 15, 15, 15, 0, 0),
]


@pytest.mark.parametrize(("written", "taken", "made", "loops", "wraps", "crossed"), BY_HAND)
def test_one_item(written: str, taken: int, made: int, loops: int, wraps: int, crossed: int) -> None:
    assert tally_of(items(written)) == Tally(taken, made, loops, wraps, crossed)


def test_a_slipped_stitch_passed_over_is_drawn_out_of_one_loop() -> None:
    """sk2p slips one (no loop), knits two together (one loop) and passes the slipped one over it."""
    assert tally_of(items("sk2p")) == Tally(3, 1, 1, 0, 0)


def test_a_row_is_counted_outside_and_inside_its_stars() -> None:
    row = row_tally(items("k1, *yo, k2, s2kp, k2, yo, k1*, k2tog, yo"))
    assert row.before == Tally(1, 1, 1, 0, 0)
    assert row.across == Tally(8, 8, 8, 0, 0)
    assert row.after == Tally(2, 2, 2, 0, 0)
    assert row.outside == Tally(3, 3, 3, 0, 0)
    assert row.whole is None


def test_a_whole_row_takes_whatever_there_is() -> None:
    row = row_tally(items("purl"))
    assert row.whole == "p" and row.across is None


def test_nested_numbers_are_multiplied_and_not_walked_through() -> None:
    million = "[[[k1] 999999999 times] 999999999 times] 999999999 times"
    assert tally_of(items(million)).taken == 999999999**3
