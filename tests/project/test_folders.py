"""Each folder's README names every module in it, and every folder of modules that has no README of its own."""

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FOLDERS = ("grammar", "model", "renderer", "cli")
PAGES = sorted(page for folder in FOLDERS for page in (ROOT / folder).rglob("README.md"))


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
