"""What is built for others: everything of the package, nothing else, and it runs where it is put."""

import os
import shutil
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from tests.project.shared import made_once

ROOT = Path(__file__).parents[2]
FOLDERS = ("grammar", "model", "renderer", "cli")


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the source distribution and the wheel made from it, built from a copy of the tree, offline."""
    return made_once("copy", _build, tmp_path_factory) / "dist"


def _build(copy: Path) -> None:
    dropped = shutil.ignore_patterns("__pycache__", "*.egg-info")
    for folder in FOLDERS:
        shutil.copytree(ROOT / folder, copy / folder, ignore=dropped)
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, copy / name)
    command = [
        sys.executable,
        "-m",
        "build",
        "--no-isolation",
        "--skip-dependency-check",
        "--outdir",
        str(copy / "dist"),
        str(copy),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=120, env={**os.environ, "PIP_NO_INDEX": "1"})


@pytest.fixture(scope="module")
def installed(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the wheel's contents."""
    folder = tmp_path_factory.mktemp("installed")
    with zipfile.ZipFile(_only(built, "*.whl")) as wheel:
        wheel.extractall(folder)
    return folder


def expected() -> set[str]:
    """Where every file of the package belongs; only the folders' READMEs stay behind."""
    found = set()
    for folder in FOLDERS:
        for path in (ROOT / folder).rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts and path.suffix != ".md":
                inside = path.relative_to(ROOT).as_posix()
                found.add(inside.removeprefix("cli/") if inside.startswith("cli/halfhank/") else f"halfhank/{inside}")
    return found


def _files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def _only(folder: Path, pattern: str) -> Path:
    (path,) = folder.glob(pattern)
    return path


def test_the_wheel_holds_the_package_and_nothing_else(installed: Path) -> None:
    files = {name for name in _files(installed) if ".dist-info/" not in name}
    assert files == expected()
    for data in ("py.typed", "grammar/shawl.lark", "grammar/tables.json", "cli/starters/triangle.shawl"):
        assert f"halfhank/{data}" in files


def test_only_one_name_lands_beside_other_packages(installed: Path) -> None:
    names = {path.name for path in installed.iterdir()}
    assert {name for name in names if not name.endswith(".dist-info")} == {"halfhank"}


def test_the_source_distribution_has_all_that_the_wheel_needs(built: Path) -> None:
    with tarfile.open(_only(built, "*.tar.gz")) as source:
        names = {name.partition("/")[2] for name in source.getnames()}
    for name in expected():
        inside = name.removeprefix("halfhank/")
        assert inside in names or f"cli/{name}" in names, name
    assert {"pyproject.toml", "README.md", "LICENSE"} <= names
    assert not [name for name in names if "__pycache__" in name]


def test_the_package_runs_where_it_is_put(installed: Path, tmp_path: Path) -> None:
    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        environment = {**os.environ, "PYTHONPATH": str(installed), "PYTHONDONTWRITEBYTECODE": "1"}
        command = [sys.executable, *arguments]
        return subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, timeout=60)

    where = run("-c", "import halfhank, halfhank.grammar as g; print(halfhank.__file__, g.__file__)").stdout.split()
    assert all(Path(path).is_relative_to(installed) for path in where)
    for shape in ("triangle", "crescent"):
        assert run("-m", "halfhank", "new", shape, "-o", f"{shape}.shawl").returncode == 0
        drawn = run("-m", "halfhank", "draw", f"{shape}.shawl")
        assert (drawn.returncode, drawn.stderr) == (0, "")
        assert (tmp_path / f"{shape}.svg").read_bytes().startswith(b"<?xml")


def test_the_command_starts_the_package(installed: Path) -> None:
    entry = _only(installed, "*.dist-info") / "entry_points.txt"
    assert "halfhank = halfhank.cli.main:main" in entry.read_text()
