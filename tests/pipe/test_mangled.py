"""Mangled descriptions: problems with their places, or a plan and a drawing; no exception, and always an end."""

from random import Random

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE, Problem
from halfhank.model.planning.planning import plan
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.page import draw_schematic
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.pipe.drawing import svg_files
from tests.pipe.random_shawls.making import seeded
from tests.pipe.random_shawls.mangling import mangle
from tests.pipe.random_shawls.writing import write
from tests.whole import ending

STEP = 50


def run(text: str) -> bool:
    """Send a text through the whole pipe; whether it was drawn."""
    with ending():
        return _run(text)


def _run(text: str) -> bool:
    parsed = parse(text)
    check_problems(text, parsed.problems)
    wrong = any(problem.severity == MISTAKE for problem in parsed.problems)
    assert parsed.description is not None or wrong
    drawn = False
    if parsed.description is not None and not wrong:
        made = plan(parsed.description)
        found, problems = made.shawl, made.problems
        check_problems(text, problems)
        assert (found is None) == any(problem.severity == MISTAKE for problem in problems)
        if found is not None:
            svg_files.check(to_svg(draw_schematic(found)))
            drawn = True
    return drawn


def check_problems(text: str, problems: tuple[Problem, ...]) -> None:
    """Every problem has a code, words and a place that is in the text."""
    lines = text.removeprefix("\ufeff").split("\n")
    for problem in problems:
        assert problem.code and problem.message
        if problem.span is not None:
            assert 1 <= problem.span.line <= len(lines) + 1
            assert 1 <= problem.span.column <= problem.span.end


@pytest.mark.parametrize("first", range(0, 400, STEP))
def test_slips_are_told_or_drawn(first: int) -> None:
    drawn = 0
    for number in range(first, first + STEP):
        drawn += run(mangle(Random(number), write(seeded(number % 97), Random(number))))
    assert 0 < drawn < STEP


@settings(max_examples=60)
@given(st.randoms(use_true_random=False), st.integers(0, 200))
def test_any_slip(pick: Random, number: int) -> None:
    run(mangle(pick, write(seeded(number))))


@settings(max_examples=60)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    assert not run(text)
