"""The table of parts: number, name, rows, stitches at the end, grams, share, grams on the scale; total and chance."""

from halfhank.model.outline.curve import line as line_curve
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import HEAVY, INK, RULE, SMALL, SOFT, TEXT
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.schematic.annotations.badges import badge_items
from halfhank.renderer.schematic.fabric.bind_off_edges import SCALLOP_PITCH, strokes_before, strokes_behind
from halfhank.renderer.schematic.table.table_columns import (
    HEAD_PITCH,
    INDENT,
    LINE_PITCH,
    PITCH,
    STACKED_PITCH,
    TableForm,
    form_of,
    name_lines,
)
from halfhank.renderer.schematic.table.table_words import (
    START,
    TableRow,
    table_lines,
    total_line,
    yarn_sentences,
)

BADGE = 2.0
SAMPLE = 2 * SCALLOP_PITCH


def parts_table(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp) -> PageBlock:
    """The table, figures right-aligned under their heads, no wider than it needs; in a narrow column each name has its
    own line. Below it the total and the chance of enough yarn."""
    lines, total = table_lines(shawl), total_line(shawl)
    form = form_of(shawl.skein.unit, [*lines, total], column)
    own = PageColumn(column.left, form.width)
    items, y = _heads(form, top)
    items.append(_rule(own, y))
    for line in lines:
        added, y = _line_items(line, form, own, y, ramp)
        items += added
    y += 1.0
    items.append(_rule(own, y))
    added, y = _line_items(total, form, own, y, ramp)
    items += added
    y += 1.0
    items.append(_rule(own, y))
    for words in _chance_lines(shawl, column.width):
        y += SMALL * 1.5
        items.append(Label(column.left, y, words, SMALL, SOFT))
    return PageBlock(Group("parts", tuple(items)), y)


def _chance_lines(shawl: Shawl, width: float) -> list[str]:
    """The chance and the range on one line, or each on its own; that figures are rounded comes last."""
    likely, known = yarn_sentences(shawl)
    rounded = phrase("table.rounded")
    together = f"{likely} {known} {rounded}"
    if text_width(together, SMALL) <= width:
        return [together]
    return [line for one in (likely, f"{known} {rounded}") for line in text_lines(one, width, SMALL)]


def _heads(form: TableForm, top: float) -> tuple[list[Element], float]:
    """The heads, standing on one line at their foot, and where the rule below them lies."""
    high = max(len(head) for head in form.heads)
    items: list[Element] = []
    for head, x in zip(form.heads, form.rights, strict=True):
        for k, word in enumerate(head):
            y = top + SMALL + (high - len(head) + k) * HEAD_PITCH
            items.append(Label(x, y, word, SMALL, SOFT, anchor="end"))
    return items, top + SMALL + (high - 1) * HEAD_PITCH + 1.9


def _line_items(
    line: TableRow, form: TableForm, column: PageColumn, y: float, ramp: Ramp
) -> tuple[list[Element], float]:
    """One line of the table below `y`, and where it ends."""
    y += PITCH
    cells = [(line.cells[k], line.is_bold(k), x) for k, x in zip(form.shown, form.rights, strict=True)]
    items = edge_sample(line.sample, column.left, y - 1.6 - TEXT * CAP_HEIGHT / 2, ramp)
    for k, words in enumerate(name_lines(form, line, column.left)):
        y += LINE_PITCH if k else 0.0
        ink = INK if line.bold else SOFT
        items.append(Label(column.left + INDENT, y - 1.6, words, TEXT, ink, bold=line.bold))
        if k == 0 and line.number is not None:
            items += badge_items(line.number, column.left + BADGE, y - 1.6 - TEXT * CAP_HEIGHT / 2, BADGE)
    y += STACKED_PITCH if form.stacked else 0.0
    for cell, bold, x in cells:
        if cell:
            items.append(Label(x, y - 1.6, cell, TEXT, INK if bold else SOFT, bold=bold, anchor="end"))
    return items, y


def edge_sample(kind: str, x: float, y: float, ramp: Ramp) -> list[Element]:
    """A piece of an edge as it is drawn, with some fabric, around the height `y`; nothing without a kind."""
    if not kind:
        return []
    if kind == START:
        fabric = Rect(x, y - 0.6, SAMPLE, 2.0, Style(fill=ramp.colour(0.0)))
        edge = (("M", (x, y - 0.6)), ("L", (x + SAMPLE, y - 0.6)))
        return [fabric, Path(edge, Style(stroke=INK, width=HEAVY))]
    beyond = SCALLOP_PITCH / 2 if kind == "picot" else 0.0
    whole = line_curve([(x - beyond, y + 0.4), (x + SAMPLE + beyond, y + 0.4)])
    seen = line_curve([(x, y + 0.4), (x + SAMPLE, y + 0.4)])
    fabric = Rect(x, y - 1.4, SAMPLE, 1.8, Style(fill=ramp.colour(1.0)))
    return [*strokes_behind(kind, whole), fabric, *strokes_before(kind, seen)]


def _rule(column: PageColumn, y: float) -> Path:
    return Path((("M", (column.left, y)), ("L", (column.right, y))), Style(stroke=RULE, width=0.2))
