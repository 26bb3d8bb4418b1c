"""Even spacing: runs between the changes differ by one stitch at most, and a row takes all its stitches."""

import pytest
from halfhank.model.instructions.rows.even_spacing import crowded_counts, even_decreases, even_increases
from hypothesis import given
from hypothesis import strategies as st


def test_as_many_increases_as_there_are_strands() -> None:
    """95 stitches have 94 gaps between them, one less than stitches, not one more."""
    even = even_increases(95, 94)
    assert even and even.runs == (1,) * 95
    assert even_increases(95, 95) is None


@pytest.mark.parametrize(
    ("stitches", "change", "counts"),
    [(10, 12, [2] * 4 + [3] * 2 + [2] * 4), (9, -6, [3, 3, 3]), (95, 95, [2] * 95)],
)
def test_more_than_gaps_and_more_than_pairs_by_hand(stitches: int, change: int, counts: list[int]) -> None:
    """12 more on 10 stitches: 8 of them take one more, 2 take two. 6 fewer on 9: 9 = 3 x 3."""
    assert crowded_counts(stitches, change) == counts


def test_by_hand() -> None:
    """66 stitches and 8 more: 8 runs, 2 of them one longer; the first run is cut into halves for both ends."""
    even = even_increases(66, 8)
    assert even and even.runs == (4, 8, 8, 9, 9, 8, 8, 8, 4)


def test_a_run_of_none_at_an_end_is_left_out() -> None:
    """11 stitches and 4 decreases leave 3 plain ones, one in each gap between the decreases."""
    even = even_decreases(11, 4)
    assert even and even.runs == (0, 1, 1, 1, 0)


@given(st.integers(2, 400), st.integers(1, 400))
def test_every_spacing_sums_and_is_even(stitches: int, more: int) -> None:
    """Runs between two increases differ by one stitch at most; what stands at the two ends is such a run cut in two,
    or one stitch at each end where runs are shorter than two."""
    even = even_increases(stitches, more)
    if more >= stitches:
        assert even is None
        return
    assert even and even.stitches == stitches and len(even.runs) == more + 1 and min(even.runs) >= 1
    ends = (even.runs[0] + even.runs[-1],) if stitches >= 2 * more else ()
    inner = (*even.runs[1:-1], *ends) or (1,)
    assert max(inner) - min(inner) <= 1 and abs(even.runs[0] - even.runs[-1]) <= 1


@given(st.integers(2, 400), st.integers(1, 200))
def test_every_spacing_of_decreases_sums(stitches: int, fewer: int) -> None:
    even = even_decreases(stitches, fewer)
    assert (even is None) == (2 * fewer > stitches)
    assert even is None or even.stitches == stitches
