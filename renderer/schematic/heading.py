"""Title and the line under it."""

from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import INK, SOFT, SUBTITLE, TITLE
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.scene import Element, Group, Label
from halfhank.renderer.paper.text_widths import text_width, wrap


def heading(shawl: Shawl, column: PageColumn, top: float) -> PageBlock:
    """The title in at most two lines, the summary in at most three."""
    items: list[Element] = []
    y = top
    for line in wrap(shawl.title, column.width, TITLE, 2, face="serif"):
        y += TITLE * (0.95 if not items else 1.2)
        items.append(Label(column.left, y, line, TITLE, INK, face="serif"))
    y += 1.0
    for line in _phrases(shawl.summary, column.width):
        y += SUBTITLE * 1.45
        items.append(Label(column.left, y, line, SUBTITLE, SOFT))
    return PageBlock(Group("heading", tuple(items)), y + 1.0)


def _phrases(summary: str, width: float) -> list[str]:
    """The summary in at most three lines, broken behind commas where that is enough."""
    lines: list[str] = []
    for phrase in summary.split(", "):
        longer = f"{lines[-1]} {phrase}" if lines else phrase
        if lines and text_width(f"{longer},", SUBTITLE) <= width:
            lines[-1] = f"{longer},"
        else:
            lines.append(f"{phrase},")
    lines[-1] = lines[-1].removesuffix(",")
    fits = len(lines) <= 3 and all(text_width(line, SUBTITLE) <= width for line in lines)
    return lines if fits else wrap(summary, width, SUBTITLE, 3)
