"""Which folder and which room may import which, that nothing goes in a circle, and which libraries have one home.

Imports inside functions count like the others, and so do modules named in tables of texts.
"""

import ast
import re
from collections.abc import Iterator
from graphlib import CycleError, TopologicalSorter
from importlib.util import find_spec
from pathlib import Path

import pytest
from halfhank.cli.commands.charts.chart import CHARTS
from halfhank.cli.group import COMMANDS

ROOT = Path(__file__).parents[2]
# What each folder may import of ours. The model sees of the grammar what descriptions are made of, never its parser.
ALLOWED = {
    "grammar": ("halfhank.grammar",),
    "model": (
        "halfhank.model",
        "halfhank.grammar.record",
        "halfhank.grammar.problems.problem",
        "halfhank.grammar.description",
        "halfhank.grammar.language",
        "halfhank.grammar.items",
        "halfhank.grammar.builtin.stitch_patterns",
    ),
    "renderer": (
        "halfhank.renderer",
        "halfhank.model",
        "halfhank.grammar.record",
        "halfhank.grammar.problems.problem",
        "halfhank.grammar.description",
    ),
    "cli": ("halfhank",),
}
# Libraries that one folder alone may know.
ONE_HOME = {"lark": "grammar", "svgwrite": "renderer", "cairosvg": "renderer", "click": "cli"}
ONE_HOME |= {"lxml": "cli", "weasyprint": "cli"}
# A module's full name in a table, from which it is imported once it is needed.
MODULE = re.compile(r"halfhank(?:\.\w+)+")
SOURCES = [path for folder in ALLOWED for path in sorted((ROOT / folder).rglob("*.py"))]


def _imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            yield node.module or ""
            if node.module and node.module.startswith("halfhank"):
                yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and MODULE.fullmatch(node.value):
            yield node.value


def _folder(path: Path) -> str:
    return path.relative_to(ROOT).parts[0]


def _within(name: str, allowed: str) -> bool:
    return name == allowed or name.startswith(allowed + ".")


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_module_imports_only_what_its_folder_may(path: Path) -> None:
    allowed = ALLOWED[_folder(path)]
    for name in _imported(path):
        if name.startswith("halfhank"):
            permitted = any(_within(name, one) or (_within(one, name) and name != "halfhank") for one in allowed)
            assert permitted, f"{name} is not for {_folder(path)}"
            continue
        home = ONE_HOME.get(name.split(".")[0])
        assert home in (None, _folder(path)), f"{name} is for {home} alone"


def test_the_sources_are_found() -> None:
    assert {_folder(path) for path in SOURCES} == set(ALLOWED)
    assert len(SOURCES) > 40


def _nodes(folder: str) -> Iterator[ast.AST]:
    for path in sorted((ROOT / folder).rglob("*.py")):
        yield from ast.walk(ast.parse(path.read_text(encoding="utf-8")))


def test_commands_are_imported_by_full_names_that_exist() -> None:
    """A name put together from pieces would be seen by no test."""
    calls = [node for node in _nodes("cli") if isinstance(node, ast.Call) and ast.unparse(node.func) == "import_module"]
    assert calls
    assert not [call for call in calls if isinstance(call.args[0], ast.JoinedStr | ast.BinOp)]
    texts = (node.value for node in _nodes("cli") if isinstance(node, ast.Constant) and isinstance(node.value, str))
    named = {text for text in texts if MODULE.fullmatch(text)}
    assert {"halfhank.cli.commands.draw", "halfhank.cli.commands.charts.chart_yarn"} <= named
    assert not [name for name in named if find_spec(name) is None]


def test_every_command_stands_in_a_table() -> None:
    files = (path.relative_to(ROOT) for path in (ROOT / "cli/commands").rglob("*.py") if path.stem != "__init__")
    modules = {f"halfhank.{'.'.join(path.with_suffix('').parts)}" for path in files}
    assert modules == {*COMMANDS.values(), *CHARTS.values()}


