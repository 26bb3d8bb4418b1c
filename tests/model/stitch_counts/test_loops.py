"""Which rows have yarn overs, and which have stitches that are wrapped more than once."""

import pytest
from halfhank.model.stitch_counts.loops import has_long_stitches, has_yarn_overs, is_elongated

from tests.model.stitches.writing import items, stitch


@pytest.mark.parametrize("written", ["k1 with 2 wraps", "*k1, p1 with 2 wraps*", "[k1 with 3 wraps, p1] 2 times"])
def test_two_wraps_are_more_than_one(written: str) -> None:
    assert is_elongated(items(written)) and has_long_stitches(stitch(f"row 1: {written}").rows)


@pytest.mark.parametrize("written", ["k1", "yo twice", "*k2tog, yo*"])
def test_a_stitch_without_more_wraps_is_not_long(written: str) -> None:
    assert not is_elongated(items(written))
    assert has_yarn_overs(stitch(f"row 1: {written}").rows) == ("yo" in written)
