"""Which items change the count of a row."""

import pytest
from halfhank.model.stitch_counts.pairs import changes, unpaired

from tests.model.stitches.writing import items


@pytest.mark.parametrize(
    ("written", "gains"),
    [
        ("k2tog, k3, yo", [-1, 1]),
        ("*k1, [yo, k2tog] 2 times, s2kp*", [-2]),
        ("[k1, yo] 2 times, k2tog", [1, -1]),
        ("[k2, yo, ssk] 3 times", []),
    ],
)
def test_a_bracket_that_keeps_the_count_is_no_change(written: str, gains: list[int]) -> None:
    """One that does not is looked into, each of its items once."""
    assert [change.gain for change in changes(items(written))] == gains


def test_the_nearest_are_paired() -> None:
    (left,) = unpaired(changes(items("yo, k4, k2tog, yo, k1")))
    assert (left.place, left.gain) == (0, 1)
