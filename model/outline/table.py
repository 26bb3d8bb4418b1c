"""The shapes: one line for each construction."""

from collections.abc import Callable
from typing import NamedTuple

from halfhank.grammar.problems import Problem
from halfhank.grammar.syntax import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.model.outline.asymmetric import lay_asymmetric
from halfhank.model.outline.crescent import lay_crescent
from halfhank.model.outline.half_circle import lay_half_circle
from halfhank.model.outline.laid import Laid
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.rectangle import lay_rectangle
from halfhank.model.outline.tip_to_tip import lay_tip_to_tip
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
    "crescent": ShapeKind((*_EDGES, EVENLY), 0, lay_crescent, "rows curved around the neck, drawn out into wings"),
    "half-circle": ShapeKind((*_EDGES, EVENLY), 0, lay_half_circle, "rows around one centre, all of one angle"),
    "tip-to-tip": ShapeKind((*_EDGES, EVENLY), 0, lay_tip_to_tip, "worked sideways under a level upper edge"),
    "asymmetric": ShapeKind((*_EDGES, EVENLY), 0, lay_asymmetric, "worked sideways, its longest plain side on top"),
    "rectangle": ShapeKind((), 0, lay_rectangle, "level rows, never shaped"),
}
