"""Which form the table of parts takes in its column: what stands beside the names, where figures end."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.house_style import SMALL, TEXT
from halfhank.renderer.paper.page_block import PageColumn, text_lines
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.schematic.table.table_words import TableRow

WIDEST_GAP, GAP, NARROW_GAP = 10.8, 4.2, 2.2
NAME_GAP = 4.0
BREAK = "|"
"""Where a head may be broken, in its phrase."""
INDENT = 6.4
NAMES = (22.0, 62.0)
"""A name has at least so much room beside its figures; more than the second asks for no closer figures."""
EVERY, FEWER = (0, 1, 2, 3, 4), (1, 2, 3, 4)
PITCH, STACKED_PITCH, LINE_PITCH, HEAD_PITCH = 5.5, 4.6, 4.2, 3.7


class TableForm(NamedTuple):
    """Heads in one or two lines, the columns that have them, where these end, and the table's width.

    `stacked`: each name has a line of its own, above its figures. `shown` are the columns by number; rows are written
    behind the name where they have no column.
    """

    heads: tuple[tuple[str, ...], ...]
    shown: tuple[int, ...]
    rights: tuple[float, ...]
    lefts: tuple[float, ...]
    stacked: bool
    width: float


def form_of(unit: str, lines: list[TableRow], column: PageColumn) -> TableForm:
    """The lowest form that finds room, so that a wider column never has a higher table.

    Of equally low ones the first: names beside their figures, heads in two lines, rows behind the names; names above.
    """
    heads, broken = _heads(unit)
    forms = [_beside(form, shown, lines, column) for form, shown in ((heads, EVERY), (broken, EVERY), (broken, FEWER))]
    forms += [_stacked(broken, shown, lines, column) for shown in (EVERY, FEWER)]
    return min((form for form in forms if form is not None), key=lambda form: height_of(form, lines, column.left))


def _heads(unit: str) -> tuple[list[tuple[str, ...]], list[tuple[str, ...]]]:
    """The heads of all columns, each on one line, and each in as many as it may have."""
    rows, share = (phrase("table.rows"),), (phrase("table.share"),)
    mass = (phrase_of("table-mass", unit),)
    whole: list[tuple[str, ...]] = [rows, (phrase("table.stitches"),), mass, share, (phrase("table.on-scale"),)]
    stitches, on_scale = phrase("table.stitches-broken"), phrase("table.on-scale-broken")
    return whole, [rows, tuple(stitches.split(BREAK)), mass, share, tuple(on_scale.split(BREAK))]


def _beside(
    heads: list[tuple[str, ...]], shown: tuple[int, ...], lines: list[TableRow], column: PageColumn
) -> TableForm | None:
    """Names beside their figures; None where names find too little room, or a part's is broken for its rows."""
    names = max(_name_width(line, shown) for line in lines)
    widths = [_widest(heads[k], lines, k) for k in shown]
    spare = column.width - sum(widths) - min(names, NAMES[1]) - INDENT
    gap = min(WIDEST_GAP, max(GAP, spare / len(shown)))
    room = column.width - sum(widths) - gap * (len(shown) - 1) - INDENT - NAME_GAP
    whole = max(_name_width(line, shown) for line in lines if line.number is not None) if shown is FEWER else 0.0
    if room < max(whole, min(names, NAMES[0])):
        return None
    width = min(column.width, sum(widths) + gap * len(shown) + max(names, NAMES[1]) + INDENT)
    return _form([heads[k] for k in shown], shown, widths, gap, PageColumn(column.left, width), stacked=False)


def _stacked(
    heads: list[tuple[str, ...]], shown: tuple[int, ...], lines: list[TableRow], column: PageColumn
) -> TableForm | None:
    """Names above their figures; None where there are too many of these, but for the fewest."""
    widths = [_widest(heads[k], lines, k) for k in shown]
    gap = min(GAP * 2, (column.width - sum(widths)) / (len(shown) - 1))
    if gap < NARROW_GAP and shown is EVERY:
        return None
    return _form([heads[k] for k in shown], shown, widths, gap, column, stacked=True)


def height_of(form: TableForm, lines: list[TableRow], left: float) -> float:
    """How high heads and lines are together, mm, from the column's left end `left`."""
    heads = (max(len(head) for head in form.heads) - 1) * HEAD_PITCH
    names = sum(len(name_lines(form, line, left)) - 1 for line in lines) * LINE_PITCH
    return heads + names + len(lines) * (PITCH + (STACKED_PITCH if form.stacked else 0.0))


def name_lines(form: TableForm, line: TableRow, left: float) -> list[str]:
    """A line's name, broken where its figures begin; in a column that begins at `left`."""
    first = next(x for x, k in zip(form.lefts, form.shown, strict=True) if line.cells[k])
    end = left + form.width if form.stacked else first - NAME_GAP
    return text_lines(name_words(line, form.shown), end - left - INDENT, TEXT, bold=line.bold)


def _form(
    heads: list[tuple[str, ...]],
    shown: tuple[int, ...],
    widths: list[float],
    gap: float,
    column: PageColumn,
    stacked: bool,
) -> TableForm:
    """The columns from the right margin leftwards."""
    ends = [column.right]
    for width in widths[:0:-1]:
        ends.append(ends[-1] - width - gap)
    rights = tuple(ends[::-1])
    lefts = tuple(right - width for right, width in zip(rights, widths, strict=True))
    return TableForm(tuple(heads), shown, rights, lefts, stacked, column.width)


def name_words(line: TableRow, shown: tuple[int, ...]) -> str:
    """A line's name; with its rows where these have no column."""
    return line.name if 0 in shown or not line.cells[0] else line.name_and_rows


def _name_width(line: TableRow, shown: tuple[int, ...]) -> float:
    return text_width(name_words(line, shown), TEXT, bold=line.bold)


def _widest(head: tuple[str, ...], lines: list[TableRow], cell: int) -> float:
    words = max(text_width(word, SMALL) for word in head)
    return max(words, *(text_width(line.cells[cell], TEXT, bold=line.is_bold(cell)) for line in lines))
