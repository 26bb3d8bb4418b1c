"""Row sums of the built-ins and of published patterns, by a needle that is worked stitch by stitch.

The simulation knows nothing of tallies or levels: it holds stitches in a list and works the written words one after the
other.
"""

import re

import pytest
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.model.stitch_counts.balance import passes
from halfhank.model.stitches.pattern import built_in_pattern, pattern_of
from halfhank.model.stitches.row_checks import check_pattern
from halfhank.model.stitches.worked_rows import levels_of

from tests.model.stitches.writing import stitch

# What each word does to the needle: stitches pulled off the left needle, stitches put on the right one.
WORDS = {
    "k": (1, 1),
    "p": (1, 1),
    "yo": (0, 1),
    "k2tog": (2, 1),
    "ssk": (2, 1),
    "k3tog": (3, 1),
    "sk2p": (3, 1),
    "s2kp": (3, 1),
    "sl": (1, 1),
}


class Needle:
    """A left needle with so many stitches and an empty right one."""

    def __init__(self, stitches: int) -> None:
        self.left = list(range(stitches))
        self.right: list[int] = []

    def work(self, word: str) -> None:
        taken, made = WORDS[word]
        for _ in range(taken):
            self.left.pop()
        self.right += [0] * made

    def turn(self) -> int:
        """End the row: nothing may be left on the left needle."""
        assert not self.left, f"{len(self.left)} stitches are left over"
        self.left, self.right = self.right, []
        return len(self.left)


def work_words(needle: Needle, text: str) -> None:
    for word in re.findall(r"[^,\s][^,]*", text):
        base = re.sub(r" (with|tbl|wyif).*", "", word.strip())
        cable = re.fullmatch(r"(\d)/(\d) [rl]c", base)
        number = re.fullmatch(r"(k|p|sl)(\d+)", base)
        if cable:
            for _ in range(int(cable[1]) + int(cable[2])):
                needle.work("k")
        elif number:
            for _ in range(int(number[2])):
                needle.work(number[1])
        else:
            needle.work(base)


def work_row(needle: Needle, text: str) -> int:
    if text in ("knit", "purl"):
        while needle.left:
            needle.work(text[0])
        return needle.turn()
    before, stars, after = re.fullmatch(r"([^*]*)(?:\*([^*]*)\*)?([^*]*)", text).groups()  # type: ignore[union-attr]
    ends = Needle(10_000)
    work_words(ends, after)
    rest = 10_000 - len(ends.left)
    work_words(needle, before)
    while stars and len(needle.left) > rest:
        work_words(needle, stars)
    work_words(needle, after)
    return needle.turn()


def written_rows(lines: tuple[str, ...]) -> list[str]:
    """The rows of a block's lines in order."""
    rows: dict[int, str] = {}
    for line in lines:
        found = re.fullmatch(r"rows? ([^:]*): (.*)", line)
        if not found:
            continue
        for part in found[1].split(", "):
            first, _, last = part.partition("-")
            rows.update(dict.fromkeys(range(int(first), int(last or first) + 1), found[2]))
    return [rows[number] for number in sorted(rows)]


@pytest.mark.parametrize("name", STITCH_PATTERNS)
@pytest.mark.parametrize("more", [0, 1, 6])
def test_built_ins_by_simulation(name: str, more: int) -> None:
    pattern, rows = built_in_pattern(built_in_stitch(name)), written_rows(STITCH_PATTERNS[name].lines)
    multiples = pattern.least + more
    needle = Needle(pattern.multiple.stitches(multiples))
    counts = [work_row(needle, row) for row in rows * 2]
    levels = [level.stitches(multiples) for level in levels_of(pattern)]
    assert len(rows) == len(pattern.rows) and counts == levels[1:] * 2
    assert check_pattern(pattern) == ()


# Patterns that were printed in the knitting books of the 1840s to 1880s, long in the public domain; from memory, rows
# written anew.
PUBLISHED = {
    # Feather and fan, also called old shale: six decreases and six yarn overs in 18 stitches, every fourth row.
    "feather and fan": (
        "18 sts",
        [
            "knit",
            "purl",
            "*k2tog, k2tog, k2tog, yo, k1, yo, k1, yo, k1, yo, k1, yo, k1, yo, k1, k2tog, k2tog, k2tog*",
            "knit",
        ],
    ),
    # Horseshoe lace over 10 + 1.
    "horseshoe": (
        "10 sts + 1",
        [
            "k1, *yo, k3, s2kp, k3, yo, k1*",
            "purl",
            "p1, *k1, yo, k2, s2kp, k2, yo, k1, p1*",
            "k1, *p9, k1*",
            "p1, *k2, yo, k1, s2kp, k1, yo, k2, p1*",
            "k1, *p9, k1*",
            "p1, *k3, yo, s2kp, yo, k3, p1*",
            "purl",
        ],
    ),
    # Cat's paw over 9 stitches in the middle of a mesh-free ground, set over 9 + 0.
    "cat's paw": (
        "9 sts",
        [
            "*k1, k2tog, yo, k3, yo, ssk, k1*",
            "purl",
            "*k2tog, yo, k5, yo, ssk*",
            "purl",
            "*k2, yo, k1, s2kp, k1, yo, k2*",
            "purl",
        ],
    ),
    # The simplest trellis: every stitch an eyelet, leaning one way and then the other.
    "trellis": ("2 sts", ["*yo, k2tog*", "purl", "*ssk, yo*", "purl"]),
    # Razor shell over 6 + 1.
    "razor shell": ("6 sts + 1", ["k1, *yo, k1, s2kp, k1, yo, k1*", "purl"]),
}


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_patterns_come_out(name: str) -> None:
    """The multiples are the published ones; every row keeps the count, by the checks and by the needle."""
    multiple, rows = PUBLISHED[name]
    pattern = pattern_of(stitch("\n".join(f"row {k}: {row}" for k, row in enumerate(rows, 1)), multiple))
    assert pattern and check_pattern(pattern) == ()
    count = pattern.multiple.stitches(4)
    needle = Needle(count)
    assert [work_row(needle, row) for row in rows * 2] == [count] * len(rows) * 2
    derived = pattern_of(stitch("\n".join(f"row {k}: {row}" for k, row in enumerate(rows, 1))))
    assert derived and derived.multiple == pattern.multiple


def test_the_needle_itself_finds_what_is_left_over() -> None:
    with pytest.raises(AssertionError, match="1 stitches are left over"):
        work_row(Needle(6), "k2, k3")
    with pytest.raises(IndexError):
        work_row(Needle(10), "k2, *k2, k2tog*, k3")


def test_passes_of_the_stars_over_a_wide_row() -> None:
    pattern = built_in_pattern(built_in_stitch("scattered-eyelets"))
    assert passes(levels_of(pattern)[0], pattern.rows[0].tally, 12) == 12
