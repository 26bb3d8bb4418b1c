"""The written instructions, worked as a knitter works them: every row, every change of shape, every count.

`HALFHANK_KNITS=2000 pytest tests/model/instructions/parts` reads that many random shawls; 30 without it.
"""

import os
import re
from pathlib import Path

import pytest
from halfhank.cli.commands.new import SHAPES, starter
from halfhank.cli.report.terminal_writer import FILE_LAYOUT, report_text
from halfhank.grammar.description import Work
from halfhank.grammar.parse import parse_bytes
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.model.instructions.parts.further_rows import further_plan
from halfhank.model.instructions.rows.events import events
from halfhank.model.instructions.rows.every_row import InstructedRow, every_row
from halfhank.model.instructions.rows.segments import takes
from halfhank.model.instructions.written_instructions import written_instructions
from halfhank.model.plan import Plan
from halfhank.model.planning.planning import plan_parsed

from tests.model.instructions.parts.expanding import RowWorker, as_worked
from tests.model.instructions.parts.knowing import worked_past, worked_rows
from tests.model.instructions.parts.reading import Line, Part, changes, label_rows, number, parts
from tests.pipe.random_shawls.making import seeded
from tests.pipe.random_shawls.writing import write

ROOT = Path(__file__).parents[4]
DEMOS = sorted((ROOT / "gallery_demo").glob("*.shawl"))
KNITS = int(os.environ.get("HALFHANK_KNITS", "30"))
STEP = 10
PLACES = {
    "at each edge": ("upper edge", "lower edge"),
    "at the upper edge": ("upper edge",),
    "at the lower edge": ("lower edge",),
    "on each side of the spine": ("spine",),
    "evenly across the row": ("evenly",),
}


def plan_of(source: bytes) -> Plan | None:
    parsed = parse_bytes(source)
    if any(problem.severity == MISTAKE for problem in parsed.problems):
        return None
    return plan_parsed(parsed).plan


def written(plan: Plan) -> str:
    return report_text(written_instructions(plan), FILE_LAYOUT)


def check(plan: Plan) -> str:
    """All that has to hold of every shawl."""
    text = written(plan)
    check_rows(plan, text)
    check_past(plan, text)
    check_shaping(plan, text)
    check_counts(plan, text)
    check_abbreviations(text, [fabric.name for fabric in plan.shawl.fabrics])
    return text


def check_rows(plan: Plan, text: str) -> None:
    """Every row is worked once, and its words give the stitches of the plan's row, one by one."""
    rows = worked_rows(plan, text)
    assert sorted(rows) == list(range(1, plan.rows.count + 1))
    live = plan.rows.stitches[0]
    for row in every_row(plan):
        if UNKNOWN.search(rows[row.row]) is None:
            worked = RowWorker(live, markers(row)).work(spelled(rows[row.row]))
            assert worked == as_worked(row.items, live), row.row
        live = row.stitches


def check_past(plan: Plan, text: str) -> None:
    """The rows past the plan are told, and give the stitches of those of the longer shawl."""
    longer, rows = further_plan(plan), worked_past(plan, text)
    if longer is None:
        assert not rows
        return
    assert rows or "as the yarn allows (see Weighing)" not in text
    made = every_row(longer)
    for told, words in rows.items():
        row, live = made[told - 1], made[told - 2].stitches
        if UNKNOWN.search(words) is None:
            assert RowWorker(live, markers(row)).work(spelled(words)) == as_worked(row.items, live), told


UNKNOWN = re.compile(r"\bwork (?:[\d,]+ )?in ")
"""Stitches of a pattern of which the description gives no rows."""


def markers(row: InstructedRow) -> list[int]:
    """The stitches before each marker at the start of a row."""
    before, found = 0, list[int]()
    for place, (name, items) in enumerate(row.stretches):
        if name == "spine":
            found += [before, before + takes(items)]
        elif name == "shaping" and place and [item.kind for item in items if isinstance(item, Work)] == ["s2kp"]:
            found += [before + 1, before + 2]
        before += takes(items)
    return found


def spelled(words: str) -> str:
    """Once and twice as numbers."""
    return words.replace("] once", "] 1 times").replace("] twice", "] 2 times")


