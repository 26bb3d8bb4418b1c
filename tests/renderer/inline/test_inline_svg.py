"""The element for a page of HTML: valid SVG that brings no ids, no rules and no size of its own."""

import re

import pytest
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.model.stitches.chart import chart_of
from halfhank.model.stitches.pattern import built_in_pattern
from halfhank.renderer.charts.stitch_chart import Captions, stitch_chart
from halfhank.renderer.inline.inline_svg import to_inline_svg
from halfhank.renderer.paper.scene import Group, Label, Path, Scene, Style
from halfhank.renderer.paper.svg import SceneError
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from lxml import etree

from tests.pipe.drawing import svg_files
from tests.renderer.pieces import shawl_of
from tests.renderer.scenes import PIECES

SQUARE = (("M", (0.0, 0.0)), ("L", (5.0, 0.0)), ("L", (5.0, 5.0)), ("Z", ()))
CLIPPED = Scene(9, 9, "Clipped", "In a clip.", (Group("g", (Path(SQUARE, Style("#000000")),), clip=SQUARE),))


def chart() -> Scene:
    return stitch_chart(chart_of(built_in_pattern(built_in_stitch("open-mesh"))), Captions("open-mesh", (), 0.5))


SCENES = {
    "drawing": draw_schematic(shawl_of(PIECES["triangle"], method="picot")),
    "transparent": draw_schematic(shawl_of(PIECES["triangle"], method="elastic"), Options(transparent=True)),
    "chart": chart(),
    "clip": CLIPPED,
}
each = pytest.mark.parametrize("name", SCENES)


@each
def test_it_is_valid_svg(name: str) -> None:
    root = svg_files.parsed(to_inline_svg(SCENES[name]))
    svg_files.check_attributes(root)
    svg_files.check_numbers(root)
    svg_files.check_validity(root)
    assert {str(one.tag).removeprefix(svg_files.SVG) for one in root.iter()} <= svg_files.ELEMENTS - {"style", "defs"}


@each
def test_it_is_one_element_on_one_line(name: str) -> None:
    """So that a Markdown reader takes it for one block."""
    text = to_inline_svg(SCENES[name]).decode()
    assert text.startswith("<svg ") and text.endswith("</svg>\n") and text.count("\n") == 1


@each
def test_nothing_has_an_id_or_refers_to_one(name: str) -> None:
    root = svg_files.parsed(to_inline_svg(SCENES[name]))
    assert not [one for one in root.iter() if one.get("id") or one.get("style")]
    assert not [
        value for one in root.iter() for _, value in svg_files.attributes(one) if "url(" in value or "#h" in value
    ]
    assert root.get("aria-labelledby") is None


@each
def test_its_size_is_the_pages(name: str) -> None:
    root, scene = svg_files.parsed(to_inline_svg(SCENES[name])), SCENES[name]
    assert root.get("width") == "100%" and root.get("height") is None
    assert [float(part) for part in root.get("viewBox", "").split()] == pytest.approx([0, 0, *scene[:2]], abs=0.005)


def test_its_title_and_description_come_first() -> None:
    title, description = svg_files.parsed(to_inline_svg(CLIPPED))[:2]
    assert (title.text, description.text) == ("Clipped", "In a clip.")
    assert title.tag == f"{svg_files.SVG}title" and description.tag == f"{svg_files.SVG}desc"


def test_a_clip_is_a_shape_of_css() -> None:
    (clipped,) = [one for one in svg_files.parsed(to_inline_svg(CLIPPED)).iter() if one.get("clip-path")]
    assert clipped.get("clip-path") == "path('M0 0L5 0 5 5Z') view-box"


def test_only_a_transparent_one_takes_the_pages_colour() -> None:
    assert b"currentColor" in to_inline_svg(SCENES["transparent"])
    assert b"currentColor" not in to_inline_svg(SCENES["drawing"])


def test_markup_in_texts_stays_text_and_control_characters_are_refused() -> None:
    words = "</text></svg><script>alert('&amp;')</script> ]]> \"quoted\" --><img src=x onerror=y>"
    data = to_inline_svg(Scene(9, 9, words, words, (Label(1, 1, words, 3, "#000000"), Group("g", (), title=words))))
    assert not re.search(rb"<(script|img)|-->", data)
    assert {etree.QName(one).localname for one in svg_files.parsed(data).iter()} == {
        "svg",
        "title",
        "desc",
        "rect",
        "text",
        "g",
    }
    with pytest.raises(SceneError):
        to_inline_svg(CLIPPED._replace(title="\x1b"))


def test_the_same_scene_gives_the_same_bytes() -> None:
    assert to_inline_svg(SCENES["transparent"]) == to_inline_svg(SCENES["transparent"])
