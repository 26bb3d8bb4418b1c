"""The table of shapes: every shape of the language, with its places, laid out by its own module."""

import math
import subprocess
import sys

import pytest
from halfhank.grammar.description import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.language import SHAPES as NAMES
from halfhank.model.outline.shapes.shape_table import SHAPES

from tests.outline.pieces import Line, crescent_lines, from_neck, garter, laid, layout

EDGES = {EACH_EDGE, UPPER_EDGE, LOWER_EDGE}


def test_every_shape_of_the_language_is_there() -> None:
    assert set(SHAPES) == set(NAMES)


def test_places() -> None:
    assert SHAPES["rectangle"].places == ()
    assert set(SHAPES["triangle"].places) == EDGES | {SPINE, EVENLY}
    for name in ("crescent", "half-circle", "tip-to-tip", "asymmetric"):
        assert set(SHAPES[name].places) == EDGES | {EVENLY}


def test_only_a_triangle_has_a_spine() -> None:
    assert {name: kind.spine_stitches for name, kind in SHAPES.items() if kind.spine_stitches} == {"triangle": 1}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_lies(shape: str) -> None:
    outline = laid(layout(shape, 40, [garter(60)]))
    assert outline.size.area_cm2 == pytest.approx(20 * 15)
    assert outline.words


@pytest.mark.parametrize(
    ("shape", "lines"),
    [
        ("triangle", from_neck(80)),
        ("crescent", crescent_lines(6)),
        ("half-circle", [Line(3, "evenly", 20)]),
        ("asymmetric", [Line(1, "upper", 2), Line(-4, "lower", 12, 13, 0, True)]),
    ],
)
def test_ten_thousand_rows_are_laid_out(shape: str, lines: list[Line]) -> None:
    outline = laid(layout(shape, 9, [garter(10_000)], lines))
    for row in range(0, 10_001, 50):
        curve = outline.boundary(row)
        assert all(map(math.isfinite, (*curve.start, *curve.end)))


def test_only_the_construction_that_is_wanted_is_loaded() -> None:
    code = "import sys, halfhank.model.outline.shapes.shape_table; print(*sys.modules)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {f"halfhank.model.outline.{kind.module}" for kind in SHAPES.values()} & set(found)
