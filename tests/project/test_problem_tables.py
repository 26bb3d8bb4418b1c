"""The reference's tables of codes are what the registry makes of them; `pytest --accept` writes them anew."""

import re
from itertools import groupby
from types import ModuleType

import pytest
from halfhank.grammar.problems.problem import ADVICE, MISTAKE
from halfhank.model.problems import plan_problems, row_problems

from tests.project.registry import ROOT, severities

# The page, the heading of the table, and the codes in it: their module and severity.
TABLES = [
    ("grammar/README.md", "a mistake that keeps the shawl from being worked out", plan_problems, MISTAKE),
    ("grammar/README.md", "advice: the plan stands", plan_problems, ADVICE),
    ("model/stitches/README.md", "a mistake that keeps the rows from being worked", row_problems, MISTAKE),
    ("model/stitches/README.md", "advice", row_problems, ADVICE),
]


def table(heading: str, module: ModuleType, severity: str) -> str:
    """The table in Markdown, neighbours of one meaning on one line."""
    of = severities(module)
    lines = [(code, meaning) for code, meaning in module.MEANINGS.items() if of[code] == severity]
    rows = [
        f"| {', '.join(f'`{code}`' for code, _ in same)} | {meaning} |\n"
        for meaning, same in groupby(lines, key=lambda line: line[1])
    ]
    return f"| code | {heading} |\n| --- | --- |\n{''.join(rows)}"


@pytest.mark.parametrize(("page", "heading", "module", "severity"), TABLES, ids=[heading for _, heading, *_ in TABLES])
def test_a_table_of_codes_is_that_of_the_registry(
    page: str, heading: str, module: ModuleType, severity: str, accept: bool
) -> None:
    path = ROOT / page
    text = path.read_text(encoding="utf-8")
    (written,) = re.findall(rf"^\| code \| {re.escape(heading)} \|\n(?:\|.*\n)*", text, re.MULTILINE)
    wanted = table(heading, module, severity)
    if accept and written != wanted:
        path.write_text(text.replace(written, wanted), encoding="utf-8")
        return
    assert written == wanted
