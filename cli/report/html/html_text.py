"""A run of text as a page shows it: units kept with their figures, true signs and dashes, and nothing that HTML cannot
hold."""

import re

from halfhank.grammar.source_text.characters import is_refused
from halfhank.model.report_tree import Content, Value
from halfhank.renderer.paper.scripts.directions import with_isolates

NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=%|(?:g|oz|m|yd|mm|cm|in|sts?|rows?)\b)")
_BRACKETS = re.compile(r"\([^()]{1,14}\)|\[[^][]{1,20}\]")
_PAIRS = re.compile(
    r"(?<=\b[Rr]ow) (?=\d)|(?<=\b[Rr]ows) (?=\d)|(?<=\bfrom) (?=\*)|(?<=\d) (?=(?:times|repeats?|ridges?|wraps?)\b)"
)
"""What no line's end cuts: short brackets; a row and its number, a count and its word."""
_SIGNS = {" x ": f"{NO_BREAK}× ", "-": "–"}
"""What stands between two values, as it is set: a size, or the first and the last of a range."""
_TIMES = re.compile(r"(?<=\d) x (?=\d)|(?<=\bsts) x (?=\d)")
_OVERRIDES = re.compile("[\u202a-\u202e]")
"""Embeddings and overrides of direction: the text around them would run on in theirs."""
_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w|\s|$)")
_FOREIGN = "\ufffd"


def html_text(text: Content) -> str:
    """The words of a run of text, as they are set on a page."""
    words = "".join(_piece(text, place) for place in range(len(text)))
    return set_words(_TIMES.sub(_SIGNS[" x "], words))


def _piece(text: Content, place: int) -> str:
    piece = text[place]
    if isinstance(piece, Value):
        return piece.words
    between = 0 < place < len(text) - 1 and isinstance(text[place - 1], Value) and isinstance(text[place + 1], Value)
    return _SIGNS.get(piece, piece) if between else piece


def set_words(words: str) -> str:
    """Words with typographic apostrophes and units kept with their figures, those that run leftwards isolated."""
    return with_isolates(curled(_whole(_UNIT.sub(NO_BREAK, held(words)))))


def _whole(words: str) -> str:
    """Words with what is not cut held together."""
    joined = _BRACKETS.sub(lambda found: found[0].replace(" ", NO_BREAK), words)
    return _PAIRS.sub(NO_BREAK, joined)


def curled(words: str) -> str:
    """Words with typographic apostrophes."""
    return _APOSTROPHE.sub("’", words)


def held(words: str) -> str:
    """Words without what XML and HTML forbid, and without what turns the direction of the text around them."""
    kept = words if words.isprintable() else "".join(_FOREIGN if is_refused(char) else char for char in words)
    return _OVERRIDES.sub("", kept)
