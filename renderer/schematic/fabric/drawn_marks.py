"""The rows that a knitter must know (halfway, bind off by, turn back by), their words, and notes on those beyond."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.phrases import going_on
from halfhank.model.shawl import Mark, Shawl
from halfhank.renderer.paper.house_style import MARK_WIDTH, RED
from halfhank.renderer.paper.measure_words import grams, left_words
from halfhank.renderer.paper.scene import Style

DASHED = Style(stroke=RED, width=MARK_WIDTH, dash=(3.2, 1.5))
DOTTED = Style(stroke=RED, width=MARK_WIDTH + 0.15, dash=(0.0, 1.7), cap="round")


class DrawnMark(NamedTuple):
    """A mark as a line: `name` on the ruler, `words` on its flag (or in two `lines`), `style` of its stroke."""

    name: str
    row: int
    left_g: float
    words: str
    lines: tuple[str, str]
    style: Style


def drawn_marks(shawl: Shawl) -> list[DrawnMark]:
    """The marks that lie on the piece, the most important last."""
    marks = shawl.marks
    candidates = [
        ("half", "half the yarn:", marks.halfway, DASHED),
        ("turn back by", "turn back by", marks.turn_back, DOTTED),
        ("bind off by", "bind off by", marks.bind_off_by, DOTTED),
    ]
    drawn = []
    for name, words, mark, style in candidates:
        if mark is not None and not mark.beyond and 1 <= mark.row <= shawl.rows.count:
            where = f"row {mark.row:,}, {left_words(mark.left_g)}"
            drawn.append(DrawnMark(name, mark.row, mark.left_g, f"{words} {where}", (words, where), style))
    return drawn


def mark_notes(shawl: Shawl) -> list[str]:
    """Notes on marks beyond the planned end, and on an end that leaves more than another ridge takes."""
    marks = shawl.marks
    notes = []
    for words, mark in (("turn back", marks.turn_back), ("bind off", marks.bind_off_by)):
        if mark is not None and _is_beyond(mark, shawl):
            row = f"row {mark.row:,}, {left_words(mark.left_g)}"
            notes.append(f"There is yarn to knit on{_fabric_words(shawl, mark)}: {words} by {row}.")
    if shawl.yarn.left_g < -0.05:
        notes.append(f"The yarn does not last: {grams(-shawl.yarn.left_g)} g are missing.")
    return notes + _spare_note(shawl)


def _fabric_words(shawl: Shawl, mark: Mark) -> str:
    """The fabric of the rows past the end; a turn moves on in whatever its part goes on with."""
    return f" in {going_on(shawl)}" if mark is shawl.marks.bind_off_by else ""


def _spare_note(shawl: Shawl) -> list[str]:
    """The yarn to spare where not the yarn but the planned end decides when to bind off."""
    mark, yarn = shawl.marks.bind_off_by, shawl.yarn
    spare_g = yarn.left_g - yarn.keep_g
    ends = mark is not None and not _is_beyond(mark, shawl) and mark.row >= shawl.rows.count - 1
    if not ends or spare_g <= 2 * yarn.last_ridge_g:
        return []
    kept = f", {grams(yarn.keep_g)} g of them kept back" if yarn.keep_g > 0 else ""
    return [f"The piece ends with row {shawl.rows.count:,}: {grams(yarn.left_g)} g are left{kept}."]


def _is_beyond(mark: Mark, shawl: Shawl) -> bool:
    return mark.beyond or mark.row > shawl.rows.count
