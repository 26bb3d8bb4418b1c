"""Triangles whose shaping at the spine changes along the rows: against a relaxed membrane, and closed forms."""

import math
from itertools import pairwise
from pathlib import Path

import pytest
from halfhank.model.outline.outline import Outline
from halfhank.model.outline.solvers.sewn_wings import directions, sew
from halfhank.model.shawl import Shawl
from shapely import LineString

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import STRAIGHT, Line, from_neck, garter, knitted_cm2, laid, layout, stockinette
from tests.outside.pieces import part, piece
from tests.whole import shawl

FABRICS = """stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch stockinette
  gauge 20 sts 28 rows over 10 cm"""

EDGES = "increase 1 at each edge every 2 rows"
BOTH = "increase 1 at each edge and 1 at spine every 2 rows"


def triangle(*parts: tuple[str, ...], shaping: str = BOTH) -> str:
    return piece(
        shape="triangle",
        start="garter tab 3 sts 6 rows",
        shaping=f"edge 3 sts\n{shaping}",
        fabric=FABRICS,
        skein="3000 g 12000 m",
        parts="\n".join(part(*bands, name=str(k)) for k, bands in enumerate(parts)),
    )


def spine(every: int, rows: int) -> tuple[str, ...]:
    return EDGES, f"increase 1 at spine every {every} rows", f"garter {rows} rows"


DEMO = Path(__file__).parents[4] / "gallery_demo" / "hedge-and-ditch.shawl"

MEMBRANE = {
    "garter, then stockinette": (triangle(("garter 40 rows",), ("stockinette 90 rows",)), 109.0, 53.5),
    "every 2, then 4": (triangle(("garter 80 rows",), spine(4, 80)), 119.8, 49.2),
    "every 4, then 2": (triangle(spine(4, 80), spine(2, 80)), 111.0, 54.9),
    "every 2, then 8": (triangle(spine(2, 80), spine(8, 80)), 120.6, 46.3),
    "every 2, then 4, then 2": (triangle(("garter 50 rows",), spine(4, 50), spine(2, 50)), 110.9, 51.1),
    "last 8 even": (triangle(("garter 152 rows",), ("even", "garter 8 rows")), 113.8, 56.9),
    "last 16 even": (triangle(("garter 144 rows",), ("even", "garter 16 rows")), 111.2, 55.1),
    "last 40 even": (triangle(("garter 120 rows",), ("even", "garter 40 rows")), 103.8, 49.8),
    "last 16 edges only": (triangle(("garter 144 rows",), (EDGES, "garter 16 rows")), 116.8, 55.1),
    "last 40 edges only": (triangle(("garter 120 rows",), (EDGES, "garter 40 rows")), 119.7, 50.3),
    "last 80 edges only": (triangle(("garter 80 rows",), (EDGES, "garter 80 rows")), 119.3, 43.6),
    "stockinette, then garter": (triangle(("stockinette 60 rows",), ("garter 80 rows",)), 108.0, 57.8),
    "wide wings, last 30 edges only": (
        triangle(
            ("garter 100 rows",),
            ("increase 1 at each edge every row", "garter 30 rows"),
            shaping="increase 1 at each edge every row\nincrease 1 at spine every 2 rows",
        ),
        145.6,
        61.2,
    ),
    "hedge-and-ditch": (DEMO.read_text(encoding="utf-8"), 113.1, 56.9),
}
"""Wingspan and depth in cm of a relaxed membrane (orthotropic, free at all edges), computed for this project."""


@pytest.fixture(scope="module", params=MEMBRANE, ids=str)
def found(request: pytest.FixtureRequest) -> tuple[Shawl, float, float]:
    text, wide, deep = MEMBRANE[request.param]
    return shawl(text), wide, deep


def test_the_size_is_that_of_a_relaxed_membrane(found: tuple[Shawl, float, float]) -> None:
    """Within 2 % of the wingspan."""
    plan, wide, deep = found
    size = plan.outline.size
    assert (size.wingspan_cm, size.depth_cm) == pytest.approx((wide, deep), abs=0.02 * wide)


