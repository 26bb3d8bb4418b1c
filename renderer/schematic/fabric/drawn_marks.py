"""The rows that a knitter must know (half the yarn, bind off, turn back), their words, the piece's end, and notes."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.phrases import going_on, one_more_short, turns_as_planned
from halfhank.model.shawl import Mark, Shawl
from halfhank.renderer.paper.house_style import MARK_WIDTH, RED, SOFT
from halfhank.renderer.paper.measure_words import mass, on_scale_words
from halfhank.renderer.paper.scene import Style

DASHED = Style(stroke=RED, width=MARK_WIDTH, dash=(3.2, 1.5))
DOTTED = Style(stroke=RED, width=MARK_WIDTH + 0.15, dash=(0.0, 1.7), cap="round")

LATEST = " at the latest"
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
    half = f"half of {mass(shawl.yarn.total_g, unit)}"
    turns = turns_as_planned(shawl)
    turn, latest_turn = ("turn back", "") if turns else ("turn back at the latest", LATEST)
    middle = _middle_part(shawl) if turns else ""
    turn = f"{middle}, then turn back" if middle and len(middle) <= LONGEST_ON_SKEIN else turn
    candidates = [
        ("half", half, "half of this shawl's yarn:", "", marks.halfway, DASHED),
        ("turn-back", turn, "turn back", latest_turn, marks.turn_back, DOTTED),
        ("bind-off", "bind off at the latest", "bind off", LATEST, _bind_off_inside(shawl), DOTTED),
    ]
    drawn = []
    for kind, name, words, latest, mark, style in candidates:
        if mark is not None and not mark.beyond and 1 <= mark.row <= shawl.rows.count:
            row, rest = f"after row {mark.row:,}{latest}", on_scale_words(mark.left_g, unit)
            lines = (words, f"{row}, {rest}") if kind == "half" else (f"{words} {row},", rest)
            lines = (f"{row}, {rest}:", f"work {middle}, then turn back") if kind == "turn-back" and middle else lines
            on_skein_g = shawl.yarn.skein_g - shawl.yarn.total_g / 2 if kind == "half" else mark.left_g
            drawn.append(DrawnMark(kind, name, mark.row, mark.left_g, on_skein_g, " ".join(lines), lines, style))
    return drawn


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
    bind_off = " and the bind-off" if shawl.yarn.bind_off_g >= 0.05 else ""
    lines = (f"ends after row {row:,}{bind_off},", f"{mass(max(left_g, 0.0), shawl.skein.unit)} left over")
    return [DrawnMark("end", "end", row, left_g, left_g, " ".join(lines), lines, Style(stroke=SOFT), SOFT)]


def mark_notes(shawl: Shawl) -> list[str]:
    """Notes on rows that could be worked past the planned end, and on yarn that does not last."""
    mark, notes = shawl.marks.bind_off_by, []
    if mark is not None and mark.row > shawl.rows.count:
        rows = mark.row - shawl.rows.count
        short = f", not for {unit}" if (unit := one_more_short(shawl)) else ""
        notes.append(f"Enough yarn for {rows:,} more {going_on(shawl)} {'row' if rows == 1 else 'rows'}{short}.")
    if shawl.yarn.left_g < -0.05:
        notes.append(f"Not enough yarn: {mass(-shawl.yarn.left_g, shawl.skein.unit)} short.")
    return notes
