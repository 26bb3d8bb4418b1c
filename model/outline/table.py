"""The shapes: one line for each construction."""

from collections.abc import Callable
from typing import NamedTuple

from halfhank.grammar.problems import Problem
from halfhank.grammar.syntax import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.model.outline.laid import Laid
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.rectangle import lay_rectangle
from halfhank.model.outline.triangle import lay_triangle


class ShapeKind(NamedTuple):
    """One shape: the places where it may be shaped, the stitches of its spine where none are written, the function that
    lays it out (a problem where a mistake keeps it from lying), and what it is, in words."""

    places: tuple[str, ...]
    spine_stitches: int
    lay: Callable[[Layout], Laid | Problem]
    words: str


_EDGES = (EACH_EDGE, UPPER_EDGE, LOWER_EDGE)

SHAPES: dict[str, ShapeKind] = {
    "triangle": ShapeKind((*_EDGES, SPINE, EVENLY), 1, lay_triangle, "wings at a spine, or rows under a long edge"),
    "rectangle": ShapeKind((), 0, lay_rectangle, "level rows, never shaped"),
}