@pytest.mark.parametrize(
    ("case", "fan"),
    [
        ("every 2, then 4", 166),
        ("every 4, then 2", 159),
        ("every 2, then 8", 155),
        ("last 8 even", 180),
        ("last 16 even", 180),
        ("last 80 edges only", 143),
        ("wide wings, last 30 edges only", 211),
        ("hedge-and-ditch", 139),
    ],
)
def test_the_fan_is_about_that_of_a_relaxed_membrane(case: str, fan: float) -> None:
    """Between the lines from the neck to the last row that is shaped at the edges."""
    assert shawl(MEMBRANE[case][0]).outline.fan_degrees == pytest.approx(fan, abs=6)


def wings(outline: Outline, row: int) -> list[LineString]:
    return [LineString(outline.regions[k].boundary(row).flattened()) for k in (0, -1)]


def test_rows_follow_each_other_and_do_not_cross(found: tuple[Shawl, float, float]) -> None:
    plan = found[0]
    outline, count = plan.outline, plan.rows.count
    assert outline.spine is not None
    depths = [y for _, y in outline.spine]
    assert depths == sorted(depths)
    for row in range(4, count + 1, 4):
        for above, below in zip(wings(outline, row - 4), wings(outline, row), strict=True):
            assert not above.crosses(below), row


def test_the_edge_runs_on_without_kinks(found: tuple[Shawl, float, float]) -> None:
    """From row to row it turns by 4 degrees at most, but where its own shaping stops: on one row."""
    plan = found[0]
    count = plan.rows.count
    ends = [plan.outline.ends(row)[1] for row in range(count + 1)]
    ways = [math.atan2(q[1] - p[1], q[0] - p[0]) for p, q in pairwise(ends)]
    turns = [abs(math.degrees(b - a)) for a, b in pairwise(ways)]
    assert sum(turn > 4 for turn in turns) <= 1


def test_the_drawn_area_is_the_fabrics(found: tuple[Shawl, float, float]) -> None:
    plan = found[0]
    assert polygon(plan.outline, plan.rows.count).area == pytest.approx(plan.outline.size.area_cm2, rel=2e-3)


CHANGING = [Line(1, "each", 2), Line(1, "spine", 2, 1, 80), Line(1, "spine", 4, 81)]


def test_an_even_strip_adds_its_height_at_the_spine() -> None:
    """4 cm of it, not the 5.7 that rows at 45 degrees take."""
    lines = [Line(1, "each", 2, 1, 144), Line(1, "spine", 2, 1, 144)]
    outline = laid(layout("triangle", 9, [garter(160)], lines))
    assert outline.spine is not None
    assert outline.spine[160][1] - outline.spine[144][1] == pytest.approx(4, rel=0.05)


@pytest.mark.parametrize("slope", [0.0, 0.4, 1.0, 2.0])
def test_a_constant_slope_makes_straight_rows(slope: float) -> None:
    """By arithmetic: rows at phi, h / cos phi of the spine each, the edge square to them where it gains nothing."""
    heights, gains = [0.25, 0.3] * 30, [0.25 * slope, 0.3 * slope] * 30
    halves = [5 + slope * sum(heights[:row]) for row in range(61)]
    found, phi, height = sew(heights, (halves, halves), gains), math.atan(slope), sum(heights)
    assert found.spine_cm[-1] == pytest.approx(height / math.cos(phi))
    assert found.bulges == pytest.approx([0] * 61, abs=1e-9)
    tip = halves[60] * math.cos(phi), height / math.cos(phi) - halves[60] * math.sin(phi)
    assert found.tips[60] == (pytest.approx(tip), pytest.approx(tip))


def test_directions_lie_between_the_slopes_and_the_short_rows_turn_first() -> None:
    lengths = [1 + 0.25 * row for row in range(120)]
    found = directions([0.25] * 120, lengths, [0.8] * 60 + [0.2] * 60)
    assert found == sorted(found, reverse=True) and 0.2 < found[-1] < found[0] < 0.8
    assert found[59] - 0.2 == pytest.approx(found[60] - 0.2, abs=0.01)
    short = directions([0.25] * 120, [length / 10 for length in lengths], [0.8] * 60 + [0.2] * 60)
    assert short[0] > found[0] and short[-1] < found[-1]


