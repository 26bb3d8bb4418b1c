"""The machine imports nothing of Halfhank, nor anything that could: only the standard library and itself."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

ROOM = Path(__file__).parent
MACHINE = [*ROOM.glob("[!t]*.py"), *ROOM.glob("text/*.py"), *ROOM.glob("needles/*.py")]


def imported(source: str) -> Iterator[str]:
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield "." * node.level + (node.module or "")


def foreign(source: str) -> list[str]:
    """Imports from outside the standard library and the machine; any way around the import statement too."""
    own = ("tests.knitter.refusal", "tests.knitter.text.", "tests.knitter.needles.")
    found = [name for name in imported(source) if not name.startswith(own)]
    found = [name for name in found if name.split(".")[0] not in sys.stdlib_module_names]
    return found + [word for word in ("importlib", "__import__", "subprocess", "halfhank") if word in source]


def test_the_machine_stands_alone() -> None:
    names = {path.name for path in MACHINE}
    assert {"machine.py", "reading.py", "notation.py", "needle.py", "working.py", "refusal.py"} <= names
    found = {path.name: foreign(path.read_text("utf-8")) for path in MACHINE}
    assert {name: names for name, names in found.items() if names} == {}


def test_an_import_would_be_seen() -> None:
    assert foreign("from halfhank.grammar import items")
    assert foreign("import tests.whole") and foreign("from tests.knitter.printed import pieces")
    assert foreign("def f():\n    from lark import Lark\n") == ["lark"]
    assert not foreign("import re\nfrom tests.knitter.text.items import Item\n")
