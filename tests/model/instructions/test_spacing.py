"""Even spacing: the printed sentence is worked on a needle, stitch by stitch, and each increase lies between two."""

import re

import pytest
from halfhank.grammar.reading.instruction_reader import read_notation
from halfhank.model.instructions.rows.even_spacing import even_decreases, even_increases, even_words
from halfhank.model.instructions.shaping_sentences import even_sentence
from halfhank.model.report_tree import words_of
from halfhank.model.stitch_counts.tally import tally_of
from hypothesis import given
from hypothesis import strategies as st


class Needles:
    """A needle of so many stitches, worked to the other one; `made` is what each step left, `at` where it stood."""

    def __init__(self, stitches: int) -> None:
        self.left, self.right = stitches, 0
        self.increases_at: list[int] = []

    def work(self, words: str) -> None:
        """Items separated by commas, groups in brackets; what is not known, or takes more than there is, fails."""
        while words:
            group = re.match(r"\[([^\[\]()]*|[^\[\]()]*\(.*?\) in next st)\] (\d+) times(?:, |$)", words)
            if group:
                for _ in range(int(group[2])):
                    self.work(group[1])
                words = words[group.end() :]
                continue
            item = re.match(r"\((.*?)\) in next st(?:, |$)|(\w+)(?:, |$)", words)
            assert item, words
            self.in_one(item[1]) if item[1] else self.step(item[2])
            words = words[item.end() :]

    def in_one(self, inner: str) -> None:
        """What is worked into the next stitch: knit and purl by turns."""
        flat = re.sub(r"\[k1, p1\] (\d+) times", lambda found: ", ".join(["k1, p1"] * int(found[1])), inner)
        items = flat.split(", ")
        assert items == [("k1", "p1")[k % 2] for k in range(len(items))] and len(items) > 1
        self.take(1, len(items))

    def step(self, item: str) -> None:
        """One item of a row."""
        if item == "m1":
            assert self.right and self.left, "a strand lies between two stitches only"
            self.increases_at.append(self.left)
            self.right += 1
        elif item == "kfb":
            self.take(1, 2)
        elif found := re.fullmatch(r"k(\d+)tog", item):
            self.take(int(found[1]), 1)
        else:
            plain = int(item.removeprefix("k"))
            self.take(plain, plain)

    def take(self, stitches: int, made: int) -> None:
        """Take stitches from the left needle, and make so many on the right one."""
        assert self.left >= stitches > 0
        self.left, self.right = self.left - stitches, self.right + made


def worked(before: int, change: int, edge: int = 0) -> Needles:
    """The sentence of an even row, worked on as many stitches as it says, with the edges left as they are."""
    sentence = words_of(even_sentence(7, before, change, edge))
    found = re.fullmatch(r"Row 7, evenly (.*?)on ([\d,]+) sts?(?: \(.*?\))?: (.*); ([\d,]+) sts?\.", sentence)
    assert found, sentence
    on, after = (int(number.replace(",", "")) for number in (found[2], found[4]))
    assert on == before - (2 * edge if "between" in found[1] else 0)
    needles = Needles(on)
    needles.work(found[3])
    assert (needles.left, needles.right, after) == (0, on + change, on + change), sentence
    return needles


SMALL = [(n, change) for n in range(1, 33) for change in range(1 - n, 3 * n) if change]


def test_every_small_row_works_out() -> None:
    for before, change in SMALL:
        worked(before, change)


@given(st.integers(1, 500), st.integers(-499, 1500), st.integers(0, 4))
def test_any_row_works_out(before: int, change: int, edge: int) -> None:
    if change and before + change >= 1:
        needles = worked(before, change, edge)
        assert len(set(needles.increases_at)) == len(needles.increases_at), "at most one between two stitches"


def test_as_many_increases_as_there_are_strands() -> None:
    """95 stitches have 94 gaps between them, one less than stitches, not one more."""
    assert even_words(even_increases(95, 94), "m1") == "k1, m1, [k1, m1] 93 times, k1"
    assert even_increases(95, 95) is None
    assert words_of(even_sentence(7, 95, 95, 0)) == (
        "Row 7, evenly on 95 sts (95 sts increased, more than there are gaps between them): [kfb] 95 times; 190 sts."
    )


def test_more_than_gaps_and_more_than_pairs_by_hand() -> None:
    """12 more on 10 stitches: 8 of them take one more, 2 take two. 6 fewer on 9: 9 = 3 x 3."""
    assert words_of(even_sentence(7, 10, 12, 0)).endswith(
        ": [kfb] 4 times, [(k1, p1, k1) in next st] 2 times, [kfb] 4 times; 22 sts."
    )
    assert words_of(even_sentence(7, 9, -6, 0)) == (
        "Row 7, evenly on 9 sts (6 sts decreased, more than there are pairs): [k3tog] 3 times; 3 sts."
    )


def test_by_hand() -> None:
    """66 stitches and 8 more: 8 runs, 2 of them one longer; the first run is cut into halves for both ends."""
    even = even_increases(66, 8)
    assert even and even.runs == (4, 8, 8, 9, 9, 8, 8, 8, 4)
    assert even_words(even, "m1") == "k4, m1, [k8, m1] 2 times, [k9, m1] 2 times, [k8, m1] 3 times, k4"


def test_a_run_of_none_at_an_end_is_left_out() -> None:
    """11 stitches and 4 decreases leave 3 plain ones, one in each gap between the decreases."""
    even = even_decreases(11, 4)
    assert even and even.runs == (0, 1, 1, 1, 0)
    assert even_words(even, "k2tog") == "k2tog, [k1, k2tog] 3 times"


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


@pytest.mark.parametrize(
    ("stitches", "change", "item"), [(265, 24, "m1"), (7, 6, "m1"), (100, 1, "m1"), (90, 30, "k2tog"), (9, 4, "k2tog")]
)
def test_the_words_take_and_make_what_they_should(stitches: int, change: int, item: str) -> None:
    even = even_increases(stitches, change) if item == "m1" else even_decreases(stitches, change)
    assert even
    items = read_notation(even_words(even, item))
    assert items
    tally = tally_of(items)
    assert (tally.taken, tally.made) == (stitches, stitches + (change if item == "m1" else -change))
