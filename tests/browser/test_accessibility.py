"""What assistive technology gets of a drawing: Chromium's accessibility tree, and what the Tab key reaches."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from halfhank import plan
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.model.stitches.chart import chart_of
from halfhank.model.stitches.pattern import built_in_pattern
from halfhank.renderer.charts.stitch_chart import Captions, stitch_chart
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.page import draw_schematic

from tests.browser.chromium import HERE
from tests.model.weighings.knits import BANDED

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = HERE

FOCUSED = "() => document.activeElement.querySelector('title')?.textContent ?? ''"


@pytest.fixture(scope="module")
def scene() -> Scene:
    shawl = plan(BANDED).shawl
    assert shawl is not None
    return draw_schematic(shawl)


@pytest.fixture(scope="module")
def inline(browser: "Browser", scene: Scene, tmp_path_factory: pytest.TempPathFactory) -> "Page":
    """A page of HTML with the drawing in it."""
    return shown_inline(browser, scene, tmp_path_factory.mktemp("inline"))


def shown_inline(browser: "Browser", scene: Scene, folder: Path) -> "Page":
    svg = to_svg(scene).decode().split("?>", 1)[1]
    path = folder / "page.html"
    path.write_text(f"<!doctype html><meta charset=utf-8><title>t</title>{svg}", encoding="utf-8")
    page = browser.new_page()
    page.goto(path.as_uri())
    return page


def tree(page: "Page") -> list[dict[str, Any]]:
    """The nodes that are not ignored, in the order of the tree, each with its role, name and description."""
    nodes = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    by_id = {node["nodeId"]: node for node in nodes}
    found: list[dict[str, Any]] = []

    def walk(node: dict[str, Any]) -> None:
        if not node.get("ignored"):
            found.append({key: node.get(key, {}).get("value", "") for key in ("role", "name", "description")})
        for child in node.get("childIds", []):
            if child in by_id:
                walk(by_id[child])

    walk(nodes[0])
    return found


def named(nodes: list[dict[str, Any]], role: str) -> list[str]:
    return [node["name"] for node in nodes if node["role"] == role]


def test_the_drawing_is_a_document_with_its_title_and_description(inline: "Page", scene: Scene) -> None:
    (document,) = [node for node in tree(inline) if node["name"] == "Millrace" and "ocument" in node["role"]]
    assert document["description"] == scene.description
    for words in ("Triangle from the neck", "wide and", "Half of this shawl's yarn", "Chance of enough yarn", "Parts:"):
        assert words in scene.description


def test_texts_are_read_in_the_order_of_the_page(inline: "Page") -> None:
    nodes = tree(inline)
    groups = [name for name in named(nodes, "group") if name]
    wanted = ["Title", "The shawl, drawn to scale", "The skein", "Parts", "Stitch patterns", "Facts"]
    assert [name for name in groups if name in wanted] == wanted
    texts = named(nodes, "StaticText")
    assert texts.index("Millrace") < texts.index("The skein") < texts.index("collar")


def test_bands_are_a_list_in_working_order(inline: "Page") -> None:
    bands = named(tree(inline), "listitem")
    assert len(bands) > 5 and bands[0].startswith("rows 1\u201328: garter")
    firsts = [int(name.split()[1].split("\u2013")[0].rstrip(":")) for name in bands]
    assert firsts == sorted(firsts)


def test_the_tab_key_goes_from_band_to_band(inline: "Page") -> None:
    bands = named(tree(inline), "listitem")
    reached = []
    for _ in bands:
        inline.keyboard.press("Tab")
        reached.append(inline.evaluate(FOCUSED))
    assert reached == bands


def test_figures_without_their_picture_are_not_read(inline: "Page") -> None:
    """The numbers of badges and of the ruler's ticks; the table has the parts by name."""
    texts = named(tree(inline), "StaticText")
    assert "90" not in texts and "collar" in texts


def test_the_rows_of_a_stitch_chart_are_read_in_words(browser: "Browser", tmp_path: Path) -> None:
    chart = chart_of(built_in_pattern(built_in_stitch("open-mesh")))
    page = shown_inline(browser, stitch_chart(chart, Captions("open-mesh", (), 0.5)), tmp_path)
    rows = named(tree(page), "listitem")
    assert [row.split(",")[0] for row in rows] == ["Row 1", "Row 2", "Row 3", "Row 4"]
    assert "k2tog" in rows[0] and "yo" in rows[0] and rows[1].startswith("Row 2, wrong side: ")
