"""Pieces worked sideways, and rectangles."""

import math

import pytest

from tests.model.outline.measuring import polygon, row_cm
from tests.model.outline.pieces import STRAIGHT, Line, Run, garter, knitted_cm2, lace, laid, layout, pinned_to

TEETH = [Line(1, "lower", 1), Line(-6, "lower", 12, 13, 0, True)]


def test_scarf_from_tip_to_tip() -> None:
    """Gruendl, Perla Color 20181: 12/23 in 10 cm, 3 cast on, +1 every 4 rows, 19 sts after row 64 and 51 after row 192;
    finished 190 x 43 cm. Rows 437 and a peak of 51.6 by arithmetic."""
    lines = [Line(1, "lower", 4, 4, 192), Line(-1, "lower", 4, 245)]
    told = layout("tip-to-tip", 3, [Run(437, 10 / 12, 10 / 23)], lines)
    assert (told.rows.stitches[64], told.rows.stitches[192]) == (19, 51)
    outline = laid(told)
    assert outline.sideways and outline.words == "worked from tip to tip"
    assert outline.size.wingspan_cm == pytest.approx(190, abs=0.5)
    assert outline.size.depth_cm == pytest.approx(43, rel=0.02)


def test_rows_stand_upright_from_left_to_right() -> None:
    outline = laid(layout("tip-to-tip", 3, [garter(100)], [Line(1, "lower", 2)]))
    for row in (0, 50, 100):
        upper, lower = outline.ends(row)
        assert upper[0] == pytest.approx(lower[0]) == pytest.approx(row * 0.25)
        assert upper[1] == 0 and lower[1] > 0
        assert outline.boundary(row).start == upper and outline.boundary(row).end == lower


@pytest.mark.parametrize(("place", "plain"), [("lower", 0), ("upper", 1)])
def test_an_edge_that_is_never_shaped_is_straight(place: str, plain: int) -> None:
    told = layout("tip-to-tip", 8, [garter(30), lace(20), garter(30)], [Line(1, place, 2)])
    outline = laid(told)
    heights = {round(outline.ends(row)[plain][1], 9) for row in range(81)}
    assert len(heights) == 1
    sides = outline.size.sides_cm
    assert sides is not None
    assert sides[plain] == pytest.approx(outline.size.wingspan_cm)
    assert sides[1 - plain] > outline.size.wingspan_cm
    assert outline.size.top_cm == sides[0]


def test_both_edges_move_by_what_they_gain() -> None:
    """By arithmetic: 0.5 cm gained above every 4 rows of 0.25 cm rises by half, below every row it falls by two."""
    outline = laid(layout("tip-to-tip", 4, [garter(160)], [Line(1, "lower", 1), Line(1, "upper", 4)]))
    (_, top), (_, low) = outline.ends(40)
    (_, top_later), (_, low_later) = outline.ends(120)
    assert top - top_later == pytest.approx(20 * 0.5, abs=0.01)
    assert low_later - low == pytest.approx(20 * 2.0, abs=0.01)


def test_teeth_step_where_stitches_are_bound_off() -> None:
    outline = laid(layout("tip-to-tip", 3, [garter(144)], TEETH))
    before, after = outline.ends(12)[1], outline.ends(12, after=True)[1]
    assert before[0] == pytest.approx(after[0])
    assert before[1] - after[1] == pytest.approx(3.0)
    assert outline.ends(12)[0] == outline.ends(12, after=True)[0]
    assert row_cm(outline, 12) - row_cm(outline, 12, after=True) == pytest.approx(3.0)
    assert outline.ends(13) == outline.ends(13, after=True)


def test_teeth_on_both_edges_move_each_its_own() -> None:
    lines = [Line(1, "each", 1), Line(-8, "upper", 0, 41, 0, True), Line(-4, "lower", 0, 61, 0, True)]
    outline = laid(layout("tip-to-tip", 20, [garter(100)], lines))
    (up, low), (up_after, low_after) = outline.ends(40), outline.ends(40, after=True)
    assert up_after[1] - up[1] == pytest.approx(4.0) and low_after[1] == pytest.approx(low[1])
    (up, low), (up_after, low_after) = outline.ends(60), outline.ends(60, after=True)
    assert up_after[1] == pytest.approx(up[1]) and low[1] - low_after[1] == pytest.approx(2.0)


def test_cast_on_steps_are_steps() -> None:
    outline = laid(layout("tip-to-tip", 12, [garter(144)], [Line(12, "lower", 24, 13)]))
    lows = [outline.ends(row)[1][1] for row in (1, 12, 13, 30, 36)]
    assert lows == pytest.approx([6, 6, 12, 12, 12], abs=0.05)


