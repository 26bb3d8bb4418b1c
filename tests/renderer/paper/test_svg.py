"""Writing scenes: what goes into a file, and what never does."""

import math

import pytest
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene, Style
from halfhank.renderer.paper.scripts.directions import MARKS
from halfhank.renderer.paper.svg import SceneError, checked, number, path_text, to_svg
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from tests.pipe.drawing import svg_files

SQUARE = (("M", (0.0, 0.0)), ("L", (5.0, 0.0)), ("L", (5.0, 5.0)), ("Z", ()))
NAMESPACE = {"s": "http://www.w3.org/2000/svg"}


def scene(*items: Element, title: str = "Title", description: str = "Description") -> Scene:
    return Scene(100.0, 50.0, title, description, items)


def root(*items: Element, **words: str) -> etree._Element:
    return etree.fromstring(to_svg(scene(*items, **words)))


@pytest.mark.parametrize(
    ("value", "text"),
    [(0.0, "0"), (-0.0, "0"), (-0.004, "0"), (1.0, "1"), (1.5, "1.5"), (10.0, "10"), (100.0, "100"), (0.125, "0.12")],
)
def test_numbers_are_short(value: float, text: str) -> None:
    assert number(value) == text


@given(st.floats(-1e6, 1e6))
def test_numbers_are_within_a_two_hundredth(value: float) -> None:
    assert float(number(value)) == pytest.approx(value, abs=0.00501)
    assert number(value) != "-0"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_numbers_that_are_not_finite_are_refused(value: float) -> None:
    for item in (
        Circle(value, 0, 1, Style()),
        Rect(0, 0, value, 1, Style()),
        Path((("M", (0.0, value)),), Style()),
        Label(0, value, "x", 3, "#000000"),
        Path(SQUARE, Style(stroke="#000000", width=value)),
    ):
        with pytest.raises(SceneError):
            to_svg(scene(item))


@pytest.mark.parametrize("character", ["\0", "\x1b", "\n", "\x7f", "\x85", "\ud800", "\ufffe", "\U0001ffff"])
def test_characters_that_xml_cannot_hold_are_refused(character: str) -> None:
    with pytest.raises(SceneError):
        checked(f"a{character}b")
    for broken in (scene(Label(1, 1, character, 3, "#000000")), scene(title=character), scene(description=character)):
        with pytest.raises(SceneError):
            to_svg(broken)


@given(st.text(alphabet=st.characters(exclude_categories=["Cc", "Cs"], max_codepoint=0xFFFD), min_size=1))
def test_texts_come_back_as_they_were(text: str) -> None:
    found = root(Label(1, 1, text, 3, "#000000"), title=text, description=text)
    told = [found.findtext(f"s:{tag}", namespaces=NAMESPACE) or "" for tag in ("title", "desc", "text")]
    assert told[:2] == [text] * 2
    assert without_isolates(told[2]) == without_isolates(text)


def without_isolates(text: str) -> str:
    return "".join(character for character in text if character not in MARKS)


def test_words_from_right_to_left_are_isolated_in_a_text() -> None:
    (text,) = root(Label(1, 1, "yarn צמר, 100 g", 3, "#000000")).iter("{*}text")
    assert text.text == "yarn ⁨צמר⁩, 100 g"


def test_markup_in_texts_stays_text() -> None:
    words = "</text><script>alert('&amp;')</script> ]]> \"quoted\""
    found = root(Label(1, 1, words, 3, "#000000"), Group("g", (), title=words))
    assert {etree.QName(e).localname for e in found.iter()} == {"svg", "title", "desc", "rect", "text", "g"}


def test_page_has_its_physical_size() -> None:
    found = root()
    assert (found.get("width"), found.get("height"), found.get("viewBox")) == ("100mm", "50mm", "0 0 100 50")
    assert found.get("role") == "graphics-document document"
    assert [etree.QName(e).localname for e in found] == ["title", "desc", "rect"]


def test_a_white_sheet_lies_under_everything_unless_it_is_left_out() -> None:
    circle = Circle(5, 5, 1, Style(fill="#000000"))
    sheet = root(circle)[2]
    told = [sheet.get(name) for name in ("x", "y", "width", "height", "fill")]
    assert told == ["0", "0", "100", "50", "#ffffff"]
    bare = etree.fromstring(to_svg(scene(circle)._replace(sheet=False)))
    assert [etree.QName(e).localname for e in bare] == ["title", "desc", "circle"]


def test_only_the_svg_namespace_is_declared() -> None:
    assert root(Path(SQUARE, Style())).nsmap == {None: "http://www.w3.org/2000/svg"}


def test_everything_is_valid() -> None:
    style = Style("#ffffff", "#000000", 0.2, (1.0, 0.0), "round", "miter")
    inner = (
        Path(SQUARE, style, "told"),
        Circle(1, 2, 3, style),
        Rect(1, 2, 3, 4, style),
        Label(1, 1, "x", 3, "#000000"),
    )
    label = Label(1, 1, "x", 3, "#000000", face="serif", bold=True, anchor="end", turn=-90)
    svg_files.check(to_svg(scene(Group("outer", (Group("inner", inner, "told", SQUARE), label)))))


def identifiers(element: etree._Element) -> list[str]:
    return [str(inner.get("id")) for inner in element.iter() if inner.get("id")]


def test_ids_are_unique_and_begin_with_the_content() -> None:
    one = root(Group("g", (Group("g", ()), Group("h", ()))))
    ids = identifiers(one)
    prefix = ids[0].removesuffix("-title")
    assert ids == [f"{prefix}-title", f"{prefix}-description", f"{prefix}-g", f"{prefix}-g-2", f"{prefix}-h"]
    other = root(Group("g", (Group("g", ()), Group("h", ()))), title="Another title")
    assert not set(ids) & set(identifiers(other))


def test_a_clip_is_found_by_its_own_id() -> None:
    found = root(Group("g", (Path(SQUARE, Style()),), clip=SQUARE))
    (clip,) = found.iter("{*}clipPath")
    (clipped,) = [element for element in found.iter() if element.get("clip-path")]
    assert clipped.get("clip-path") == f"url(#{clip.get('id')})"


def test_repeated_commands_leave_their_letter_out() -> None:
    data = (
        ("M", (0, 0)),
        ("L", (1, 2)),
        ("L", (3, 4)),
        ("C", (1, 2, 3, 4, 5, 6)),
        ("M", (1, 1)),
        ("M", (2, 2)),
        ("Z", ()),
    )
    assert path_text(data) == "M0 0L1 2 3 4C1 2 3 4 5 6M1 1M2 2Z"


def test_same_scene_same_bytes() -> None:
    assert to_svg(scene(Path(SQUARE, Style("#ffffff")))) == to_svg(scene(Path(SQUARE, Style("#ffffff"))))
