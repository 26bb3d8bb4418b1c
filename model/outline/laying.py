"""The outline of worked parts."""

from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline import lay_out
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.outline import Outline
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.yarn.stitch_table import PLAIN, StitchTable


def outline_of(table: StitchTable, parts: list[WorkedPart], rows: Rows) -> Outline | Problem:
    """Where the rows lie; `rows` may end before the parts do."""
    design = table.design
    openwork = [False]
    for run in (run for part in parts for run in part.section.runs):
        openwork.extend([table[run.stitch].fabric.texture != PLAIN] * run.rows)
    bearing = tuple(openwork[: rows.count + 1])
    pinned = design.pinned.written.value if design.pinned else None
    gathered = design.bind_off.method == "draw through"
    spine = design.spine.stitches
    return lay_out(
        Layout(design.shape.name, design.shape.span, rows, bearing, design.turns_back, pinned, spine, gathered)
    )
