"""Rectangle: rows level, one below the other."""

from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.solvers.straight_rows import arms_ends
from halfhank.model.outline.solvers.strip import settled

LEVEL = Grain(0.0, 0.0, 0.0, 0.0)


def lay(layout: Layout) -> LocalOutline:
    """Level rows; their widths follow the gauge of their bands."""
    found = settled(layout.rows, layout.gathered)
    ends = arms_ends(found.strip, (1.0, 0.0), 1.0)
    return LocalOutline(
        kind="rectangle",
        ends=ends,
        regions=one_panel(ends),
        reach=[],
        lengths=level_lengths,
        grain=lambda row: LEVEL,
        laid_ends=found.ends_cm,
    )


def level_lengths(piece: Measured) -> EdgeLengths:
    """The start is the top edge; both edges are the sides."""
    return EdgeLengths(piece.end_row_cm(0), (piece.edge_cm(0), piece.edge_cm(1)))
