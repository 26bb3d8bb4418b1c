"""Half-circles and crescents where README's words change, their row height set so that they come to any angle."""

import math

import pytest
from halfhank.model.outline.outline import Outline
from halfhank.model.outline.shapes.crescent import growth_of
from halfhank.model.outline.solvers.level_wings import WingLevel
from halfhank.model.outline.solvers.strip import Strip
from shapely import LineString

from tests.model.outline.measuring import row_cm
from tests.model.outline.pieces import Line, Run, laid, layout


def half_circle(degrees: float, width_cm: float = 0.5) -> tuple[Outline, float]:
    """A half-circle of 40 rows and its height, stitches doubled from 40 before row 21.

    The line of least squares through a step of X = 40 w in the middle of N = 40 rows rises by `1.5 X / (1 - 1 / N^2)`
    over their height, so the fan is `1.5 w / h / (1 - 1 / 1600)`.
    """
    height_cm = 1.5 * width_cm / (1 - 1 / 1600) / math.radians(degrees)
    lines = [Line(40, "evenly", 0, 21)]
    return laid(layout("half-circle", 40, [Run(40, width_cm, height_cm)], lines)), 40 * height_cm


@pytest.mark.parametrize(
    ("degrees", "word"), [(176.9, "hang"), (177.1, "straight"), (182.9, "straight"), (183.1, "rise")]
)
def test_a_half_circle_is_straight_within_three_degrees(degrees: float, word: str) -> None:
    outline, _ = half_circle(degrees)
    assert outline.fan_degrees == pytest.approx(degrees)
    assert outline.fan_words is not None and word in outline.fan_words


@pytest.mark.parametrize(("degrees", "drawn", "ruffles"), [(349, 349, False), (351, 350, True)])
def test_more_than_350_degrees_ruffle(degrees: float, drawn: float, ruffles: bool) -> None:
    """Rows of one angle: what the last is longer than the first is the angle times the height."""
    outline, height_cm = half_circle(degrees)
    assert row_cm(outline, 40) - row_cm(outline, 0) == pytest.approx(math.radians(drawn) * height_cm, rel=2e-4)
    assert [one.code for one in outline.problems] == ["ruffles"] * ruffles


@pytest.mark.parametrize(("degrees", "drawn"), [(0.058, 0.06), (0.062, 0.062)])
def test_less_than_six_hundredths_of_a_degree_are_not_drawn(degrees: float, drawn: float) -> None:
    outline, height_cm = half_circle(degrees, width_cm=0.001)
    first, last = (math.dist(*outline.ends(row)) for row in (0, 40))
    assert last - first == pytest.approx(math.radians(drawn) * height_cm, rel=1e-3)
    assert (first + last) / 2 * height_cm == pytest.approx(60 * 0.001 * height_cm, rel=1e-3), "the fabric's area"


def crescent(growth: float, width_cm: float = 0.5, start: int = 9) -> Outline:
    """One stitch more at each edge in every row: rows grow by two widths over one height."""
    return laid(layout("crescent", start, [Run(40, width_cm, 2 * width_cm / growth)], [Line(1, "each", 1)]))


def radius_cm(outline: Outline, row: int) -> float:
    """The radius of the circle through a row's ends and its middle."""
    points = LineString(outline.boundary(row).flattened(0.001))
    (left, end_y), (right, _) = outline.ends(row)
    sag = points.interpolate(0.5, normalized=True).y - end_y
    return ((right - left) ** 2 / 4 + sag**2) / (2 * sag)


@pytest.mark.parametrize(("growth", "fan"), [(3.14, True), (3.143, False)])
def test_a_crescent_is_a_fan_up_to_a_growth_of_pi(growth: float, fan: bool) -> None:
    degrees = crescent(growth).fan_degrees
    assert degrees == (pytest.approx(math.degrees(growth)) if fan else None)


def test_beyond_a_growth_of_pi_the_wings_are_level_with_the_start() -> None:
    """In a fan of 3.19 the ends would lie 0.024 of 12.5 cm above the start's, which turns by 1.595 to each side."""
    outline = crescent(3.19)
    highest = min(outline.ends(row)[1][1] for row in range(20, 41))
    assert highest == pytest.approx(outline.ends(0)[1][1], abs=0.01)


@pytest.mark.parametrize("growth", [4.0, 6.0])
def test_the_start_turns_by_the_angle_at_which_straight_wings_were_level(growth: float) -> None:
    """Its radius is x / 2a, so it turns by t = 2a in all, of which `tan t (growth - 2 t) = 2` holds."""
    outline = crescent(growth)
    turn = row_cm(outline, 0) / radius_cm(outline, 0)
    assert math.tan(turn) * (growth - 2 * turn) == pytest.approx(2, rel=0.01)


def test_a_start_may_turn_nearly_by_half_a_circle() -> None:
    """Grown hardly faster than pi, 400 stitches turn by 171 degrees, and all rows lie around one centre."""
    outline = crescent(3.1418, start=400)
    first, last = radius_cm(outline, 0), radius_cm(outline, 40)
    assert math.degrees(row_cm(outline, 0) / first) == pytest.approx(171.6, abs=0.5)
    assert last - first == pytest.approx(40 / 3.1418, rel=1e-3)


@pytest.mark.parametrize(("height_cm", "bent"), [(0.29555, True), (0.29578, False)])
def test_a_crescent_has_no_row_that_turns_by_more_than_200_degrees(height_cm: float, bent: bool) -> None:
    """A bulge of 90 stitches in rows 13 to 27 would turn the furthest; all on one ring, it has room only as a mean."""
    bulge = [Line(1, "each", 1), Line(90, "evenly", 0, 13), Line(-90, "evenly", 0, 28)]
    outline = laid(layout("crescent", 9, [Run(117, 0.5, height_cm)], bulge))
    first, bulged, last = (row_cm(outline, row) for row in (0, 20, 117))
    even = first + (last - first) * 20 / 117
    if bent:
        turns = [math.degrees(row_cm(outline, row) / radius_cm(outline, row)) for row in range(12, 28)]
        assert 199 < max(turns) < 200 and bulged > 1.5 * even
    else:
        assert bulged == pytest.approx(even, rel=1e-3)


@pytest.mark.parametrize(("growth", "drawn"), [(0.0195, 0.02), (0.0205, 0.0205)])
def test_a_fan_opens_at_least_by_two_hundredths(growth: float, drawn: float) -> None:
    assert crescent(growth, width_cm=0.01).fan_degrees == pytest.approx(math.degrees(drawn))


@pytest.mark.parametrize(("length_cm", "growth"), [(99.89, (100 - 10) / 20), (99.91, (99.91 - 10) / 10)])
def test_growth_is_that_of_the_first_row_of_999_thousandths(length_cm: float, growth: float) -> None:
    lengths = [10.0, length_cm, 100.0]
    found = growth_of(Strip([0.0, 10.0, 20.0], lengths, lengths), [0.0, 0.0, 0.0])
    assert found == (pytest.approx(growth), 0.0)


def test_wings_are_the_rows_over_half_as_long_as_the_longest() -> None:
    lengths = [10.0, 49.5, 50.5, 100.0]
    wings = WingLevel(Strip([0.0, 10.0, 20.0, 30.0], lengths, lengths)).rows
    assert [row.length_cm for row in wings] == [50.5, 100.0]
