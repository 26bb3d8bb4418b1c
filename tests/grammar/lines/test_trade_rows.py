"""Rows as patterns print them: one problem, whose mend is the whole row in the language's form."""

import pytest
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.lines.trade_rows import ITEMS_OF_TRADE, row_of_trade
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.reading.instruction_reader import same_items

from tests.grammar.lines.test_mends import TEXT
from tests.model.checks.test_planted import SHAWL
from tests.model.test_edits import edited

ROW = "  row 1: *k2, p4*, k1\n"

# What is written for a row, and what the hint says to write.
ROWS = [
    ("row 1: *k2, p4, rep from *, k1", "row 1: *k2, p4*, k1"),
    ("row 1: *k2, p4, rep from * to end", "row 1: *k2, p4*"),
    ("row 1: *k2, p4; rep from *", "row 1: *k2, p4*"),
    ("row 1: k1, *k2, p4; rep from * across", "row 1: k1, *k2, p4*"),
    ("row 1: *k2, p4, repeat from * to end, k1", "row 1: *k2, p4*, k1"),
    ("row 1: *k2, p4; rep from * to last st, k1", "row 1: *k2, p4*, k1"),
    ("row 1: *k2, p4, rep from * to the last 2 sts, k2.", "row 1: *k2, p4*, k2"),
    ("row 1: *K2, P4*, K1", "row 1: *k2, p4*, k1"),
    ("Row 1 (RS): *K2, P4*, K1", "row 1: *k2, p4*, k1"),
    ("Row 1 (RS): Knit", "row 1: knit"),
    ("Row 1 (RS) *k2, p4*, k1", "row 1: *k2, p4*, k1"),
    ("Rows 1 to 3: K1, *M1L, K2tog; rep from * to end.", "rows 1-3: k1, *m1l, k2tog*"),
    ("Rows 1, 3 and 5 (RS): Knit.", "rows 1, 3, 5: knit"),
    ("row 1: knit across", "row 1: knit"),
    ("row 1: Purl to end of row", "row 1: purl"),
    ("row 1: k1, sl 1, k2tog, psso, k1", "row 1: k1, sk2p, k1"),
    ("Row 1 (RS): (YO, K2tog) x 3, K1", "row 1: [yo, k2tog] 3 times, k1"),
    ("row 1: k1tbl, p1tbl, k2togtbl", "row 1: k1 tbl, p1 tbl, k2tog tbl"),
    ("row 1: K1, sl2-k1-p2sso, K1", "row 1: k1, s2kp, k1"),
    ("Row 1 (RS): K1, *k2tog, yo*, k1 (13 sts).", "row 1: k1, *k2tog, yo*, k1"),
    ("Row 1: *K2, P4; rep from * to last st, K1. [1,027 stitches]", "row 1: *k2, p4*, k1"),
    ("row 1: BO 3 sts, *k1*, CO 2", "row 1: bind off 3, *k1*, cast on 2"),
    ("Row 1: Drop extra wraps, Knit", "row 1: drop wraps, knit"),
    ("Row 1 (RS): *K3, yo; rep from * to end. Each repeat now has 4 sts.", "row 1: *k3, yo*"),
    ("Row 1 (RS): *K3, yo; rep from * to end. Each multiple now has 4 sts.", "row 1: *k3, yo*"),
]


def problems(row: str) -> tuple[Problem, ...]:
    return parse(TEXT.replace(ROW, f"  {row}\n")).problems


@pytest.mark.parametrize(("written", "mended"), ROWS, ids=[written for written, _ in ROWS])
def test_the_whole_row_is_said_anew(written: str, mended: str) -> None:
    (problem,) = problems(written)
    assert (problem.code, problem.hint) == ("unknown-word", f"write `{mended}`")
    assert problem.edit
    text = edited(TEXT.replace(ROW, f"  {written}\n"), problem.edit)
    assert f"  {mended}\n" in text
    assert {one.code for one in parse(text).problems} <= {"row-missing"}


@pytest.mark.parametrize("head", ["Row 1 (RS)", "Row 1", "row 1 (WS)", "row  1  (RS) ", "Rows 1-1 (RS)"])
@pytest.mark.parametrize("end", ["", " (1 st)", " (13 sts)", " (1,027 sts) "])
@pytest.mark.parametrize("items", ["k1, *yo, k2tog*", "k3, bind off 2, [k1] 4 times", "knit", "drop wraps, purl"])
def test_a_row_of_instructions_reads_as_it_is(head: str, items: str, end: str) -> None:
    """Its side and its count are read over: the row means what it means without them."""
    printed, plain = (parse(TEXT.replace(ROW, f"  {row}\n")) for row in (f"{head}: {items}{end}", f"row 1: {items}"))
    assert printed.problems == plain.problems == () and printed.description and plain.description
    rows = [read.description.stitches[1].rows[0] for read in (printed, plain) if read.description]
    assert rows[0].numbers == rows[1].numbers == (1,) and same_items(rows[0].items, rows[1].items)


