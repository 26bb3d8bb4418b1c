"""The rooms of the grammar stand in one order, and no module leads back to itself."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from halfhank import grammar

ROOT = Path(grammar.__file__).parent
# What lies in the folder itself stands below all rooms, but for what makes records, and what takes the rooms in turn.
ROOMS = ("record", "problems", "", "source_text", "lines", "reading", "builtin", "parse")
MODULES = {
    ".".join(path.relative_to(ROOT).with_suffix("").parts): path
    for path in sorted(ROOT.rglob("*.py"))
    if path.name != "__init__.py"
}


def _room(module: str) -> str:
    return module if module in ("record", "parse") else module.rpartition(".")[0]


def _imported(module: str) -> Iterator[str]:
    """The modules of the grammar that one imports, wherever in it that is."""
    for node in ast.walk(ast.parse(MODULES[module].read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("halfhank.grammar"):
            home = node.module.removeprefix("halfhank.grammar").removeprefix(".")
            yield from {home} & set(MODULES) or {f"{home}.{alias.name}".lstrip(".") for alias in node.names}


@pytest.mark.parametrize("module", MODULES)
def test_a_room_imports_only_those_below_it(module: str) -> None:
    for other in _imported(module):
        assert ROOMS.index(_room(other)) <= ROOMS.index(_room(module)), other


def test_no_module_leads_back_to_itself() -> None:
    left = {module: set(_imported(module)) for module in MODULES}
    while free := {module for module, others in left.items() if not others & set(left)}:
        left = {module: others for module, others in left.items() if module not in free}
    assert not left


def test_the_modules_are_found() -> None:
    assert {_room(module) for module in MODULES} == set(ROOMS)
    assert "lines.tables" in _imported("lines.line_reader")
