"""The registry of problems against the source that uses it and the reference that lists it."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from halfhank.grammar.problems.problem import ADVICE, MISTAKE

from tests.project.registry import ROOT, SOURCES, TABLED, Use, fields, kinds, severities, uses

REFERENCE = ROOT / "grammar/README.md"
PATTERNS = ROOT / "model/stitches/README.md"
# What names the code of a problem that is made elsewhere, and which of its arguments that is.
TELLING = {"_Phrase": (3,), "Suggestion": (2,)}
CODE = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
KINDS = kinds()
USES = list(uses())


def _callee(call: ast.Call) -> str:
    return call.func.attr if isinstance(call.func, ast.Attribute) else getattr(call.func, "id", "")


def _places(tree: ast.AST) -> Iterator[ast.AST]:
    """Where codes stand: an argument of what tells a problem, and whatever is called `code`."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and _callee(node) in TELLING:
            yield from (node.args[index] for index in TELLING[_callee(node)] if index < len(node.args))
            yield from (keyword.value for keyword in node.keywords if keyword.arg == "code")
        elif isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None:
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            if any(isinstance(target, ast.Name) and target.id == "code" for target in targets):
                yield node.value


def _texts(place: ast.AST) -> Iterator[str]:
    """The text that stands there, or the texts of which one does."""
    if isinstance(place, ast.Constant) and isinstance(place.value, str):
        yield place.value
    elif isinstance(place, ast.IfExp):
        yield from _texts(place.body)
        yield from _texts(place.orelse)


def _told_by(folder: str) -> set[str]:
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in sorted((ROOT / folder).rglob("*.py"))]
    texts = (text for tree in trees for place in _places(tree) for text in _texts(place))
    return {text for text in texts if CODE.fullmatch(text)}


def _listed(page: Path) -> list[str]:
    """The codes at the start of a page's table rows, below its heading of problems where it has one."""
    text = page.read_text(encoding="utf-8").rpartition("\n# Problems\n")[2]
    cells = re.findall(r"^\| ((?:`[a-z0-9-]+`(?:, )?)+) \|", text, re.MULTILINE)
    return [code for cell in cells for code in re.findall(r"`(.+?)`", cell)]


def test_every_code_is_in_the_reference_once_and_no_other() -> None:
    listed = _listed(REFERENCE) + _listed(PATTERNS)
    assert sorted(listed) == sorted(set(listed))
    assert set(listed) == _told_by("grammar") | {kind.code for kind in KINDS.values()}


def test_every_code_with_a_line_for_the_reference_has_a_wording() -> None:
    for module in TABLED:
        assert set(module.MEANINGS) <= set(severities(module))


def test_the_reference_leads_to_the_codes_of_written_rows() -> None:
    assert "(../model/stitches/README.md)" in REFERENCE.read_text(encoding="utf-8")


@pytest.mark.parametrize("place", KINDS, ids=lambda place: place[1])
def test_the_name_of_a_kind_begins_with_its_code(place: tuple[str, str]) -> None:
    assert CODE.fullmatch(KINDS[place].code)
    assert f"{place[1]}_".startswith(KINDS[place].code.upper().replace("-", "_") + "_")


def test_a_code_has_one_severity() -> None:
    pairs = {(kind.code, kind.severity) for kind in KINDS.values()}
    assert len(pairs) == len({code for code, _ in pairs})
    assert {severity for _, severity in pairs} == {MISTAKE, ADVICE}


def test_every_kind_is_used() -> None:
    assert {kind for use in USES for kind in use.kinds} == set(KINDS)


@pytest.mark.parametrize("use", USES, ids=lambda use: use.place)
def test_a_kind_is_given_the_values_that_it_asks_for(use: Use) -> None:
    asked = [fields(KINDS[kind]) for kind in use.kinds]
    assert all(one <= use.values for one in asked)
    assert use.values <= set().union(*asked)


def test_no_problem_is_made_but_of_a_kind() -> None:
    for path in SOURCES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        calls = {_callee(node) for node in ast.walk(tree) if isinstance(node, ast.Call)}
        assert "Problem" not in calls or path == ROOT / "grammar/problems/problem.py", path
        assert "ProblemKind" not in calls or path.name.endswith("_problems.py"), path
