"""A drawing is laid out in the piece's own mm and moved once: nothing in it stays behind."""

import math

import pytest
from halfhank.renderer.paper.scene import Circle, Group, Label, Path, Rect, Style, moved
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from shapely import LineString

from tests.renderer import checks
from tests.renderer.pieces import Piece, level, scaled, shawl_of
from tests.renderer.scenes import PIECES, SCENES, every

STYLE = Style(stroke="#000000", width=0.2)
SQUARE = (("M", (0.0, 0.0)), ("L", (2.0, 0.0)), ("L", (2.0, 2.0)), ("Z", ()))


def test_every_kind_of_item_is_moved() -> None:
    bend = Path((("M", (1.0, 2.0)), ("C", (1.0, 3.0, 2.0, 4.0, 3.0, 5.0))), STYLE, title="bend")
    inner = Group("inner", (bend, Circle(1, 2, 0.5, STYLE)), clip=SQUARE)
    group = Group("outer", (inner, Rect(0, 0, 4, 3, STYLE), Label(1, 1, "text", 3, "#000000", turn=90)), title="all")
    assert moved(group, (10, 100)) == Group(
        "outer",
        (
            Group(
                "inner",
                (
                    Path((("M", (11.0, 102.0)), ("C", (11.0, 103.0, 12.0, 104.0, 13.0, 105.0))), STYLE, title="bend"),
                    Circle(11, 102, 0.5, STYLE),
                ),
                clip=(("M", (10.0, 100.0)), ("L", (12.0, 100.0)), ("L", (12.0, 102.0)), ("Z", ())),
            ),
            Rect(10, 100, 4, 3, STYLE),
            Label(11, 101, "text", 3, "#000000", turn=90),
        ),
        title="all",
    )


@every
def test_the_fabric_lies_between_the_dimension_of_its_width(name: str) -> None:
    """What is drawn on the piece and what stands around it are moved by the same way."""
    scene = SCENES[name]
    strips = [x for strip in checks.strips(scene) for x, _ in checks.points_of(strip)]
    (wingspan,) = [group for group in checks.groups(scene.items) if group.name == "wingspan"]
    drawn = [x for item in wingspan.items if isinstance(item, Path) for x, _ in checks.points_of(item)]
    wide = max(strips) - min(strips)
    reach = min(0.92, max(0.3 * wide, 0.6) / math.sqrt(2))
    assert (min(strips), max(strips)) == pytest.approx((min(drawn) + reach, max(drawn) - reach), abs=0.05)


def test_ticks_on_a_short_line_do_not_run_into_one_another() -> None:
    """A strip 4 cm wide at 1:25, and one of 1 mm: both strokes keep more than their width apart."""
    for wide in (4.0, 2.5):
        shawl = shawl_of(Piece([("only", [("garter", 400)])], scaled(level, wide / 45)))
        wingspan = checks.group(draw_schematic(shawl, Options(scale=25)), "wingspan")
        ticks = [item for item in wingspan.items if isinstance(item, Path)][-2:]
        one, other = (LineString(checks.points_of(tick)) for tick in ticks)
        assert one.distance(other) > 1.3 * ticks[0].style.width


def test_a_drawn_piece_lies_at_its_own_origin() -> None:
    points = DrawnPiece(shawl_of(PIECES["triangle"]), 1.0).silhouette
    assert min(x for x, _ in points) == pytest.approx(0, abs=0.1)
    assert min(y for _, y in points) == pytest.approx(0, abs=0.1)
