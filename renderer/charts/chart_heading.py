"""The heading of a chart: the shawl's title in one line, and what the chart shows."""

from collections.abc import Sequence

from halfhank.renderer.paper.house_style import INK, MARGIN, SOFT, SUBTITLE, TITLE
from halfhank.renderer.paper.page_block import PageBlock
from halfhank.renderer.paper.scene import Group, Label
from halfhank.renderer.paper.text_widths import fit


def chart_heading(title: str, lines: Sequence[str], room: float) -> PageBlock:
    """The title, cut where it is wider than `room` (mm), and the lines under it; it ends at the last one's baseline."""
    first = Label(MARGIN, MARGIN + TITLE * 0.72, fit(title, room, TITLE, "serif"), TITLE, INK, face="serif")
    below = [Label(MARGIN, first.y + 6.2 + 1.45 * SUBTITLE * k, line, SUBTITLE, SOFT) for k, line in enumerate(lines)]
    return PageBlock(Group("heading", (first, *below)), below[-1].y)
