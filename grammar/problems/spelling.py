"""Spelling: which word a misspelt one was most likely meant to be."""

from functools import cache

_MAX_GUESSED = 30


@cache
def nearest(word: str, options: tuple[str, ...]) -> str | None:
    """The option that a misspelt word most likely meant, None where none is near."""
    for option in options:
        if option.casefold() == word.casefold():
            return option
    if len(word) < 2 or len(word) > _MAX_GUESSED:
        return None
    from difflib import get_close_matches

    close = get_close_matches(word.casefold(), options, n=1, cutoff=0.7)
    return close[0] if close else None


def nearest_opener(word: str) -> bool:
    """Whether a line inside a block that starts with this word opens a block: `repeat`, or `repeat` misspelt."""
    return word == "repeat" or (word not in ("repeats", "report") and nearest(word, ("repeat",)) is not None)
