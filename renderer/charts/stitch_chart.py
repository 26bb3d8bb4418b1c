"""The stitch chart: one square a stitch, numbers at both sides, the multiple in a heavy box, a key of all symbols."""

from halfhank.grammar.description import Item, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.abbreviations import explained, key_abbreviation
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.model.stitches.chart import Chart, ChartRow, Use
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.charts.symbols import symbol
from halfhank.renderer.charts.symbols.pen import SymbolBox
from halfhank.renderer.paper.house_style import HAIRLINE, INK, MARGIN, RULE, SMALL, SOFT, SUBTITLE, TEXT
from halfhank.renderer.paper.page_sizes import WIDEST_MM
from halfhank.renderer.paper.scene import Element, Group, Label, Path, PathData, Rect, Scene, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width, title_lines, wrap
from halfhank.renderer.text_alternatives.chart_row_words import row_words

LARGEST_SQUARE, SMALLEST_SQUARE = 6.0, 2.8
NUMBERED_HEIGHT = 4.5
"""A square so high has a number of wraps that can be read, mm."""
FLATTEST, TALLEST = 0.4, 2.0
NO_STITCH = "#c9ced1"
BOX = Style(stroke="#000000", width=0.75, join="miter")
GRID = Style(stroke=SOFT, width=HAIRLINE)
NUMBER = 2.9
MOST_LINES = 20
"""More than any text of ours takes: none is cut."""
_KEY_COLUMN, _ONE_COLUMN = 76.0, 82.0
_KEY_GAP = 6.0
_BESIDE, _APART = 2.2, 2.0
"""Between a symbol and its name, and between that and its words."""
_LONG_KEY = 24
"""More entries than this stand in two columns even under a narrow chart."""
_NAME = 6.2
_WING_GAP = 8.0


def _wing_names() -> tuple[str, str]:
    return phrase("stitch-chart.first-wing"), phrase("stitch-chart.second-wing")


class Captions(NamedTuple):
    """The chart's words: its `title`, the lines under it, and `row_to_stitch`, the height of a square by its width.

    `shown`: title and lines stand above the chart; where they do not, the page that it is on has them.
    """

    title: str
    lines: tuple[str, ...]
    row_to_stitch: float
    shown: bool = True


class Grid(NamedTuple):
    """Where the squares lie, in mm: upper left corner, size of a square, their numbers."""

    left: float
    top: float
    width: float
    height: float
    columns: int
    rows: int

    def x(self, column: float) -> float:
        """The line left of a column."""
        return self.left + column * self.width

    def y(self, row: float) -> float:
        """The line under a row, row 0 being the first."""
        return self.top + (self.rows - row) * self.height


class Entry(NamedTuple):
    """One line of the key: what is drawn (None: the box or a free square), its name and its words.

    `sided`: both say what is done on which side.
    """

    sign: Sign | None
    name: str
    words: str
    kind: str = "sign"
    sided: bool = False

    @property
    def squares(self) -> int:
        return self.sign.width if self.sign else 1


def stitch_chart(chart: Chart, captions: Captions) -> Scene:
    """The page of one chart."""
    return _page((chart,), captions)


def wing_charts(first: Chart, second: Chart, captions: Captions) -> Scene:
    """A chart for each of two wings, side by side, with one key."""
    return _page((first, second), captions)


def fit_beside(first: Chart, second: Chart, row_to_stitch: float, wide: float) -> bool:
    """Whether two charts have room side by side in so much width, mm, with squares of the usual size."""
    charts, ratio = (first, second), _ratio(row_to_stitch)
    squares = sum(one.columns for one in charts) * _largest(first, ratio)
    return squares + 2 * _number_room(charts) * len(charts) + _WING_GAP <= wide


def _number_room(charts: tuple[Chart, ...]) -> float:
    return max(text_width(str(one.rows[-1].number), NUMBER) for one in charts) + 1.6


def _ratio(row_to_stitch: float) -> float:
    return max(FLATTEST, min(TALLEST, row_to_stitch))


