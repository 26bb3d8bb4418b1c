"""How much stands around the piece as drawn annotation; what a narrow column has no room for is said in words."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.paper.text_widths import text_width, wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.schematic.annotations.dimensions import LEADING, Dimension
from halfhank.renderer.schematic.annotations.flags import Flag
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark

FULL, ROWS, NONE = "full", "rows", "none"
FAR = 1e5
UPRIGHT_MM = 9.0
"""What a depth's extension lines, ticks and turned text take beside the piece."""


class Detail(NamedTuple):
    """Which dimensions are drawn, and what the marks' flags say: all of it (`full`), only the row, or nothing."""

    edges: bool
    spine: bool
    depth: bool
    flags: str


EVERYTHING = Detail(True, True, True, FULL)
PLAINER = Detail(False, True, True, FULL)
"""What a page of the usual width does without before the next smaller scale is taken."""
DETAILS = (
    EVERYTHING,
    PLAINER,
    Detail(True, True, True, ROWS),
    Detail(False, True, True, ROWS),
    Detail(True, False, True, ROWS),
    Detail(False, False, True, ROWS),
    Detail(True, False, False, FULL),
    Detail(False, False, False, FULL),
    Detail(False, False, True, NONE),
    Detail(True, False, False, ROWS),
    Detail(False, False, False, ROWS),
    Detail(False, False, False, NONE),
)
"""From the fullest drawing to the plainest."""


def flagged(marks: list[DrawnMark], detail: Detail) -> list[DrawnMark]:
    """The marks with what their flags say; none where they are given in words."""
    if detail.flags == FULL:
        return marks
    if detail.flags == NONE:
        return []
    marks = [mark for mark in marks if mark.kind != "end"]
    rows = [phrase("rows.one", row=mark.row) for mark in marks]
    return [mark._replace(words=row, lines=(row, "")) for mark, row in zip(marks, rows, strict=True)]


def marks_in_words(marks: list[DrawnMark], flags: list[Flag] | None, detail: Detail) -> list[str]:
    """The marks that are said under the drawing; with the look of the line where no flag names its row."""
    if flags is not None and detail.flags == FULL:
        return []
    if flags is not None and detail.flags == ROWS:
        return [_opened(mark.words) for mark in marks]
    return [_with_look(mark) for mark in marks]


def _with_look(mark: DrawnMark) -> str:
    """A mark's words, and how its line is recognized; the end has none."""
    words = _opened(mark.words)
    if mark.kind == "end":
        return words
    return phrase("mark.dashed" if mark.style.dash[0] else "mark.dotted", words=words)


def _opened(words: str) -> str:
    return words[0].upper() + words[1:]


def column_walls(piece_width: float, content: float, upright: bool) -> list[Box]:
    """What bounds a narrow column at both sides of the piece. Beside an upright dimension the other side has the
    rest."""
    spare = max(0.0, content - piece_width)
    beside = max(0.0, spare - UPRIGHT_MM) if upright else spare / 2
    return [Box(-beside - FAR, -FAR, -beside, FAR), Box(piece_width + beside, -FAR, piece_width + beside + FAR, FAR)]


def is_wall(box: Box) -> bool:
    """Whether a box is one of the column's bounds."""
    return box.right - box.left >= FAR


def stacked(dimension: Dimension, content: float, bounds: Box) -> Dimension:
    """A level dimension whose text keeps to the column: broken into lines where it is wider, moved where it sticks
    out."""
    label = dimension.labels[0]._replace(text=", ".join(label.text for label in reversed(dimension.labels)))
    width = max(text_width(line.text, line.size) for line in dimension.labels)
    spare = max(0.0, content - bounds.width) / 2
    low, high = bounds.left - spare, bounds.right + spare
    if label.x - width / 2 >= low and label.x + width / 2 <= high:
        return dimension
    whole = [line.text for line in reversed(dimension.labels)]
    lines = whole if width <= content else _lines(label, content)
    half = max(text_width(line, label.size) for line in lines) / 2
    x = min(max(label.x, low + half), max(high - half, low + half))
    tops = [label.y - k * label.size * LEADING for k in reversed(range(len(lines)))]
    return dimension._replace(
        labels=tuple(label._replace(x=x, y=y, text=line) for line, y in zip(lines, tops, strict=True))
    )


def _lines(label: Label, content: float) -> list[str]:
    """Broken behind the measure where that is enough, else wherever it must be."""
    measure, _, blocking = label.text.partition(", ")
    lines = [f"{measure},", blocking]
    if all(text_width(line, label.size) <= content for line in lines):
        return lines
    return wrap(label.text, content, label.size, 4)
