"""A run of text as a page shows it: units kept with their figures, true signs and dashes, and nothing that HTML cannot
hold."""

import re

from halfhank.grammar.source_text.characters import is_refused
from halfhank.model.report_tree import Content, Value
from halfhank.renderer.paper.scripts.directions import with_isolates

NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=%|(?:g|oz|m|yd|mm|cm|in|sts?|rows?)\b)")
_SIGNS = {" x ": f"{NO_BREAK}× ", "-": "–"}
"""What stands between two values, as it is set: a size, or the first and the last of a range."""
_OVERRIDES = re.compile("[\u202a-\u202e]")
"""Embeddings and overrides of direction: the text around them would run on in theirs."""
_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w|\s|$)")
_FOREIGN = "\ufffd"


def html_text(text: Content) -> str:
    """The words of a run of text, as they are set on a page."""
    return set_words("".join(_piece(text, place) for place in range(len(text))))


def _piece(text: Content, place: int) -> str:
    piece = text[place]
    if isinstance(piece, Value):
        return piece.words
    between = 0 < place < len(text) - 1 and isinstance(text[place - 1], Value) and isinstance(text[place + 1], Value)
    return _SIGNS.get(piece, piece) if between else piece


def set_words(words: str) -> str:
    """Words with typographic apostrophes and units kept with their figures, those that run leftwards isolated."""
    return with_isolates(_APOSTROPHE.sub("’", _UNIT.sub(NO_BREAK, held(words))))


def held(words: str) -> str:
    """Words without what XML and HTML forbid, and without what turns the direction of the text around them."""
    kept = words if words.isprintable() else "".join(_FOREIGN if is_refused(char) else char for char in words)
    return _OVERRIDES.sub("", kept)
