"""The built-in stitches: their names, their rows, and which of them a description brings along."""

import pytest
from halfhank.grammar.builtin.built_in_stitches import built_in_stitch
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import BUILT_IN_SPAN
from halfhank.grammar.language import BUILT_IN_STITCHES, PLAIN_STITCHES
from halfhank.grammar.parse import parse

TEXT = """shawl "Slate"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
{}shape rectangle
  cast on 63 sts
  edge 3 sts {}
part "one"
  repeat 2 times
    {} 8 rows
  garter 2 ridges
"""


def _built_ins(stitches: str = "", edge: str = "garter", band: str = "stockinette") -> list[str]:
    parsed = parse(TEXT.format(stitches, edge, band))
    assert parsed.description and not parsed.problems
    return [stitch.name.value for stitch in parsed.description.built_ins]


def test_the_language_names_what_is_built_in() -> None:
    assert tuple(STITCH_PATTERNS) == BUILT_IN_STITCHES


@pytest.mark.parametrize("name", BUILT_IN_STITCHES)
def test_a_built_in_is_read_under_its_name(name: str) -> None:
    stitch = built_in_stitch(name)
    assert (stitch.name.value, stitch.span) == (name, BUILT_IN_SPAN)
    assert [number for row in stitch.rows for number in row.numbers]
    assert (stitch.multiple is None) == (name in PLAIN_STITCHES)


def test_a_description_brings_along_what_it_works_in() -> None:
    assert _built_ins() == []
    assert _built_ins(band="moss") == ["moss"]
    assert _built_ins(edge="moss") == ["moss"]
    assert _built_ins(band="moss", edge="moss") == ["moss"]


def test_a_description_brings_along_what_its_stitches_take() -> None:
    rows = "stitch mesh\n  multiple of 3 sts\n  rows 1, 2: *k3*\n"
    assert _built_ins(rows + "  fill open-mesh\n") == ["open-mesh"]
    assert _built_ins("stitch border\n  as small-cable\n") == ["small-cable"]


def test_a_block_of_a_built_in_stands_in_its_place_unless_it_is_as_the_built_in() -> None:
    gauge = "  gauge 19 sts 38 rows over 10 cm\n"
    assert _built_ins(f"stitch moss\n{gauge}", band="moss") == []
    assert _built_ins(f"stitch moss\n  as moss\n{gauge}", band="moss") == ["moss"]
