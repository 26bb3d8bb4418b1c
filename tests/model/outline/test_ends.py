"""Last rows: as long as their stitches, ruffled, drawn together."""

import pytest
from halfhank.model.outline.outline import Outline

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import (
    Line,
    Run,
    crescent_lines,
    from_neck,
    garter,
    knitted_cm2,
    laid,
    layout,
    pinned_to,
)
from tests.outside.pieces import part, piece
from tests.whole import shawl

GAUGES = {"garter": 40, "stockinette": 28}
SHAPES = {
    "triangle": (9, from_neck()),
    "crescent": (9, crescent_lines(6)),
    "half-circle": (9, [Line(8, "evenly", 8)]),
    "tip-to-tip": (9, [Line(1, "lower", 2)]),
    "asymmetric": (9, [Line(1, "upper", 2)]),
    "rectangle": (60, []),
}


@pytest.mark.parametrize("shape", SHAPES)
def test_last_row_is_as_long_as_its_stitches(shape: str) -> None:
    start, lines = SHAPES[shape]
    told = layout(shape, start, [garter(120)], lines)
    assert laid(told).size.last_row_cm == pytest.approx(told.rows.stitches[-1] * 0.5)


def test_197_stitches_of_20_to_10_cm_are_98_and_a_half() -> None:
    outline = laid(layout("triangle", 9, [garter(94)], from_neck()))
    assert outline.size.last_row_cm == pytest.approx(98.5)
    assert outline.size.sides_cm == pytest.approx((49.25, 49.25))
    twice = pinned_to(2 * outline.size.wingspan_cm, 2 * outline.size.depth_cm)
    pinned = laid(layout("triangle", 9, [garter(94)], from_neck(), pinned=twice))
    assert pinned.size.last_row_cm == pytest.approx(197)


def ruffled(shape: str, more: int, rows: int = 8) -> tuple[Outline, Outline]:
    """A piece with so many more stitches in its last rows, and without them."""
    start, lines = SHAPES[shape]
    runs = [garter(120)]
    own = [line._replace(last=120 - rows) for line in lines]
    with_ruffle = layout(shape, start, runs, [*own, Line(more, "evenly", 0, 121 - rows)])
    return laid(with_ruffle), laid(layout(shape, start, runs, own))


@pytest.mark.parametrize("shape", SHAPES)
def test_a_ruffle_lies_on_the_boundary_before_it(shape: str) -> None:
    outline, plain = ruffled(shape, 200)
    assert outline.ruffle == 113 and plain.ruffle is None
    assert "ruffles" in [one.code for one in outline.problems]
    assert outline.size[:2] == pytest.approx(plain.size[:2], rel=0.02)
    start, lines = SHAPES[shape]
    live = layout(shape, start, [garter(112)], lines).rows.stitches[-1]
    assert outline.size.last_row_cm == pytest.approx((live + 200) * 0.5)
    assert outline.size.area_cm2 == pytest.approx(plain.size.area_cm2 + 200 * 0.5 * 8 * 0.25)
    assert polygon(outline, 120).is_valid


@pytest.mark.parametrize("times", [1, 2])
def test_a_ruffle_on_a_stretched_half_circle_is_as_long_as_its_stitches(times: int) -> None:
    """Doublings, drawn out where they end; 240 sts of half a centimetre are 120 cm, twice that pinned to twice."""
    steps = [Line(gain, "evenly", 0, row) for gain, row in ((10, 5), (20, 11), (40, 23), (160, 47))]
    told = layout("half-circle", 10, [garter(50)], steps)
    flat = laid(told)
    assert flat.ruffle == 47 and flat.stretch is not None and flat.stretch.along > 0.1
    width, depth, *_ = flat.size
    outline = flat if times == 1 else laid(told._replace(pinned=pinned_to(times * width, times * depth)))
    assert outline.size.last_row_cm == pytest.approx(120 * times, rel=1e-4)