def _page(charts: tuple[Chart, ...], captions: Captions) -> Scene:
    """One chart, or those of the two wings beside each other; with its captions shown it is in the middle."""
    chart, columns, beside = charts[0], sum(one.columns for one in charts), _WING_GAP * (len(charts) - 1)
    numbers = _number_room(charts)
    aside = 2 * numbers * len(charts) + beside
    ratio = _ratio(captions.row_to_stitch)
    room = WIDEST_MM - 2 * MARGIN - aside
    width = max(SMALLEST_SQUARE, min(_largest(chart, ratio), room / columns))
    entries = _all_entries(charts, captions.shown)
    least = 2 * _KEY_COLUMN + _KEY_GAP if len(entries) > _LONG_KEY else max(_ONE_COLUMN, _widest(entries, width))
    content = max(columns * width + aside, min(least, WIDEST_MM - 2 * MARGIN))
    heading, top = _heading(captions, content) if captions.shown else (Group("heading", ()), MARGIN)
    left = MARGIN + ((content - columns * width - aside) / 2 if captions.shown else 0.0) + numbers
    drawn, grid = list[Group](), Grid(left, top, width, width * ratio, 0, 0)
    for one, words in zip(charts, _wing_names() if len(charts) > 1 else ("",), strict=True):
        grid = Grid(left, top, width, width * ratio, one.columns, len(one.rows))
        if words:
            grid = grid._replace(top=top + 1.6 * TEXT)
            label = Label(grid.left, top + TEXT, words, TEXT, INK, bold=True)
            drawn.append(Group("wing", (label,)))
        drawn += _drawing(one, grid)
        left += one.columns * width + 2 * numbers + _WING_GAP
    key, bottom = _key(entries, grid, content, grid.y(0) + 7.0)
    reading, bottom = _reading(chart, content, bottom)
    described = " ".join(map(describe, charts))
    return Scene(content + 2 * MARGIN, bottom + MARGIN, captions.title, described, (heading, *drawn, key, reading))


def _all_entries(charts: tuple[Chart, ...], both: bool) -> list[Entry]:
    """The key of all charts, each sign once; unless `both`, names that say the sides have no words that do.

    Signs that only the second chart has come before the box, which is the last line.
    """
    found = list(dict.fromkeys(entry for one in charts for entry in entries_of(one)))
    ordered = sorted(found, key=lambda entry: (entry.squares, entry.kind == "box"))
    return [entry._replace(words="") if entry.sided and not both else entry for entry in ordered]


def _largest(chart: Chart, row_to_stitch: float) -> float:
    """The largest width of a square: where signs hold numbers, flat squares are larger."""
    numbered = any(use.sign.wraps > 1 for use in chart.uses)
    return max(LARGEST_SQUARE, NUMBERED_HEIGHT / row_to_stitch) if numbered else LARGEST_SQUARE


def describe(chart: Chart) -> str:
    """The chart in a sentence, for those who do not see it."""
    columns, rows, multiple = str(chart.columns), str(len(chart.rows)), chart.multiple.words
    return phrase("stitch-chart.description", name=chart.name, multiple=multiple, columns=columns, rows=rows)


def _heading(captions: Captions, content: float) -> tuple[Group, float]:
    y = MARGIN
    items: list[Element] = []
    lines, size = title_lines(captions.title, content, _NAME)
    for line in lines:
        y += size * (0.95 if not items else 1.2)
        items.append(Label(MARGIN, y, line, size, INK, face="serif"))
    y += 0.8
    for caption in captions.lines:
        for line in wrap(caption, content, SUBTITLE, MOST_LINES):
            y += SUBTITLE * 1.45
            items.append(Label(MARGIN, y, line, SUBTITLE, SOFT))
    return Group("heading", tuple(items)), y + 6.0


def _drawing(chart: Chart, grid: Grid) -> tuple[Group, ...]:
    free: list[Element] = []
    signs: list[Element] = []
    numbers: list[Element] = []
    for place, row in enumerate(chart.rows):
        free += _free_squares(chart, row, grid, place)
        signs.append(_signs(chart, row, grid, place))
        numbers.append(_number(row, grid, place))
    box = () if chart.rows[0].box is None else (Group("multiple", (Path(_box(chart, grid), BOX),)),)
    squares = Group("squares", (*free, Path(_lines(grid), GRID)))
    return (squares, Group("symbols", tuple(signs)), *box, Group("row-numbers", tuple(numbers)))


def _free_squares(chart: Chart, row: ChartRow, grid: Grid, place: int) -> list[Element]:
    taken = {cell.column + k for cell in row.cells for k in range(cell.sign.width)}
    fill = Style(fill=NO_STITCH)
    top = grid.y(place + 1)
    return [Rect(grid.x(c), top, grid.width, grid.height, fill) for c in range(chart.columns) if c not in taken]


def _signs(chart: Chart, row: ChartRow, grid: Grid, place: int) -> Group:
    top = grid.y(place + 1)
    items: list[Element] = []
    for column, sign in row.cells:
        if sign.width > 1:
            items.append(_inside(sign, grid, column, top))
        items += symbol(sign, SymbolBox(grid.x(column), top, grid.width, grid.height, sign.width))
    return Group(f"row-{row.number}", tuple(items), title=row_words(chart, row))


