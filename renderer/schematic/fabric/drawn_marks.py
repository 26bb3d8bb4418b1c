"""The rows that a knitter must know (half the yarn, bind off, turn back), their words, the piece's end, and notes."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.phrases import going_on, one_more_short, turns_as_planned
from halfhank.model.shawl import Mark, Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import MARK_WIDTH, RED, SOFT
from halfhank.renderer.paper.measure_words import mass, on_scale_words
from halfhank.renderer.paper.scene import Style

DASHED = Style(stroke=RED, width=MARK_WIDTH, dash=(3.2, 1.5))
DOTTED = Style(stroke=RED, width=MARK_WIDTH + 0.15, dash=(0.0, 1.7), cap="round")

LONGEST_ON_SKEIN = 12
"""Letters of a part's name at most, so that it stands above the skein with what is done after it."""


class DrawnMark(NamedTuple):
    """A mark as a line: its `kind`, `name` on the ruler, what is on the scale after its row and at its
    place on the ruler, `words` on its flag (or in two `lines`), `style` of its stroke, `ink` of its words."""

    kind: str
    name: str
    row: int
    left_g: float
    on_skein_g: float
    words: str
    lines: tuple[str, str]
    style: Style
    ink: str = RED


def drawn_marks(shawl: Shawl) -> list[DrawnMark]:
    """The marks inside the fabric, the most important last. On the skein the half is where half of the shawl's yarn is
    used, which may be inside a row.

    The row to bind off after is one of them only where the plan goes on behind it. The row to turn back after is the
    latest for that, or the plan's own.
    """
    marks, unit = shawl.marks, shawl.skein.unit
    candidates = [
        ("half", phrase("mark.half-of", mass=mass(shawl.yarn.total_g, unit)), _half_lines, marks.halfway, DASHED),
        ("turn-back", _turn_name(shawl), _turn_lines, marks.turn_back, DOTTED),
        ("bind-off", phrase("mark.bind-off-latest"), _bind_off_lines, _bind_off_inside(shawl), DOTTED),
    ]
    drawn = []
    for kind, name, words, mark, style in candidates:
        if mark is not None and not mark.beyond and 1 <= mark.row <= shawl.rows.count:
            lines = words(shawl, mark.row, on_scale_words(mark.left_g, unit))
            on_skein_g = shawl.yarn.skein_g - shawl.yarn.total_g / 2 if kind == "half" else mark.left_g
            drawn.append(DrawnMark(kind, name, mark.row, mark.left_g, on_skein_g, " ".join(lines), lines, style))
    return drawn


def _half_lines(_: Shawl, row: int, rest: str) -> tuple[str, str]:
    return phrase("mark.half"), phrase("mark.after-row", row=row, rest=rest)


def _bind_off_lines(_: Shawl, row: int, rest: str) -> tuple[str, str]:
    return phrase("mark.bind-off-after-latest", row=row), rest


def _turn_lines(shawl: Shawl, row: int, rest: str) -> tuple[str, str]:
    """Where the plan turns back so, with the part that is worked before; else the latest row for it."""
    if not turns_as_planned(shawl):
        return phrase("mark.turn-back-after-latest", row=row), rest
    middle = _middle_part(shawl)
    if middle:
        return phrase("mark.then", row=row, rest=rest), phrase("mark.work-then-turn-back", part=middle)
    return phrase("mark.turn-back-after", row=row), rest


def _turn_name(shawl: Shawl) -> str:
    """What stands on the skein where the plan turns back, or may do so at the latest."""
    if not turns_as_planned(shawl):
        return phrase("mark.turn-back-latest")
    middle = _middle_part(shawl)
    short = middle and len(middle) <= LONGEST_ON_SKEIN
    return phrase("mark.then-turn-back", part=middle) if short else phrase("mark.turn-back")


def _middle_part(shawl: Shawl) -> str:
    """The part between both halves, which is worked once; empty without one."""
    middle = [part.name for part in shawl.parts[sum(part.mirrored for part in shawl.parts) :] if not part.mirrored]
    return middle[0] if middle else ""


def _bind_off_inside(shawl: Shawl) -> Mark | None:
    """The row to bind off after, where the plan has another right-side and wrong-side row behind it."""
    mark = shawl.marks.bind_off_by
    return mark if mark is not None and mark.row < shawl.rows.count - 1 else None


def end_flags(shawl: Shawl) -> list[DrawnMark]:
    """What is left over at the end, quietly; nothing where the yarn does not last so far, which is marked."""
    row, left_g = shawl.rows.count, shawl.yarn.left_g
    if left_g < -0.05 or _bind_off_inside(shawl) is not None:
        return []
    ends = phrase("mark.ends-bound-off" if shawl.yarn.bind_off_g >= 0.05 else "mark.ends", row=row)
    lines = (ends, phrase("mark.left-over", mass=mass(max(left_g, 0.0), shawl.skein.unit)))
    return [DrawnMark("end", "end", row, left_g, left_g, " ".join(lines), lines, Style(stroke=SOFT), SOFT)]


def mark_notes(shawl: Shawl) -> list[str]:
    """Notes on rows that could be worked past the planned end, and on yarn that does not last."""
    mark, notes = shawl.marks.bind_off_by, []
    if mark is not None and mark.row > shawl.rows.count:
        rows, stitch, unit = mark.row - shawl.rows.count, going_on(shawl), one_more_short(shawl)
        if unit:
            notes.append(phrase("note.enough-not-for", count=rows, stitch=stitch, unit=unit))
        else:
            notes.append(phrase("note.enough", count=rows, stitch=stitch))
    if shawl.yarn.left_g < -0.05:
        notes.append(phrase("note.not-enough", mass=mass(-shawl.yarn.left_g, shawl.skein.unit)))
    return notes
