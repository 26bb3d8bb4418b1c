"""Advice on the piece as a whole, each with its figure by hand: 20 sts and 40 rows are 10 cm. Limits are common
practice."""

from typing import Any

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import ADVICE, Problem
from halfhank.model.planning.planning import plan_parsed

from tests.model.texts import text

ON_SHAPE = {"narrow-tail", "unlike-shape", "very-large"}
BOTH = "increase 1 at each edge and 1 at spine every 2 rows"


def advice(*parts: str, **more: Any) -> list[Problem]:
    """The advice on tail, shape and size of a piece from much yarn."""
    written = text(*parts, skein="4000 g 16000 m", **more)
    planned = plan_parsed(parse(written))
    assert planned.shawl, planned.problems
    found = [one for one in planned.problems if one.code in ON_SHAPE]
    assert all(one.severity == ADVICE and one.hint and one.span for one in found)
    return found


def codes(*parts: str, **more: Any) -> list[str]:
    return [one.code for one in advice(*parts, **more)]


def fan(each: int) -> str:
    """Rows that gain so many stitches in 16 rows, 4 cm: `each` x 0.5 cm / 4 cm are the radians of the fan."""
    return f"increase {each} evenly every 16 rows"


# Tails.


def test_five_stitches_over_four_and_a_half_metres_are_a_tail() -> None:
    """900 ridges are 450 cm; two rows of the triangle are as narrow: 9 sts, less than 5 cm. The piece is then 450
    cm and 25 cm / cos 45 long, and a little for the cast-on."""
    large, tail = advice("even\ngarter 900 ridges", "garter 100 rows", start="cast on 5 sts", lines=(BOTH,))
    assert tail.message == "Rows 1 to 1,802 are a narrow tail, 451 cm long and at most 9 sts wide."
    assert tail.span and tail.span.line == 12, "the part that it begins in"
    assert large.message.startswith("The shawl is 488 cm deep")


@pytest.mark.parametrize(("ridges", "found"), [(115, []), (125, ["narrow-tail"])])
def test_a_tail_is_longer_than_60_cm(ridges: int, found: list[str]) -> None:
    tail = f"even\ngarter {ridges} ridges"
    side = "increase 1 at lower edge every 2 rows"
    assert codes(tail, "garter 100 rows", shape="asymmetric", start="cast on 5 sts", lines=(side,)) == found


def test_a_tail_is_narrow_against_the_piece() -> None:
    """10 sts are 5 cm: a third of 30 sts, but not of 28."""
    tail = "even\ngarter 150 ridges"
    slowly = {"start": "cast on 10 sts", "shape": "asymmetric"}
    for final, found in ((29, []), (32, ["narrow-tail"])):
        until = f"increase 1 at lower edge every 2 rows until {final} sts"
        assert codes(tail, "garter 100 rows", lines=(until,), **slowly) == found


def test_a_tail_at_the_end_is_one() -> None:
    (tail,) = advice(
        "garter 80 rows",
        "even\ngarter 150 ridges",
        start="cast on 86 sts",
        lines=("decrease 1 at each edge every 2 rows",),
    )
    assert tail.message == "Rows 75 to 380 are a narrow tail, 77 cm long and at most 10 sts wide."


# Shapes.


@pytest.mark.parametrize(
    ("each", "degrees"), [(10, 72), (11, 79), (12, 86), (19, None), (24, None), (30, None), (38, 272)]
)
def test_a_half_circle_that_is_far_from_one(each: int, degrees: int | None) -> None:
    """Wide limits: how exactly the fan follows the increases is tested with the outlines, here within 15 %."""
    found = advice("garter 240 rows", shape="half-circle", lines=(fan(each),))
    if degrees is None:
        assert not found
    else:
        (one,) = found
        said = int(one.message.removeprefix("The rows make ").split()[0])
        assert said == pytest.approx(degrees, rel=0.2) and one.message.endswith("a half-circle has 180 degrees.")
        assert one.hint == (
            "increase more stitches, or more often" if degrees < 180 else "increase fewer stitches, or less often"
        )


