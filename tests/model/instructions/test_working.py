"""The written instructions of a shawl, against its plan and a hand-written one."""

import re

import pytest
from halfhank.cli.report.terminal_writer import FILE_LAYOUT, report_text
from halfhank.grammar.reading.instruction_reader import read_lines, same_items
from halfhank.model.instructions.written_instructions import written_instructions
from halfhank.model.plan import Plan
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import patterns_of

from tests.model.checks.test_planted import SHAWL
from tests.whole import plan_of


def written(used: Plan) -> str:
    """The written instructions as a file has them."""
    return report_text(written_instructions(used), FILE_LAYOUT)


def block(text: str, title: str) -> list[str]:
    """The lines under one heading."""
    found = next(one for one in text.split("\n\n") if one.startswith(title))
    return [line.strip() for line in found.splitlines()]


def test_the_parts_say_rows_counts_and_how_the_pattern_lies() -> None:
    """Each side of a wing gains 6 in 12 rows: 12 after 24 rows are one repeat of 8 each, 18 after 36 rows two."""
    assert block(written(plan_of(SHAWL)), "Part 2")[:4] == [
        "Part 2, fern (rows 33 to 80; 73 sts to 169 sts)",
        "fern: 48 rows.",
        "169 sts after row 80.",
        "Row 33, fern: in each wing 33 sts: 4 repeats + 1 st; 6 repeats from row 57, 8 repeats from row 69.",
    ]


def test_the_order_of_a_row_is_said_where_a_pattern_is_worked() -> None:
    order = "RS rows: edge (3 sts), first wing, spine (1 st), second wing, edge (3 sts); WS rows in "
    assert block(written(plan_of(SHAWL)), "Shaping").count(order + "reverse order.") == 1
    plain = re.sub("stitch fern.*?(?=shape )", "", SHAWL, flags=re.DOTALL).replace("  fern 48", "  garter 48")
    assert "RS rows:" not in written(plan_of(plain))


def test_a_pattern_on_the_last_row_of_a_part_is_laid_too() -> None:
    lines = block(written(plan_of(SHAWL.replace("garter 3 ridges", "garter 3 ridges\n  fern 1 row"))), "Part 3")
    assert [line for line in lines if line.startswith("Row 87, fern: in each wing 87 sts")], lines


def test_shaping_says_where_and_how_many() -> None:
    assert block(written(plan_of(SHAWL)), "Shaping")[1] == (
        "Row 1 and every RS row: increase 1 st at each edge inside the 3 edge sts and 1 st on "
        "each side of the 1 spine st (4 sts increased)."
    )


def test_new_stitches_wait_in_the_fill() -> None:
    told = (
        "{}: work new stitches in {} until there are enough for another repeat; take them into the pattern at its next "
        "row 1."
    )
    used = plan_of(SHAWL)
    (pattern,) = (one for one in patterns_of(used.table.measures).values() if one.name in written(used))
    assert told.format(pattern.name, pattern.fill) in block(written(used), "Shaping")
    level = plan_of(re.sub("shape triangle.*?(?=part )", "shape rectangle\n  cast on 63 sts\n", SHAWL, flags=re.DOTALL))
    assert "new stitches" not in written(level)


def test_abbreviations_of_both_wings_are_told() -> None:
    """Row 1 has no ssk but in its mirror image."""
    text = SHAWL.replace("row 1: k1, *k1, yo, k1, s2kp, k1, yo, k2*", "row 1: k1 tbl, *sl1 wyif, k2tog, yo, k5*")
    text = re.sub(r"  row (?:3|5|7|9|11): .*\n", "", text).replace("rows 2, 4, 6, 8, 10, 12", "rows 2-12")
    told = {line.split(":")[0] for line in block(written(plan_of(text)), "Abbreviations")[1:]}
    assert {"k2tog", "ssk", "yo", "sl", "tbl", "wyif"} <= told and "s2kp" not in told


def test_both_wings_read_back() -> None:
    made = plan_of(SHAWL)
    text, (pattern,) = written(made), patterns_of(made.table.measures).values()
    for title, rows in (("fern (", pattern), ("fern, second wing", mirrored(pattern))):
        read = {number: row.items for row in read_lines(block(text, title)[1:]) for number in row.numbers}
        assert all(same_items(read[row.number], row.items) for row in rows.rows)


def test_repeats_say_the_count_after_each() -> None:
    """9 + 4 x 16 = 73; each time 24 rows more: 48 stitches."""
    text = SHAWL.replace("  fern 48 rows", "  repeat 3 times\n    fern 12 rows\n    garter 4, 8 ridges")
    lines = block(written(plan_of(text)), "Part 2")
    assert lines[1:5] == [
        "Work 3 repeats of:",
        "fern: 12 rows.",
        "garter: 4 ridges the first time, 8 the second, then start again.",
        "Stitches after each repeat: 113, 169, 209.",
    ]


def test_evenly_says_on_which_stitches() -> None:
    """Before row 33 there are 73 stitches, 67 between the edges.

    5 more: runs of 13, 14, 14, 13 and 13, one cut in halves.
    """
    text = SHAWL.replace('part "fern"\n', 'part "fern"\n  increase 5 evenly every 100 rows\n')
    lines = block(written(plan_of(text)), "Part 2")
    (line,) = [one for one in lines if one.startswith("Row 33, evenly")]
    assert (
        line == "Row 33, evenly between the edges, on 67 sts: k6, m1, k13, m1, [k14, m1] 2 times, k13, m1, k7; 72 sts."
    )


def test_rows_narrower_than_their_edges_are_all_edge() -> None:
    """A tab of 9 holds 3 + 3; from 3 cast on it takes until row 2, with 4 more in each odd row."""
    said = "Rows of fewer than 6 sts: every st is an edge st."
    assert said not in written(plan_of(SHAWL))
    assert said in block(written(plan_of(re.sub("garter tab .*", "cast on 3 sts", SHAWL))), "Shaping")


def test_the_way_back_is_written_band_by_band() -> None:
    text = """shawl "Ford"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
shape tip-to-tip
  cast on 3 sts
  increase 1 at upper edge every 4 rows
part "out"
  garter 8 ridges
  garter 4 ridges
turn back
"""
    lines = block(written(plan_of(text)), "Part 2")
    assert lines[1:] == ["Rows 25 to 48: garter; 3 sts at the end.", "3 sts after row 48."]
    lines = block(written(plan_of(text.replace("garter 4", "stockinette 4"))), "Part 2")
    assert lines[1:3] == ["Rows 25 to 32: stockinette; 7 sts at the end.", "Rows 33 to 48: garter; 3 sts at the end."]


@pytest.mark.parametrize(
    ("off", "words"), [("bind off picot", "Picot bind-off over 181 sts."), ("bind off draw through", "last 181 sts.")]
)
def test_it_ends_with_the_bind_off(off: str, words: str) -> None:
    assert written(plan_of(SHAWL + off + "\n")).rstrip().endswith(words)
