"""The language reference: its examples are run, its tables hold what the code has."""

import re
from pathlib import Path

import pytest
from halfhank import grammar
from halfhank.grammar.items import CABLE_TURNS, ITEMS
from halfhank.grammar.parse import parse, parse_bytes
from halfhank.grammar.problems import parse_problems
from halfhank.grammar.problems.problem import Problem, ProblemKind
from halfhank.grammar.source_text.excerpt import show_problems

from tests.grammar.cases import CASES, expected

FOLDER = Path(grammar.__file__).parent
README = (FOLDER / "README.md").read_text(encoding="utf-8")
FENCES = re.findall(r"```(\w+)\n(.*?)```", README, re.DOTALL)

# Where a fragment goes: one line for each kind of block, replaced by the fragment.
BASE = {
    "shawl": "units cm",
    "yarn": "skein 100 g 400 m",
    "stitch": "gauge 20 sts 30 rows over 10 cm",
    "shape": "garter tab 3 sts 6 rows",
    "part": "garter 9 ridges",
    "weighed": "before cast on 101 g",
}
HEADS = {
    "shawl": 'shawl "A"',
    "yarn": "yarn",
    "stitch": "stitch sample",
    "shape": "shape triangle",
    "part": 'part "base"',
}


def _description(block: str, lines: list[str]) -> tuple[str, int]:
    """A description with lines added to a block, above the parts (`head`) or at the end (`top`), and where."""
    out: list[str] = []
    first = 0
    for kind, line in BASE.items():
        if kind == "shape":
            out += ["needles 4 mm"]
        out += [HEADS.get(kind, kind), "  " + line] if kind != "weighed" or block == kind else []
        if kind == block:
            out = out[:-1] if _replaces(kind, lines) else out
            first = len(out) + 1
            out += ["  " + added for added in lines]
    if block == "top":
        first = len(out) + 1
        out += [*lines, *_filling(lines)]
    if block == "head":
        place = out.index("needles 4 mm")
        first = place + 1
        out[place:place] = [*lines, *_filling(lines)]
    return "\n".join(out) + "\n", first


def _filling(lines: list[str]) -> list[str]:
    """A line for a block that may not be empty."""
    fillings = {"stitch": "  as garter", "part": "  garter 2 rows"}
    return [line for word, line in fillings.items() if lines[0].startswith(word)]


def _replaces(kind: str, lines: list[str]) -> bool:
    """Whether lines stand in place of the base's own: a start of its own, shaping at the head, a whole log."""
    return lines[0].startswith(("before cast on", "even", "cast on"))


def test_whole_descriptions_have_no_mistake() -> None:
    whole = [text for kind, text in FENCES if kind == "shawl"]
    assert whole
    for text in whole:
        assert parse(text).problems == ()


@pytest.mark.parametrize("kind", ["shape", "part", "stitch", "weighed"])
def test_fragments_have_no_mistake_in_their_block(kind: str) -> None:
    fragments = [text for block, text in FENCES if block == kind]
    assert fragments
    for fragment in fragments:
        text, _ = _description(kind, fragment.rstrip("\n").split("\n"))
        assert parse(text).problems == ()


def _lines_of_tables() -> list[tuple[str, str]]:
    """The lines shown in the tables of the blocks, with the block's kind."""
    found = []
    for kind, table in re.findall(r"### (\w+)[^\n]*\n(.*?)(?=\n### |\n## )", README, re.DOTALL):
        for cell in re.findall(r"^\| (`[^|]*) \|", table, re.MULTILINE):
            found += [(kind, line) for line in re.findall(r"`([^`]*)`", cell)]
    return found


@pytest.mark.parametrize(("kind", "line"), _lines_of_tables())
def test_each_line_of_the_tables_reads_in_its_block(kind: str, line: str) -> None:
    written = line.replace('"…"', '"x"').replace(": …", ": knit")
    text, first = _description(kind, [written] if not written.startswith("repeat") else [written, "  garter 2 rows"])
    found = {p.code for p in parse(text).problems if p.span and p.span.line >= first}
    lone = {"duplicate-fact", "unknown-stitch", "row-missing", "list-outside-repeat", "late-shaping"}
    assert found <= lone, text


def _code_table() -> dict[str, str]:
    rows = re.findall(r"^\| `([a-z0-9-]+)` \| [^|]+ \| ([^|]*)\|$", README.split("# Problems")[1], re.MULTILINE)
    return {code: example.strip() for code, example in rows}


def _codes_of_reading() -> set[str]:
    """The codes of all wordings that reading has for problems."""
    return {kind.code for kind in vars(parse_problems).values() if isinstance(kind, ProblemKind)}