def check_shaping(plan: Plan, text: str) -> None:
    """The sentences have every event, and none besides."""
    told: dict[tuple[int, str, str], int] = {}
    for part in parts(text):
        for line in part.shaping:
            for action, place, stitches in changes(line):
                for row in line.rows:
                    assert row in part.rows
                    for one in PLACES[place]:
                        told[row, action, one] = told.get((row, action, one), 0) + stitches
    planned: dict[tuple[int, str, str], int] = {}
    for event in events(plan):
        key = (event.row, event.action, event.place)
        planned[key] = planned.get(key, 0) + event.stitches
    assert told == planned


def check_counts(plan: Plan, text: str) -> None:
    """Every count that is named after a row is that of the needle."""
    live = {row.row: row.stitches for row in every_row(plan)}
    for part in parts(text):
        for line in lines_of(part):
            if found := re.search(r"([\d,]+) sts? after row ([\d,]+)\)$", line.text):
                assert live[number(found[2])] == number(found[1])
            elif (found := re.search(r" \(([\d,]+) sts?\)$", line.text)) and len(line.rows) == 1:
                assert live[line.rows[0]] == number(found[1])
        for block in part.blocks:
            assert {row: live[row] for row in block.counts} == block.counts


_ENGLISH = """knit purl from to the last sts st end marker before in row times twice once after of and more fewer each
time work wrapping yarn around needle for every but increases dropping extra wraps next together bind off cast on"""
ENGLISH = set(re.findall(r"\w+", _ENGLISH))
"""Words of a row that are no abbreviations."""


def check_abbreviations(text: str, stitches: list[str]) -> None:
    """Every abbreviation of a row is explained, and each one explained is used."""
    section = text.partition("\nAbbreviations\n")[2].partition("\n\n")[0]
    explained = {line.strip().partition(": ")[0] for line in section.split("\n")}
    rest = text.partition("\nAbbreviations\n")[2].partition("\n\n")[2]
    lines = [line.text for part in parts(text) for line in lines_of(part)]
    lines += [other for part in parts(text) for block in part.blocks for other in block.others.values()]
    for line in lines:
        for name in stitches:
            line = line.replace(f"in {name}", "in")
        for word in re.findall(r"(?<![\w/])[A-Za-z]\w*", line):
            if word not in ENGLISH:
                bare = re.sub(r"^([kp])(?:\d+|[A-Z])$", r"\1", word)
                if re.fullmatch("[A-Z]", bare):
                    continue
                assert bare in explained or bare in " ".join(explained).split(), (word, line)
    for name in explained:
        assert used(name, rest), name


def lines_of(part: Part) -> list[Line]:
    """All lines of a part that tell rows by their numbers."""
    told = [line for block in part.blocks for band in block.bands for line in band.lines]
    return told + [line for block in part.blocks for line in block.extra]


def used(name: str, text: str) -> bool:
    """Whether a text has an abbreviation; words of two letters stand in running text, too, so they stand alone."""
    shapes = {"k": r"\bk\d*\b", "p": r"\bp\d*\b", "st(s)": r"\bsts?\b", "[ ]": r"\] ", "( )": r"\) in next"}
    shapes |= {"bind off N": r"bind off \d", "cast on N": r"cast on \d", "sl": r"\bsl \d"}
    return re.search(shapes.get(name, re.escape(name)), text, re.IGNORECASE) is not None


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_demos(path: Path) -> None:
    plan = plan_of(path.read_bytes())
    assert plan
    check(plan)


@pytest.mark.parametrize("shape", SHAPES)
def test_starters(shape: str) -> None:
    plan = plan_of(starter(shape))
    assert plan
    check(plan)


@pytest.mark.parametrize("first", range(0, KNITS, STEP))
def test_random_shawls(first: int) -> None:
    worked = 0
    for seed in range(first, min(first + STEP, KNITS)):
        plan = plan_of(write(seeded(seed)).encode())
        if plan:
            check(plan)
            worked += 1
    assert worked


def test_labels_are_read_as_they_are_written() -> None:
    assert label_rows("Row 1 and every RS row to row 7") == (1, 3, 5, 7)
    assert label_rows("Rows 15 and 25 (RS)") == (15, 25)
    assert label_rows("Row 1 and every 4th row to row 13, row 20 (WS)") == (1, 5, 9, 13, 20)
    assert label_rows("Rows 1,003 to 1,005, rows 1,007, 1,009 and 1,011") == (1003, 1004, 1005, 1007, 1009, 1011)
