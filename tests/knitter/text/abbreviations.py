"""The section that explains the abbreviations: every term that is used is in it, and nothing else."""

import re

from tests.knitter.refusal import RefusedError, at, needed
from tests.knitter.text.items import COUNTED, LIFTED, MEANINGS

PLAIN = frozenset({"whole row", "twice", "RS", "WS", "st", "sts"})
"""Terms that may be explained and need not be: plain words, and what every pattern page has."""

_TERMS = frozenset(
    {
        *MEANINGS,
        *LIFTED,
        *PLAIN,
        *("sl", "yo", "[ ] N times", "[ ] in N", "with N wraps", "tbl", "wyif", "slN back", "pass over"),
        *("drop wraps", "bind off N", "cast on N", "cast on N to the left needle", "work N in NAME"),
    }
)
_CABLE = re.compile(r"[1-9]\d*/[1-9]\d* (rc|lc)")


def term(key: str) -> str:
    """The term that a key explains: a number in it, `N` or `…` is any number."""
    if key in _TERMS or _CABLE.fullmatch(key):
        return key
    if key in ("knit", "purl"):
        return "whole row"
    if key == "yo twice":
        return "twice"
    some = re.sub(r"\b\d+\b|…|(?<=sl)\d+", "N", key)
    if some.removesuffix("N") in COUNTED:
        return some.removesuffix("N")
    for known in (some, f"{some} N", re.sub(r"^work N in .+$", "work N in NAME", some)):
        if known in _TERMS:
            return known
    raise RefusedError(f"`{key}` is no abbreviation that a knitter knows")


def read_abbreviations(lines: list[str]) -> set[str]:
    """The terms that the section explains."""
    found: set[str] = set()
    for line in lines:
        with at(f"Abbreviations, `{line}`"):
            key, colon, words = line.partition(": ")
            needed(bool(colon and words.strip()), "no explanation")
            needed(term(key) not in found, "explained twice")
            found.add(term(key))
    return found


def check_terms(explained: set[str], used: set[str]) -> None:
    """Refuses what is used and not explained, and what is explained in vain."""
    with at("Abbreviations"):
        missing, idle = sorted(used - explained - PLAIN), sorted(explained - used)
        needed(not missing, f"not explained: {', '.join(missing)}")
        needed(not idle, f"explained in vain: {', '.join(idle)}")
