"""How wide a text is, before any font is at hand: measuring, wrapping, cutting, setting titles. Lengths in mm."""

import unicodedata
from functools import cache

from halfhank.renderer.paper.advances import SANS, SANS_BOLD, SERIF
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.paper.scripts import more_advances
from halfhank.renderer.paper.scripts.directions import closed

ASCENT, DESCENT = 0.9, 0.25
"""Height of accented capitals and depth of descenders, in ems: what `text_box` allows above and below the baseline."""
CAP_HEIGHT = 0.716
"""Height of Helvetica's capitals and figures, in ems: what centres a figure in a badge."""
ELLIPSIS = "…"
_OUTSIDE = 1.0
_OTHER_FONT = 1.25
"""A letter with a mark that the drawing's fonts may not have comes from another, wider one."""
_TITLE_STEPS = ((1.0, 2), (0.85, 2), (0.75, 2), (0.75, 3), (0.6, 3), (0.5, 3))
"""Sizes of a title as shares of its own, with the most lines at each."""
_BESIDE_THE_LINE = {"Mn": 0.2, "Me": 0.2, "Cf": 0.0}
"""Marks on letters, and characters that are not seen. A letter with a mark may come from another, wider font."""
_VERY_WIDE = {"\u2e3a": 2.0, "\u2e3b": 3.0, "\ufdfa": 2.0, "\ufdfb": 2.0, "\ufdfd": 8.0}


def _ems(groups: dict[int, str]) -> dict[str, float]:
    return {character: width / 1000 for width, characters in groups.items() for character in characters}


_REGULAR, _BOLD, _SERIF = _ems(SANS), _ems(SANS_BOLD), _ems(SERIF)


def _table(face: str, bold: bool) -> dict[str, float]:
    return _SERIF if face == "serif" else _BOLD if bold else _REGULAR


def text_width(text: str, size: float, face: str = "sans", bold: bool = False) -> float:
    """Advance width of one line.

    A character outside all tables counts one em, more than nearly every one takes; isolates count nothing.
    """
    ems = _table(face, bold)
    try:
        return size * sum([ems[c] for c in text])
    except KeyError:
        return size * sum([ems[c] if c in ems else _beyond(c, face, bold) for c in text])


def measured(text: str, face: str = "sans", bold: bool = False) -> bool:
    """Whether all characters are in the tables of the drawing's own fonts for Western Europe."""
    ems = _table(face if face == "serif" else "sans", bold)
    return all(c in ems for c in text)


def _beyond(character: str, face: str, bold: bool) -> float:
    """Width, in ems, of a character outside the first tables: by those for other alphabets, or that of its letter."""
    more = _more("SERIF" if face == "serif" else "SANS_BOLD" if bold else "SANS")
    if character in more:
        return more[character]
    kind = unicodedata.category(character)
    if kind in _BESIDE_THE_LINE:
        return _BESIDE_THE_LINE[kind]
    letter = unicodedata.normalize("NFD", character)[0]
    known = _table(face, bold).get(letter) or more.get(letter)
    return known * _OTHER_FONT if known and letter != character else _VERY_WIDE.get(character, _OUTSIDE)


@cache
def _more(name: str) -> dict[str, float]:
    return _ems(getattr(more_advances, name))


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
    return closed([text[:end].rstrip() + ELLIPSIS])[0]


def wrap(text: str, width: float, size: float, lines: int, face: str = "sans", bold: bool = False) -> list[str]:
    """The text in at most so many lines, broken at spaces; an ellipsis for the rest.

    Too long words are broken anywhere, with a hyphen between small letters.
    """
    done: list[str] = []
    rest = " ".join(text.split())
    while rest and len(done) < lines - 1:
        line, rest = _first_line(rest, width, size, face, bold)
        done.append(line)
    return closed([*done, fit(rest, width, size, face, bold)] if rest else done)


def title_lines(text: str, width: float, size: float, face: str = "serif") -> tuple[list[str], float]:
    """All of a title in lines of a width, and the size at which it is set: never cut.

    A long one is set smaller, in two lines and then in three, down to half the size; what is still too long has hyphens
    in its words and takes as many lines as it needs.
    """
    words = " ".join(text.split())
    for share, most in _TITLE_STEPS:
        whole = all(text_width(word, size * share, face) <= width for word in words.split(" "))
        lines = wrap(words, width, size * share, len(words) + 1, face)
        if whole and len(lines) <= most:
            break
    return lines, size * share


def _first_line(text: str, width: float, size: float, face: str, bold: bool) -> tuple[str, str]:
    """The longest beginning that fits the width, whole words, else characters, at least one; and the rest."""
    used, last_space = 0.0, 0
    for end, character in enumerate(text):
        if character == " ":
            last_space = end
        used += text_width(character, size, face, bold)
        if used > width:
            if last_space:
                return text[:last_space], text[last_space:].lstrip()
            return _broken(text, end, width, size, face, bold)
    return text, ""


def _broken(text: str, end: int, width: float, size: float, face: str, bold: bool) -> tuple[str, str]:
    """A word that fits to `end`, and the rest; with a hyphen where two small letters stand on each side of it."""
    at = end
    while at > 2 and text_width(text[:at] + "-", size, face, bold) > width:
        at -= 1
    if at > 2 and text[at - 2 : at + 2].islower() and text[at - 2 : at + 2].isalpha():
        return text[:at] + "-", text[at:]
    return text[: max(end, 1)], text[max(end, 1) :].lstrip()


def label_width(label: Label) -> float:
    """Width of a label as it will be drawn."""
    return text_width(label.text, label.size, label.face, label.bold)
