"""The README's page of HTML with its inline drawings, and its page of Markdown, as Chromium shows them."""

import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.chromium import HERE
from tests.cli.running import halfhank
from tests.cli.test_markdown import readme_blocks, readme_example

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = HERE
ROOT = Path(__file__).parents[2]


def test_the_page_of_html_shows_both_drawings(browser: "Browser") -> None:
    (page,) = readme_blocks()["html"]
    for name, svg in inline_drawings():
        mark = f"<!-- {name} -->"
        assert page.count(mark) == 1
        page = page.replace(mark, svg)
    assert shown_drawings(browser, page) == 2


def test_the_page_of_markdown_shows_its_drawing(
    browser: "Browser", tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert shown_drawings(browser, readme_example(tmp_path, monkeypatch)) == 1


def shown_drawings(browser: "Browser", html: str) -> int:
    """How many drawings of some size with some words a page shows."""
    page = browser.new_page(viewport={"width": 800, "height": 600})
    page.set_content(html)
    drawings = page.query_selector_all("svg.halfhank")
    for svg in drawings:
        box = svg.bounding_box()
        assert box is not None and box["width"] > 500 and box["height"] > 200
        assert len(svg.query_selector_all("text")) > 5
    return len(drawings)


def inline_drawings() -> Iterator[tuple[str, str]]:
    """What the commands of the README make to embed, each with the name of its file."""
    lines = [line for block in readme_blocks()["sh"] for line in block.splitlines() if "--embed" in line]
    assert len(lines) == 2
    for line in lines:
        *words, name = [str(ROOT / word) if word.startswith("gallery_demo") else word for word in shlex.split(line)]
        result = halfhank(*words[1:], "-")
        assert result.status == 0
        yield name, result.out.decode()