def test_every_code_is_in_the_reference_and_no_other() -> None:
    assert set(_code_table()) == _codes_of_reading()


@pytest.mark.parametrize(("code", "example"), [item for item in _code_table().items() if item[1]])
def test_examples_of_mistakes_give_the_code_beside_them(code: str, example: str) -> None:
    block, line = re.fullmatch(r"(\w+) `(.*)`", example).groups()  # type: ignore[union-attr]
    text, first = _description(block, [line])
    found = [problem for problem in parse(text).problems if problem.span and problem.span.line == first]
    assert [problem.code for problem in found] == [code]


def test_every_code_has_a_case() -> None:
    """By case files, or by the tests of caps and bytes where a file would be unwieldy."""
    in_files = {code for path in CASES.glob("problems/**/*.shawl") for _, _, code in expected(path.read_text("utf-8"))}
    elsewhere = {
        "brackets-too-deep",
        "control-character",
        "empty-description",
        "file-too-large",
        "line-too-long",
        "more-problems",
        "nesting-too-deep",
        "not-text",
        "not-utf-8",
    }
    assert in_files | elsewhere == set(_code_table())
    tests = (Path(__file__).parent / "source_text" / "test_layout.py").read_text(encoding="utf-8")
    assert all(f'"{code}"' in tests for code in elsewhere)


def test_the_items_table_is_the_one_in_the_code() -> None:
    rows = re.findall(r"^\| `([^`]+)` \| (\d) \| (\d) \| (\d) \| ([^|]+) \|$", README, re.MULTILINE)
    items = [(i.abbreviation, str(i.taken), str(i.made), str(i.loops), i.words) for i in ITEMS.values()]
    cables = [(f"2/2 {turn}", "4", "4", "4", words) for turn, words in CABLE_TURNS.items()]
    assert rows == items + cables


@pytest.mark.parametrize("item", list(ITEMS.values()), ids=lambda item: item.abbreviation)
def test_what_may_follow_an_item(item) -> None:  # type: ignore[no-untyped-def]
    if " " in item.abbreviation:
        pytest.skip("it is read by rules of its own")
    may = {"tbl": item.tbl, "wyif": item.wyif, "twice": item.twice, "with 2 wraps": item.wraps}
    for modifier, allowed in may.items():
        assert _row(f"{item.abbreviation} {modifier}") == ([] if allowed else ["misplaced-modifier"])
    assert _row(item.abbreviation) == []
    assert _row(f"{item.abbreviation}3") == ([] if item.counted else ["unknown-item"])


@pytest.mark.parametrize("item", ["bind off", "cast on"])
def test_a_number_follows_stitches_bound_off_or_cast_on(item: str) -> None:
    assert ITEMS[item].numbered and _row(f"{item} 3") == [] and _row(f"k1, {item} 3, k1") == []
    assert _row(item) == ["line-too-short"] and _row(f"{item}3") != [] and _row(f"{item} 3 tbl") != []


def test_wraps_are_dropped_at_the_start_of_a_row() -> None:
    assert not ITEMS["drop wraps"].numbered
    assert _row("drop wraps, purl") == _row("drop wraps, k1") == _row("drop wraps k1, *p1*") == []
    assert _row("k1, drop wraps") == _row("*drop wraps, k1*") == ["misplaced-item"]
    assert _row("drop wraps, k1, purl") == ["whole-row-word"]


def _row(notation: str) -> list[str]:
    text, _ = _description("stitch", [f"row 1: {notation}"])
    return [problem.code for problem in parse(text).problems]


def test_problems_are_data() -> None:
    problems = parse_bytes(b"yarn\n").problems
    assert all(isinstance(problem, Problem) and problem.severity == "mistake" for problem in problems)


def test_the_problem_that_is_shown_is_shown_so() -> None:
    (shown,) = re.findall(r"```\n(mine\.shawl:.*?)```", README, re.DOTALL)
    place, line = shown.split("\n")[:2]
    number = int(place.split(":")[1])
    text, first = _description("shape", ["cast on 9 sts", line.strip()])
    filled = "\n" * (number - first - 1) + text
    problems = parse(filled).problems
    assert show_problems(problems, filled, "mine.shawl") == shown


def test_the_terms_are_in_order() -> None:
    table = README.split("# Terms")[1].split("# Problems")[0]
    words = re.findall(r"^\| ([^|]+) \| [^|]+ \|$", table, re.MULTILINE)[2:]
    assert len(words) > 30 and words == sorted(words, key=str.casefold)
