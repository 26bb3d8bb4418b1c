"""The table of parts: number, name, rows, stitches at the end, grams, share, grams left on the scale."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import line as line_curve
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import HEAVY, INK, RULE, SMALL, SOFT, TEXT
from halfhank.renderer.paper.measure_words import MINUS, exact, percent
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, fit, text_width
from halfhank.renderer.schematic.annotations.badges import badge_items
from halfhank.renderer.schematic.fabric.bind_off_edges import SCALLOP_PITCH, strokes_before, strokes_behind

HEADS = {
    "g": ("rows", "sts at end", "grams", "share", "g left"),
    "oz": ("rows", "sts at end", "ounces", "share", "oz left"),
}
GAP, NAME_GAP = 6.0, 4.0
BADGE, INDENT = 2.0, 6.4
PITCH, STACKED_PITCH = 5.5, 4.6
NARROW = 22.0
START = "start"
SAMPLE = 2 * SCALLOP_PITCH


class TableRow(NamedTuple):
    """One line of the table; `number` is None for the start and the bind-off, of whose edge a `sample` is shown."""

    number: int | None
    name: str
    cells: tuple[str, ...]
    sample: str = ""


def parts_table(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp) -> PageBlock:
    """The table, figures right-aligned under their heads; names take what room is left, in a narrow column a line."""
    lines, heads = table_lines(shawl), HEADS[shawl.skein.unit]
    rights = _column_ends(heads, lines, column)
    y = top + SMALL
    items: list[Element] = [Label(x, y, head, SMALL, SOFT, anchor="end") for head, x in zip(heads, rights, strict=True)]
    y += 1.9
    items.append(_rule(column, y))
    lefts = [right - _widest(heads, lines, cell) for cell, right in enumerate(rights)]
    stacked = lefts[0] - column.left - INDENT < NARROW
    for line in lines:
        y += PITCH
        first = next(left for left, cell in zip(lefts, line.cells, strict=True) if cell)
        items += edge_sample(line.sample, column.left, y - 1.6 - TEXT * CAP_HEIGHT / 2, ramp)
        items += _name_items(line, column, y - 1.6, column.right if stacked else first - NAME_GAP)
        y += STACKED_PITCH if stacked else 0.0
        items += _figures(line, y - 1.6, rights)
    y += 1.0
    items.append(_rule(column, y))
    return PageBlock(Group("parts", tuple(items)), y)


def table_lines(shawl: Shawl) -> list[TableRow]:
    """The start, every part, the bind-off: together all of the shawl's yarn."""
    yarn, unit = shawl.yarn, shawl.skein.unit
    start = _edge_line(shawl, shawl.start.words, shawl.start.stitches, yarn.start_g, yarn.skein_g - yarn.start_g)
    lines = [start._replace(sample=START)]
    for number, part in enumerate(shawl.parts, 1):
        rows = str(part.first_row) if part.first_row == part.last_row else f"{part.first_row}–{part.last_row}"
        figures = (exact(part.used_g, unit), percent(part.share), _left(part.left_g, unit))
        lines.append(TableRow(number, part.name, (rows, f"{part.stitches_at_end:,}", *figures)))
    end = _edge_line(shawl, shawl.bind_off.words, None, yarn.bind_off_g, yarn.left_g)
    return [*lines, end._replace(sample=shawl.bind_off.method)]


def _edge_line(shawl: Shawl, words: str, count: int | None, used_g: float, left_g: float) -> TableRow:
    share = used_g / shawl.yarn.total_g if shawl.yarn.total_g > 0 else 0.0
    unit = shawl.skein.unit
    cells = ("", "" if count is None else f"{count:,}", exact(used_g, unit), percent(share), _left(left_g, unit))
    return TableRow(None, words, cells)


def _left(left_g: float, unit: str) -> str:
    """What is left, or how much is short."""
    figure = exact(left_g, unit)
    return f"{exact(-left_g, unit)} short" if figure.startswith(MINUS) else figure


def _widest(heads: tuple[str, ...], lines: list[TableRow], cell: int) -> float:
    return max(text_width(heads[cell], SMALL), *(text_width(line.cells[cell], TEXT, bold=cell == 1) for line in lines))


def _column_ends(heads: tuple[str, ...], lines: list[TableRow], column: PageColumn) -> list[float]:
    """Right ends of the figure columns, from the right margin leftwards; closer together where names need the room."""
    widths = [_widest(heads, lines, cell) for cell in range(len(heads))]
    names = max(text_width(line.name, TEXT, bold=line.number is not None) for line in lines) + INDENT
    gap = min(GAP * 1.8, max(4.2, (column.width - sum(widths) - min(names, 62.0)) / len(heads)))
    ends = [column.right]
    for width in widths[:0:-1]:
        ends.append(ends[-1] - width - gap)
    return ends[::-1]


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


def _name_items(line: TableRow, column: PageColumn, y: float, names_end: float) -> list[Element]:
    items: list[Element] = []
    if line.number is not None:
        items += badge_items(line.number, column.left + BADGE, y - TEXT * CAP_HEIGHT / 2, BADGE)
    named = line.number is not None
    name = fit(line.name, names_end - column.left - INDENT, TEXT, bold=named)
    ink = INK if named else SOFT
    items.append(Label(column.left + INDENT, y, name, TEXT, ink, bold=named))
    return items


def _figures(line: TableRow, y: float, rights: list[float]) -> list[Element]:
    items: list[Element] = []
    for k, (cell, x) in enumerate(zip(line.cells, rights, strict=True)):
        if cell:
            bold = k == 1
            items.append(Label(x, y, cell, TEXT, INK if bold else SOFT, bold=bold, anchor="end"))
    return items


def _rule(column: PageColumn, y: float) -> Path:
    return Path((("M", (column.left, y)), ("L", (column.right, y))), Style(stroke=RULE, width=0.2))
