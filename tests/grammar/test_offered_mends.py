"""No hint leads astray: put in its place, each mend rids the line of its mistake and brings no other."""

import random
from pathlib import Path

import pytest
from halfhank.grammar.lines import synonyms, trade_phrases
from halfhank.grammar.lines.trade_phrases import Suggestion
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Problem

from tests.grammar.cases import CASES
from tests.grammar.making import Made, make_lines, mistakes
from tests.grammar.mending import mended_texts

FILES = sorted((CASES / "problems").rglob("*.shawl"))
# Mistakes of the whole, for which a mend in one place is a choice: the mend of one may be the mistake of another.
OF_THE_WHOLE = {"duplicate-fact", "row-missing", "unknown-stitch", "unknown-shape", "no-rows"}
# Lines of the cases that have two mistakes, of which the first hides the other.
TWO_AT_ONCE = ("  garter stitch 4 rows // plain",)


def _on(line: int, text: str) -> set[tuple[int, str, str]]:
    return {
        (one.span.column, one.code, one.message)
        for one in parse(text).problems
        if one.span and one.span.line == line and one.code not in OF_THE_WHOLE
    }


def _leads_astray(text: str, problem: Problem) -> list[str]:
    """The texts that the mends of a problem make, in which it stays or another mistake stands on its line."""
    assert problem.span
    line = problem.span.line
    before = _on(line, text)
    column, code, message = problem.span.column, problem.code, problem.message
    astray = []
    for mended in mended_texts(text, problem):
        after = _on(line, mended)
        moved = {(code, message) for _, code, message in before}
        if (column, code, message) in after or not {one[1:] for one in after} <= moved:
            astray.append(f"{problem.hint}\n{mended.split(chr(10))[line - 1]}\n{after}")
    return astray


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_mend_of_a_case_leads_astray(path: Path) -> None:
    text = path.read_bytes().decode()
    for problem in parse(text).problems:
        if problem.span and not text.split("\n")[problem.span.line - 1].startswith(TWO_AT_ONCE):
            assert _leads_astray(text, problem) == []


@pytest.mark.parametrize("seed", range(12))
def test_no_mend_of_a_planted_mistake_leads_astray(seed: int) -> None:
    rng = random.Random(seed)
    lines = make_lines(rng)
    for index, line in enumerate(lines):
        for planted in rng.sample(mistakes(line), min(2, len(mistakes(line)))):
            text = "\n".join(one.text for one in [*lines[:index], Made("", planted.text), *lines[index + 1 :]]) + "\n"
            for problem in parse(text).problems:
                if problem.span:
                    assert _leads_astray(text, problem) == []


def _hints(line: str) -> list[str | None]:
    text = (CASES / "problems/lines/synonyms.shawl").read_text(encoding="utf-8")
    before = "\n".join(line.partition("#~")[0].rstrip() for line in text.split("\n")).replace(
        "increase one at each edge each row", line
    )
    number = before.split("\n").index(f"  {line}") + 1
    return [one.hint for one in parse(before).problems if one.span and one.span.line == number]


def test_a_phrase_whose_mend_the_parser_refuses_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    def phrases(*_: object) -> list[Suggestion]:
        puts = ("every 2", "every 2 rows rows", "every 3 rows")
        return [Suggestion(22, 40, "unknown-word", f"write `{put}`", None, put) for put in puts]

    monkeypatch.setattr(trade_phrases, "suggestions_at", phrases)
    assert _hints("increase 1 at spine every now and then") == ["write `every 3 rows`"]


def test_a_line_of_a_hint_that_the_parser_refuses_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = ("increase 2 at nowhere", "increase 2 at spine")
    found = [Suggestion(2, 40, "unknown-word", line, None, lines=(line,)) for line in lines]
    monkeypatch.setattr(trade_phrases, "suggestions_at", lambda *_: found)
    assert _hints("increase 2 somewhere") == ["increase 2 at spine"]


def test_a_word_whose_mend_the_parser_refuses_is_not_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(synonyms.SYNONYMS, "wherever", ("at",))
    assert _hints("increase 1 wherever spine every 2 rows") == ["write `at`"]
    assert _hints("increase 1 wherever at spine every 2 rows") == [None]


def test_most_mistakes_of_the_cases_have_a_mend() -> None:
    """So that the two tests above do not pass for want of hints."""
    offered = [list(mended_texts(text, one)) for text in _texts() for one in parse(text).problems]
    assert sum(map(bool, offered)) >= len(offered) / 3


def _texts() -> list[str]:
    return [path.read_bytes().decode() for path in FILES]
