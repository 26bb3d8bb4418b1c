"""The outline: where every row of a piece lies in the plane, true to scale. See README.md for the constructions."""

from typing import TYPE_CHECKING

from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline.layout import Layout

if TYPE_CHECKING:
    from halfhank.model.outline.outline import Outline


def lay_out(layout: Layout) -> "Outline | Problem":
    """Lays a piece out by its shape; a mistake where it cannot lie as the description wants it."""
    from halfhank.model.outline.placed import PlacedOutline
    from halfhank.model.outline.ruffle import ruffle_advice, without_ruffle
    from halfhank.model.outline.shapes.construction import lay_shape

    flat = without_ruffle(layout)
    local = lay_shape(flat)
    if isinstance(local, Problem):
        return local
    advice = ruffle_advice(flat, layout.rows)
    return PlacedOutline(flat, local._replace(problems=local.problems + advice), layout.rows)
