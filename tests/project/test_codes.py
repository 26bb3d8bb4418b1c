"""Every problem that the source can tell is in the reference, and the reference names no other."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
REFERENCE = ROOT / "grammar/README.md"
PATTERNS = ROOT / "model/stitches/README.md"
# What makes or tells a problem, and which of its arguments may be the code.
TELLING = {"mistake": (0,), "advice": (0,), "report": (0,), "_report": (0, 1), "_Phrase": (3,), "Suggestion": (2,)}
CODE = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


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


@pytest.mark.parametrize("folder", ["grammar", "model"])
def test_every_code_of_the_source_is_in_the_reference(folder: str) -> None:
    assert _told_by(folder) <= {*_listed(REFERENCE), *_listed(PATTERNS)}


def test_the_reference_has_each_code_once_and_no_other() -> None:
    listed = _listed(REFERENCE) + _listed(PATTERNS)
    assert sorted(listed) == sorted(set(listed))
    assert set(listed) <= _told_by("grammar") | _told_by("model")


def test_the_reference_leads_to_the_codes_of_written_rows() -> None:
    assert "(../model/stitches/README.md)" in REFERENCE.read_text(encoding="utf-8")
