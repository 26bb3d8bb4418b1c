"""The page at its limits: 180 mm wide, a piece 150 mm high, a hundredth of the yarn, contours 1.5 mm apart."""

import pytest
from halfhank.model.outline.curve import Curve, line
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import Label, Scene
from halfhank.renderer.schematic.fabric.drawn_bands import spans_of, strips_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import contour_step
from halfhank.renderer.schematic.options import OptionError, Options, check
from halfhank.renderer.schematic.page import draw_schematic

from tests.renderer import checks
from tests.renderer.pieces import Piece, level, shawl_of

SIZES_DRAWN = [
    *[Options(width_mm=60), Options(width_mm=5000), Options(scale=0.1), Options(scale=1e6)],
    *[Options(height_mm=40), Options(height_mm=5000)],
]
SIZES_NOT_DRAWN = [
    *[Options(width_mm=59.9), Options(width_mm=5000.1), Options(scale=0.099), Options(scale=1000000.1)],
    *[Options(height_mm=39.9), Options(height_mm=5000.1)],
]


def rectangle(wide_cm: float, high_cm: float, rows: int = 40, total_g: float = 82.0) -> Shawl:
    def boundary(h: float, whole: float) -> Curve:
        y = h / whole * high_cm
        return line([(0.0, y), (wide_cm, y)])

    return shawl_of(Piece([("only", [("garter", rows)])], boundary), total_g=total_g)


def scale_of(scene: Scene) -> float:
    (told,) = [text for text in checks.texts(scene) if ", 1:" in text]
    return float(told.split(", 1:")[1].split()[0])


@pytest.mark.parametrize(("more_mm", "scale"), [(-0.1, 10), (0.1, 12)])
def test_the_widest_page_is_180_mm(more_mm: float, scale: float) -> None:
    """What stands beside the piece is as wide at 1:10 for any piece; so wide a piece makes a page of just 180 mm."""
    beside_mm = draw_schematic(rectangle(140, 40), Options(scale=10)).width - 140
    scene = draw_schematic(rectangle(180 - beside_mm + more_mm, 40))
    assert scale_of(scene) == scale and scene.width <= 180


@pytest.mark.parametrize(("high_mm", "scale"), [(149.9, 10), (150.1, 12)])
def test_the_highest_piece_is_150_mm(high_mm: float, scale: float) -> None:
    assert scale_of(draw_schematic(rectangle(60, high_mm))) == scale


@pytest.mark.parametrize(("rows", "together"), [(192, 2), (196, 3)])
def test_a_strip_of_colour_takes_a_hundredth_of_the_yarn(rows: int, together: int) -> None:
    """A row takes 98 % of the yarn over `rows + 1.5`: two of 193.5 are 1.01 % of the yarn, two of 197.5 are 0.99 %."""
    piece = DrawnPiece(rectangle(45, 60, rows), 1.0)
    (span,) = spans_of(piece)
    assert {strip.last - strip.first for strip in strips_of(piece, span)[:-1]} == {together}


@pytest.mark.parametrize(
    ("apart_mm", "grams", "step"), [(1.51, 10, 10), (1.49, 10, 20), (1.51, 20, 20), (1.49, 20, 50), (1.51, 50, 50),
                                    (1.49, 50, 100), (15.1, 10, 10)],
)  # fmt: skip
def test_contours_are_in_the_smallest_step_that_keeps_them_apart(apart_mm: float, grams: int, step: int) -> None:
    """240 rows of half a gram are 60 cm high: a gram is 0.5 cm of them."""
    shawl = rectangle(45, 60, 240, total_g=0.5 * 241.5 / 0.98)
    assert contour_step(DrawnPiece(shawl, apart_mm / (grams / 2))) == step


@pytest.mark.parametrize("good", SIZES_DRAWN)
def test_the_last_sizes_that_are_drawn(good: Options) -> None:
    check(good)


@pytest.mark.parametrize("bad", SIZES_NOT_DRAWN)
def test_the_first_sizes_that_are_not_drawn(bad: Options) -> None:
    with pytest.raises(OptionError):
        check(bad)


@pytest.mark.parametrize(("thin", "words"), [(2, ["1", "2", "3", "4"]), (3, ["1", "5", "2–4"])])
def test_three_thin_parts_share_a_bracket_and_two_do_not(thin: int, words: list[str]) -> None:
    parts = [("first", [("garter", 60)]), *[(f"thin {k}", [("garter", 2)]) for k in range(thin)]]
    scene = draw_schematic(shawl_of(Piece([*parts, ("last", [("garter", 120)])], level)))
    told = [item.text for item in checks.leaves(checks.group(scene, "ruler-badges").items) if isinstance(item, Label)]
    assert sorted(told) == sorted(words)