@pytest.mark.parametrize("lines", [(), (fan(1),)])
def test_a_half_circle_whose_rows_do_not_turn_is_a_strip(lines: tuple[str, ...]) -> None:
    (one,) = advice("garter 240 rows", shape="half-circle", start="cast on 80 sts", lines=lines)
    assert one.code == "unlike-shape" and "degrees" not in one.message and "a strip, not a half-circle" in one.message
    assert "`increase 8 evenly every 8 rows`" in (one.hint or "")


def test_a_half_circle_that_is_pinned_straight_is_one() -> None:
    assert codes("garter 240 rows", shape="half-circle", lines=(fan(15),)) == ["unlike-shape"]
    assert codes("garter 240 rows", shape="half-circle", lines=(fan(15), "pinned straight")) == []


def test_a_strip_is_no_asymmetric_triangle() -> None:
    """1,868 rows are 467 cm; 5 and 7 sts together are 6 cm."""
    strip, large = advice(
        "garter 1868 rows",
        shape="asymmetric",
        start="cast on 5 sts",
        lines=("increase 1 at lower edge every 300 rows",),
    )
    assert strip.message == "This asymmetric triangle is a strip, 467 cm wide and 6 cm deep."
    assert strip.hint == "work fewer rows, or increase more often"
    assert large.message == "The shawl is 467 cm wide; few are over 3 m (118 in)."


def test_a_strip_on_the_bias_is_one() -> None:
    bias = ("increase 1 at upper edge every 2 rows", "decrease 1 at lower edge every 2 rows")
    assert codes("garter 500 rows", shape="asymmetric", start="cast on 10 sts", lines=bias) == []


@pytest.mark.parametrize(
    ("shape", "start", "line", "rows", "said"),
    [
        ("crescent", "cast on 9 sts", "increase 3 at each edge every row", 60, "crescent is a strip"),
        ("crescent", "cast on 9 sts", "increase 1 at each edge every 8 rows", 160, "crescent is too deep"),
        ("triangle", "cast on 120 sts", "decrease 3 at each edge every row", 19, "triangle is a strip"),
        ("triangle", "cast on 9 sts", "increase 1 at each edge every 12 rows", 400, "triangle is too deep"),
        ("tip-to-tip", "cast on 9 sts", "increase 2 at lower edge every row", 60, "tip-to-tip shawl is too deep"),
        ("triangle", "cast on 200 sts", "decrease 1 at each edge every 2 rows", 60, "has no point"),
    ],
)
def test_a_piece_that_is_not_of_its_shape(shape: str, start: str, line: str, rows: int, said: str) -> None:
    (one,) = advice(f"garter {rows} rows", shape=shape, start=start, lines=(line,))
    assert one.code == "unlike-shape" and said in one.message


def test_the_end_of_a_triangle_may_be_as_wide_as_half_of_it() -> None:
    line = "decrease 1 at each edge every 2 rows"
    (one,) = advice("garter 60 rows", start="cast on 150 sts", lines=(line,))
    assert one.message.endswith("its narrow end has 90 sts, its longest row 150 sts.")
    assert codes("garter 60 rows", start="cast on 149 sts", lines=(line,)) == []


def test_a_sample_has_no_shape() -> None:
    line = "decrease 1 at each edge every 2 rows"
    assert codes("garter 10 rows", start="cast on 79 sts", lines=(line,)) == []
    assert codes("garter 10 rows", start="cast on 84 sts", lines=(line,)) == ["unlike-shape"]


def test_a_triangle_without_shaping_is_only_said_to_be_one() -> None:
    assert codes("garter 60 rows", start="cast on 90 sts") == []


# Sizes.


@pytest.mark.parametrize(("ridges", "found"), [(600, []), (601, ["very-large"])])
def test_a_shawl_over_three_metres_is_very_large(ridges: int, found: list[str]) -> None:
    assert codes(f"garter {ridges} ridges", shape="rectangle", start="cast on 60 sts") == found


def test_lengths_are_in_the_units_of_the_description() -> None:
    written = text("garter 601 ridges", shape="rectangle", start="cast on 60 sts", skein="4000 g 16000 m")
    inches = written.replace('shawl "Check"', 'shawl "Check"\n  units in')
    (one,) = [one for one in plan_parsed(parse(inches)).problems if one.code in ON_SHAPE]
    assert one.message == "The shawl is 118 in deep; few are over 3 m (118 in)."
