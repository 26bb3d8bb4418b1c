"""The heading of a chart: the shawl's title, and what the chart shows."""

from collections.abc import Sequence

from halfhank.renderer.paper.house_style import INK, MARGIN, SOFT, SUBTITLE, TITLE
from halfhank.renderer.paper.page_block import PageBlock
from halfhank.renderer.paper.scene import Group, Label
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.paper.text_widths import title_lines


def chart_heading(title: str, lines: Sequence[str], room: float) -> PageBlock:
    """The whole title within `room` (mm), and the lines under it; it ends at the last one's baseline.

    Where the title is empty, the page that the chart is on has it.
    """
    titles, size = title_lines(isolated(title), room, TITLE) if title else ([], 0.0)
    top = MARGIN + size * 0.72
    above = [Label(MARGIN, top + 1.2 * size * k, line, size, INK, face="serif") for k, line in enumerate(titles)]
    start = above[-1].y + 6.2 if above else MARGIN + SUBTITLE
    below = [Label(MARGIN, start + 1.45 * SUBTITLE * k, line, SUBTITLE, SOFT) for k, line in enumerate(lines)]
    return PageBlock(Group("heading", (*above, *below)), below[-1].y)
