"""Drawings as a browser shows them: its own measure of every text, and no complaint on its console."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from halfhank.renderer.metrics import text_width
from halfhank.renderer.schematic import schematic
from halfhank.renderer.svg import to_svg
from playwright.sync_api import Browser, sync_playwright

from tests.pipe.making import seeded
from tests.pipe.writing import write
from tests.whole import planned

CHROMIUM = Path("/usr/bin/chromium")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
DEMOS = sorted((Path(__file__).parents[2] / "gallery_demo").glob("*.svg"))
MADE = range(0, 24)

pytestmark = pytest.mark.skipif(
    not CHROMIUM.exists() and not os.environ.get("CI"), reason="Chromium is not installed here"
)

# Each text's box in the picture's own mm. A font's line box is taller than its letters: it is cut to 0.75 em above
# the baseline and 0.21 em below, Helvetica's ascender and descender.
MEASURE = """() => {
  const root = document.documentElement, toRoot = root.getScreenCTM().inverse();
  return [...document.querySelectorAll("text")].map(text => {
    const box = text.getBBox(), size = parseFloat(getComputedStyle(text).fontSize);
    const base = text.y.baseVal[0].value, map = toRoot.multiply(text.getScreenCTM());
    const corners = [[box.x, base - 0.75 * size], [box.x + box.width, base + 0.21 * size]]
      .map(([x, y]) => new DOMPoint(x, y).matrixTransform(map));
    const xs = corners.map(p => p.x), ys = corners.map(p => p.y);
    return {text: text.textContent, width: box.width, size, bold: getComputedStyle(text).fontWeight >= 600,
            serif: getComputedStyle(text).fontFamily.startsWith("Times"),
            left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys)};
  });
}"""
PAGE = "() => { const b = document.documentElement.viewBox.baseVal; return [b.width, b.height]; }"


class Shown(NamedTuple):
    """One drawing in the browser: measured texts, the page's size in mm, and what the console said."""

    name: str
    texts: list[dict[str, object]]
    page: tuple[float, float]
    said: list[str]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=str(CHROMIUM), headless=True, args=ARGUMENTS)
        yield chromium
        chromium.close()


@pytest.fixture(scope="module")
def shown(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> list[Shown]:
    """All demos and a generated set."""
    folder = tmp_path_factory.mktemp("drawings")
    files = list(DEMOS)
    for number in MADE:
        found = planned(write(seeded(number))).shawl
        if found is not None:
            path = folder / f"{number}.svg"
            path.write_bytes(to_svg(schematic(found)))
            files.append(path)
    return [show(browser, path) for path in files]


def show(browser: Browser, path: Path) -> Shown:
    said: list[str] = []
    page = browser.new_page()
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: said.append(request.url) if request.url != path.as_uri() else None)
    page.goto(path.as_uri())
    texts, (width, height) = page.evaluate(MEASURE), page.evaluate(PAGE)
    page.close()
    return Shown(path.name, texts, (width, height), said)


def meet(one: dict[str, object], other: dict[str, object]) -> bool:
    a, b = box(one), box(other)
    return a[0] < b[2] - 0.01 and b[0] < a[2] - 0.01 and a[1] < b[3] - 0.01 and b[1] < a[3] - 0.01


def box(text: dict[str, object]) -> tuple[float, ...]:
    return tuple(float(str(text[key])) for key in ("left", "top", "right", "bottom"))


def test_there_is_much_to_look_at(shown: list[Shown]) -> None:
    assert len(shown) > 15
    assert all(len(one.texts) > 5 for one in shown)


def test_console_and_network_stay_quiet(shown: list[Shown]) -> None:
    for one in shown:
        assert not one.said, one.name


def test_no_text_meets_another(shown: list[Shown]) -> None:
    for one in shown:
        pairs = [
            (first["text"], other["text"])
            for k, first in enumerate(one.texts)
            for other in one.texts[k + 1 :]
            if meet(first, other)
        ]
        assert not pairs, one.name


def test_no_text_leaves_the_picture(shown: list[Shown]) -> None:
    for one in shown:
        for text in one.texts:
            left, top, right, bottom = box(text)
            assert left >= 0 and top >= 0 and right <= one.page[0] and bottom <= one.page[1], (one.name, text)


def test_widths_are_what_the_layout_reckoned_with(shown: list[Shown]) -> None:
    """Latin text within 2 % (hinting and kerning apart); other scripts are never wider than reckoned."""
    for one in shown:
        for text in one.texts:
            words, size, face = str(text["text"]), float(str(text["size"])), "serif" if text["serif"] else "sans"
            reckoned = text_width(words, size, face, bool(text["bold"]))
            measured = float(str(text["width"]))
            assert measured <= reckoned * 1.02 + 0.1, (one.name, text, reckoned)
            if words.isascii():
                assert measured >= reckoned * 0.96 - 0.1, (one.name, text, reckoned)
