"""Title and the line under it."""

from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import INK, SOFT, SUBTITLE, TITLE
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.scene import Element, Group, Label
from halfhank.renderer.paper.text_widths import text_width, wrap
from halfhank.renderer.schematic.table.table_words import WEIGHED

NARROW_MM = 72.0
SMALLER = (6.4, 5.6, 4.8, 4.2)
COMPACT = (5.6,)
MOST_LINES = 100


def heading(shawl: Shawl, column: PageColumn, top: float, compact: bool = False) -> PageBlock:
    """The title, smaller where it takes more than two lines, and the summary, both in as many lines as they need.

    A `compact` heading is never higher in a wider column: its title has one size, its summary is broken anywhere.
    """
    items: list[Element] = []
    y = top
    size, lines = _title_lines(shawl.title, column.width, compact)
    for line in lines:
        y += size * (0.95 if not items else 1.2)
        items.append(Label(column.left, y, line, size, INK, face="serif"))
    y += 1.0
    summary = _summary(shawl)
    broken = text_lines(summary, column.width, SUBTITLE) if compact else _phrases(summary, column.width)
    for line in broken:
        y += SUBTITLE * 1.45
        items.append(Label(column.left, y, line, SUBTITLE, SOFT))
    return PageBlock(Group("heading", tuple(items)), y + 1.0)


def _title_lines(title: str, width: float, compact: bool) -> tuple[float, list[str]]:
    """The largest size at which the title takes two lines, three at the last; beyond that as many as it needs."""
    sizes = COMPACT if compact else SMALLER if width < NARROW_MM else (TITLE, *SMALLER)
    for most in (2, 3):
        for size in sizes:
            lines = wrap(title, width, size, MOST_LINES, face="serif")
            if len(lines) <= most and all(text_width(word, size, "serif") <= width for word in title.split()):
                return size, lines
    return sizes[-1], wrap(title, width, sizes[-1], MOST_LINES, face="serif")


def _summary(shawl: Shawl) -> str:
    """The summary without the bind-off, which the table names; of a logged shawl, that weighings corrected it."""
    words = f"{shawl.summary}, ".replace(f" {shawl.bind_off.words},", "", 1).removesuffix(", ")
    return phrase("heading.corrected", summary=words) if shawl.yarn.basis == WEIGHED else words


def _phrases(summary: str, width: float) -> list[str]:
    """The summary broken behind commas where that is enough."""
    lines: list[str] = []
    for part in summary.split(", "):
        longer = f"{lines[-1]} {part}" if lines else part
        if lines and text_width(f"{longer},", SUBTITLE) <= width:
            lines[-1] = f"{longer},"
        else:
            lines.append(f"{part},")
    lines[-1] = lines[-1].removesuffix(",")
    fits = len(lines) <= 3 and all(text_width(line, SUBTITLE) <= width for line in lines)
    return lines if fits else text_lines(summary, width, SUBTITLE)
