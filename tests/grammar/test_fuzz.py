"""Whatever comes in: never an exception, problems whose places exist, and words that are safe on a terminal."""

import random

from halfhank.grammar.parse import parse, parse_bytes
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.source_text.excerpt import show_problems
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.grammar.cases import CASES
from tests.grammar.making import make_lines
from tests.whole import ending

FILES = sorted(path.read_text(encoding="utf-8") for path in CASES.glob("**/*.shawl"))
PIECES = sorted({word for text in FILES for word in text.split(" ")})


def _check(text: str, problems: tuple[Problem, ...]) -> None:
    lines = text.removeprefix("\ufeff").split("\n")
    for problem in problems:
        if problem.span:
            assert 1 <= problem.span.line <= len(lines)
            assert 1 <= problem.span.column < problem.span.end
            assert problem.span.column <= len(lines[problem.span.line - 1]) + 1
    assert list(problems) == sorted(problems, key=lambda p: (p.code == "more-problems", p.span or (10**9,)))
    shown = show_problems(problems, text, "file\x1b.shawl")
    assert all(char == "\n" or char.isprintable() for char in shown)


@given(st.binary(max_size=300))
@settings(max_examples=200)
def test_any_bytes(data: bytes) -> None:
    _check(data.decode(errors="replace"), parse_bytes(data).problems)


@given(st.text(max_size=300))
@settings(max_examples=200)
def test_any_text(text: str) -> None:
    _check(text, parse(text).problems)


@given(st.lists(st.sampled_from([*PIECES, " ", "\n", "\n  ", "\n    "]), max_size=60))
@settings(max_examples=300)
def test_words_of_the_language_in_any_order(pieces: list[str]) -> None:
    text = " ".join(pieces)
    _check(text, parse(text).problems)


@given(st.integers(0, 10**6), st.integers(1, 12))
@settings(max_examples=300)
def test_mangled_descriptions(seed: int, changes: int) -> None:
    rng = random.Random(seed)
    text = "\n".join(line.text for line in make_lines(rng)) + "\n"
    for _ in range(changes):
        start = rng.randrange(len(text))
        end = start + rng.choice([0, 1, 1, 3, 30])
        put = rng.choice([*' \n\t"#9[*–\x1b', "", rng.choice(PIECES)])
        text = text[:start] + put + text[end:]
    _check(text, parse(text).problems)


def test_large_files_of_mistakes_are_read_to_their_end() -> None:
    rng = random.Random(1)
    junk = "\n".join("".join(rng.choices('abcdefgh 123,"', k=30)) for _ in range(3_000))
    with ending():
        assert len(parse('shawl "A"\n' + junk).problems) == 101


def test_numbers_beyond_all_bounds_are_reported() -> None:
    for number in ("9" * 3_900, "1e308", "1" + "0" * 400, "0." + "0" * 300 + "1"):
        problems = parse(f"yarn\n  skein {number} g 380 m\n").problems
        assert any(p.code in ("number-too-large", "number-too-small", "exponent-number") for p in problems)
