"""Texts of other scripts in PNG: in the order in which they are seen, in a font that has them, or with a warning."""

import io
import warnings
from itertools import pairwise

import pytest
from halfhank.renderer import to_png
from halfhank.renderer.paper.drawn_texts import drawn_texts
from halfhank.renderer.paper.export import FontWarning, to_pdf
from halfhank.renderer.paper.scene import Group, Label, Scene
from halfhank.renderer.paper.scripts import fonts
from halfhank.renderer.paper.scripts.directions import MARKS, isolated
from halfhank.renderer.paper.svg import to_svg
from PIL import Image

from tests.renderer.checks import leaves

ARABIC, HEBREW, HAN = "\u0635\u0648\u0641", "\u05e6\u05de\u05e8", "\u7f8a\u6bdb"
RUSSIAN, GREEK = "\u0448\u0435\u0440\u0441\u0442\u044c", "\u03bc\u03b1\u03bb\u03bb\u03af"


def page(text: str, anchor: str = "start", x: float = 5.0) -> Scene:
    return Scene(90.0, 10.0, "t", "d", (Label(x, 7, text, 5, "#000000", anchor=anchor),))


def labels(scene: Scene) -> list[Label]:
    return [item for item in leaves(drawn_texts(scene).scene.items) if isinstance(item, Label)]


def ink(scene: Scene) -> Image.Image:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", FontWarning)
        return Image.open(io.BytesIO(to_png(scene, 200))).convert("L").point(lambda value: 255 - value)


def test_our_own_texts_are_left_as_they_are() -> None:
    scene = page("yarn, 100 g (\u00bc)")
    assert drawn_texts(scene).scene == scene


def test_a_name_from_right_to_left_leaves_our_numbers_whole() -> None:
    drawn = labels(page(f"{ARABIC}, 100 g"))
    seen = sorted(drawn, key=lambda label: label.x)
    assert "".join(label.text for label in seen).endswith(", 100 g")
    assert seen == drawn and all(a.x < b.x for a, b in pairwise(drawn))


def test_no_isolate_is_drawn_as_a_box() -> None:
    """The library would look for its glyph: what it is given holds none."""
    for text in (f"{ARABIC}, 100 g", isolated(f"{HEBREW} 4"), "\u2068abc\u2069"):
        written = to_svg(drawn_texts(page(text)).scene, as_seen=True).decode()
        assert MARKS.isdisjoint(written)


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_pieces_lie_where_the_whole_text_would(anchor: str) -> None:
    """The ink of a Greek text in its pieces, against the library's own placing of it."""
    whole = Scene(90.0, 10.0, "t", "d", (Label(45, 7, GREEK, 5, "#000000", anchor=anchor),))
    left, _, right, _ = ink(whole).getbbox() or (0, 0, 0, 0)
    reach = {"start": (45, None), "middle": (None, None), "end": (None, 45)}[anchor]
    mm = 25.4 / 200
    if reach[0]:
        assert left * mm == pytest.approx(reach[0], abs=0.7)
    if reach[1]:
        assert right * mm == pytest.approx(reach[1], abs=0.7)
    assert anchor != "middle" or (left + right) / 2 * mm == pytest.approx(45, abs=0.5)


@pytest.mark.parametrize("text", [RUSSIAN, GREEK])
def test_greek_and_cyrillic_have_their_font(text: str) -> None:
    found = drawn_texts(page(text))
    assert found.missing == ()
    assert ink(page(text)).getbbox() is not None


SCRIPTS = [(ARABIC, "Arabic"), (HEBREW, "Hebrew"), (HAN, "Han"), ("\u30b7\u30e7", "Katakana")]


@pytest.mark.parametrize(("text", "script"), SCRIPTS)
def test_a_script_has_a_font_or_a_warning_names_it(text: str, script: str) -> None:
    """As this machine has it: where a font is found its letters are drawn as that font has them."""
    found = drawn_texts(page(text))
    if found.missing:
        assert found.missing == (script,)
        with pytest.warns(FontWarning, match=script):
            to_png(page(text), 50)
        return
    drawn = labels(page(text))
    assert all(label.face not in ("sans", "serif") or fonts._has("Helvetica", False, label.text[0]) for label in drawn)
    with warnings.catch_warnings():
        warnings.simplefilter("error", FontWarning)
        to_png(page(text), 50)
        to_pdf(page(text))


def test_without_any_font_a_warning_names_the_scripts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "_has", lambda family, bold, character: character.isascii())
    fonts._family_with.cache_clear()
    try:
        with pytest.warns(FontWarning, match="Arabic or Han"):
            to_png(page(f"{ARABIC} {HAN} 100 g"), 50)
    finally:
        fonts._family_with.cache_clear()


def test_the_font_that_fontconfig_lists_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(fonts, "_has", lambda family, bold, character: character.isascii() or family == "Fern Serif")
    monkeypatch.setattr(fonts, "_listed", lambda character: ("Fern Serif",))
    fonts._family_with.cache_clear()
    try:
        runs = fonts.font_runs(f"100 {HAN} g", "sans", False)
    finally:
        fonts._family_with.cache_clear()
    assert runs == [("100 ", "Helvetica"), (f"{HAN} ", "Fern Serif"), ("g", "Helvetica")]


def test_turned_texts_run_along_their_line() -> None:
    drawn = labels(
        Scene(90.0, 90.0, "t", "d", (Group("g", (Label(40, 40, f"{RUSSIAN} {HAN}", 5, "#000000", turn=-90),)),))
    )
    assert len(drawn) == 2 and drawn[0].turn == drawn[1].turn == -90
    assert drawn[1].x == pytest.approx(40) and drawn[1].y < drawn[0].y == 40
