"""What rows draw, which have yarn overs, and which have stitches that are wrapped more than once."""

import pytest
from halfhank.model.stitch_counts.loops import Draw, draw, has_long_stitches, has_yarn_overs, is_elongated

from tests.model.stitches.writing import items, stitch


@pytest.mark.parametrize("written", ["k1 with 2 wraps", "*k1, p1 with 2 wraps*", "[k1 with 3 wraps, p1] 2 times"])
def test_two_wraps_are_more_than_one(written: str) -> None:
    assert is_elongated(items(written)) and has_long_stitches(stitch(f"row 1: {written}").rows)


@pytest.mark.parametrize("written", ["k1", "yo twice", "*k2tog, yo*"])
def test_a_stitch_without_more_wraps_is_not_long(written: str) -> None:
    assert not is_elongated(items(written))
    assert has_yarn_overs(stitch(f"row 1: {written}").rows) == ("yo" in written)


def test_a_pattern_that_changes_its_count_is_counted_at_the_stitches_it_begins_with() -> None:
    """By hand: 4 sts and 1; k1, yo, k1 in 1 and k3 draw 6 and leave 6; two plain rows 6 each; k3tog and k3 draw 4."""
    rows = stitch("row 1: *[k1, yo, k1] in 1, k3*\nrow 2: purl\nrow 3: *k3tog, k3*\nrow 4: purl").rows
    assert draw(rows) == Draw((6 + 6 + 4 + 4) / 16, 0)
