"""Pages of a given width and height: the piece takes its share, grows with the column, and no word is cut."""

from functools import cache
from pathlib import Path

import pytest
from halfhank import plan
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Label, Rect, Scene
from halfhank.renderer.paper.text_widths import ELLIPSIS
from halfhank.renderer.schematic.options import OptionError, Options
from halfhank.renderer.schematic.page import draw_schematic
from halfhank.renderer.schematic.turned import can_be_turned, turned

from tests.renderer import checks
from tests.renderer.pieces import shawl_of
from tests.renderer.scenes import PIECES

DEMOS = {file.stem: file for file in (Path(__file__).parents[3] / "gallery_demo").glob("*.shawl")}
WIDTHS = (60, 61, 72, 80, 92, 113, 120, 150, 151, 180, 240, 300)
HEIGHTS = (None, 260)
TALL = {"quarry-bench"}
"""Demos whose piece is too high to fill a page's width."""
demos = pytest.mark.parametrize("name", sorted(DEMOS))


@cache
def shawl(name: str) -> Shawl:
    found = plan(DEMOS[name].read_bytes()).plan
    assert found is not None
    return found.shawl


@cache
def drawn(name: str, width: float, height: float | None = None, only: str | None = None) -> Scene:
    return draw_schematic(shawl(name), Options(width_mm=width, height_mm=height, only=only))


def scale_of(scene: Scene) -> float:
    (words,) = [text for text in checks.texts(scene) if ", 1:" in text]
    return float(words.split(", 1:")[1].removesuffix(" at this width"))


def piece_mm(name: str, scene: Scene) -> float:
    return 10 * shawl(name).outline.size.wingspan_cm / scale_of(scene)


@demos
@pytest.mark.parametrize("height", HEIGHTS)
def test_a_wider_column_never_has_a_smaller_piece(name: str, height: float | None) -> None:
    before = 0.0
    for width in WIDTHS:
        try:
            scene = drawn(name, width, height)
        except OptionError:
            assert height is not None and before == 0
            continue
        assert piece_mm(name, scene) >= before, width
        assert scene.width == width and (height is None or scene.height <= height)
        before = piece_mm(name, scene)


@demos
def test_the_piece_takes_two_thirds_of_the_width(name: str) -> None:
    for width in WIDTHS:
        share = piece_mm(name, drawn(name, width)) / width
        assert share >= 0.65 or name in TALL, (width, share)


@demos
def test_everything_fits_and_no_word_is_cut(name: str) -> None:
    for width in WIDTHS[::2]:
        scene = drawn(name, width)
        assert not checks.strays(scene) and not checks.meetings(scene), width
        assert not [text for text in checks.texts(scene) if ELLIPSIS in text]


@pytest.mark.parametrize(("name", "width", "scale"), [("hedge-and-ditch", 100, 15), ("slipway-nine", 120, 16)])
def test_labels_do_not_take_the_pieces_room(name: str, width: float, scale: float) -> None:
    """These two were once drawn at 1:98 and 1:147, beside their labels."""
    assert scale_of(drawn(name, width)) == scale


@demos
def test_the_drawing_alone_has_neither_skein_nor_table(name: str) -> None:
    scene = drawn(name, 80, only="drawing")
    names = {group.name for group in checks.groups(scene.items)}
    assert {"drawing", "legend", "scale"} <= names and not names & {"skein", "parts", "heading"}
    assert all(part.name.split()[0] in " ".join(checks.texts(scene)) for part in shawl(name).parts)
    assert not checks.strays(scene) and not checks.meetings(scene)


@demos
def test_without_its_table_a_page_is_lower_and_a_key_says_what_the_drawing_has(name: str) -> None:
    for width in (80, 180):
        whole, without = drawn(name, width), draw_schematic(shawl(name), Options(width_mm=width, without="table"))
        assert without.height < whole.height - 15 and scale_of(without) == scale_of(whole)
        gone = {text for text in checks.texts(whole) if text not in checks.texts(without)}
        assert "share" in gone and {"skein", "heading", "legend", "facts"} <= {group.name for group in without.items}
        words = " ".join(checks.texts(without))
        named = [part.name for part in shawl(name).parts]
        for kept in (*named, shawl(name).start.words, shawl(name).bind_off.words, *shawl(name).remarks):
            assert kept.split()[0] in words
        assert not checks.strays(without) and not checks.meetings(without)


