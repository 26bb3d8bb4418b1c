"""Folders are small, tests mirror the package, and each README names every module and every folder beside it."""

import ast
from collections import Counter
from pathlib import Path, PurePosixPath

import pytest

ROOT = Path(__file__).parents[2]
FOLDERS = ("grammar", "model", "renderer", "cli")
PAGES = sorted(page for folder in FOLDERS for page in (ROOT / folder).rglob("README.md"))
MOST_FILES = 14


def _modules(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.glob("*.py") if path.name != "__init__.py")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.parent.relative_to(ROOT)))
def test_the_readme_of_a_folder_names_what_is_in_it(page: Path) -> None:
    text = page.read_text(encoding="utf-8")
    missing = [name for name in _modules(page.parent) if f"`{name}`" not in text]
    for folder in sorted(path for path in page.parent.iterdir() if path.is_dir()):
        if any(folder.glob("*.py")) and f"`{folder.name}/`" not in text:
            missing.append(f"{folder.name}/")
    assert not missing


def test_the_pages_are_found() -> None:
    names = {str(page.parent.relative_to(ROOT)) for page in PAGES}
    assert {"grammar", "model", "model/outline", "model/stitches", "renderer", "cli"} <= names


def _files() -> list[PurePosixPath]:
    """The files of the package and of its tests, but for what Python makes of them."""
    found = [path.relative_to(ROOT) for folder in (*FOLDERS, "tests") for path in (ROOT / folder).rglob("*")]
    return [PurePosixPath(path) for path in found if (ROOT / path).is_file() and "__pycache__" not in path.parts]


def test_no_folder_has_many_files() -> None:
    """READMEs and `__init__.py` counted."""
    counts = Counter(str(path.parent) for path in _files())
    assert {"grammar", "cli/commands", "tests", "tests/cases/problems/lines"} <= set(counts)
    assert {folder: count for folder, count in counts.items() if count > MOST_FILES} == {}


def test_the_tests_mirror_the_package() -> None:
    """A folder of tests below `tests/model` is a room of `model`, and so on."""
    rooms = {str(path.parent) for path in _files() if path.suffix == ".py"}
    below = tuple(f"tests/{folder}" for folder in FOLDERS)
    tested = {room.removeprefix("tests/") for room in rooms if room.startswith(below)}
    assert {*FOLDERS, "grammar/source_text", "model/outline", "renderer/charts", "cli/commands"} <= tested
    assert tested - rooms == set()


def _sources() -> list[Path]:
    return [path for folder in FOLDERS for path in (ROOT / folder).rglob("*.py") if not path.name.startswith("__")]


def test_a_name_stands_for_one_file() -> None:
    """But for a command's, which is the command's name."""
    names = Counter(path.name for path in _sources() if ROOT / "cli" / "commands" not in path.parents)
    assert "plan.py" in names and [name for name, count in names.items() if count > 1] == []


def test_a_name_stands_for_one_class() -> None:
    """But for the records of a design, which are those of a description as they are meant."""
    meant = ROOT / "model" / "design" / "design.py"
    nodes = (node for path in _sources() if path != meant for node in ast.parse(path.read_text("utf-8")).body)
    names = Counter(node.name for node in nodes if isinstance(node, ast.ClassDef))
    assert "Plan" in names and [name for name, count in names.items() if count > 1] == []
