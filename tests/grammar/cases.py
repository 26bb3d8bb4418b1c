"""Case files: a description with the expected problems written beside its lines.

`#~ 17 unknown-word` at the end of a line: a problem of that code at that column; several are parted by `;`. Where a
line cannot carry a comment, `#~ line 5: 9 unclosed-text` on another; `#~ whole: missing-block` without a place.
"""

import re
from pathlib import Path

from halfhank.grammar.problems.problem import Problem

CASES = Path(__file__).parent.parent / "cases"

Expected = tuple[int, int, str]


def expected(text: str) -> list[Expected]:
    """The problems that a case file asks for, as line (0: no place), column and code."""
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        for note in line.split("#~ ")[1:]:
            found += [_one(number, part.strip()) for part in note.split(";")]
    return sorted(found)


def _one(number: int, note: str) -> Expected:
    if whole := re.fullmatch(r"whole: ([a-z0-9-]+)", note):
        return (0, 0, whole[1])
    far = re.fullmatch(r"line (\d+): (\d+) ([a-z0-9-]+)", note)
    if far:
        return (int(far[1]), int(far[2]), far[3])
    near = re.fullmatch(r"(\d+) ([a-z0-9-]+)", note)
    assert near, note
    return (number, int(near[1]), near[2])


def reported(problems: tuple[Problem, ...]) -> list[Expected]:
    """Problems in the same form."""
    return sorted((p.span.line, p.span.column, p.code) if p.span else (0, 0, p.code) for p in problems)
