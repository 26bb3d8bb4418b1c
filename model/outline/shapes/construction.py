"""The construction of each shape. Only the one needed is loaded, as every module costs start-up time."""

from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import LocalOutline


def lay_shape(layout: Layout) -> LocalOutline | Problem:
    """The rows of a piece, laid by its shape; a problem where a mistake prevents it.

    Raises `ValueError` for a shape that there is not: descriptions are checked before they are laid out.
    """
    match layout.shape:
        case "triangle":
            from halfhank.model.outline.shapes import triangle

            return triangle.lay(layout)
        case "crescent":
            from halfhank.model.outline.shapes import crescent

            return crescent.lay(layout)
        case "half-circle":
            from halfhank.model.outline.shapes import half_circle

            return half_circle.lay(layout)
        case "tip-to-tip":
            from halfhank.model.outline.shapes import tip_to_tip

            return tip_to_tip.lay(layout)
        case "asymmetric":
            from halfhank.model.outline.shapes import asymmetric

            return asymmetric.lay(layout)
        case "rectangle":
            from halfhank.model.outline.shapes import rectangle

            return rectangle.lay(layout)
    raise ValueError(f"no construction for the shape {layout.shape!r}")
