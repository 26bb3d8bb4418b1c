"""The rows that the command prints are knitted, and what comes off the needles is the plan's.

`HALFHANK_KNITS=5000 pytest tests/knitter/test_printed_rows.py` knits that many random shawls; 120 without it.
"""

import itertools
import json
import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from halfhank.cli.commands.new import SHAPES, starter
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.parse import parse_bytes
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.grammar.reading.instruction_reader import read_notation
from halfhank.model.plan import Plan
from halfhank.model.planning.planning import plan_parsed

from tests.cli.running import halfhank
from tests.knitter.machine import Knit, knit
from tests.knitter.printed.comparing import check_counts, check_loops
from tests.knitter.printed.patterns import check_faces, check_patterns
from tests.knitter.printed.pieces import piece
from tests.pipe.random_shawls.making import seeded
from tests.pipe.random_shawls.writing import write

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "gallery_demo").glob("*.shawl"))
CASES = sorted((ROOT / "tests/cases").rglob("*.shawl"))
KNITS = int(os.environ.get("HALFHANK_KNITS", "120"))
STEP = 10


def plan_of(source: bytes) -> Plan | None:
    """The plan, None where the description has a mistake."""
    parsed = parse_bytes(source)
    if any(problem.severity == MISTAKE for problem in parsed.problems):
        return None
    return plan_parsed(parsed).plan


def printed(source: bytes) -> str:
    """What the command prints."""
    found = halfhank("instructions", "-", "--rows", stdin=source)
    assert found.status == 0, found.err
    return found.out.decode()


def check(source: bytes, plan: Plan) -> Knit:
    """Prints, knits and compares one description."""
    text = printed(source)
    knitted = knit(text)
    check_counts(knitted, plan)
    check_loops(knitted, plan)
    check_patterns(knitted, plan)
    check_faces(knitted, plan)
    check_lines(text)
    return knitted


WITHOUT_ROWS = re.compile(r"\bwork \d+ in ")
LONGEST = 3900
"""Characters of a row that the language reads: its lines have at most 4,000."""
LINE = re.compile(r"  (Rows? [^:]+): (.+) \(\d+ sts?\)")


def check_lines(text: str) -> None:
    """The language reads every row; equal neighbours are one line; abbreviations stand in the order of the alphabet."""
    found = [match.groups() for match in map(LINE.fullmatch, text.split("\n")) if match]
    for items in {items for _, items in found}:
        if len(items) < LONGEST and not WITHOUT_ROWS.search(items):
            assert read_notation(items) is not None, items
    check_folded(text)
    terms = text.partition("\nAbbreviations\n")[2].partition("\n\n")[0].split("\n")
    assert terms == sorted(terms, key=lambda line: line.partition(": ")[0].lower())


def check_folded(text: str) -> None:
    """No two lines one under the other are the same row."""
    bodies = [re.sub(r"^  Rows? [^:]+: ", "", line) for line in text.split("\n") if line.startswith("  Row")]
    heads = [line for line in text.split("\n") if line.startswith(("  Row", "Part "))]
    assert bodies
    for line, after in itertools.pairwise(heads):
        assert line.startswith("Part ") or line.partition(": ")[2] != after.partition(": ")[2], line


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_demos(path: Path) -> None:
    source = path.read_bytes()
    plan = plan_of(source)
    assert plan
    knitted = check(source, plan)
    told = json.loads(halfhank("plan", path, "--json", "--rows").out)
    assert [row.stitches for row in knitted.rows] == [row[1] for row in told["rows"]]


@pytest.mark.parametrize("shape", SHAPES)
def test_starters(shape: str) -> None:
    plan = plan_of(starter(shape))
    assert plan
    check(starter(shape), plan)


SHAPED = {
    "triangle": "cast on 9 sts\n  edge 3 sts\n  increase 1 at each edge and 1 at spine every 2 rows",
    "crescent": "cast on 41 sts\n  edge 2 sts\n  increase 2 at each edge every 2 rows",
    "tip-to-tip": "cast on 5 sts\n  edge 2 sts\n  increase 1 at lower edge every 2 rows",
    "rectangle": "cast on 43 sts",
}
SMALL = """shawl "Small"

yarn
  skein 100 g 4000 m

needles 4 mm

stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 10.6 g

shape {shape}
  {lines}

part "one"
  garter 12 ridges
  {stitch}
  stockinette 3 rows
{turn}
bind off {method}
"""


def small(shape: str, stitch: str) -> Iterator[bytes]:
    """The stitch in a small piece, once and again with a mirrored second half."""
    plain = {"drop": "drop 3 wraps", "garter": "garter 9 rows", "stockinette": "stockinette 9 rows"}
    band = plain.get(stitch, f"{stitch} 3 repeats\n  {stitch} 7 rows")
    for turn, method in (("", "elastic"), ("\nturn back\n", "picot")):
        yield SMALL.format(shape=shape, lines=SHAPED[shape], stitch=band, turn=turn, method=method).encode()


@pytest.mark.parametrize("shape", SHAPED)
@pytest.mark.parametrize("stitch", STITCH_PATTERNS)
def test_built_in_stitch_patterns(stitch: str, shape: str) -> None:
    for source in small(shape, stitch):
        plan = plan_of(source)
        assert plan
        check(source, plan)


def test_cases_that_have_no_mistakes() -> None:
    planned = 0
    for path in CASES:
        source = path.read_bytes()
        plan = plan_of(source)
        if plan:
            check(source, plan)
            planned += 1
    assert planned >= 5


@pytest.mark.parametrize("first", range(0, KNITS // 2, STEP))
def test_random_shawls(first: int) -> None:
    knitted = 0
    for number in range(first, min(first + STEP, KNITS // 2)):
        source = write(seeded(number)).encode()
        plan = plan_of(source)
        if plan:
            knitted += 1
            check(source, plan)
    assert knitted > STEP // 3


@pytest.mark.parametrize("first", range(0, KNITS // 2, STEP))
def test_random_pieces(first: int) -> None:
    knitted = 0
    for number in range(first, min(first + STEP, KNITS // 2)):
        plain, named = (text.encode() for text in piece(number))
        plan = plan_of(named)
        source, plan = (named, plan) if plan else (plain, plan_of(plain))
        if plan:
            knitted += 1
            check(source, plan)
    assert knitted > STEP // 3