# Rooms: a folder without sub-folders is one; the files of a folder with some, and the package's root, stand alone.


def _module(path: Path) -> str:
    parts = path.relative_to(ROOT).with_suffix("").parts
    parts = parts[2:] if parts[:2] == ("cli", "halfhank") else parts
    return ".".join(("halfhank", *parts)).removesuffix(".__init__")


MODULES = {_module(path): path for path in SOURCES}
PACKAGES = {name for name, path in MODULES.items() if path.name == "__init__.py"}


def _parents(name: str) -> Iterator[str]:
    """A module and the packages that come in with it, or whose member the name is."""
    parts = name.split(".")
    yield from (".".join(parts[:count]) for count in range(len(parts), 0, -1))


def _imported_modules(module: str) -> set[str]:
    named = (name for name in _imported(MODULES[module]) if name not in PACKAGES)
    names = (next((one for one in _parents(name) if one in MODULES), None) for name in named)
    return {name for name in names if name is not None and name != module}


GRAPH = {module: _imported_modules(module) for module in MODULES}


def _room(module: str) -> str:
    folder = MODULES[module].parent
    alone = folder == ROOT / "cli" / "halfhank" or any(entry.is_dir() for entry in folder.glob("[!_]*"))
    return module if alone else str(folder.relative_to(ROOT))


def _circle(graph: dict[str, set[str]]) -> list[str]:
    """The nodes of some circle, none where there is none."""
    sorter = TopologicalSorter(graph)
    try:
        sorter.prepare()
    except CycleError as error:
        circle: list[str] = error.args[1]
        return circle
    return []


def test_a_circle_would_be_found() -> None:
    assert _circle({"a": {"b"}, "b": {"c"}, "c": {"a"}})
    assert not _circle({"a": {"b"}, "b": {"c"}, "c": set()})
    assert "halfhank.model.planning.plan_with_log" in GRAPH["halfhank.model.planning.planning"], "a lazy import is seen"
    assert "halfhank.cli.commands.charts.chart" in GRAPH["halfhank.cli.group"], "a name in a table is seen"


def test_no_modules_import_each_other_in_a_circle() -> None:
    members = {module: names - _packages_of(module) for module, names in GRAPH.items()}
    assert not _circle(members)


def _packages_of(module: str) -> set[str]:
    """The packages that a module is in: naming one of them is how it reaches its neighbours."""
    return set(_parents(module)) - {module, "halfhank"}


def test_no_rooms_import_each_other_in_a_circle() -> None:
    rooms: dict[str, set[str]] = {}
    for module, names in GRAPH.items():
        others = {_room(name) for name in names - _packages_of(module)}
        rooms.setdefault(_room(module), set()).update(others - {_room(module)})
    assert not _circle(rooms)


ROOMS = sorted({path.parent for path in SOURCES if path.parent.parent != ROOT and path.parent.name != "halfhank"})


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: str(room.relative_to(ROOT)))
def test_a_room_imports_the_rooms_that_its_page_names(room: Path) -> None:
    """Among those of the same folder of the project; the files at that folder's root are there for all of them."""
    page = (room / "README.md").read_text(encoding="utf-8")
    line = next(line for line in page.splitlines() if line.startswith("- **May import**: "))
    top = room.relative_to(ROOT).parts[0]
    if "everything" in line:
        return
    named = {one.removeprefix(f"{top}/") for one in re.findall(r"`([\w/]+)/`", line)}
    for module in (name for name, path in MODULES.items() if path.parent == room):
        for other in GRAPH[module] - _packages_of(module):
            folder = MODULES[other].parent
            if folder == room or folder.relative_to(ROOT).parts[0] != top or folder.parent == ROOT:
                continue
            found = str(folder.relative_to(ROOT / top))
            assert any(found == one or found.endswith("/" + one) for one in named), f"{module} imports {other}"