def test_the_fan_is_that_of_the_rows_before_a_ruffle() -> None:
    outline, plain = (
        ruffled("half-circle", 200)[0],
        laid(layout("half-circle", 9, [garter(112)], [Line(8, "evenly", 8)])),
    )
    assert outline.fan_degrees == pytest.approx(plain.fan_degrees)


def test_twice_the_stitches_in_the_last_rows_of_a_triangle() -> None:
    """A triangle of 43 x 25 cm whose last rows are doubled stays as large, and does not come out 102 x 51."""
    text = piece(
        shape="triangle",
        start="cast on 9 sts",
        parts="\n".join([part("garter 30 ridges"), part("increase evenly to 258 sts", "garter 4 rows", name="end")]),
        shaping="increase 1 at each edge and 1 at spine every 2 rows",
    )
    found = shawl(text)
    assert found.outline.ruffle == 61
    assert found.outline.size.wingspan_cm < 50
    assert [(one.code, "2.0 times" in one.message) for one in found.problems] == [("ruffles", True)]


@pytest.mark.parametrize(("more", "row"), [(24, None), (40, 113)])
def test_a_quarter_more_is_a_ruffle(more: int, row: int | None) -> None:
    """Of 120 sts, 24 more are a fifth and 40 a third."""
    told = layout("rectangle", 120, [garter(120)], [Line(more, "evenly", 0, 113)])
    assert laid(told).ruffle == row


@pytest.mark.parametrize(("first", "row"), [(105, None), (106, 106), (110, 110), (120, 120)])
def test_a_ruffle_is_in_the_last_eighth(first: int, row: int | None) -> None:
    """By arithmetic: of 120 rows the last 15."""
    assert laid(layout("rectangle", 120, [garter(120)], [Line(80, "evenly", 0, first)])).ruffle == row


def test_growth_in_steps_is_one_ruffle() -> None:
    steps = [Line(32, "evenly", 1, 111, 116)]
    outline = laid(layout("rectangle", 120, [garter(120)], steps))
    assert outline.ruffle == 111
    assert "From row 111" in outline.problems[0].message and "2.6 times" in outline.problems[0].message


def test_three_rows_of_12_percent_more_are_one_ruffle() -> None:
    """By arithmetic: 100, 112, 125 and 140 sts; no row alone grows by a quarter, all three by two fifths."""
    steps = [Line(12, "evenly", 0, 118), Line(13, "evenly", 0, 119), Line(15, "evenly", 0, 120)]
    outline = laid(layout("rectangle", 100, [garter(120)], steps))
    assert outline.ruffle == 118
    assert [(one.code, "1.4 times" in one.message) for one in outline.problems] == [("ruffles", True)]


def test_a_frill_upon_a_frill_is_one_ruffle() -> None:
    """Frills of 6 rows, 1.5 and 2.1 cm deep under 20 cm: the first is a frill with the second upon it, as without."""
    frills = [part("increase evenly to 500 sts", "garter 6 rows", name="first")]
    frills.append(part("increase evenly to 1000 sts", "stockinette 6 rows", name="second"))
    start, shaping = "garter tab 3 sts 6 rows", "edge 3 sts garter\nincrease 3 at each edge every 2 rows"
    fabric = "\n".join(f"stitch {name}\n  gauge 20 sts {n} rows over 10 cm" for name, n in GAUGES.items())
    one, both = (
        shawl(piece(shape="crescent", start=start, shaping=shaping, fabric=fabric, parts="\n".join(parts)))
        for parts in ([part("garter 40 ridges"), *frills[:1]], [part("garter 40 ridges"), *frills])
    )
    assert one.outline.ruffle == both.outline.ruffle == 81
    assert both.outline.size[:2] == pytest.approx((one.outline.size.wingspan_cm, one.outline.size.depth_cm + 2), abs=2)
    assert [(x.code, "4.0 times" in x.message) for x in both.problems if x.code == "ruffles"] == [("ruffles", True)]


