"""What the shapes are: where each may be shaped, and the spine that it has where none is written.

How the rows of each lie: `halfhank.model.outline.shapes`.
"""

from halfhank.grammar.description import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.record import NamedTuple


class ShapeKind(NamedTuple):
    """One shape: the places where it may be shaped, and the stitches of its spine where none are written."""

    places: tuple[str, ...]
    spine_stitches: int


_EDGES = (EACH_EDGE, UPPER_EDGE, LOWER_EDGE)

SHAPES: dict[str, ShapeKind] = {
    "triangle": ShapeKind((*_EDGES, SPINE, EVENLY), 1),
    "crescent": ShapeKind((*_EDGES, EVENLY), 0),
    "half-circle": ShapeKind((*_EDGES, EVENLY), 0),
    "tip-to-tip": ShapeKind((*_EDGES, EVENLY), 0),
    "asymmetric": ShapeKind((*_EDGES, EVENLY), 0),
    "rectangle": ShapeKind((), 0),
}
"""By the name in a description."""


def default_spine(shape: str) -> int:
    """Stitches of the spine of a shape that none are written for; none for a shape that there is not."""
    return SHAPES[shape].spine_stitches if shape in SHAPES else 0
