"""The grammar's rules, the table of the language and the builders agree."""

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import pytest
from halfhank.grammar.language import BLOCKS, FACT_OF_RULE, HEADERS, RESERVED, STARTS, BlockKind
from halfhank.grammar.lines import tables
from halfhank.grammar.lines.synonyms import SYNONYMS
from halfhank.grammar.parse import parse
from halfhank.grammar.reading.band_builders import BAND_BUILDERS
from halfhank.grammar.reading.facts import FACT_BUILDERS
from lark.grammar import NonTerminal, Rule

RULES: list[Rule] = tables.build_parser(tables.read(tables.GRAMMAR).decode()).rules
WITH_FACTS = [kind for kind in BLOCKS.values() if kind.facts]

WHOLE = {
    "shawl": 'shawl "Slate"\n',
    "yarn": "yarn\n  skein 100 g 400 m\n",
    "needles": "needles 4 mm\n",
    "stitch": "stitch garter\n  gauge 20 sts 40 rows over 10 cm\n",
    "shape": "shape triangle\n  cast on 9 sts\n",
    "part": 'part "one"\n  garter 2 ridges\n',
    "turn back": "turn back\n",
    "bind off": "bind off elastic\n",
    "weighed": "weighed\n  before cast on 101 g\n",
}


def _names(start: str) -> Iterator[str]:
    """What the trees of a start rule may be called."""
    for rule in RULES:
        if rule.origin.name == start:
            (first, *more) = rule.expansion
            if rule.alias or not isinstance(first, NonTerminal) or more:
                yield rule.alias or start
            else:
                yield from _names(first.name)


def _openings(start: str) -> set[str]:
    """The words that the lines of a start rule may start with."""
    table: Any = tables.line_parser().parser.parser._parse_table
    words = {t.name: t.pattern.value for t in tables.line_parser().terminals}
    opening = table.states[table.start_states[start]]
    return {words[terminal] for terminal in opening if terminal.isupper() and terminal != "WORD"}


def _codes(kinds: list[str]) -> list[str]:
    return [problem.code for problem in parse("".join(WHOLE[kind] for kind in kinds)).problems]


def test_every_header_of_the_grammar_opens_a_kind_of_block() -> None:
    assert set(_names("header")) == {name.replace(" ", "_") for name in BLOCKS}
    assert _openings("header") == set(HEADERS)


@pytest.mark.parametrize("kind", WITH_FACTS, ids=lambda kind: kind.name)
def test_every_line_of_the_grammar_says_a_fact(kind: BlockKind) -> None:
    assert set(_names(kind.start)) == {rule for fact in kind.facts for rule in fact.rules}
    assert _openings(kind.start) == {word for fact in kind.facts for word in fact.words}


def test_every_start_rule_is_one_of_the_grammar() -> None:
    assert set(STARTS) <= {rule.origin.name for rule in RULES}


def test_every_fact_has_its_builder() -> None:
    bands = {rule for rule, fact in FACT_OF_RULE.items() if fact.key == "band"}
    assert set(BAND_BUILDERS) == bands
    assert set(FACT_BUILDERS) == set(FACT_OF_RULE) - bands - {"even"}


@pytest.mark.parametrize("kind", WITH_FACTS, ids=lambda kind: kind.name)
def test_the_facts_of_a_block_have_keys_words_and_rules_of_their_own(kind: BlockKind) -> None:
    for names in (
        [fact.key for fact in kind.facts],
        [word for fact in kind.facts for word in fact.words],
        [rule for fact in kind.facts for rule in fact.rules],
    ):
        assert sorted(names) == sorted(set(names))


def test_one_rule_says_one_fact_in_every_block() -> None:
    for kind in WITH_FACTS:
        assert all(FACT_OF_RULE[rule] == fact for fact in kind.facts for rule in fact.rules)


def test_the_words_of_synonyms_are_words_of_the_grammar() -> None:
    words = {t.pattern.value for t in tables.line_parser().terminals}
    assert {word for meant in SYNONYMS.values() for word in meant if word.isalpha()} <= words


@pytest.mark.parametrize("kind", BLOCKS.values(), ids=lambda kind: kind.name)
def test_an_indented_header_is_known_by_how_it_goes_on(kind: BlockKind) -> None:
    header = WHOLE[kind.name].split("\n")[0]
    assert re.match(kind.word + kind.opening, header)
    text = "".join(WHOLE.values())
    indented = text.replace(header, f"  {header}") if kind.name != "shawl" else f"  {text}"
    assert "indented-header" in [problem.code for problem in parse(indented).problems]


@pytest.mark.parametrize("kind", BLOCKS.values(), ids=lambda kind: kind.name)
def test_what_is_needed_is_missed(kind: BlockKind) -> None:
    rest = [name for name in WHOLE if name != kind.name]
    assert ("missing-block" in _codes(rest)) == (kind.missing is not None)


@pytest.mark.parametrize("kind", BLOCKS.values(), ids=lambda kind: kind.name)
def test_only_some_blocks_come_twice_or_without_lines(kind: BlockKind) -> None:
    header = WHOLE[kind.name].split("\n")[0] + "\n"
    empty = "".join(header if name == kind.name else text for name, text in WHOLE.items())
    assert ("empty-block" in [problem.code for problem in parse(empty).problems]) == (not kind.may_be_empty)
    names = [name for name in WHOLE for _ in range(1 + (name == kind.name))]
    assert ("duplicate-block" in _codes(names)) == (not kind.many)


def test_blocks_out_of_order_are_misplaced() -> None:
    free = {"yarn", "needles", "stitch", "shape"}
    assert _codes(list(WHOLE)) == []
    for one, other in pairwise(WHOLE):
        swapped = [other if name == one else one if name == other else name for name in WHOLE]
        assert ("misplaced-block" in _codes(swapped)) == (not {one, other} <= free), (one, other)


def test_no_stitch_is_called_like_the_start_of_a_line_of_a_part() -> None:
    assert {"part", "even", "repeat", "increase", "decrease", "bind", "drop"} == RESERVED
