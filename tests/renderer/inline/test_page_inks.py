"""A drawing without its sheet is seen on dark pages and on light ones."""

from collections.abc import Callable
from functools import cache
from pathlib import Path as File

import pytest
from halfhank import plan
from halfhank.renderer.inline.page_inks import PAGE_INK, RIM, page_inks
from halfhank.renderer.paper.house_style import HEAVY, INK, LIGHT, RULE
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene, Style
from halfhank.renderer.schematic.fabric.bind_off_edges import CORD_WIDTH
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.renderer import checks
from tests.renderer.contrast import failures
from tests.renderer.pieces import shawl_of
from tests.renderer.scenes import METHODS, PIECES

DEMOS = sorted((File(__file__).parents[3] / "gallery_demo").glob("*.shawl"))
PAGES = {"dark": ("#15181b", "#e6e6e6"), "black": ("#000000", "#bbbbbb"), "light": ("#ffffff", "#222222")}
CORES = tuple(f"line {INK} {width - 2 * RIM:.2f} in " for width in (HEAVY, CORD_WIDTH))
"""The cores of heavy lines, each one with its rim where both are dark."""
CLOTH = Rect(0, 0, 20, 20, Style(fill="#336699"))


def toned(text_colour: str) -> Callable[[str], str]:
    return lambda colour: text_colour if colour == PAGE_INK else colour


@cache
def drawn(path: File) -> Scene:
    found = plan(path.read_bytes()).plan
    assert found is not None
    return page_inks(draw_schematic(found.shawl, Options(transparent=True, contours=True)))


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_texts_and_lines_stand_out_on_pages_of_any_colour(path: File, page: str) -> None:
    ground, ink = PAGES[page]
    found = failures(drawn(path), toned(ink), ground)
    assert [one for one in found if not (page == "light" and one.startswith(CORES))] == []


@pytest.mark.parametrize("method", METHODS)
def test_every_edge_stands_out_on_a_dark_page(method: str) -> None:
    piece = shawl_of(PIECES["triangle"], method=method)
    ground, ink = PAGES["dark"]
    assert failures(page_inks(draw_schematic(piece, Options(transparent=True))), toned(ink), ground) == []


def test_without_the_pages_colour_it_would_not_be_seen() -> None:
    whole = draw_schematic(shawl_of(PIECES["triangle"]), Options(transparent=True))
    assert len(failures(whole, str, PAGES["dark"][0])) > 20


def inked(*items: Element) -> tuple[Element, ...]:
    return page_inks(Scene(100, 100, "", "", items, sheet=False)).items


def test_what_lies_on_a_shape_keeps_its_ink() -> None:
    words = [Label(x, 10, "words", 3, INK) for x in (2, 40)]
    lines = [Path((("M", (x, 15.0)), ("L", (x + 10, 15.0))), Style(stroke=INK, width=0.3)) for x in (2, 40)]
    _, on_cloth, on_page, line_on_cloth, line_on_page = inked(CLOTH, *words, *lines)
    assert on_cloth == words[0] and on_page == words[1]._replace(fill=PAGE_INK)
    assert line_on_cloth == lines[0]
    assert isinstance(line_on_page, Path) and line_on_page.style.stroke == PAGE_INK


def test_what_is_drawn_later_hides_nothing() -> None:
    words, cloth = inked(Label(2, 10, "words", 3, INK), CLOTH)
    assert isinstance(words, Label) and words.fill == PAGE_INK and cloth == CLOTH


def test_a_frame_is_drawn_in_the_pages_ink_and_its_words_are_too() -> None:
    frame, words = inked(Rect(0, 0, 20, 20, Style(stroke=INK, width=0.2)), Label(2, 10, "words", 3, INK))
    assert isinstance(frame, Rect) and frame.style.stroke == PAGE_INK
    assert isinstance(words, Label) and words.fill == PAGE_INK


def test_a_badge_keeps_its_number() -> None:
    disc, number = inked(
        Circle(50, 50, 3, Style(fill=LIGHT, stroke=INK, width=0.2)), Label(50, 51, "1", 3, INK, anchor="middle")
    )
    assert isinstance(disc, Circle) and disc.style.fill == LIGHT
    assert isinstance(number, Label) and number.fill == INK


def test_a_heavy_line_has_a_core_of_its_own_ink() -> None:
    heavy = Path((("M", (0.0, 20.0)), ("L", (20.0, 20.0))), Style(stroke=INK, width=1.0))
    _, rim, core = inked(CLOTH, heavy)
    assert isinstance(rim, Path) and isinstance(core, Path)
    assert (rim.style.stroke, core.style.stroke) == (PAGE_INK, INK) and core.style.width < rim.style.width == 1.0


def test_rules_and_white_stay_and_nothing_moves() -> None:
    kept = (
        Path((("M", (0.0, 50.0)), ("L", (9.0, 50.0))), Style(stroke=RULE, width=0.2)),
        Circle(9, 60, 1, Style(LIGHT)),
    )
    assert inked(Group("g", kept)) == (Group("g", kept),)
    whole = draw_schematic(shawl_of(PIECES["rectangle"]), Options(transparent=True))
    assert checks.texts(page_inks(whole)) == checks.texts(whole)