def test_a_triangle_grown_from_the_neck_without_a_change_is_two_to_one() -> None:
    """By arithmetic: 4 stitches of 0.5 cm in two rows of 0.25 cm."""
    outline = laid(layout("triangle", 9, [garter(160)], from_neck()))
    early, late = (outline.ends(row) for row in (80, 160))
    wider = (late[1][0] - late[0][0]) - (early[1][0] - early[0][0])
    assert outline.spine is not None
    assert wider == pytest.approx(2 * (outline.spine[160][1] - outline.spine[80][1]), rel=1e-3)


def test_worked_from_its_lower_edge_it_lies_the_same() -> None:
    down = laid(layout("triangle", 9, [garter(160)], CHANGING))
    lines = [Line(-1, "each", 2), Line(-1, "spine", 4, 1, 80), Line(-1, "spine", 2, 81)]
    up = laid(layout("triangle", 289, [garter(160)], lines))
    assert up.words == "triangle from its lower edge" and up.fan_degrees == pytest.approx(down.fan_degrees, abs=1)
    assert up.size.wingspan_cm == pytest.approx(down.size.wingspan_cm, abs=1.5)
    assert up.size.depth_cm == pytest.approx(down.size.depth_cm, abs=1.5)
    assert up.size.sides_cm is not None and sum(up.size.sides_cm) == pytest.approx(289 * 0.5)


def test_pinned_straight_levels_the_tips_with_the_neck() -> None:
    """By arithmetic: with the spine kept and the edges level, all areas grow by 1 / sin of half the fan."""
    told = layout("triangle", 9, [stockinette(160)], [*CHANGING[:2], Line(1, "spine", 8, 81)])
    free, outline = laid(told), laid(told._replace(pinned=STRAIGHT))
    assert outline.pinned and outline.stretch is not None
    assert outline.ends(160)[1][1] == pytest.approx(outline.ends(0)[1][1], abs=1e-6)
    assert outline.size.spine_cm == pytest.approx(free.size.spine_cm)
    growth = polygon(outline, 160).area / polygon(free, 160).area
    assert growth == pytest.approx(1 / math.sin(math.radians((free.fan_degrees or 0) / 2)), rel=3e-4) and growth > 1.1
    assert outline.size.area_cm2 == pytest.approx(knitted_cm2(told.rows) * growth, rel=2e-3)
    knitted = told.rows.stitches[-1] * 0.5
    assert outline.size.last_row_cm == pytest.approx(knitted * row_cm(outline, 160) / row_cm(free, 160), rel=1e-3)


def test_a_wide_spine_keeps_its_area_and_its_straight_seams() -> None:
    told = layout("triangle", 25, [garter(60), stockinette(60)], from_neck())._replace(spine=9)
    outline = laid(told)
    left, panel, right = outline.regions
    assert polygon(outline, 120).area == pytest.approx(knitted_cm2(told.rows), rel=2e-3)
    for row in (10, 60, 110):
        assert left.boundary(row).end == panel.boundary(row).start
        assert panel.boundary(row).end == right.boundary(row).start
    wide = [panel.ends(row)[1][0] - panel.ends(row)[0][0] for row in (30, 60, 120)]
    assert wide == pytest.approx([wide[0]] * 3)


def test_a_spine_that_grows_and_shrinks_has_straight_rows_of_one_slope() -> None:
    """By arithmetic: 60 stitches of 0.5 cm gained at each side and 30 lost, over 30 cm."""
    lines = [Line(1, "each", 2), Line(2, "spine", 2, 1, 60), Line(-1, "spine", 2, 61)]
    outline = laid(layout("triangle", 9, [garter(120)], lines))
    assert outline.spine is not None
    for row in (30, 60, 110):
        (x, y), (middle, down) = outline.ends(row)[1], outline.spine[row]
        assert math.atan2(down - y, x - middle) == pytest.approx(math.atan(0.5))


def test_wings_that_grow_narrow_again_keep_their_area_and_their_side() -> None:
    lines = [Line(1, "each", 2, 1, 80), Line(1, "spine", 2, 1, 80), Line(-1, "each", 2, 81, 220)]
    told = layout("triangle", 9, [garter(260)], lines)
    outline = laid(told)
    drawn = polygon(outline, 260)
    assert drawn.is_valid and drawn.area == pytest.approx(knitted_cm2(told.rows), rel=2e-3)
    assert outline.spine is not None
    middle = outline.spine[0][0]
    assert all(x >= middle - 1e-9 for row in range(261) for x, _ in outline.regions[-1].boundary(row).flattened())
