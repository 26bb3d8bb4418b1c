"""Every case file gives exactly the problems that are written in it."""

from pathlib import Path

import pytest
from halfhank.grammar.parse import parse

from tests.grammar.cases import CASES, expected, reported

FILES = sorted((CASES / "problems").rglob("*.shawl"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_case_gives_the_problems_written_in_it(path: Path) -> None:
    text = path.read_bytes().decode()
    assert reported(parse(text).problems) == expected(text)
