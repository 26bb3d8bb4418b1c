"""A language that nobody speaks: English in letters of another script, so that words from elsewhere are seen."""

import re
import string

from halfhank.model.words.english import ENGLISH
from halfhank.model.words.templates import Forms, Language, Template, pieces

_OTHERS = str.maketrans(
    string.ascii_letters,
    "".join(map(chr, range(ord("а"), ord("а") + 26))) + "".join(map(chr, range(ord("А"), ord("А") + 26))),
)
"""A Cyrillic letter, small or large, for each of English: widths are known of these, and lines break between them."""
LETTERS = re.compile(r"[A-Za-z]+(?:[-'’][A-Za-z]+)*")
"""What no sentence of this language has."""


def in_other_letters(words: str) -> str:
    """Words in the letters of this language."""
    return words.translate(_OTHERS)


def _text(text: str) -> str:
    found = ""
    for words, field in pieces(text):
        found += in_other_letters(words).replace("{", "{{").replace("}", "}}")
        found += "" if field is None else f"{{{field}}}"
    return found


def _template(template: Template) -> Template:
    if isinstance(template, str):
        return _text(template)
    return Forms(template.by, {name: _text(text) for name, text in template.by_category.items()})


PSEUDO = Language(
    "en-x-pseudo",
    {key: _template(template) for key, template in ENGLISH.templates.items()},
    ENGLISH.category,
    ENGLISH.categories,
    lambda number: in_other_letters(ENGLISH.ordinal(number)),
)
