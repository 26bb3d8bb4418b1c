"""Bands in the written instructions: by hand, folded where they say the same again and again."""

import re

import pytest

from tests.model.instructions.test_working import block, written
from tests.whole import plan_of

HEAD = """shawl "Groyne"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch rib
  as garter
  multiple of 2 sts
  rows 1-4: *k1, p1*
"""
LEVEL = "shape rectangle\n  cast on 40 sts\n"
TOOTHED = """shape asymmetric
  cast on 4 sts
  increase 1 at lower edge every row
  bind off 4 at lower edge every 8 rows from row 9
"""


def part(bands: str, shape: str = LEVEL, number: int = 1) -> list[str]:
    """The lines of one part, its heading left out."""
    return block(written(plan_of(f'{HEAD}{shape}part "walk"\n{bands}\n')), f"Part {number}")[1:]


@pytest.mark.parametrize(
    ("bands", "lines"),
    [
        ("repeat 60 times\n    garter 1 row", ["garter: 60 rows."]),
        ("repeat 9 times\n    garter 3 ridges", ["garter: 27 ridges (9 repeats of 3)."]),
        ('repeat 9 times\n    garter 3 ridges "step"', ["garter (step): 27 ridges (9 repeats of 3)."]),
        ("garter 1 ridge", ["garter: 1 ridge."]),
        ("repeat 3 times\n    rib 8 rows", ["rib: 24 rows (3 repeats of 8)."]),
        ("repeat 3 times\n    rib 6 rows", ["Work 3 repeats of:", "rib: 6 rows."]),
        (
            "repeat 1 time\n    garter 2 rows\n    stockinette 2 rows",
            ["Work once:", "garter: 2 rows.", "stockinette: 2 rows."],
        ),
    ],
)
def test_a_repeat_of_one_stitch_is_one_band(bands: str, lines: list[str]) -> None:
    """A stitch with rows of its own begins them anew, so it is one band only where each ends its rows."""
    assert [line for line in part(f"  {bands}") if not line.startswith("Row ")] == lines


@pytest.mark.parametrize(
    ("times", "counts", "words"),
    [
        (9, "5, 2, 4", "5 ridges the first time, 2 the second, 4 the third, then start again"),
        (3, "5, 2, 4", "5 ridges the first time, 2 the second, 4 the third"),
        (2, "1, 2, 4", "1 ridge the first time, 2 the second"),
        (2, "4, 4, 6", "4 ridges"),
        (9, "4, 4", "4 ridges"),
    ],
)
def test_a_list_says_which_time_and_no_more_than_are_worked(times: int, counts: str, words: str) -> None:
    lines = part(f"  repeat {times} times\n    garter {counts} ridges\n    stockinette 2 rows")
    assert lines == [f"Work {times} repeats of:", f"garter: {words}.", "stockinette: 2 rows."]


def test_elongated_rows_say_how_they_are_worked() -> None:
    knit = "knit, wrapping the yarn 3 times for every st. Next row: knit, dropping the extra wraps."
    assert part("  drop 3 wraps") == [f"drop stitch: {knit}"]


def test_counts_that_never_change_are_said_once() -> None:
    text = written(plan_of(f'{HEAD}{LEVEL}part "walk"\n  repeat 4 times\n    garter 6 rows\n    stockinette 4 rows\n'))
    assert "Part 1, walk (rows 1 to 40; 40 sts)\n" in text and "Stitches after" not in text
    assert re.findall(r"\d+ sts", text) == ["40 sts", "40 sts", "40 sts"], "cast on, part, bind-off"


def test_counts_that_are_the_same_after_every_repeat_are_said_once() -> None:
    back = TOOTHED.replace("bind off 4 at lower edge every 8", "bind off 8 at lower edge every 8")
    lines = part("  repeat 3 times\n    garter 8 rows", back)
    assert lines[:2] == ["garter: 24 rows (3 repeats of 8).", "12 sts after every repeat."]


def test_counts_after_repeats_of_a_row_or_two_are_left_out() -> None:
    lines = part("  repeat 4 times\n    garter 8 rows", TOOTHED)
    assert lines[:2] == ["garter: 32 rows (4 repeats of 8).", "Stitches after each repeat: 12, 16, 20, 24."]
    assert part("  repeat 16 times\n    garter 1 ridge", TOOTHED) == ["garter: 16 ridges.", "24 sts after row 32."]


def test_how_a_pattern_lies_is_said_again_only_where_it_changes() -> None:
    lines = part("  repeat 3 times\n    garter 2 rows\n    rib 4 rows")
    assert [line for line in lines if line.startswith("Row ")] == ["Row 3, rib: between the edges 40 sts: 20 repeats."]
    lines = part("  repeat 2 times\n    garter 4 rows\n    rib 4 rows", TOOTHED.replace("4 at", "6 at"))
    assert len([line for line in lines if line.startswith("Row ")]) == 2


def test_right_and_wrong_sides_are_those_of_the_shawl() -> None:
    """The part's third row is row 6 of the shawl: a wrong-side row."""
    tail = 'part "quay"\n  increase 1 at lower edge every 2 rows from row 3\n  garter 8 rows\n'
    text = f"  garter 3 rows\n{tail}"
    assert "Row 3 and every WS row after it: increase 1 st at the lower edge (1 st increased)." in part(
        text, TOOTHED, 2
    )
    assert "Row 3 and every RS row after it: increase" in "\n".join(
        part(text.replace("3 rows", "4 rows", 1), TOOTHED, 2)
    )


def test_edges_say_where_they_are_once() -> None:
    text = written(plan_of(f'{HEAD}{TOOTHED}part "walk"\n  garter 8 rows\n'))
    assert text.count("Lower edge: the start of RS rows.") == 1 and "Upper edge" not in text
