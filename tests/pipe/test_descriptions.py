"""Random valid descriptions are read without a complaint, and alike however they are spaced."""

from random import Random
from typing import Any

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Span
from hypothesis import given, settings

from tests.pipe.random_shawls.making import descriptions, seeded
from tests.pipe.random_shawls.writing import write

BLOCKS = range(0, 300, 25)


def bare(node: Any) -> Any:
    """The syntax tree without its places."""
    if isinstance(node, Span):
        return None
    if isinstance(node, tuple):
        return tuple(bare(item) for item in node)
    return node


@settings(max_examples=60)
@given(descriptions())
def test_no_problem_is_told(text: str) -> None:
    parsed = parse(text)
    assert parsed.description is not None
    assert not parsed.problems


@pytest.mark.parametrize("first", BLOCKS)
def test_spacing_order_and_comments_change_nothing(first: int) -> None:
    for number in range(first, first + 25):
        spec = seeded(number)
        plain, styled = parse(write(spec)), parse(write(spec, Random(number)))
        assert not plain.problems and not styled.problems, number
        assert flat(bare(plain.description)) == flat(bare(styled.description)), number


def flat(description: Any) -> list[str]:
    """A bare description's members as texts, those that are blocks in no order."""
    return [repr(sorted(map(repr, member)) if isinstance(member, tuple) else member) for member in description]
