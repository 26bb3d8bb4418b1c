"""Even spacing: it sums, it is even, and its words are worked back stitch by stitch."""

import pytest
from halfhank.grammar.reading.instruction_reader import read_notation
from halfhank.model.instructions.even_spacing import even_decreases, even_increases, even_words
from halfhank.model.stitch_counts.tally import tally_of
from hypothesis import given
from hypothesis import strategies as st


def test_by_hand() -> None:
    """66 stitches and 8 more: 8 runs, 2 of them one longer; the first run is cut into halves for both ends."""
    even = even_increases(66, 8)
    assert even and even.runs == (4, 8, 8, 9, 9, 8, 8, 8, 4)
    assert even_words(even, "m1") == "k4, m1, [k8, m1] twice, [k9, m1] twice, [k8, m1] 3 times, k4".replace(
        "twice", "2 times"
    )


def test_a_run_of_none_at_an_end_is_left_out() -> None:
    """11 stitches and 4 decreases leave 3 plain ones, one in each gap between the decreases."""
    even = even_decreases(11, 4)
    assert even and even.runs == (0, 1, 1, 1, 0)
    assert even_words(even, "k2tog") == "k2tog, [k1, k2tog] 3 times"


@given(st.integers(1, 400), st.integers(1, 400))
def test_every_spacing_sums_and_is_even(stitches: int, more: int) -> None:
    even = even_increases(stitches, more)
    if more > stitches:
        assert even is None
        return
    assert even and even.stitches == stitches and len(even.runs) == more + 1
    inner = (*even.runs[1:-1], even.runs[0] + even.runs[-1])
    assert max(inner) - min(inner) <= 1 and abs(even.runs[0] - even.runs[-1]) <= 1


@given(st.integers(2, 400), st.integers(1, 200))
def test_every_spacing_of_decreases_sums(stitches: int, fewer: int) -> None:
    even = even_decreases(stitches, fewer)
    assert (even is None) == (2 * fewer > stitches)
    assert even is None or even.stitches == stitches


@pytest.mark.parametrize(
    ("stitches", "change", "item"), [(265, 24, "m1"), (7, 7, "m1"), (100, 1, "m1"), (90, 30, "k2tog"), (9, 4, "k2tog")]
)
def test_the_words_take_and_make_what_they_should(stitches: int, change: int, item: str) -> None:
    even = even_increases(stitches, change) if item == "m1" else even_decreases(stitches, change)
    assert even
    items = read_notation(even_words(even, item))
    assert items
    tally = tally_of(items)
    assert (tally.taken, tally.made) == (stitches, stitches + (change if item == "m1" else -change))
