"""Case files whose problems come from planning: each gives exactly what is written beside its lines."""

from pathlib import Path

import pytest
from halfhank.grammar.parse import parse
from halfhank.model.planning.planning import plan_parsed

from tests.grammar.cases import CASES, expected, reported

FILES = sorted((CASES / "planned").glob("*.shawl"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_planning_gives_the_problems_written_in_a_case(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert reported(plan_parsed(parse(text)).problems) == expected(text)


def test_there_are_such_cases() -> None:
    assert FILES
