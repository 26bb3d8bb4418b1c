"""Two mistakes planted in each of several hundred valid descriptions: both are found in place, and nothing else."""

import random

import pytest
from halfhank.grammar.parse import parse

from tests.grammar.cases import reported
from tests.grammar.making import Made, Planted, make_lines, mistakes

SEEDS = range(400)


def _text(lines: list[Made]) -> str:
    return "\n".join(line.text for line in lines) + "\n"


@pytest.mark.parametrize("start", SEEDS[::50])
def test_made_descriptions_have_no_mistake(start: int) -> None:
    for seed in range(start, start + 50):
        parsed = parse(_text(make_lines(random.Random(seed))))
        assert (seed, parsed.problems) == (seed, ())
        assert parsed.description is not None


@pytest.mark.parametrize("start", SEEDS[::50])
def test_two_planted_mistakes_are_both_found_and_nothing_else(start: int) -> None:
    for seed in range(start, start + 50):
        rng = random.Random(seed)
        lines = make_lines(rng)
        chosen: list[tuple[int, Planted]] = []
        for index in rng.sample(range(len(lines)), len(lines)):
            possible = mistakes(lines[index])
            if possible and len(chosen) < 2:
                chosen.append((index, rng.choice(possible)))
        for index, planted in chosen:
            lines[index] = Made("", planted.text)
        expected = sorted((index + 1, planted.column, planted.code) for index, planted in chosen)
        assert len(expected) == 2
        assert (seed, reported(parse(_text(lines)).problems)) == (seed, expected), _text(lines)


def test_every_kind_of_planted_mistake_is_found_alone() -> None:
    """Each mistake that fits any line, planted by itself."""
    for seed in range(3):
        lines = make_lines(random.Random(seed))
        for index, line in enumerate(lines):
            for planted in mistakes(line):
                changed = [*lines[:index], Made("", planted.text), *lines[index + 1 :]]
                found = reported(parse(_text(changed)).problems)
                assert found == [(index + 1, planted.column, planted.code)], planted.text
