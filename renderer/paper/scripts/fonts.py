"""Which font of this machine has the letters of a text, for PNG and PDF: cairo's plain texts look in one font alone.

Asks cairo for the glyphs of the drawing's own faces, then of some families that hold many scripts, then of the families
that fontconfig lists for the letter. cairocffi is imported only when one of them is asked for.
"""

import unicodedata
from functools import cache
from typing import Any

from halfhank.grammar.record import NamedTuple

OWN = {"sans": "Helvetica", "serif": "Times"}
"""The first family of each face, which cairo is given."""
MANY_SCRIPTS = ("DejaVu Sans", "Noto Sans", "Arial Unicode MS")
SCRIPT_NAMES = {"CJK": "Han"}
_SECONDS = 10


class FontRun(NamedTuple):
    """Letters of one text that one family has; `family` is None where no font of the machine has them."""

    text: str
    family: str | None


def font_runs(text: str, face: str, bold: bool) -> list[FontRun]:
    """The text, in the order of drawing, cut where another font is needed; spaces go on with what is before."""
    runs: list[FontRun] = []
    for character in text:
        family = _family_with(character, face, bold)
        if runs and (character == " " or family == runs[-1].family or unicodedata.combining(character)):
            runs[-1] = FontRun(runs[-1].text + character, runs[-1].family)
        else:
            runs.append(FontRun(character, family))
    return runs


def script_of(character: str) -> str:
    """The name of a letter's script, `Arabic`, `Han`, as the first word of its name in Unicode has it."""
    word = unicodedata.name(character, "unknown").split()[0]
    return SCRIPT_NAMES.get(word, word.capitalize())


def drawn_width(text: str, family: str, bold: bool, size: float) -> float:
    """Advance width of a text in cairo's measure."""
    return float(_font(family, bold).text_extents(text)[4]) * size / _EM


@cache
def _family_with(character: str, face: str, bold: bool) -> str | None:
    known = (OWN[face], *MANY_SCRIPTS)
    found = next((family for family in known if _has(family, bold, character)), None)
    return found or next((family for family in _listed(character) if _has(family, bold, character)), None)


_EM = 1000.0


@cache
def _font(family: str, bold: bool) -> Any:
    """A cairo font of 1000 units an em, without hinting."""
    import cairocffi

    weight = cairocffi.FONT_WEIGHT_BOLD if bold else cairocffi.FONT_WEIGHT_NORMAL
    options = cairocffi.FontOptions(hint_style=cairocffi.HINT_STYLE_NONE, hint_metrics=cairocffi.HINT_METRICS_OFF)
    return cairocffi.ScaledFont(
        cairocffi.ToyFontFace(family, weight=weight), cairocffi.Matrix(_EM, 0, 0, _EM, 0, 0), options=options
    )


def _has(family: str, bold: bool, character: str) -> bool:
    """Whether cairo finds a glyph: number 0 is the box that stands for a missing one."""
    return all(index != 0 for index, _, _ in _font(family, bold).text_to_glyphs(0, 0, character, False))


@cache
def _listed(character: str) -> tuple[str, ...]:
    """Families that have the character by fontconfig's list, in alphabetical order; none where it is not installed."""
    import subprocess

    command = ["fc-list", f":charset={ord(character):x}", "family"]
    try:
        found = subprocess.run(command, capture_output=True, text=True, timeout=_SECONDS, check=True).stdout
    except (OSError, subprocess.SubprocessError, UnicodeError):
        return ()
    return tuple(sorted({line.split(",")[0].strip() for line in found.splitlines() if line.strip()}))
