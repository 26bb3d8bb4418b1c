"""Arabic letters in the forms that they take beside each other, for what draws one character after the other.

Unicode holds these forms as characters (Arabic Presentation Forms A and B); which letters join, and how, is read from
their decompositions there.
"""

import unicodedata
from functools import cache

_BLOCKS = ((0xFB50, 0xFBFF), (0xFE70, 0xFEFC))
_TRANSPARENT = "NSM"
TATWEEL = "\u0640"


@cache
def _forms() -> dict[str, dict[str, str]]:
    """Letter, or the letters of a ligature, to its form at each place: isolated, initial, medial, final."""
    found: dict[str, dict[str, str]] = {}
    for first, last in _BLOCKS:
        for code in range(first, last + 1):
            parts = unicodedata.decomposition(chr(code)).split()
            letters = "".join(chr(int(part, 16)) for part in parts[1:])
            if len(letters) == 1 or (len(letters) == 2 and letters[0] == "\u0644"):
                found.setdefault(letters, {}).setdefault(parts[0].strip("<>"), chr(code))
    return found


def joined(text: str) -> str:
    """The text, in reading order, with each Arabic letter in the form that it has between its neighbours."""
    if not any("\u0600" <= c <= "\u06ff" for c in text):
        return text
    letters = _ligated(text)
    return "".join(_formed(letters, at) for at in range(len(letters)))


def _ligated(text: str) -> list[str]:
    """The letters, lam and alef as one."""
    letters: list[str] = []
    for character in text:
        if letters and letters[-1] == "\u0644" and "isolated" in _forms().get(letters[-1] + character, {}):
            letters[-1] += character
        else:
            letters.append(character)
    return letters


def _formed(letters: list[str], at: int) -> str:
    forms = _forms().get(letters[at])
    if forms is None:
        return letters[at]
    before, after = _neighbour(letters, at, -1), _neighbour(letters, at, 1)
    from_before = "final" in forms and _reaches_on(before)
    to_after = "initial" in forms and _is_reached(after)
    place = {(False, False): "isolated", (True, False): "final", (False, True): "initial", (True, True): "medial"}
    return forms.get(place[from_before, to_after], letters[at])


def _neighbour(letters: list[str], at: int, step: int) -> str:
    """The next letter on one side, marks passed by; empty at the end."""
    at += step
    while 0 <= at < len(letters) and unicodedata.bidirectional(letters[at][0]) == _TRANSPARENT:
        at += step
    return letters[at] if 0 <= at < len(letters) else ""


def _reaches_on(letter: str) -> bool:
    return letter == TATWEEL or "initial" in _forms().get(letter, {})


def _is_reached(letter: str) -> bool:
    return letter == TATWEEL or "final" in _forms().get(letter, {})
