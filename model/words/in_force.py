"""The language in which everything is said: English where none is chosen."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from halfhank.model.words.english_drawings import DRAWINGS
from halfhank.model.words.english_plurals import category
from halfhank.model.words.templates import Forms, Language, Template

_chosen: Language | None = None


def language() -> Language:
    """The language in force, with all its templates."""
    if _chosen is not None:
        return _chosen
    from halfhank.model.words.english import ENGLISH

    return ENGLISH


def drawn_templates() -> Mapping[str, Template]:
    """The templates in which drawings find theirs: of English those alone, as every drawing waits for them."""
    return DRAWINGS if _chosen is None else _chosen.templates


def form(template: Forms, number: float) -> str:
    """The form of the template that goes with the number."""
    return template.by_category[(category if _chosen is None else _chosen.category)(number)]


@contextmanager
def speaking(chosen: Language) -> Iterator[None]:
    """Say everything in that language inside the block.

    Plans and reports keep the words with which they were made: make them inside the block too.
    """
    global _chosen
    before, _chosen = _chosen, chosen
    try:
        yield
    finally:
        _chosen = before
