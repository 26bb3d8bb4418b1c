"""Tip-to-tip: every row is vertical, the next one to its right."""

import math

from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.upright_rows import UPRIGHT, edges_of


def lay(layout: Layout) -> LocalOutline:
    """A scarf from one tip to the other, or half of one."""
    edges = edges_of(layout.rows, layout.gathered)
    ends = edges.laid(UPRIGHT)
    return LocalOutline(
        kind="worked-from-tip-to-tip",
        ends=ends,
        regions=one_panel(ends),
        reach=[],
        lengths=_lengths,
        grain=lambda row: Grain(0.0, 0.0, math.pi / 2, math.pi / 2),
        sideways=True,
        laid_ends=edges.ends_cm,
    )


def _lengths(piece: Measured) -> EdgeLengths:
    upper, lower = piece.edge_cm(0), piece.edge_cm(1)
    return EdgeLengths(upper, (upper, lower))
