"""The registry of problems as the tests see it: every kind, where it is used, and the lines of the reference."""

import ast
import string
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import NamedTuple

from halfhank.grammar.problems import parse_problems
from halfhank.grammar.problems.problem import ProblemKind
from halfhank.model.problems import plan_problems, row_problems

ROOT = Path(__file__).parents[2]
TABLED = (plan_problems, row_problems)
MODULES = (parse_problems, *TABLED)
SOURCES = [path for folder in ("grammar", "model") for path in sorted((ROOT / folder).rglob("*.py"))]


class Use(NamedTuple):
    """A call of `at`: the names of the kinds of which one is meant, and the names of the values that it gives."""

    place: str
    kinds: frozenset[tuple[str, str]]
    values: frozenset[str]


def short_name(module: ModuleType) -> str:
    """A module's name within the program."""
    return module.__name__.removeprefix("halfhank.")


def kinds() -> dict[tuple[str, str], ProblemKind]:
    """Every kind, by the module that it stands in and its name there."""
    return {
        (short_name(module), name): value
        for module in MODULES
        for name, value in vars(module).items()
        if isinstance(value, ProblemKind)
    }


def severities(module: ModuleType) -> dict[str, str]:
    """The severity of each code of which a module has a wording."""
    return {kind.code: kind.severity for (home, _), kind in kinds().items() if home == short_name(module)}


def fields(kind: ProblemKind) -> set[str]:
    """The names of the values that a kind's templates ask for."""
    texts = [*_pieces(kind.message), *_pieces(kind.mend), kind.edit or ""]
    return {name for text in texts for _, name, _, _ in string.Formatter().parse(text) if name}


def _pieces(templates: str | tuple[str, ...]) -> tuple[str, ...]:
    return (templates,) if isinstance(templates, str) else templates


def uses() -> Iterator[Use]:
    """Every call of `at` in the source on kinds of the registry."""
    for path in SOURCES:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        homes = dict(_homes(tree))
        for function in (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and homes):
            yield from _uses_in(function, homes, f"{path.relative_to(ROOT)}: {function.name}")


def _homes(tree: ast.AST) -> Iterator[tuple[str, str]]:
    """The names by which a module calls the registry's modules."""
    for node in ast.walk(tree):
        for alias in node.names if isinstance(node, ast.ImportFrom) else ():
            home = f"{getattr(node, 'module', '')}.{alias.name}".removeprefix("halfhank.")
            if home in map(short_name, MODULES):
                yield alias.asname or alias.name, home


def _uses_in(function: ast.FunctionDef, homes: dict[str, str], place: str) -> Iterator[Use]:
    local = {
        target.id: node.value
        for node in ast.walk(function)
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(function):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "at":
            found = frozenset(_kinds_in(node.func.value, local, homes))
            if found:
                yield Use(place, found, frozenset(_given(node, local)))


def _kinds_in(node: ast.AST, local: dict[str, ast.expr], homes: dict[str, str]) -> Iterator[tuple[str, str]]:
    for inner in ast.walk(node):
        if isinstance(inner, ast.Attribute) and isinstance(inner.value, ast.Name) and inner.value.id in homes:
            yield homes[inner.value.id], inner.attr
        elif inner is node and isinstance(inner, ast.Name) and inner.id in local:
            yield from _kinds_in(local[inner.id], {}, homes)


def _given(call: ast.Call, local: dict[str, ast.expr]) -> Iterator[str]:
    """The values of a call, those of a dict that is written out in the same function among them."""
    for keyword in call.keywords:
        if keyword.arg:
            yield keyword.arg
            continue
        assert isinstance(keyword.value, ast.Name)
        written = local[keyword.value.id]
        assert isinstance(written, ast.Dict)
        yield from (key.value for key in written.keys if isinstance(key, ast.Constant))
