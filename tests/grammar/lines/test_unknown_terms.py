"""What the trade knows and the language does not is said so, in place of a spelling hint."""

import re

import pytest
from halfhank.grammar.items import ITEMS, WHOLE_ROWS
from halfhank.grammar.language import BUILT_IN_STITCHES, FACTS, HEADERS, SHAPES
from halfhank.grammar.lines.explanations import types
from halfhank.grammar.lines.synonyms import SHAPES_OF_TRADE, STITCHES_OF_TRADE, SYNONYMS
from halfhank.grammar.lines.trade_rows import ITEMS_OF_TRADE
from halfhank.grammar.lines.unknown_terms import UNKNOWN_TERMS, term_at, unknown_term
from halfhank.grammar.parse import parse

from tests.grammar.lines.test_mends import TEXT
from tests.project.registry import ROOT

METHODS = ("standard", "elastic", "picot", "i-cord", "draw through", "cast on", "garter tab", "turn back", "rows")
KNOWN = {*types(), *HEADERS, *(word for facts in FACTS.values() for word in facts), *BUILT_IN_STITCHES, *SHAPES}
KNOWN |= {*ITEMS, *WHOLE_ROWS, *SYNONYMS, *SHAPES_OF_TRADE, *STITCHES_OF_TRADE, *ITEMS_OF_TRADE, *METHODS}

# A line of the text, what is written for it, and the term.
WRITTEN = [
    ("  garter 4 rows", "  entrelac 10 rows", "entrelac"),
    ("  garter 4 rows", "  brioche 10 rows", "brioche"),
    ("  garter 4 rows", "  work short rows over 20 sts", "short rows"),
    ("  garter 4 rows", "  short-rows 10 rows", "short rows"),
    ("  garter 4 rows", "  steek", "steeks"),
    ("  garter 4 rows", "  garter 10 rows in colour B", "colour changes"),
    ("  garter 4 rows", "  change to MC", "colour changes"),
    ("  garter 4 rows", "  stockinette 10 rows with beads", "beads"),
    ("  garter 4 rows", "  knitted-on edging 8 sts", "edgings that are knitted on"),
    ("  garter 4 rows", "  pick up and knit 30 sts", "picked-up stitches"),
    ("  cast on 9 sts", "  provisional cast on 9 sts", "provisional cast-ons"),
    ("  cast on 9 sts", "  cast on 9 sts provisionally", "provisional cast-ons"),
    ("shape triangle", "shape pi shawl", "pi shawls"),
    ("shape triangle", "shape pi", "pi shawls"),
    ("shape triangle", "shape hexagon", "hexagons"),
    ("bind off elastic", "bind off i-cord edging", "i-cord edgings"),
    ("bind off elastic", "bind off three-needle bind-off", "grafting"),
    ("bind off elastic", "graft", "grafting"),
    ("  row 1: *k2, p4*, k1", "  row 1: *k1, brk, p4*, k1", "brioche"),
    ("  row 1: *k2, p4*, k1", "  row 1: k2, w&t", "short rows"),
    ("  row 1: *k2, p4*, k1", "  row 1: *2/1 rpc, p3*, k1", "cables with purl stitches"),
    ("  row 1: *k2, p4*, k1", "  row 1: k2, pm, *k2, p4*, k1", "stitch markers"),
]


@pytest.mark.parametrize(("line", "written", "term"), WRITTEN, ids=[written.strip() for _, written, _ in WRITTEN])
def test_a_term_is_named(line: str, written: str, term: str) -> None:
    assert line + "\n" in TEXT
    problem = parse(TEXT.replace(line + "\n", written + "\n")).problems[0]
    assert problem.message == f"Halfhank does not know {term}." and problem.span
    assert problem.code in ("unknown-word", "unknown-stitch", "unknown-shape", "unknown-item")


def test_the_table_has_nothing_that_the_language_knows() -> None:
    """A word that the language takes up leaves the table."""
    assert {word: found.name for word in KNOWN if (found := unknown_term(word))} == {}


def test_no_page_of_the_language_has_a_term_where_a_line_could_stop() -> None:
    texts = [path.read_text(encoding="utf-8") for path in sorted((ROOT / "gallery_demo").glob("*.shawl"))]
    lines = [line.partition("#")[0] for text in texts for line in text.split("\n")]
    named = [line for line in lines if re.match(r"stitch |shape |bind|  row|  (?:garter|increase|cast)", line)]
    assert len(named) > 50
    for line in named:
        assert not any(term_at(line, column) for column in range(1, len(line) + 2)), line


def test_a_term_stands_once() -> None:
    assert len({term.name for term in UNKNOWN_TERMS}) == len(UNKNOWN_TERMS)


def test_a_stitch_of_ones_own_may_have_the_name() -> None:
    text = TEXT.replace("stitch mesh", "stitch brioche").replace("garter 4 rows", "brioche 4 rows")
    assert parse(text).problems == ()


def test_a_label_is_no_term() -> None:
    assert term_at('  garter 4 rows "short rows" wide', 22) is None
    (problem,) = parse(TEXT.replace("garter 4 rows", 'garter 4 rows "short rows" wide')).problems
    assert problem.code == "line-goes-on"