def _inside(sign: Sign, grid: Grid, column: int, top: float) -> Rect:
    """White over the grid's lines inside a symbol of several squares, so that it reads as one."""
    inset = 0.15
    return Rect(
        grid.x(column) + inset,
        top + inset,
        sign.width * grid.width - 2 * inset,
        grid.height - 2 * inset,
        Style(fill="#ffffff"),
    )


def _lines(grid: Grid) -> PathData:
    data: list[tuple[str, tuple[float, ...]]] = []
    for column in range(grid.columns + 1):
        data += [("M", (grid.x(column), grid.y(0))), ("L", (grid.x(column), grid.y(grid.rows)))]
    for row in range(grid.rows + 1):
        data += [("M", (grid.x(0), grid.y(row))), ("L", (grid.x(grid.columns), grid.y(row)))]
    return tuple(data)


def _box(chart: Chart, grid: Grid) -> PathData:
    """The box around the multiple, with a step where the stars move."""
    left: list[tuple[float, float]] = []
    right: list[tuple[float, float]] = []
    for place, row in enumerate(chart.rows):
        assert row.box is not None
        for side, column in ((left, row.box[0]), (right, row.box[1])):
            side += [(grid.x(column), grid.y(place)), (grid.x(column), grid.y(place + 1))]
    corners = _without_middles(left + right[::-1])
    return (*(("L" if i else "M", point) for i, point in enumerate(corners)), ("Z", ()))


