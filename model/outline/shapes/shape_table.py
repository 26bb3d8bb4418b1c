"""The shapes: one line for each construction."""

from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

from halfhank.grammar.description import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.problems import Problem

if TYPE_CHECKING:
    from halfhank.model.outline.laid import Laid
    from halfhank.model.outline.layout import Layout


class ShapeKind(NamedTuple):
    """One shape: the places where it may be shaped, the stitches of its spine where none are written, the module of
    this folder whose `lay` is its construction, and what it is, in words."""

    places: tuple[str, ...]
    spine_stitches: int
    module: str
    words: str

    def lay(self, layout: "Layout") -> "Laid | Problem":
        """The piece laid out; a problem where a mistake is in the way. Only the construction wanted is loaded."""
        construction = import_module(f"halfhank.model.outline.shapes.{self.module}")
        laid: Laid | Problem = construction.lay(layout)
        return laid


_EDGES = (EACH_EDGE, UPPER_EDGE, LOWER_EDGE)

SHAPES: dict[str, ShapeKind] = {
    "triangle": ShapeKind((*_EDGES, SPINE, EVENLY), 1, "triangle", "wings at a spine, or rows under a long edge"),
    "crescent": ShapeKind((*_EDGES, EVENLY), 0, "crescent", "rows curved around the neck, drawn out into wings"),
    "half-circle": ShapeKind((*_EDGES, EVENLY), 0, "half_circle", "rows around one centre, all of one angle"),
    "tip-to-tip": ShapeKind((*_EDGES, EVENLY), 0, "tip_to_tip", "worked sideways under a level upper edge"),
    "asymmetric": ShapeKind((*_EDGES, EVENLY), 0, "asymmetric", "worked sideways, its longest plain side on top"),
    "rectangle": ShapeKind((), 0, "rectangle", "level rows, never shaped"),
}
