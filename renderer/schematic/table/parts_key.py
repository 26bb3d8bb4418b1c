"""In place of the table: what the badges' numbers stand for, and how the shawl starts and ends."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import INK, SOFT, TEXT
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.schematic.annotations.badges import badge_items
from halfhank.renderer.schematic.table.parts_table import BADGE, edge_sample
from halfhank.renderer.schematic.table.table_columns import INDENT, LINE_PITCH, PITCH
from halfhank.renderer.schematic.table.table_words import START

BETWEEN = 5.5


class PartsEntry(NamedTuple):
    """One entry of the key: a part with its `number`, or the start or the bind-off with a `sample` of its edge."""

    number: int | None
    sample: str
    words: str


def parts_key(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp, named: bool) -> PageBlock:
    """The start, the parts and the bind-off in working order, flowing from left to right.

    `named`: the parts' names stand on the drawing already and are left out here.
    """
    items: list[Element] = []
    x, y = column.left, top
    for entry in _entries(shawl, named):
        bold = entry.number is not None
        lines = text_lines(entry.words, column.width - INDENT, TEXT, bold=bold)
        width = INDENT + max(text_width(line, TEXT, bold=bold) for line in lines)
        if x > column.left and x + width > column.right:
            x, y = column.left, y + PITCH
        middle = y + PITCH / 2
        items += _sign(entry, x, middle, ramp)
        for k, line in enumerate(lines):
            baseline = middle + TEXT * CAP_HEIGHT / 2 + k * LINE_PITCH
            items.append(Label(x + INDENT, baseline, line, TEXT, INK if bold else SOFT, bold=bold))
        y += (len(lines) - 1) * LINE_PITCH
        x += width + BETWEEN
    return PageBlock(Group("parts", tuple(items)), y + PITCH)


def _entries(shawl: Shawl, named: bool) -> list[PartsEntry]:
    names = [] if named else [PartsEntry(number, "", part.name) for number, part in enumerate(shawl.parts, 1)]
    start = PartsEntry(None, START, shawl.start.words)
    return [start, *names, PartsEntry(None, shawl.bind_off.method, shawl.bind_off.words)]


def _sign(entry: PartsEntry, x: float, middle: float, ramp: Ramp) -> list[Element]:
    if entry.number is not None:
        return list(badge_items(entry.number, x + BADGE, middle, BADGE))
    return edge_sample(entry.sample, x, middle, ramp)
