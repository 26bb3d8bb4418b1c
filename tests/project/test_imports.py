"""Which folder may import which, and which libraries belong to one folder alone."""

import ast
import re
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

import pytest
from halfhank.cli.commands.chart import CHARTS
from halfhank.cli.group import COMMANDS

ROOT = Path(__file__).parents[2]
# What each folder may import of ours. The model sees of the grammar what descriptions are made of, never its parser.
ALLOWED = {
    "grammar": ("halfhank.grammar",),
    "model": (
        "halfhank.model",
        "halfhank.grammar.problems",
        "halfhank.grammar.description",
        "halfhank.grammar.language",
        "halfhank.grammar.items",
        "halfhank.grammar.builtin.stitch_patterns",
    ),
    "renderer": ("halfhank.renderer", "halfhank.model", "halfhank.grammar.problems", "halfhank.grammar.description"),
    "cli": ("halfhank",),
}
# Libraries that one folder alone may know.
ONE_HOME = {"lark": "grammar", "svgwrite": "renderer", "cairosvg": "renderer", "click": "cli"}
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
    assert {"halfhank.cli.commands.draw", "halfhank.cli.commands.chart_yarn"} <= named
    assert not [name for name in named if find_spec(name) is None]


def test_every_command_stands_in_a_table() -> None:
    files = {f"halfhank.cli.commands.{path.stem}" for path in (ROOT / "cli/commands").glob("*.py")}
    assert files - {"halfhank.cli.commands.__init__"} == {*COMMANDS.values(), *CHARTS.values()}
