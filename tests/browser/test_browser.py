"""Drawings as a browser shows them: its own measure of every text, and no complaint on its console."""

from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.schematic.page import draw_schematic
from shapely import Polygon, STRtree, box

from tests.browser.chromium import HERE
from tests.pipe.random_shawls.making import seeded_plan

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

DEMOS = sorted((Path(__file__).parents[2] / "gallery_demo").glob("*.svg"))
MADE = range(0, 16)

pytestmark = HERE

# Each text's box in the picture's own mm. A font's line box is taller than its letters: it is cut to 0.75 em above
# the baseline and 0.21 em below, Helvetica's ascender and descender.
MEASURE = """() => {
  const root = document.documentElement, toRoot = root.getScreenCTM().inverse();
  return [...document.querySelectorAll("text")].map(text => {
    const box = text.getBBox(), size = parseFloat(getComputedStyle(text).fontSize);
    const base = text.y.baseVal[0].value, map = toRoot.multiply(text.getScreenCTM());
    const [left, right, top, bottom] = [box.x, box.x + box.width, base - 0.75 * size, base + 0.21 * size];
    const corners = [[left, top], [right, top], [right, bottom], [left, bottom]]
      .map(([x, y]) => new DOMPoint(x, y).matrixTransform(map)).map(p => [p.x, p.y]);
    return {text: text.textContent, width: box.width, size, bold: getComputedStyle(text).fontWeight >= 600,
            serif: getComputedStyle(text).fontFamily.startsWith("Times"), corners};
  });
}"""
PAGE = "() => { const b = document.documentElement.viewBox.baseVal; return [b.width, b.height]; }"


class Measured(NamedTuple):
    """One text: its words and type, its advance width in mm and the box it takes, turned as it is."""

    words: str
    size: float
    face: str
    bold: bool
    width: float
    box: Polygon


class Shown(NamedTuple):
    """One drawing in the browser: measured texts, the page's size in mm, and what the console said."""

    name: str
    texts: list[Measured]
    page: tuple[float, float]
    said: list[str]


@pytest.fixture(scope="module")
def shown(browser: "Browser", tmp_path_factory: pytest.TempPathFactory) -> list[Shown]:
    """All demos and a generated set."""
    folder = tmp_path_factory.mktemp("drawings")
    files = list(DEMOS)
    for number in MADE:
        found = seeded_plan(number).shawl
        if found is not None:
            path = folder / f"{number}.svg"
            path.write_bytes(to_svg(draw_schematic(found)))
            files.append(path)
    page, said = browser.new_page(), list[str]()
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.on("request", lambda request: said.append(request.url))
    return [show(page, path, said) for path in files]


def show(page: "Page", path: Path, said: list[str]) -> Shown:
    said.clear()
    page.goto(path.as_uri())
    texts, (width, height) = [measured(found) for found in page.evaluate(MEASURE)], page.evaluate(PAGE)
    return Shown(path.name, texts, (width, height), [words for words in said if words != path.as_uri()])


def measured(found: dict[str, Any]) -> Measured:
    face = "serif" if found["serif"] else "sans"
    return Measured(found["text"], found["size"], face, found["bold"], found["width"], Polygon(found["corners"]))


def test_there_is_much_to_look_at(shown: list[Shown]) -> None:
    assert len(shown) > 15
    assert all(len(one.texts) > 5 for one in shown)


def test_console_and_network_stay_quiet(shown: list[Shown]) -> None:
    for one in shown:
        assert not one.said, one.name


def test_no_text_meets_another(shown: list[Shown]) -> None:
    for one in shown:
        tree = STRtree([text.box for text in one.texts])
        pairs = [
            (text.words, one.texts[other].words)
            for k, text in enumerate(one.texts)
            for other in tree.query(text.box)
            if other > k and text.box.intersection(one.texts[other].box).area > 0.01
        ]
        assert not pairs, one.name


def test_no_text_leaves_the_picture(shown: list[Shown]) -> None:
    for one in shown:
        page = box(0, 0, *one.page)
        assert all(page.contains(text.box) for text in one.texts), one.name


def test_widths_are_what_the_layout_reckoned_with(shown: list[Shown]) -> None:
    """Latin text within 4 % (hinting and kerning apart); other scripts are never wider than reckoned."""
    for one in shown:
        for text in one.texts:
            reckoned = text_width(text.words, text.size, text.face, text.bold)
            assert text.width <= reckoned * 1.02 + 0.1, (one.name, text, reckoned)
            if text.words.isascii():
                assert text.width >= reckoned * 0.96 - 0.1, (one.name, text, reckoned)