def test_steps_far_apart_are_no_ruffle_upon_a_ruffle() -> None:
    """Rows that grow by two fifths every 10 rows throughout: of 120 rows no more than the last 30 ruffle."""
    steps = [Line(round(16 * 1.4**k), "evenly", 0, 36 + 10 * k) for k in range(9)]
    assert laid(layout("half-circle", 40, [garter(120)], steps)).ruffle == 96


def test_edges_that_grow_fast_do_not_ruffle() -> None:
    assert laid(layout("triangle", 9, [garter(60)], [Line(1, "each", 2), Line(20, "each", 1, 56)])).ruffle is None


def test_a_wide_gauge_at_the_end_ruffles() -> None:
    outline = laid(layout("rectangle", 120, [garter(120), Run(8, 0.7, 0.3)]))
    assert outline.ruffle == 121 and outline.size.last_row_cm == pytest.approx(84)
    assert outline.size.wingspan_cm == pytest.approx(60, abs=0.5)


GATHERED = {
    "triangle": (120, [Line(-1, "each", 2)]),
    "tip-to-tip": (61, [Line(-1, "lower", 2)]),
    "asymmetric": (66, [Line(-1, "upper", 2)]),
    "rectangle": (20, []),
    "crescent": (120, [Line(-1, "each", 2)]),
}


@pytest.mark.parametrize("shape", GATHERED)
def test_stitches_drawn_together_are_a_point(shape: str) -> None:
    start, lines = GATHERED[shape]
    told = layout(shape, start, [garter(100)], lines)
    plain, outline = laid(told), laid(told._replace(gathered=True))
    assert row_cm(outline, 100) == pytest.approx(0, abs=1e-9)
    assert outline.size.last_row_cm == 0 and plain.size.last_row_cm > 4
    reach = min(plain.size.last_row_cm / 2, 2)
    untouched = 100 - int(reach / 0.25) - 1
    assert row_cm(outline, untouched) == pytest.approx(row_cm(plain, untouched), rel=1e-6)
    drawn = polygon(outline, 100)
    assert drawn.is_valid
    assert 0 < knitted_cm2(told.rows) - drawn.area < plain.size.last_row_cm * 2 + 0.01 * drawn.area


def test_a_half_circle_worked_inwards_ends_in_its_centre() -> None:
    told = layout("half-circle", 200, [garter(80)], [Line(-2, "evenly", 1)])
    outline = laid(told._replace(gathered=True))
    assert row_cm(outline, 80) == pytest.approx(0, abs=1e-3)
    assert outline.size.last_row_cm < 1e-3
    assert polygon(outline, 80).area == pytest.approx(knitted_cm2(told.rows), rel=2e-3)


def test_a_long_last_row_is_not_drawn_to_a_point() -> None:
    told = layout("triangle", 9, [garter(100)], from_neck())
    assert laid(told._replace(gathered=True)).size == laid(told).size


def test_the_arms_of_a_triangle_are_not_drawn_to_a_point() -> None:
    told = layout("triangle", 150, [garter(2)], from_neck())
    assert laid(told._replace(gathered=True)).size == laid(told).size


@pytest.mark.parametrize("spine", [1, 9, 15])
def test_the_top_of_a_triangle_from_its_lower_edge_has_no_notches(spine: int) -> None:
    told = layout("triangle", 201, [garter(90)], [Line(-1, "each", 2), Line(-1, "spine", 2)])._replace(spine=spine)
    outline, plain = laid(told._replace(gathered=True)), laid(told)
    assert outline.words == "triangle from its lower edge"
    assert [outline.ends(row) for row in range(91)] == [plain.ends(row) for row in range(91)]


def test_the_bind_off_gathers() -> None:
    text = piece(
        shape="triangle",
        start="cast on 60 sts",
        shaping="spine 0 sts\ndecrease 1 at each edge every 2 rows until 6 sts",
        parts=part("garter 27 ridges"),
        end="bind off draw through",
    )
    assert shawl(text).outline.size.last_row_cm == 0
    plain = text.replace("bind off draw through", "bind off standard")
    assert shawl(plain).outline.size.last_row_cm == pytest.approx(3)
