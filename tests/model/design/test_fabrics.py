"""Built-in fabrics in a description: rows, measures, and what a block of the same name takes from them."""

import pytest
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.language import PATTERN_STITCHES
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.model.design.resolve import resolve
from halfhank.model.planning.planning import plan_parsed
from halfhank.model.stitch_counts.loops import draw
from halfhank.model.stitches.pattern import Pattern, patterns_of
from halfhank.model.yarn.stitch_table import DROP, OPENWORK, PLAIN, StitchTable

from tests.model.stitches.writing import stitch

HEAD = """shawl "Slate"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
  swatch 40 sts 60 rows weighs 10 g
"""
TAIL = """shape rectangle
  cast on 63 sts
part "one"
  {} 8 rows
  garter 2 ridges
"""


def room(blocks: str, stitch: str) -> StitchTable:
    parsed = parse(HEAD + blocks + TAIL.format(stitch))
    assert parsed.description and not [one for one in parsed.problems if one.severity == MISTAKE], parsed.problems
    return StitchTable(resolve(parsed.description))


def patterns(blocks: str, stitch: str) -> dict[str, Pattern]:
    return patterns_of(room(blocks, stitch).measures)


@pytest.mark.parametrize("name", PATTERN_STITCHES)
def test_a_built_in_is_worked_without_any_block(name: str) -> None:
    plan = plan_parsed(parse(HEAD + TAIL.format(name)))
    assert plan.shawl
    assert {one.code for one in plan.problems} <= {"assumed-gauge", "multiple-over"}
    assert patterns("", name)[name].built_in


@pytest.mark.parametrize(
    ("name", "texture"),
    [("moss", PLAIN), ("drop", DROP), ("open-mesh", OPENWORK), ("drop-wave", DROP)],
)
def test_a_texture_goes_by_yarn_overs_and_long_stitches(name: str, texture: str) -> None:
    assert room("", "moss" if name == "drop" else name)[name].fabric.texture == texture


def test_its_default_measures_are_ratios_to_garter() -> None:
    measure = room("", "open-mesh").measures.measure("open-mesh")
    assert measure.stitch_cm == pytest.approx(0.5 * STITCH_PATTERNS["open-mesh"].stitch_ratio)
    assert measure.row_cm == pytest.approx(0.25 * STITCH_PATTERNS["open-mesh"].row_ratio)
    assert measure.gauge == pytest.approx((20 / 1.15, 40 / 1.4)) and measure.assumed


def test_a_block_of_its_name_takes_its_measures_only() -> None:
    own = "stitch moss\n  swatch 30 sts 30 rows weighs 4 g\n"
    assert "moss" not in patterns(own, "moss")
    assert room(own, "moss").measures.measure("moss").row_cm == pytest.approx(0.25 * STITCH_PATTERNS["moss"].row_ratio)
    assert room(own, "moss").measures.repeat_rows("moss") == 0
    for taken, told in (("", True), ("  as moss\n", False)):
        problems = plan_parsed(parse(HEAD + own + taken + TAIL.format("moss"))).problems
        assert any(one.code == "measures-only" for one in problems) == told


def test_a_block_of_its_name_has_its_own_rows() -> None:
    own = "stitch moss\n  multiple of 4 sts\n  rows 1, 2: *k2, p2*\n"
    found = patterns(own, "moss")["moss"]
    assert not found.built_in and found.multiple == (4, 0)


def test_with_as_it_takes_the_rows_too() -> None:
    own = "stitch moss\n  as moss\n  gauge 19 sts 38 rows over 10 cm\n"
    found = patterns(own, "moss")["moss"]
    assert found.built_in and found.multiple == (2, 1) and len(found.rows) == 2
    assert room(own, "moss").measures.measure("moss").gauge == (19, 38)


def test_another_stitch_may_be_as_it() -> None:
    own = "stitch border-mesh\n  as open-mesh\n  gauge 17 sts 26 rows over 10 cm\n"
    found = patterns(own, "border-mesh")["border-mesh"]
    assert found.built_in and found.name == "border-mesh" and len(found.rows) == 4


def test_a_mistake_with_a_built_ins_rows_points_into_the_description() -> None:
    text = HEAD + "stitch moss\n  as moss\n  multiple of 5 sts\n" + TAIL.format("moss")
    (found,) = [one for one in plan_parsed(parse(text)).problems if one.severity == MISTAKE]
    assert found.code == "wrong-multiple" and found.span and "2 sts + 1" in found.message
    assert text.splitlines()[found.span.line - 1].strip() == "multiple of 5 sts"


def test_repeats_of_a_built_in_are_counted_by_its_rows() -> None:
    text = HEAD + TAIL.format("small-cable").replace("8 rows", "3 repeats")
    plan = plan_parsed(parse(text))
    assert plan.shawl and plan.shawl.bands[0].last_row == 12


def test_garter_stays_without_rows_to_repeat() -> None:
    text = HEAD + TAIL.format("garter").replace("8 rows", "3 repeats")
    assert any(one.severity == MISTAKE for one in plan_parsed(parse(text)).problems)


def test_yarn_follows_the_loops() -> None:
    """Swatch: 10 g are 40 m for 40 x 62.62 stitches. A mesh of yarn overs and decreases draws a loop a stitch.

    The wave's extra wraps over six stitches: 1 + 2 + 3 + 2 + 1 in row 1, 2 + 1 + 0 + 1 + 2 + 3 in row 5.
    """
    plain_m = 40 / (40 * 62.62)
    mesh = room("", "open-mesh")
    assert mesh["open-mesh"].fabric.yarn_m == pytest.approx(plain_m)
    assert mesh["open-mesh"].fabric.basis == "ratio"
    wave = room("", "drop-wave")
    assert wave["drop-wave"].fabric.yarn_m == pytest.approx(plain_m + wave.wrap_m * (9 + 9) / (6 * 8))
    cable = room("", "small-cable")
    assert cable["small-cable"].fabric.yarn_m == pytest.approx(plain_m * (24 + 0.4) / 24)


def test_without_a_multiple_a_whole_row_counts_as_wide_as_the_others() -> None:
    """Two extra wraps in three stitches, and a plain row of three: two wraps in six stitches."""
    found = draw(stitch("row 1: *k1 with 3 wraps, k2*\nrow 2: knit").rows)
    assert found.loops == 1
    assert found.wraps == pytest.approx(2 / 6)
