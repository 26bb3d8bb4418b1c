"""How wide a text is, before any font is at hand: measuring, wrapping, cutting with an ellipsis. Lengths in mm."""

from halfhank.renderer.paper.advances import SANS, SANS_BOLD, SERIF
from halfhank.renderer.paper.scene import Label

ASCENT, DESCENT = 0.9, 0.25
"""Height of accented capitals and depth of descenders, in ems: what `text_box` allows above and below the baseline."""
CAP_HEIGHT = 0.716
"""Height of Helvetica's capitals and figures, in ems: what centres a figure in a badge."""
ELLIPSIS = "…"
_OUTSIDE = 1.0
_VERY_WIDE = {"\u2e3a": 2.0, "\u2e3b": 3.0, "\ufdfa": 2.0, "\ufdfb": 2.0, "\ufdfd": 8.0}


def _ems(groups: dict[int, str]) -> dict[str, float]:
    return {character: width / 1000 for width, characters in groups.items() for character in characters}


_REGULAR, _BOLD, _SERIF = _ems(SANS), _ems(SANS_BOLD), _ems(SERIF)


def text_width(text: str, size: float, face: str = "sans", bold: bool = False) -> float:
    """Advance width of one line; a character outside the tables counts one em, more than nearly every one takes."""
    ems = _SERIF if face == "serif" else _BOLD if bold else _REGULAR
    try:
        return size * sum([ems[c] for c in text])
    except KeyError:
        return size * sum([ems.get(c) or _VERY_WIDE.get(c, _OUTSIDE) for c in text])


def fit(text: str, width: float, size: float, face: str = "sans", bold: bool = False) -> str:
    """The text, or as much of it as fits the width with an ellipsis; empty where not even that fits."""
    if text_width(text, size, face, bold) <= width:
        return text
    room = width - text_width(ELLIPSIS, size, face, bold)
    if room < 0:
        return ""
    end = 0
    while (room := room - text_width(text[end], size, face, bold)) >= 0:
        end += 1
    return text[:end].rstrip() + ELLIPSIS


def wrap(text: str, width: float, size: float, lines: int, face: str = "sans", bold: bool = False) -> list[str]:
    """The text in at most so many lines, broken at spaces, too long words anywhere; an ellipsis for the rest."""
    done: list[str] = []
    rest = " ".join(text.split())
    while rest and len(done) < lines - 1:
        line = _first_line(rest, width, size, face, bold)
        done.append(line)
        rest = rest[len(line) :].lstrip()
    return [*done, fit(rest, width, size, face, bold)] if rest else done


def _first_line(text: str, width: float, size: float, face: str, bold: bool) -> str:
    """The longest beginning that fits the width: whole words, else characters, at least one."""
    used, last_space = 0.0, 0
    for end, character in enumerate(text):
        if character == " ":
            last_space = end
        used += text_width(character, size, face, bold)
        if used > width:
            return text[: last_space or max(end, 1)]
    return text


def label_width(label: Label) -> float:
    """Width of a label as it will be drawn."""
    return text_width(label.text, label.size, label.face, label.bold)