def test_parts_that_are_named_on_the_drawing_are_not_named_again() -> None:
    named = [name for name in DEMOS if "part-names" in _filled(name)]
    assert named
    for name in DEMOS:
        scene = draw_schematic(shawl(name), Options(without="table"))
        in_key = [item.text for item in checks.group(scene, "parts").items if isinstance(item, Label) and item.bold]
        parts = [part.name for part in shawl(name).parts]
        assert not set(parts) & set(in_key) if name in named else set(parts) <= set(in_key)


def _filled(name: str) -> list[str]:
    """The groups of a demo's page of its own choice that have something in them."""
    return [group.name for group in checks.groups(draw_schematic(shawl(name)).items) if group.items]


def test_the_drawing_alone_keeps_to_a_height() -> None:
    scene = drawn("ratchet", 180, 90, "drawing")
    assert scene.height <= 90 and scale_of(scene) > scale_of(drawn("ratchet", 180))


def test_a_page_that_is_too_low_is_refused_with_the_height_that_it_needs() -> None:
    with pytest.raises(OptionError, match=r"about \d+ mm .*--only drawing"):
        drawn("ratchet", 80, 60)


def test_a_narrow_strip_does_not_make_an_endless_page() -> None:
    """45 cm by 180 cm: no page of 60 to 180 mm has it more than 150 mm high."""
    for width in (60, 120, 180):
        scene = draw_schematic(shawl_of(PIECES["scarf"]), Options(width_mm=width))
        assert scale_of(scene) >= 12 and scene.height < 400


def test_a_long_thin_piece_lies_on_its_side() -> None:
    """On a page of its own choice, with the start at the left; upright at a scale that was asked for."""
    scarf = shawl_of(PIECES["scarf"])
    lying, upright = (draw_schematic(scarf, options) for options in (Options(), Options(scale=12)))
    assert scale_of(lying) == scale_of(upright) == 12 and lying.height < upright.height - 90
    (start,) = checks.group(lying, "start").items
    xs = [x for strip in checks.strips(lying) for x, _ in checks.points_of(strip)]
    assert max(xs) - min(xs) == pytest.approx(150, abs=0.1)
    assert min(xs) == pytest.approx(checks.points_of(start)[0][0], abs=0.1)
    assert not checks.strays(lying) and not checks.meetings(lying)


def test_a_turned_outline_is_the_same_piece() -> None:
    """What was at the left is below, what was at the end is at the right; rows run from above."""
    upright = shawl_of(PIECES["scarf"])
    assert can_be_turned(upright) and not can_be_turned(shawl_of(PIECES["triangle"]))
    lying = turned(upright).outline
    for row in (0, 300, 720):
        (left, right), (upper, lower) = upright.outline.ends(row), lying.ends(row)
        assert upper == pytest.approx((right[1], 45 - right[0])) and lower == pytest.approx((left[1], 45 - left[0]))
        assert lying.boundary(row).start == upper and lying.regions[0].boundary(row).end == lower
    assert (lying.size.wingspan_cm, lying.size.depth_cm) == pytest.approx((180, 45))


def test_what_has_no_room_is_said_in_words() -> None:
    wide, narrow = (checks.texts(drawn("slipway-nine", width)) for width in (180, 60))
    assert "depth 32 cm (13 in)" in wide
    assert "Depth 32 cm (13 in)" in " ".join(narrow)
    assert "row 216" in narrow and "row 216" not in wide


def test_the_white_sheet_is_left_out_where_asked() -> None:
    piece = shawl_of(PIECES["triangle"])
    assert draw_schematic(piece).sheet and not draw_schematic(piece, Options(transparent=True)).sheet
    assert not [item for item in draw_schematic(piece).items if isinstance(item, Rect)]