@pytest.mark.parametrize(
    "row",
    [
        "row 1 (13 sts): k1",
        "row 1: k1 (RS)",
        "row 1: (13 sts)",
        "row 1 (RS) (WS): k1",
        "row 1: k1 (3 sts), k1",
        "Row 1: K1",
    ],
)
def test_sides_and_counts_have_their_places(row: str) -> None:
    assert problems(row) != ()


@pytest.mark.parametrize("item", ITEMS_OF_TRADE)
def test_an_item_of_the_trade_has_its_name_here(item: str) -> None:
    (problem,) = problems(f"row 1: k1, {item}, k1")
    assert problem.hint == f"write `{ITEMS_OF_TRADE[item]}`"
    assert problems(f"row 1: k1, {ITEMS_OF_TRADE[item]}, k1") == ()


@pytest.mark.parametrize(
    "written", ["row 1: *k2, p4; rep from * to last 2 sts", "row 1: K1, frob 2, K1", "row one: K1"]
)
def test_what_nobody_knows_is_not_guessed(written: str) -> None:
    """To the last 2 sts, and then? And what is a frob?"""
    assert all(one.edit is None for one in problems(written))


def test_a_long_row_is_shown_in_part_and_edited_whole() -> None:
    long = "K2, P4, " * 20
    (problem,) = problems(f"row 1: *{long}K1; rep from * to last 2 sts, K2")
    assert problem.hint and problem.hint.startswith("write `row 1: *k2, p4,") and problem.hint.endswith("…`")
    assert problem.edit and problem.edit.text.endswith("p4, k1*, k2")


def test_a_row_of_the_language_stays_as_it_is() -> None:
    for pattern in STITCH_PATTERNS.values():
        rows = [line for line in pattern.lines if line.startswith("row")]
        assert [row_of_trade(row) for row in rows] == rows


def test_written_instructions_can_be_pasted_back() -> None:
    """Every row that `halfhank instructions` prints, put where the row was: the edits give the same shawl again."""
    from halfhank.model.instructions.row_lines import row_lines
    from halfhank.model.planning.planning import plan_parsed
    from halfhank.model.stitches.pattern import patterns_of

    planned = plan_parsed(parse(SHAWL)).plan
    assert planned
    printed = row_lines(patterns_of(planned.table.measures)["fern"])
    first, last = SHAWL.index("  row 1: k1"), SHAWL.index("shape triangle")
    pasted = SHAWL[:first] + "".join(f"  {line}\n" for line in printed) + SHAWL[last:]
    found = parse(pasted).problems
    assert len(found) == len(printed) == 7 and all(one.edit for one in found)
    for one in found:
        assert one.edit
        pasted = edited(pasted, one.edit)
    again = plan_parsed(parse(pasted)).plan
    assert again and again.shawl.used_g == planned.shawl.used_g


PRINTED = "row 1: *[k1, yo, k1] in 1, sl2 wyif, [k2tog] 2 times, 2/2 lc, k1 with 3 wraps, yo twice, m1lp, m1rp, pfb*"
PRINTED += ", sssp, s2pp, bind off 2, cast on 3\n  row 2: drop wraps, knit"


@pytest.mark.parametrize("name", [*STITCH_PATTERNS, "made"])
def test_every_printed_item_has_its_form(name: str) -> None:
    from halfhank.grammar.reading.instruction_reader import read_notation, same_items
    from halfhank.model.design.resolve import resolve
    from halfhank.model.design.stitch_measures import StitchMeasures
    from halfhank.model.instructions.row_lines import row_lines
    from halfhank.model.stitches.pattern import patterns_with

    lines = "\n  ".join(STITCH_PATTERNS[name].lines) if name in STITCH_PATTERNS else PRINTED
    description = parse(
        TEXT.replace("stitch mesh\n  multiple of 6 sts + 1\n" + ROW, f"stitch xx\n  {lines}\n")
    ).description
    assert description
    pattern = patterns_with(StitchMeasures(resolve(description)), "xx")["xx"]
    printed = row_lines(pattern)
    assert printed
    for line in printed:
        row = row_of_trade(line)
        assert row, line
        numbers, _, notation = row.partition(": ")
        first = int(numbers.split()[1].split("-")[0].strip(","))
        items = read_notation(notation)
        assert items and same_items(items, pattern.rows[first - 1].items), line
