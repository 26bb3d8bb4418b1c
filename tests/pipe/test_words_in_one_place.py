"""Pages and instructions in a language that nobody speaks: all words come from the catalogue but those listed here.

A new word of a page or of instructions belongs into `model/words/`; `LEFT` only becomes shorter.
"""

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from halfhank.cli.report.html.html_page import html_bytes
from halfhank.cli.report.page.page_parts import YARN_CHART, chosen_parts
from halfhank.cli.report.page.pattern_page import PageOptions, pattern_page
from halfhank.cli.report.terminal_writer import FILE_LAYOUT, report_text
from halfhank.grammar.items import ITEMS
from halfhank.grammar.reading.instruction_reader import InstructionError, read_lines
from halfhank.model.instructions.rows.rows_report import rows_report
from halfhank.model.instructions.written_instructions import written_instructions
from halfhank.model.plan import Plan
from halfhank.model.words.catalogue import said
from halfhank.model.words.drawn_words import phrase
from halfhank.model.words.in_force import speaking

from tests.pipe.pseudo_language import LETTERS, PSEUDO, in_other_letters
from tests.whole import plan_of

ROOT = Path(__file__).parents[2]
DEMOS = sorted([*(ROOT / "gallery_demo").glob("*.shawl"), *(ROOT / "cli" / "starters").glob("*.shawl")])
WEIGHED = (
    (ROOT / "gallery_demo" / "third-breakwater.shawl").read_text()
    + """
weighed
  before cast on 101 g
  after row 20 95 g left
"""
)
CHARTED = """
shawl "Charted"

yarn "Any"
  skein 100 g 400 m

needles 4 mm

stitch garter
  gauge 20 sts 40 rows over 10 cm

stitch crossed
  multiple of 22 sts
  gauge 20 sts 28 rows over 10 cm
  row 1: *2/2 rc, 2/1 lc, k3 with 2 wraps, k1 tbl, sl1 wyif, [k1, p1, k1] in 1, [k1, yo, k1] in 3, kfb, k2tog, k3*
  row 2: purl
  row 3: *yo twice, k2tog, ssk, m1l, k2, m1r, sssk, k3tog, k12*
  row 4: purl

shape rectangle
  cast on 66 sts

part "all"
  crossed 5 repeats
  garter 20 rows

bind off draw through
"""
QUOTED = re.compile(r'"[^"\n]*"')
"""Titles, names, labels and remarks of a description."""
UNIT = re.compile(r"(?<=, )(g|oz)$")
"""The unit of a chart's axis, alone."""
NOTATION = re.compile(
    r"cast on [\dN]+ to the left needle|(bind off|cast on) [\dN]+|\] [\dN]+ times|pass over|drop wraps"
    r"|with [\dN]+ wraps|\) in next (st|\d+ sts together)|\] in [\dN]+|[Yy]o twice"
    r"|wrapping yarn (twice|\d+ times)|sl[\dN]+ back|st\(s\)"
)
"""What the rows of a shawl and the list of their terms have of more than one word: the same in all languages."""
ABBREVIATIONS = {"RS", "WS", "RC", "LC", "rc", "lc", "st", "sts", "knit", "purl", "tbl", "wyif", "rep", "N"}
ABBREVIATIONS |= {kind for kind in ITEMS if " " not in kind}
STITCH = re.compile(r"(?<![A-Za-z])([kpKP]|sl|Sl)\d+")
PARTLY_DIGITS = re.compile(r"(?<![A-Za-z0-9])[A-Za-z]+\d[a-z]+|M1[LR]?P?|m1[lr]?p?")
"""`k2tog`, `s2kp`, `M1L`."""
LEFT: dict[str, str] = {}
"""Words that are not in the catalogue yet, by what they are."""
KNOWN = {word for words in LEFT.values() for word in words.split()}


class Texts(HTMLParser):
    """What a page says: its texts, and what it says to those who do not see it."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._silent += tag in ("style", "script")
        self.found += [value for name, value in attrs if value and name in ("alt", "title", "aria-label")]

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in ("style", "script")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.found.append(data)


def texts(plan: Plan) -> Iterator[str]:
    """All that the page, the instructions and the rows of a shawl say."""
    page = Texts()
    page.feed(html_bytes(pattern_page(plan, PageOptions(chosen_parts((), (YARN_CHART,))))).decode())
    yield from page.found
    for report in (written_instructions(plan), rows_report(plan)):
        yield from report_text(report, FILE_LAYOUT).split("\n")


def is_notation(text: str) -> bool:
    """Whether a sentence is a row of working notation, which the language itself reads."""
    try:
        return bool(read_lines([text]))
    except InstructionError:
        return False


def foreign(text: str, names: set[str]) -> list[str]:
    """The words of a text that are neither the language's nor notation, units or names of stitches."""
    text = text.replace("\u00a0", " ")
    row, stop, more = text.partition(".")
    if is_notation(row + stop):
        text = more
    for pattern in (UNIT, NOTATION, PARTLY_DIGITS, STITCH):
        text = pattern.sub(" ", text)
    return [word for word in LETTERS.findall(text) if word not in names and word not in ABBREVIATIONS]


def found_in(description: str) -> dict[str, str]:
    """Each foreign word with a text that has it."""
    source = QUOTED.sub(lambda quoted: in_other_letters(quoted[0]), description)
    with speaking(PSEUDO):
        plan = plan_of(source)
        names = {stitch.name for stitch in plan.design.stitches}
        return {word: text.strip() for text in texts(plan) for word in foreign(text, names)}


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_all_words_are_the_languages(path: Path) -> None:
    found = found_in(path.read_text(encoding="utf-8"))
    assert {word: text for word, text in found.items() if word not in KNOWN} == {}


@pytest.mark.parametrize("description", [WEIGHED, CHARTED], ids=["weighed", "charted"])
def test_so_are_those_of_a_log_and_of_charts(description: str) -> None:
    assert {word: text for word, text in found_in(description).items() if word not in KNOWN} == {}


def test_words_would_be_found() -> None:
    assert foreign("Соц 3: k2, M1L, mesh on the scale, [k1] 3 times", {"mesh"}) == ["on", "the", "scale"]
    assert foreign("Row 2 (WS): Purl. Each", set()) == ["Each"]
    assert foreign("12 times, 3 g", set()) == ["times", "g"]


def test_a_page_names_its_language() -> None:
    with speaking(PSEUDO):
        page = pattern_page(plan_of(WEIGHED), PageOptions(chosen_parts((), ())))
    assert page.get("lang") == PSEUDO.code


def test_the_language_changes_only_inside_its_block() -> None:
    with speaking(PSEUDO):
        assert (said("count.times", count=2), phrase("count.st", count=1)) == ("2 уимдт", "1 ту")
    assert (said("count.times", count=2), phrase("count.st", count=1)) == ("2 times", "1 st")
