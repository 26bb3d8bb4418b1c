"""Text widths against the fonts' published metrics, and contrast against WCAG's formula."""

import pytest
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.schematic.page import draw_schematic
from reportlab.pdfbase.pdfmetrics import stringWidth

from tests.outside.pieces import part, piece
from tests.whole import shawl

FONTS = [("sans", False, "Helvetica"), ("sans", True, "Helvetica-Bold"), ("serif", False, "Times-Roman")]
LATIN = "".join(map(chr, [*range(0x20, 0x7F), *range(0xA1, 0x100)]))
TEXTS = ["half the yarn: row 94, 55 g left", "AVATAR – Wąż, 1:10", "Größe 40 × 20 cm (16 × 8 in)", "“To & fro”…"]


@pytest.mark.parametrize(("face", "bold", "font"), FONTS)
def test_each_character_against_adobes_metrics(face: str, bold: bool, font: str) -> None:
    """Adobe's metrics of the base fonts, as reportlab carries them: every character of Latin-1."""
    for character in LATIN.replace("\xad", ""):
        assert text_width(character, 1000, face, bold) == pytest.approx(stringWidth(character, font, 1000)), character


@pytest.mark.parametrize(("face", "bold", "font"), FONTS)
@pytest.mark.parametrize("text", [text for text in TEXTS if all(ord(c) < 0x100 or c in "–“”…" for c in text)])
def test_whole_texts_against_adobes_metrics(text: str, face: str, bold: bool, font: str) -> None:
    """Sums of advances, punctuation of typesetters included; no kerning on either side."""
    assert text_width(text, 3.5, face, bold) == pytest.approx(stringWidth(text, font, 3.5))


# WCAG 2.2: relative luminance and contrast ratio as its glossary defines them; 1.4.3 asks 4.5:1 of text, 1.4.11 asks
# 3:1 of graphics that are needed to understand the content.


def luminance(colour: str) -> float:
    channels = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_formula_against_wcags_own_extremes() -> None:
    """Black on white is 21:1 (WCAG); #767676 on white is the well-known grey just past 4.5:1."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert 4.5 < contrast("#767676", "#ffffff") < 4.6


@pytest.fixture(scope="module")
def scene() -> Scene:
    """A triangle with all marks, several parts and a picot edge."""
    return draw_schematic(
        shawl(
            piece(
                shape="triangle",
                start="garter tab 3 sts 6 rows",
                shaping="increase 1 at each edge and 1 at spine every 2 rows",
                skein="100 g 380 m",
                keep="5%",
                parts=part("garter 16 ridges", name="one")
                + "\n"
                + part("repeat 4 times", "  garter 4 ridges", "  drop 2 wraps", "  stockinette 6 rows", name="two"),
                end="bind off picot",
            )
        )
    )


def inside(items: tuple[Element, ...], within: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], Element]]:
    """Items in drawing order with the names of the groups that hold them."""
    found: list[tuple[tuple[str, ...], Element]] = []
    for item in items:
        found += inside(item.items, (*within, item.name)) if isinstance(item, Group) else [(within, item)]
    return found


def covers(item: Element, x: float, y: float) -> str | None:
    """The fill of a disc or rectangle over a point."""
    if isinstance(item, Circle) and (item.x - x) ** 2 + (item.y - y) ** 2 <= item.radius**2:
        return item.style.fill
    if isinstance(item, Rect) and item.x <= x <= item.x + item.width and item.y <= y <= item.y + item.height:
        return item.style.fill
    return None


def test_text_stands_out_from_what_is_under_it(scene: Scene) -> None:
    """1.4.3: every text has 4.5:1 against the white page or the disc or rectangle drawn last under its middle."""
    drawn = inside(scene.items)
    for index, (names, item) in enumerate(drawn):
        if not isinstance(item, Label):
            continue
        unders = [covers(other, item.x, item.y - item.size / 3) for _, other in drawn[:index]]
        ground = next((fill for fill in reversed(unders) if fill), "#ffffff")
        assert contrast(item.fill, ground) >= 4.5, (names, item)


def test_marks_stand_out(scene: Scene) -> None:
    """1.4.11: the strong strokes of the marks have 3:1 against white, their casing, and 4.5:1 as the design asks."""
    strokes = [
        item.style.stroke
        for names, item in inside(scene.items)
        if any("mark" in name for name in names) and isinstance(item, Path) and item.style.dash
    ]
    assert strokes
    assert all(contrast(stroke, "#ffffff") >= 4.5 for stroke in strokes if stroke)


def test_shading_is_told_apart_at_its_ends(scene: Scene) -> None:
    """The ramp's ends differ by 3:1, so that early and late are told apart without colour (1.4.11's measure for
    graphics).
    """
    fills = [
        item.style.fill
        for names, item in inside(scene.items)
        if "fabric" in names and isinstance(item, Path) and item.style.fill
    ]
    assert contrast(str(fills[0]), str(fills[-1])) >= 3
