"""Drawings inline in a page of HTML, as Chromium parses and shows them: side by side, twice, in a page with a style."""

from collections.abc import Iterator
from io import BytesIO
from typing import TYPE_CHECKING, Any

import pytest
from halfhank import draw, plan
from halfhank.renderer.inline.inline_svg import to_inline_svg
from halfhank.renderer.paper.scene import Circle, Element, Group, Scene, Style
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.page import draw_schematic
from PIL import Image, ImageChops

from tests.browser.chromium import HERE
from tests.browser.test_accessibility import named, tree
from tests.model.weighings.knits import BANDED
from tests.renderer.pieces import shawl_of
from tests.renderer.scenes import PIECES

if TYPE_CHECKING:
    from playwright.sync_api import Browser, ElementHandle, Page

pytestmark = HERE

HOSTILE = """font: italic bold 20px serif; letter-spacing: 4px; word-spacing: 9px; direction: rtl;
  font-variant: small-caps; stroke: red; text-anchor: end"""
PAGE = """<!doctype html><html lang=en><meta charset=utf-8><title>Two shawls</title>
<style>body {{ margin: 0; width: 700px }} p {{ color: #123456; font: 17px serif; margin: 0; height: 30px }}
  section {{ height: 1300px }}</style>
<p>before</p><section>{one}</section><p>between</p><section>{other}</section><p>after</p><section>{one}</section>
<section style="{hostile}">{one}</section>"""
STYLE = "p => JSON.stringify([...getComputedStyle(p)].map(name => [name, getComputedStyle(p).getPropertyValue(name)]))"
WIDTHS = "svg => [...svg.querySelectorAll('text')].map(text => [text.textContent, text.getComputedTextLength()])"


TRIANGLE = (("M", (1.0, 1.0)), ("L", (9.0, 3.0)), ("L", (2.0, 6.0)), ("Z", ()))
DISC = Circle(4, 4, 3, Style(fill="#204060"))
CLIPPED = Scene(10, 8, "Clipped", "A disc in a triangle.", (Group("disc", (DISC,), clip=TRIANGLE),))
NEAR = 30
"""Above the difference of pictures that are alike but for the edges of letters; a clip that is missing makes 110."""


def banded() -> Scene:
    shawl = plan(BANDED).shawl
    assert shawl is not None
    return draw_schematic(shawl)


ONE, OTHER = draw_schematic(shawl_of(PIECES["triangle"], method="picot")), banded()


@pytest.fixture(scope="module")
def page(browser: "Browser") -> "Iterator[Page]":
    """Two drawings, and the first of them again, and again where the page has other ideas of type."""
    one, other = to_inline_svg(ONE).decode(), to_inline_svg(OTHER).decode()
    shown, said = browser.new_page(), list[str]()
    shown.on("console", lambda message: said.append(message.text))
    shown.on("request", lambda request: said.append(request.url))
    shown.set_content(PAGE.format(one=one, other=other, hostile=HOSTILE))
    yield shown
    assert not said


def drawings(page: "Page") -> "list[ElementHandle]":
    return page.query_selector_all("svg")


def picture(element: Any) -> Image.Image:
    return Image.open(BytesIO(element.screenshot())).convert("RGB")


def difference(one: Image.Image, other: Image.Image) -> float:
    """The largest difference of two pictures' channels, of 255, in squares of four pixels."""
    assert one.size == other.size
    return max(high for _, high in ImageChops.difference(one.reduce(4), other.reduce(4)).getextrema())


def test_nothing_is_there_twice(page: "Page") -> None:
    assert len(drawings(page)) == 4
    ids = page.evaluate("() => [...document.querySelectorAll('[id]')].map(one => one.id)")
    assert len(ids) == len(set(ids))


def test_the_page_keeps_its_styles(page: "Page", browser: "Browser") -> None:
    bare = browser.new_page()
    bare.set_content(PAGE.format(one="", other="", hostile=HOSTILE))
    for name in ("before", "between", "after"):
        styles = [one.eval_on_selector(f"p:text-is('{name}')", STYLE) for one in (bare, page)]
        assert styles[0] == styles[1]
    assert page.evaluate("() => document.styleSheets.length") == 1


def test_both_copies_look_alike(page: "Page") -> None:
    first, _, second, _ = drawings(page)
    assert difference(picture(first), picture(second)) < NEAR


def test_it_is_as_wide_as_the_page_lets_it_be(page: "Page") -> None:
    for svg, scene in zip(drawings(page), (ONE, OTHER, ONE, ONE), strict=True):
        box = svg.bounding_box()
        assert box is not None and box["width"] == 700
        assert box["height"] == pytest.approx(700 * scene.height / scene.width, abs=0.5)


def test_the_pages_type_does_not_change_the_drawings(page: "Page") -> None:
    first, _, _, fourth = drawings(page)
    assert first.evaluate(WIDTHS) == fourth.evaluate(WIDTHS)
    assert difference(picture(first), picture(fourth)) < NEAR


@pytest.mark.parametrize("scene", [ONE, CLIPPED], ids=["drawing", "clip"])
def test_it_looks_like_the_file(scene: Scene, browser: "Browser") -> None:
    """Clips included, which are made in other ways; a drawing without its clips would be found."""
    shown = browser.new_page()
    size = f"width:700px;height:{700 * scene.height / scene.width}px"
    pictures = []
    for data in (to_inline_svg(scene), to_svg(scene), to_svg(without_clips(scene))):
        svg = data.decode().split("?>", 1)[-1]
        shown.set_content(f"<!doctype html><style>body{{margin:30px 0}} svg{{{size}}}</style>{svg}")
        pictures += [picture(drawn) for drawn in drawings(shown)]
    inline, whole, unclipped = pictures
    assert difference(inline, whole) < NEAR < difference(inline, unclipped)


def without_clips(scene: Scene) -> Scene:
    def freed(items: tuple[Element, ...]) -> tuple[Element, ...]:
        return tuple(
            item._replace(items=freed(item.items), clip=None) if isinstance(item, Group) else item for item in items
        )

    return scene._replace(items=freed(scene.items))


def test_screen_readers_get_its_title_its_description_and_its_bands(page: "Page") -> None:
    nodes = tree(page)
    documents = [node for node in nodes if "ocument" in node["role"] and node["name"] == OTHER.title]
    assert [node["description"] for node in documents] == [OTHER.description]
    assert [name for name in named(nodes, "listitem") if name.startswith("rows 1\u201328: garter")]


def test_a_transparent_one_has_the_pages_colour_of_text(browser: "Browser") -> None:
    shown = browser.new_page()
    svg = draw(BANDED, embed=True, transparent=True).decode()
    shown.set_content(f"<!doctype html><body style='background:#101010;color:rgb(220, 230, 240)'>{svg}")
    fills = shown.evaluate("() => [...document.querySelectorAll('text')].map(text => getComputedStyle(text).fill)")
    assert fills.count("rgb(220, 230, 240)") > 20
