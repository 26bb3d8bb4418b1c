"""The sections of the written instructions, against lines and figures written by hand."""

import ast
import re
from pathlib import Path

import pytest
from halfhank.cli.report.terminal_writer import FILE_LAYOUT, report_text
from halfhank.grammar.description import EACH_EDGE, LOWER_EDGE, UPPER_EDGE
from halfhank.grammar.items import ITEMS
from halfhank.grammar.reading.instruction_reader import read_lines, same_items
from halfhank.model.instructions.opening.needle_sizes import us_size
from halfhank.model.instructions.written_instructions import written_instructions
from halfhank.model.marks_and_stops.variants import with_more
from halfhank.model.plan import Plan
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import patterns_of

from tests.model.checks.test_planted import SHAWL
from tests.whole import plan_of

ROOT = Path(__file__).parents[3]
HEAD = """shawl "Groyne"
yarn "Sample yarn"
  skein 100 g 400 m
  fibre "80% wool, 20% hemp"
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
BACK = """shape tip-to-tip
  cast on 3 sts
  increase 1 at upper edge every 4 rows
part "out"
  garter 8 ridges
  garter 4 ridges
turn back
"""


def written(used: Plan) -> str:
    """The written instructions as a file has them."""
    return report_text(written_instructions(used), FILE_LAYOUT)


def section(text: str, heading: str) -> list[str]:
    """The lines under one heading, up to the next."""
    lines = text.split("\n")
    first = next(number for number, line in enumerate(lines) if line.startswith(heading))
    rest = lines[first + 1 :]
    last = next((n for n, line in enumerate(rest) if re.match(r"[A-Z]", line) or line.startswith("fern")), len(rest))
    return [line.strip() for line in rest[:last] if line.strip()]


def part(bands: str, shape: str = LEVEL, number: int = 1) -> list[str]:
    """The lines of one part."""
    return section(written(plan_of(f'{HEAD}{shape}part "walk"\n{bands}\n')), f"Part {number}")


def test_the_head_has_size_yarn_needles_and_gauge() -> None:
    """40 sts of 0.5 cm are 20 cm; 80 rows of 0.25 cm are 20 cm: 7.9 in. The rectangle needs no rib."""
    lines = written(plan_of(f'{HEAD}{LEVEL}part "walk"\n  garter 40 ridges\n')).split("\n")
    facts = dict(re.split(r"\s{2,}", line, maxsplit=1) for line in lines[3:8])
    assert facts["size"] == "20 x 20 cm (8 x 8 in), blocked, not stretched"
    assert facts["yarn"] == "Sample yarn, 80 % wool, 20 % hemp, 1 skein of 100.0 g, 400 m (437 yd)"
    assert facts["needles"] == "4 mm (US 6)"
    assert facts["gauge"] == "garter 20 sts x 40 rows over 10 cm, blocked"
    assert re.fullmatch(r"[\d.]+ g, \d+ m \(\d+ yd\), bind-off included; 5\.0 g more as a margin", facts["yarn used"])


@pytest.mark.parametrize(
    ("size", "us"), [(2.25, "1"), (3.75, "5"), (6.5, "10.5"), (8.0, "11"), (3.0, None), (4.25, None)]
)
def test_us_sizes(size: float, us: str | None) -> None:
    """Several conversion tables; in-between sizes have none."""
    assert us_size(size) == us


def test_words_are_explained_where_they_are_used() -> None:
    level = section(written(plan_of(f'{HEAD}{LEVEL}part "walk"\n  stockinette 4 rows\n')), "Notes")
    assert level == [
        "The rectangle is worked from one short end to the other. All rows have the same count.",
        "Stockinette: knit on RS rows, purl on WS rows.",
    ]
    notes = section(written(plan_of(SHAWL)), "Notes")
    assert notes[0] == (
        "The shawl is worked from the middle of the neck down to its lower edges. It grows at each "
        "edge and on each side "
        "of the spine."
    )
    for word in (
        "Garter: knit every row",
        "Wing: the stitches",
        "Markers stand",
        "another increase",
    ):
        assert any(word in note for note in notes), word
    assert not any("RS rows start" in note for note in notes), "no edge is named alone"


def test_edges_are_explained_where_one_of_them_is_named() -> None:
    sideways = section(written(plan_of(f"{HEAD}{BACK}")), "Notes")
    assert any(note.startswith("RS rows start at the lower edge (the right one") for note in sideways)


def test_the_mirrored_half_is_explained() -> None:
    text = written(plan_of(f"{HEAD}{BACK}"))
    assert any(
        note.startswith("The second half has the bands of the first in reverse order")
        for note in section(text, "Notes")
    )


def test_the_start_from_a_tab_says_which_row_follows() -> None:
    assert section(written(plan_of(SHAWL)), "Start") == [
        "Cast on 3 sts. Knit 6 rows.",
        "Do not turn the work over. Turn it 90° clockwise; pick up and knit 1 st in each of the 3 ridges, then 3 sts "
        "from the cast-on edge (3 + 3 + 3 = 9 sts).",
        "Set-up row (WS): k4, place marker, k1, place marker, k4 (9 sts).",
        "The next row is row 1, a right-side row.",
    ]


def test_markers_wait_for_their_stitches() -> None:
    """From 3 cast on, 4 more in each odd row: 7 after row 1, edges and spine; a marker after 3 and 4."""
    lines = section(written(plan_of(re.sub("garter tab .*", "cast on 3 sts", SHAWL))), "Start")
    assert lines[1] == (
        "After row 1 there are enough stitches: place a marker on each side of the spine, after 3 sts and after 4 sts."
    )


def test_rows_are_worked_out_with_their_pattern() -> None:
    """Each side of a wing gains 6 in 12 rows: from row 57 a wing has two repeats more, from row 69 four."""
    lines = section(written(plan_of(SHAWL)), "Part 2")
    assert lines[1] == (
        "Row 33 and every RS row to row 79: increase 1 st at each edge and 1 st on each side of the spine (4 sts more)."
    )
    assert lines[2:5] == [
        "fern, 48 rows (rows 33 to 80):",
        "Row 33 (RS): k3, M1R, k1, *k1, yo, k1, s2kp, k1, yo, k2; rep from * to the marker (4 times), "
        "yo, sm, k1, sm, yo, "
        "*k2, yo, k1, s2kp, k1, yo, k1; rep from * to the last 4 sts (4 times), k1, M1L, k3 (77 sts).",
        "Row 34 and every WS row to row 80: k3, purl to the last 3 sts, k3.",
    ]
    for row, over in ((45, 7), (57, 5), (69, 3)):
        assert any(line.startswith(f"Row {row} (RS): k3, M1R, k{over}, *k1") for line in lines)


def test_bands_are_told_where_they_are_worked() -> None:
    assert part("  garter 3 ridges") == ["garter, 3 ridges (rows 1 to 6):", "Rows 1 to 6: knit."]
    assert part("  drop 3 wraps") == [
        "drop stitch with 3 wraps (rows 1 and 2):",
        "Row 1 (RS): wrapping the yarn 3 times around the needle for every st: knit.",
        "Row 2 (WS): dropping the extra wraps of the row before: knit.",
    ]
    assert part("  repeat 1 time\n    garter 2 rows\n    stockinette 2 rows")[:2] == [
        "Work once:",
        "garter, 1 ridge (rows 1 and 2):",
    ]


def test_repeats_that_are_alike_are_one_sentence() -> None:
    """The rows with a tooth stand before them."""
    lines = part("  repeat 4 times\n    garter 8 rows", TOOTHED)
    place = lines.index("These rows of the later repeats differ:")
    assert lines[place + 1].startswith("Rows 9, 17 and 25 (RS): bind off 4, k1, M1R, knit to the end")
    assert lines[-1] == (
        "Work 3 more repeats, all other rows in the same way, each of 8 rows (rows 9 to 32): 4 sts more after each, "
        "24 sts at the end."
    )


def test_repeats_that_differ_are_a_table() -> None:
    head = "Work 2 more repeats in the same way. Their bands have other lengths; work the rows in the table:"
    lines = part("  repeat 3 times\n    garter 2, 1, 4 ridges\n    stockinette 2 rows")
    table = [re.split(r"\s{2,}", line) for line in lines[lines.index(head) + 1 :]]
    assert table == [
        ["repeat", "garter, rows", "stockinette, rows"],
        ["2", "7-8", "9-10"],
        ["3", "11-18", "19-20"],
    ]


def test_saw_teeth_say_that_the_row_goes_on() -> None:
    lines = part("  garter 32 rows", TOOTHED)
    assert "Row 9 and every 8th row to row 25: bind off 4 sts at the lower edge" not in lines[2]
    assert lines[2] == (
        "Rows 9, 17 and 25 (RS): bind off 4 sts at the lower edge, at the start of the row, and work "
        "on to its end (4 sts fewer)."
    )
    assert any("bind off 4, k1, M1R, knit to the end" in line for line in lines)


def test_a_tooth_on_a_wrong_side_row_is_at_its_end() -> None:
    lines = part("  garter 32 rows", TOOTHED.replace("from row 9", "from row 10"))
    assert lines[2].endswith("bind off 4 sts at the lower edge, at the end of the row (4 sts fewer).")


def test_the_mirrored_half_has_its_decreases() -> None:
    """10 sts after 12 rows of increases at rows 1, 5 and 9 …: rows 25 to 48 take 6 off again."""
    lines = section(written(plan_of(f"{HEAD}{BACK}")), "Part 2")
    assert lines[1] == "Row 25 and every 4th row to row 45: decrease 1 st at the upper edge (1 st fewer)."
    assert any(line.startswith("Row") and "k2tog" in line for line in lines)


def test_both_wings_read_back() -> None:
    made = plan_of(SHAWL)
    text, (pattern,) = written(made), patterns_of(made.table.measures).values()
    for title, rows in (("fern (", pattern), ("fern, second wing", mirrored(pattern))):
        found = next(one for one in text.split("\n\n") if one.startswith(title)).split("\n")[1:]
        read = {number: row.items for row in read_lines([line.strip() for line in found]) for number in row.numbers}
        assert all(same_items(read[row.number], row.items) for row in rows.rows)


@pytest.mark.parametrize(
    ("off", "lines"),
    [
        (
            "elastic",
            [
                "On the next row, a RS row, work an elastic bind-off over all 40 sts:",
                "K1, *k1, slip both sts back to the left needle, k2tog tbl; rep from * until 1 st is "
                "on the right needle and "
                "none on the left one.",
                "Cut the yarn and draw it through the last st.",
            ],
        ),
        (
            "draw through",
            [
                "Cut the yarn, leaving a tail of 20 cm (8 in). Thread it through the last 40 sts with "
                "a tapestry needle, draw "
                "up tight and fasten off."
            ],
        ),
    ],
)
def test_it_ends_with_the_bind_off(off: str, lines: list[str]) -> None:
    text = written(plan_of(f'{HEAD}{LEVEL}part "walk"\n  garter 2 ridges\nbind off {off}\n'))
    assert section(text, "Finish" if off == "draw through" else "Bind off") == lines
    assert ("bind-off included" in text) == (off != "draw through")


@pytest.mark.parametrize(
    ("picot", "count", "last"),
    [("picot", 19, "Bind off the last 2 sts without a picot"), ("picot cast on 2 bind off 5", 13, "Knit the last st.")],
)
def test_picots_are_counted(picot: str, count: int, last: str) -> None:
    """40 sts: 19 picots of 2 leave 2, 13 of 3 leave 1."""
    steps = section(written(plan_of(f'{HEAD}{LEVEL}part "walk"\n  garter 3 rows\nbind off {picot}\n')), "Bind off")
    assert steps[0].startswith("On the next row, a WS row")
    assert steps[4] == f"Repeat steps 1 to 3 until there are {count} picots." and steps[5].startswith(last)


def test_grams_for_another_repeat_pay_for_all_that_follows() -> None:
    """What is on the scale by the plan, less what would be left over, and the margin."""
    plan = plan_of(f'{HEAD}{LEVEL}part "walk"\n  repeat as yarn allows\n    garter 5 ridges\n  stockinette 4 rows\n')
    allowed = plan.shawl.allowed
    assert allowed
    lines = section(written(plan), "Weighing")
    more = with_more(plan, 1)
    assert more
    row = 10 * allowed
    needed = plan.working.left_g[row] - more.left.mean + plan.shawl.yarn.keep_g
    told = next(line for line in lines if line.startswith(f"After row {row:,}: work another repeat"))
    assert f"(the {allowed + 1}" in told and f"at least {needed:.1f} g" in told
    assert told.endswith("; else go on with what follows the repeats in this part.")
    assert needed > plan.working.left_g[row], "the plan has worked as many as the yarn allows"
    assert not any(line.startswith("Stop and bind off") for line in lines), "one rule, not two"
    for more in (-2, -1, 0, 1):
        last = 10 * (allowed + more)
        line = f"{allowed + more:,} repeats: the last ends with row {last:,}, 40 sts; the shawl ends with row "
        assert f"{line}{last + 4:,}, 40 sts." in lines


def test_parts_that_another_repeat_rewrites_are_named() -> None:
    """After 18 repeats there are 62 sts: the lace over 2 sts + 1 has one left over that it has not after 17."""
    source = (ROOT / "gallery_demo/slipway-nine.shawl").read_text(encoding="utf-8")
    lines = section(written(plan_of(source)), "Weighing")
    told = {line.partition(" ")[0]: line for line in lines if " repeats: the last" in line}
    assert told["18"].endswith("The rows of part 2, keel, are then others than those printed here.")
    assert "62 sts" in told["18"] and "printed here" not in told["17"]


def test_rows_as_the_yarn_allows_have_their_grams() -> None:
    plan = plan_of(f'{HEAD}{LEVEL}part "walk"\n  garter as yarn allows\n')
    lines = section(written(plan), "Weighing")
    rows = plan.rows.count
    assert any(line.startswith(f"From row {rows - 4:,} on, after every 2 rows: work 2 more only if") for line in lines)
    assert lines[-1].endswith("; else bind off.")


def test_half_of_the_yarn_is_the_mark() -> None:
    plan = plan_of(SHAWL)
    mark = plan.shawl.marks.halfway
    assert mark
    used = plan.shawl.yarn.total_g / 2
    line = (
        f"Half of this shawl's yarn, {used:.1f} g, is used in row {mark.row}. "
        f"After it {mark.left_g:.1f} g are on the scale."
    )
    assert line in section(written(plan), "Weighing")


def test_a_pinned_piece_is_pinned_to_its_size() -> None:
    text = written(plan_of(SHAWL.replace("  spine 1 st\n", "  spine 1 st\n  pinned to 90 cm by 40 cm\n")))
    assert "Pin it out to 90 cm (35 in) wide and 40 cm (16 in) deep." in section(text, "Blocking")


# The words of people stand in the catalogue.

_NAMES = {*ITEMS, EACH_EDGE, LOWER_EDGE, UPPER_EDGE, "draw through", "yo twice", "bind off N", "cast on N"}
_CONSTRUCTIONS = re.compile(r"(?:asymmetric )?triangle(?: from .*)?|bias strip|worked from tip to tip")
_NOTATION = {"abbreviations.py", "row_lines.py"}
"""Rows in the trade's notation, which the language reads back."""


def _literals(path: Path) -> list[str]:
    """Texts of a module, without what stands in docstrings and errors."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    left_out = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Raise | ast.Assert):
            left_out |= {id(inner) for inner in ast.walk(node)}
    constants = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in left_out]
    return [node.value for node in constants if isinstance(node.value, str)]


ROOMS = ("", "parts", "opening", "ending")
MODULES = [path for room in ROOMS for path in sorted((ROOT / "model/instructions" / room).glob("*.py"))]


@pytest.mark.parametrize("path", [one for one in MODULES if one.name not in _NOTATION], ids=lambda path: path.name)
def test_no_sentence_stands_in_the_code(path: Path) -> None:
    words = [text for text in _literals(path) if " " in text and re.search("[A-Za-z]", text) and "\\" not in text]
    units = {" cm", " in", " mm"}
    assert [text for text in words if text not in _NAMES | units and not _CONSTRUCTIONS.fullmatch(text)] == []
