"""At the foot of the page: the facts and the designer's remarks in words, and the scale bar."""

from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import SMALL, SOFT
from halfhank.renderer.paper.measure_words import CM_PER_INCH, plain_number, stitches
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.scale_bar import scale_bar
from halfhank.renderer.paper.scene import Element, Group, Label
from halfhank.renderer.paper.text_widths import text_width, wrap

MOST_LINES = 12
"""Lines of one fact or remark; the rest is cut with an ellipsis."""


def remarks(shawl: Shawl) -> list[str]:
    """The designer's own remarks."""
    return list(shawl.remarks)


def facts_block(shawl: Shawl, column: PageColumn, top: float, facts: list[str], scale: float) -> PageBlock:
    """The facts in words at the left, the scale bar at the right of the first, or below where that is too long."""
    items: list[Element] = []
    y = top
    for fact in facts:
        for line in wrap(fact, column.width, SMALL, MOST_LINES):
            y += SMALL * 1.5
            items.append(Label(column.left, y, line, SMALL, SOFT))
    bar, bar_width = scale_bar(shawl.units, column, top, scale)
    if text_width(facts[0], SMALL) > column.width - bar_width - 6:
        bar, _ = scale_bar(shawl.units, column, y + 1.0, scale)
        y += SMALL * 1.5 + 1.0
    return PageBlock(Group("facts", (*items, bar)), y + 0.8)


def shawl_facts(shawl: Shawl) -> list[str]:
    """Gauge units, needles, cast-on and final counts."""
    over = {round(f.gauge_over_cm, 3) for f in shawl.fabrics}
    over_words = _over_words(over.pop()) if len(over) == 1 else "the gauge's length"
    needles = f"{round(shawl.needles_mm, 2):g} mm needles"
    counts = stitches(shawl.start.stitches)
    start = shawl.start.words[:1].upper() + shawl.start.words[1:]
    start = start if start.endswith(counts) else f"{start}, {counts}"
    final = f"{stitches(shawl.bind_off.stitches)} after row {shawl.rows.count:,}, {shawl.bind_off.words}"
    return [f"Gauge: sts × rows over {over_words}, blocked; {needles}", f"{start}; {final}"]


def _over_words(cm: float) -> str:
    inches = cm / CM_PER_INCH
    if abs(inches - round(inches)) < 1e-6:
        return f"{plain_number(inches)} in"
    return f"{plain_number(cm)} cm"
