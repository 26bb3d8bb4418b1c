"""The shapes: every one of the language has its places, and is laid out by its own module."""

import math
import subprocess
import sys

import pytest
from halfhank.grammar.description import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.language import SHAPES as NAMES
from halfhank.model.design.shape_kinds import SHAPES, default_spine
from halfhank.model.outline import lay_out

from tests.model.outline.pieces import Line, crescent_lines, from_neck, garter, laid, layout

PACKAGE = "halfhank.model.outline.shapes."
MODULES = {shape: shape.replace("-", "_") for shape in SHAPES}
LAID = """
import sys
from halfhank.grammar.problems.problem import Span
from halfhank.model.outline import lay_out
from halfhank.model.outline.layout import Layout
from halfhank.model.rows.row_table import NO_RATES, Rows

none = (0,) * 9
rows = Rows((40,) * 9, (0.5,) * 9, (0.25,) * 9, none, none, none, none, none, none, (NO_RATES,) * 9, (0,) * 9)
assert lay_out(Layout("{}", Span(1, 1, 2), rows, (False,) * 9, False, None)).words
print(*sys.modules)
"""
EDGES = {EACH_EDGE, UPPER_EDGE, LOWER_EDGE}


def test_every_shape_of_the_language_is_there() -> None:
    assert set(SHAPES) == set(NAMES)


def test_places() -> None:
    assert SHAPES["rectangle"].places == ()
    assert set(SHAPES["triangle"].places) == EDGES | {SPINE, EVENLY}
    for name in ("crescent", "half-circle", "tip-to-tip", "asymmetric"):
        assert set(SHAPES[name].places) == EDGES | {EVENLY}


def test_only_a_triangle_has_a_spine() -> None:
    assert {name: default_spine(name) for name in (*SHAPES, "castle") if default_spine(name)} == {"triangle": 1}


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


@pytest.mark.parametrize(("shape", "module"), MODULES.items())
def test_only_the_construction_that_is_wanted_is_loaded(shape: str, module: str) -> None:
    found = subprocess.run([sys.executable, "-c", LAID.format(shape)], capture_output=True, text=True, check=True)
    loaded = {name.removeprefix(PACKAGE) for name in found.stdout.split() if name.startswith(PACKAGE)}
    assert loaded - {"construction"} == ({module, "rectangle"} if shape == "triangle" else {module})


def test_a_shape_that_there_is_not() -> None:
    with pytest.raises(ValueError, match="castle"):
        lay_out(layout("castle", 40, [garter(4)]))
