"""Pattern pages in a browser: a general-purpose checker of accessibility finds nothing, and nothing runs or loads."""

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest

from tests.browser.chromium import HERE
from tests.cli.report.page.pages import DEMOS, LARGE, WHOLE, page_of
from tests.cli.running import GOOD, halfhank

if TYPE_CHECKING:
    from halfhank.cli.report.page.pattern_page import PageOptions
    from playwright.sync_api import Browser, Page

pytestmark = HERE

HOSTILE = "<script>alert(1)</script><img src=x onerror=alert(2)>]]>&amp;<!-- \u202e\u2066 </style></title></main>"
CHECKED = [path for path in DEMOS if path.stem in ("hedge-and-ditch", "quarry-bench")]


class Mode(NamedTuple):
    """How a page is looked at: its options, the browser's colours, the width of its window."""

    options: "PageOptions"
    colours: str
    width: int


MODES = {
    "light": Mode(WHOLE, "light", 1280),
    "dark": Mode(WHOLE, "dark", 1280),
    "large": Mode(LARGE, "light", 1000),
    "large-dark": Mode(LARGE, "dark", 1000),
    "telephone": Mode(WHOLE, "light", 375),
    "large-telephone": Mode(LARGE, "light", 375),
}


def opened(browser: "Browser", path: Path, mode: Mode) -> "Page":
    colours: Any = mode.colours
    page = browser.new_page(color_scheme=colours, viewport={"width": mode.width, "height": 800})
    page.goto(path.as_uri())
    return page


def violations(page: "Page") -> list[str]:
    """What axe-core, with all its rules, finds wrong."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page).response["violations"]
    return [f"{one['id']}: {one['nodes'][0]['html'][:200]}" for one in found]


@pytest.mark.parametrize("mode", MODES.values(), ids=list(MODES))
@pytest.mark.parametrize("demo", CHECKED, ids=lambda path: path.stem)
def test_a_checker_finds_nothing(browser: "Browser", tmp_path: Path, demo: Path, mode: Mode) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(page_of(demo, mode.options))
    page = opened(browser, path, mode)
    assert violations(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == mode.width, "only frames scroll sideways"
    page.close()


def test_the_checker_works(browser: "Browser", tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    path.write_text(
        "<!doctype html><html><title>t</title><main><h1>x</h1><p style='color:#bbb'>pale words</p></main></html>"
    )
    page = opened(browser, path, MODES["light"])
    assert {one.partition(":")[0] for one in violations(page)} >= {"color-contrast", "html-has-lang"}
    page.close()


def test_drawings_keep_their_white_ground_in_the_dark(browser: "Browser", tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    path.write_bytes(page_of(CHECKED[0]))
    page = opened(browser, path, MODES["dark"])
    grounds = "[...document.querySelectorAll('svg.drawing')].map(one => getComputedStyle(one).backgroundColor)"
    assert set(page.evaluate(grounds)) == {"rgb(255, 255, 255)"}
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") != "rgb(255, 255, 255)"
    page.close()


def test_hostile_texts_stay_texts(browser: "Browser", tmp_path: Path) -> None:
    """No dialog, no request, no complaint on the console; the words are there as they were written."""
    source, path = tmp_path / "hostile.shawl", tmp_path / "hostile.html"
    text = re.sub(r'^( *(?:shawl|by|remark|part|yarn) )"([^"]*)"', rf'\1"{HOSTILE} \2"', GOOD, flags=re.MULTILINE)
    assert text.count(HOSTILE) > 4
    source.write_text(text, encoding="utf-8")
    result = halfhank("page", source, "-o", path, "--with", "yarn-chart")
    assert result.status == 0, result.err
    said: list[str] = []
    page = browser.new_page()
    page.on("dialog", lambda dialog: (said.append(dialog.message), dialog.dismiss()))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: said.append(request.url))
    page.goto(path.as_uri())
    page.wait_for_timeout(200)
    assert said == [path.as_uri()]
    assert page.evaluate("document.querySelectorAll('script, img, main').length") == 1
    assert page.locator("h1").inner_text().startswith("<script>alert(1)</script><img src=x onerror=alert(2)>]]>&amp;")
    assert violations(page) == []
    page.close()
