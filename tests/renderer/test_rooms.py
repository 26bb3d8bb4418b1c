"""The rooms of the renderer stand in one order: each imports only those before it, and nothing inside functions."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2] / "renderer"
PACKAGE = "halfhank.renderer"
FABRIC = ("paper.scripts", "paper", "plane", "schematic.fabric")
ROOMS = {
    "paper.scripts": (),
    "paper": ("paper.scripts",),
    "text_alternatives": ("paper.scripts", "paper"),
    "plane": ("paper",),
    "schematic.fabric": ("paper", "plane"),
    "schematic.annotations": FABRIC,
    "schematic.table": (*FABRIC, "schematic.annotations"),
    "schematic": (*FABRIC, "schematic.annotations", "schematic.table", "text_alternatives"),
    "charts.symbols": ("paper",),
    "charts": (*FABRIC, "schematic.annotations", "schematic", "charts.symbols", "text_alternatives"),
    "inline": ("paper", "plane"),
}
"""Each room with those that it may import."""
FILES = [path for path in sorted(ROOT.rglob("*.py")) if path.parent != ROOT]
MOST_FILES = 14


def _room(module: str) -> str:
    """The room of a module, the innermost one."""
    return max((room for room in ROOMS if f"{module}.".startswith(f"{PACKAGE}.{room}.")), key=len)


def _module(path: Path) -> str:
    return ".".join((PACKAGE, *path.relative_to(ROOT).with_suffix("").parts))


def _imports(node: ast.AST) -> Iterator[str]:
    """What of the renderer is imported below a node."""
    for one in ast.walk(node):
        if isinstance(one, ast.ImportFrom) and one.module and f"{one.module}.".startswith(f"{PACKAGE}."):
            yield one.module
        elif isinstance(one, ast.Import):
            yield from (alias.name for alias in one.names if f"{alias.name}.".startswith(f"{PACKAGE}."))


@pytest.mark.parametrize("path", FILES, ids=_module)
def test_a_room_imports_only_those_before_it(path: Path) -> None:
    own = _room(_module(path))
    found = {_room(name) for name in _imports(ast.parse(path.read_text(encoding="utf-8")))}
    assert found <= {own, *ROOMS[own]}


@pytest.mark.parametrize("path", FILES, ids=_module)
def test_nothing_of_the_renderer_is_imported_inside_a_function(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    functions = (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))
    assert not [name for function in functions for name in _imports(function)]


def test_rooms_are_small() -> None:
    counts = {room: len(list((ROOT / room.replace(".", "/")).glob("*.py"))) for room in ROOMS}
    assert {_room(_module(path)) for path in FILES} == set(counts)
    assert max(counts.values()) <= MOST_FILES
