"""Drawings as parts of a page: their size, what is cut off, and ids that occur once."""

import pytest
from halfhank.cli.report.html.elements import new_element
from halfhank.cli.report.html.html_page import PageForm, PageNames, html_bytes, html_page
from halfhank.cli.report.html.inline_drawings import InlineDrawings, PlacedScene
from halfhank.cli.report.html.tick_boxes import tick_box
from halfhank.renderer.paper.scene import Group, Label, Rect, Scene, Style
from lxml import etree

from tests.cli.report.html.html_checks import faults, parsed

CLIP = (("M", (20.0, 20.0)), ("L", (40.0, 20.0)), ("L", (40.0, 40.0)), ("Z", ()))
SCENE = Scene(
    100.0,
    60.0,
    "t",
    "d",
    (Group("drawing", (Rect(20, 20, 9, 9, Style(fill="#000000")),), clip=CLIP), Label(20, 30, "a", 5, "#000000")),
)


def test_margins_are_cut_and_the_rest_enlarged() -> None:
    root = InlineDrawings().element(PlacedScene(SCENE, 10.0, 1.5))
    assert root.get("viewBox") == "10 10 80 40"
    assert (root.get("width"), root.get("height")) == ("120mm", "60mm")
    assert root.get("class") == "drawing"
    assert InlineDrawings().element(PlacedScene(SCENE, 10.0, 2.0)).get("class") == "drawing wide"


def test_the_same_drawing_twice_has_ids_of_its_own() -> None:
    inline = InlineDrawings()
    drawn = [inline.element(PlacedScene(SCENE, 0.0, 1.0)) for _ in range(3)]
    assert all(one.xpath(".//@clip-path") for one in drawn)
    root = parsed(html_bytes(html_page(PageNames("t"), drawn, PageForm())))
    assert faults(root) == []
    assert len(root.xpath("//*[local-name()='svg']/@aria-labelledby")) == 3


def test_a_reference_into_nothing_would_be_found() -> None:
    drawn = InlineDrawings().element(PlacedScene(SCENE, 0.0, 1.0))
    drawn.set("aria-labelledby", "nowhere")
    twice = [InlineDrawings().element(PlacedScene(SCENE, 0.0, 1.0)) for _ in range(2)]
    for content in ([drawn], twice, [new_element("a", "x", (), {"href": "https://example.org"})]):
        assert faults(parsed(html_bytes(html_page(PageNames("t"), content, PageForm()))))


@pytest.mark.parametrize(("ticked", "name", "shapes"), [(True, "done", 2), (False, "to do", 1)])
def test_boxes_say_whether_they_are_ticked(ticked: bool, name: str, shapes: int) -> None:
    box = tick_box(ticked)
    assert box.get("aria-label") == name and len(box) == 1 + shapes
    assert etree.QName(box).namespace == "http://www.w3.org/2000/svg"