def _without_middles(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The polygon without points that repeat or lie inside a straight side."""
    kept: list[tuple[float, float]] = []
    for point in points:
        if kept and point == kept[-1]:
            continue
        if len(kept) > 1 and kept[-2][0] == kept[-1][0] == point[0]:
            kept.pop()
        kept.append(point)
    return kept


def _number(row: ChartRow, grid: Grid, place: int) -> Label:
    y = (grid.y(place) + grid.y(place + 1)) / 2 + NUMBER * CAP_HEIGHT / 2
    if row.wrong_side:
        return Label(grid.left - 1.4, y, str(row.number), NUMBER, INK, anchor="end")
    return Label(grid.x(grid.columns) + 1.4, y, str(row.number), NUMBER, INK)


def entries_of(chart: Chart) -> list[Entry]:
    """The key: every sign that occurs, squares without a stitch and the box where there are any.

    The widest signs last.
    """
    elsewhere = {key_abbreviation(item) for use in chart.uses if not use.right_side for item in use.wrong_side}
    entries = [_entry(use, elsewhere) for use in chart.uses]
    if chart.no_stitch:
        entries.append(Entry(None, phrase("stitch-chart.no-stitch"), phrase("stitch-chart.skip"), "free"))
    if chart.rows[0].box is not None:
        entries.append(Entry(None, phrase("stitch-chart.repeat"), "", "box"))
    return sorted(entries, key=lambda entry: entry.squares)


def _entry(use: Use, elsewhere: set[str]) -> Entry:
    """A sign's line of the key.

    It says on which side the sign is worked so, where that is the wrong side or both sides differ, and where the same
    stitch has another sign on the other side: those in `elsewhere` have one on the wrong side. Of an elongated stitch
    it says what the next row does, which has no sign of its own.
    """
    sides = [(items, wrong) for items, wrong in ((use.right_side, False), (use.wrong_side, True)) if items]
    names = [", ".join(dict.fromkeys(key_abbreviation(item) for item in items)) for items, _ in sides]
    words = ["; ".join(dict.fromkeys(_unwrapped(item) for item in items)) for items, _ in sides]
    if len(sides) == 2 and (names[0] != names[1] or words[0] != words[1]):
        name = phrase("stitch-chart.both-sides", right=names[0], wrong=names[1])
        differ = words[0] != words[1]
        both = phrase("stitch-chart.both-sides", right=words[0], wrong=words[1]) if differ else words[0]
        return Entry(use.sign, name, _with_drop(use, both), sided=differ and use.sign.wraps < 2)
    items, wrong = sides[0]
    if wrong or (len(sides) == 1 and any(key_abbreviation(item) in elsewhere for item in items)):
        return Entry(use.sign, names[0], _with_drop(use, _on_side(words[0], wrong, items)))
    return Entry(use.sign, names[0], _with_drop(use, words[0]))


def _on_side(words: str, wrong: bool, items: tuple[Item, ...]) -> str:
    """What to do, with the side on which it is done: behind it where that is short."""
    if all(isinstance(item, Work) for item in items):
        return phrase("stitch-chart.short-on-wrong" if wrong else "stitch-chart.short-on-right", words=words)
    return phrase("stitch-chart.on-wrong" if wrong else "stitch-chart.on-right", words=words)


def _with_drop(use: Use, words: str) -> str:
    return phrase("stitch-chart.drop", words=words) if use.sign.wraps > 1 else words


def _unwrapped(item: Item) -> str:
    """What to do, in words, without the wraps: the name has their number."""
    return explained(item._replace(wraps=1) if isinstance(item, Work) else item)


def _widest(entries: list[Entry], square: float) -> float:
    """The room of a key in one column in which each symbol has one line."""
    lines = [text_width(entry.name, TEXT, bold=True) + _APART + text_width(entry.words, SMALL) for entry in entries]
    return square * max(entry.squares for entry in entries) + _BESIDE + max(lines)


def _key(entries: list[Entry], grid: Grid, content: float, top: float) -> tuple[Group, float]:
    """The key in one column, a long one in as many as there is room for, filled one after the other."""
    most = int((content + _KEY_GAP) // (_KEY_COLUMN + _KEY_GAP)) if len(entries) > _LONG_KEY else 1
    columns = max(1, most)
    each = -(-len(entries) // columns)
    width = (content - (columns - 1) * _KEY_GAP) / columns
    items: list[Element] = []
    bottom = top
    for column in range(columns):
        y = top
        mine = entries[column * each : (column + 1) * each]
        symbols = max((entry.squares for entry in mine), default=1) * grid.width
        for entry in mine:
            group, y = _key_entry(entry, grid, MARGIN + column * (width + _KEY_GAP), y, width, symbols)
            items.append(group)
        bottom = max(bottom, y)
    return Group("key", tuple(items)), bottom


def _key_entry(entry: Entry, grid: Grid, x: float, y: float, width: float, symbols: float) -> tuple[Group, float]:
    text, room = x + symbols + _BESIDE, width - symbols - _BESIDE
    names = wrap(entry.name, room, TEXT, MOST_LINES, bold=True)
    beside = text_width(entry.name, TEXT, bold=True) + _APART
    one_line = beside + text_width(entry.words, SMALL) <= room
    words = [] if one_line else wrap(entry.words, room, SMALL, MOST_LINES)
    items = _key_symbol(
        entry, SymbolBox(x + symbols - entry.squares * grid.width, y, grid.width, grid.height, entry.squares)
    )
    line = y + min(grid.height, TEXT * 1.3) / 2 + TEXT * CAP_HEIGHT / 2
    if one_line and entry.words:
        items.append(Label(text + beside, line, entry.words, SMALL, SOFT))
    for name in names:
        items.append(Label(text, line, name, TEXT, INK, bold=True))
        line += TEXT * 1.3
    for part in words:
        items.append(Label(text, line, part, SMALL, SOFT))
        line += SMALL * 1.35
    return Group("key-entry", tuple(items)), max(y + grid.height, line - SMALL * 0.9) + 2.0


def _key_symbol(entry: Entry, box: SymbolBox) -> list[Element]:
    frame = Rect(box.x, box.y, box.squares * box.width, box.height, Style(stroke=SOFT, width=HAIRLINE))
    if entry.kind == "free":
        return [frame._replace(style=Style(fill=NO_STITCH, stroke=SOFT, width=HAIRLINE))]
    if entry.kind == "box":
        return [frame._replace(style=BOX)]
    assert entry.sign is not None
    return [frame, *symbol(entry.sign, box)]


def _reading(chart: Chart, content: float, top: float) -> tuple[Group, float]:
    """How the chart is read, in a line or two."""
    right = any(not row.wrong_side for row in chart.rows)
    wrong = any(row.wrong_side for row in chart.rows)
    one_side = phrase("stitch-chart.read-right" if right else "stitch-chart.read-wrong")
    sentences = phrase("stitch-chart.read-both") if right and wrong else one_side
    if len(chart.rows) % 2:
        sentences = phrase("stitch-chart.odd", reading=sentences)
    items: list[Element] = [
        Path((("M", (MARGIN, top + 1.0)), ("L", (MARGIN + content, top + 1.0))), Style(stroke=RULE, width=HAIRLINE))
    ]
    y = top + 2.0
    for line in wrap(sentences, content, SMALL, MOST_LINES):
        y += SMALL * 1.35
        items.append(Label(MARGIN, y, line, SMALL, SOFT))
    return Group("reading", tuple(items)), y + 0.8