@pytest.mark.parametrize(
    ("start", "rows", "lines", "words"),
    [
        (3, 220, [Line(1, "upper", 2), Line(-1, "lower", 6)], "asymmetric triangle"),
        (60, 60, [Line(1, "upper", 2), Line(-1, "lower", 3)], "bias strip"),
        (60, 60, [Line(-1, "upper", 1), Line(1, "lower", 3)], "asymmetric triangle"),
        (20, 160, [Line(10, "lower", 20)], "asymmetric triangle"),
        (3, 180, [Line(1, "upper", 2), Line(-4, "lower", 12, 13, 0, True)], "asymmetric triangle with a sawtooth edge"),
    ],
)
def test_what_a_piece_is_called(start: int, rows: int, lines: list[Line], words: str) -> None:
    """A strip keeps about its width; teeth are bound off, stairs of increases are none."""
    assert laid(layout("asymmetric", start, [garter(rows)], lines)).words == words


@pytest.mark.parametrize(("rows", "words"), [(50, "bias strip"), (52, "asymmetric triangle")])
def test_a_bias_strip_is_nowhere_under_three_quarters_of_its_widest(rows: int, words: str) -> None:
    """From 100 stitches one is lost every two rows: 75 after 50 rows, 74 after 52."""
    told = layout("asymmetric", 100, [garter(rows)], [Line(1, "upper", 2), Line(-1, "lower", 1)])
    assert (min(told.rows.stitches), max(told.rows.stitches)) == (100 - rows // 2, 100)
    assert laid(told).words == words


def test_bias_strip_lies_level() -> None:
    """Patons PAK0125-001028M: garter 19/36, +1 and -1 every 2 rows at opposite edges, 134 sts; about 264 rows."""
    width, height = 10 / 19, 10 / 36
    lines = [Line(1, "upper", 2), Line(-1, "lower", 2)]
    outline = laid(layout("asymmetric", 134, [Run(264, width, height)], lines))
    assert outline.words == "bias strip"
    slope = math.atan(width / 2 / height)
    assert outline.size.depth_cm == pytest.approx(134 * width * math.cos(slope), rel=0.01)
    tops, bottoms = zip(*(outline.ends(row) for row in range(20, 244)), strict=True)
    for edge in (tops, bottoms):
        ys = [y for _, y in edge]
        assert max(ys) - min(ys) < 0.05
    assert outline.ends(0)[0][0] < outline.ends(264)[0][0]


@pytest.mark.parametrize(
    ("start", "rows", "lines", "top"),
    [
        (4, 200, [Line(1, "lower", 4)], 1),
        (4, 200, [Line(1, "upper", 4)], 0),
        (4, 60, [Line(3, "upper", 1)], "last"),
        (334, 210, [Line(-2, "upper", 2), Line(-1, "lower", 2)], "first"),
        (4, 80, [Line(4, "upper", 1), Line(-20, "upper", 12, 13, 0, True)], "last"),
        (3, 180, [Line(1, "upper", 2), Line(-4, "lower", 12, 13, 0, True)], 0),
    ],
)
def test_longest_plain_side_lies_level_on_top(start: int, rows: int, lines: list[Line], top: int | str) -> None:
    outline = laid(layout("asymmetric", start, [garter(rows)], lines))
    first, last = outline.ends(0, after=True), outline.ends(rows)
    chords = {0: (first[0], last[0]), 1: (last[1], first[1]), "last": last, "first": (first[1], first[0])}
    one, other = chords[top]
    assert one[1] == pytest.approx(other[1])
    assert one[0] < other[0]
    assert one[1] < outline.size.depth_cm / 10
    teeth = {0: any(line.bind_off and line.place == "upper" for line in lines)}
    teeth[1] = any(line.bind_off and line.place == "lower" for line in lines)
    longest = max(math.dist(*chord) for side, chord in chords.items() if not teeth.get(side))
    assert math.dist(one, other) >= 0.99 * longest


def test_nearly_equal_sides_go_by_their_order() -> None:
    """A square of 40 sts by 80 rows has all sides equal: its upper edge stays on top."""
    outline = laid(layout("asymmetric", 40, [garter(80)]))
    assert outline.ends(0)[0] == pytest.approx((0, 0), abs=0.01)
    assert outline.ends(80)[0][1] == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize(("share", "level"), [(0.9895, False), (0.9905, True)])
def test_the_upper_edge_is_on_top_from_one_per_cent_under_the_longest(share: float, level: bool) -> None:
    """Nothing is shaped: 40 rows make the edges, 40 stitches of 0.5 cm the first and the last row."""
    outline = laid(layout("asymmetric", 40, [Run(40, 0.5, 0.5 * share)]))
    assert outline.size[:2] == pytest.approx((20 * share, 20) if level else (20, 20 * share))


def test_turning_changes_no_measure() -> None:
    lines = [Line(1, "lower", 2)]
    turned = laid(layout("asymmetric", 4, [garter(200)], lines))
    upright = laid(layout("tip-to-tip", 4, [garter(200)], lines))
    assert turned.size.sides_cm == pytest.approx(upright.size.sides_cm)
    assert polygon(turned, 200).area == pytest.approx(polygon(upright, 200).area)
    assert polygon(turned, 200).exterior.is_ccw == polygon(upright, 200).exterior.is_ccw


def test_rectangle_is_level_and_true() -> None:
    """By arithmetic: 60 sts of 0.5 cm, 80 rows of 0.25 cm."""
    outline = laid(layout("rectangle", 60, [garter(80)]))
    assert outline.size[:2] == pytest.approx((30, 20))
    assert outline.size.top_cm == pytest.approx(30) and outline.size.last_row_cm == pytest.approx(30)
    assert outline.size.sides_cm == pytest.approx((20, 20))
    assert outline.size.area_cm2 == pytest.approx(600)
    assert (outline.fan_degrees, outline.stretch, outline.spine, outline.sideways) == (None, None, None, False)
    assert outline.ends(0)[0] == (0, 0) and outline.ends(80)[1] == pytest.approx((30, 20))


def test_bands_of_other_gauge_are_wider_or_narrower() -> None:
    told = layout("rectangle", 60, [garter(60), lace(60), garter(60)])
    outline = laid(told)
    assert row_cm(outline, 90) == pytest.approx(60 * 10 / 19, rel=0.005)
    assert polygon(outline, 180).area == pytest.approx(knitted_cm2(told.rows))


def test_pinned_rectangle_says_what_stretches_too_far_once() -> None:
    told = layout("rectangle", 60, [garter(80)], pinned=pinned_to(34.5, 21))
    outline = laid(told)
    assert outline.stretch == pytest.approx((0.15, 0.05, 0.15))
    assert [one.code for one in outline.problems] == ["overstretched"]
    assert "15 % along its rows at row " in outline.problems[0].message
    assert "15 % along" in outline.problems[0].message
    assert laid(told._replace(pinned=pinned_to(33, 22))).problems == ()


def test_openwork_bears_more() -> None:
    told = layout("rectangle", 57, [lace(60)], pinned=pinned_to(30 * 1.14, 20))
    assert laid(told).problems == ()
    mixed = layout("rectangle", 57, [lace(60), Run(20, 10 / 19, 0.25)], pinned=pinned_to(30 * 1.14, 25))
    assert len(laid(mixed).problems) == 1


@pytest.mark.parametrize(("run", "bears"), [(Run(60, 0.5, 0.25), 0.10), (Run(60, 0.5, 0.25, True), 0.15)])
@pytest.mark.parametrize("along", [True, False])
def test_advice_of_a_stretch_begins_at_what_the_fabric_bears(run: Run, bears: float, along: bool) -> None:
    """60 stitches by 60 rows are 30 by 15 cm; plain fabric bears 10 %, openwork 15 %."""
    for stretch, told in ((bears - 0.001, 0), (bears + 0.001, 1)):
        box = (30 * (1 + stretch), 15.0) if along else (30.0, 15 * (1 + stretch))
        assert len(laid(layout("rectangle", 60, [run], pinned=pinned_to(*box))).problems) == told


@pytest.mark.parametrize(("back", "words"), [(False, "rectangle"), (True, "rectangle, second half mirrored")])
def test_a_rectangle_that_turns_back_says_so(back: bool, words: str) -> None:
    assert laid(layout("rectangle", 60, [garter(60)], back=back)).words == words


def test_the_first_row_may_be_the_top() -> None:
    """200 stitches of 0.5 cm become 100 in rows that are together 25 cm high: no other side is as long."""
    outline = laid(layout("asymmetric", 200, [garter(100)], [Line(-1, "lower", 1)]))
    assert outline.size.top_cm == pytest.approx(100, rel=0.005)


def test_an_asymmetric_piece_drawn_out_alike_both_ways_is_stretched_as_much() -> None:
    told = layout("asymmetric", 3, [garter(120)], [Line(1, "lower", 2)])
    size = laid(told).size
    pinned = laid(told._replace(pinned=pinned_to(1.1 * size.wingspan_cm, 1.1 * size.depth_cm)))
    assert pinned.stretch == pytest.approx((0.1, 0.1, 0.1))


@pytest.mark.parametrize(("drawn_out", "words"), [(10.5, "950 %"), (12.0, "12 times")])
def test_much_stretch_is_said_as_a_multiple_of_the_length(drawn_out: float, words: str) -> None:
    told = layout("rectangle", 60, [garter(60)], pinned=pinned_to(30 * drawn_out, 15))
    (problem,) = laid(told).problems
    assert words in problem.message, problem.message


def test_upright_rows_stretch_along_by_the_depth() -> None:
    told = layout("tip-to-tip", 60, [garter(80)], pinned=pinned_to(20, 33))
    assert laid(told).stretch == pytest.approx((0.1, 0.0, 0.1))


def test_pinning_straight_does_nothing_to_other_shapes() -> None:
    outline = laid(layout("rectangle", 60, [garter(80)], pinned=STRAIGHT))
    assert not outline.pinned
    assert [(one.code, one.span) for one in outline.problems] == [("pinned-in-vain", STRAIGHT.span)]
