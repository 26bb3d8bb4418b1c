"""The abbreviations that the instructions use, in alphabetical order, each with how it is worked."""

import re
from collections.abc import Iterable, Iterator

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, Work
from halfhank.model.instructions.abbreviations import abbreviation
from halfhank.model.instructions.rows.terms import cable_words
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection
from halfhank.model.words.catalogue import said, say, say_one_of

_ITEMS = (
    *("k", "p", "yo", "k2tog", "ssk", "p2tog", "ssp", "k3tog", "sssk", "p3tog", "sssp", "s2kp", "s2pp", "sk2p"),
    *("kfb", "pfb", "M1", "M1L", "M1R", "M1LP", "M1RP", "yo twice", "sl", "tbl", "wyif"),
)
_WORDS = ("st", "rep", "sm", "RS", "WS")
_NUMBERED = {"bind off": "bind off N", "cast on": "cast on N"}


def abbreviation_section(text: str, items: Iterable[Item]) -> ReportSection:
    """Those of a `text`, and what the `items` of its rows have that has no abbreviation of its own."""
    found = {**dict(_in_text(text)), **dict(_in_items(items))}
    lines = [ListItem(found[name], lead=name) for name in sorted(found, key=lambda name: (name.casefold(), name))]
    return ReportSection(said("abbreviations.heading"), (ListBlock(tuple(lines)),))


def _in_text(text: str) -> Iterator[tuple[str, Content]]:
    for name in _ITEMS:
        if _stands_in(name, text):
            yield name, say_one_of("item", name.lower())
    for name in _WORDS:
        if _stands_in(name, text):
            yield "st(s)" if name == "st" else name, say_one_of("how", name)
    if re.search(r"\[[^\]]+\] ", text):
        yield "[ ]", say("how.brackets")


def _stands_in(name: str, text: str) -> bool:
    """Whether a text has an abbreviation, with a number where it may have one, small or with a capital."""
    pattern = {"k": r"k\d*", "p": r"p\d*", "sl": r"sl(?= \d)", "st": "sts?"}.get(name, name)
    first = pattern[0].upper() + pattern[1:]
    return re.search(rf"\b(?:{pattern}|{first})(?![\w-])", text) is not None


def _in_items(items: Iterable[Item]) -> Iterator[tuple[str, Content]]:
    for item in items:
        match item:
            case Times(inner) | Across(inner):
                yield from _in_items(inner)
            case InOne(inner, _):
                yield "( )", say("how.in-one")
                yield from _in_items(inner)
            case Cable():
                yield abbreviation(item), cable_words(item)
            case Work(kind) if kind in _NUMBERED:
                yield _NUMBERED[kind], say_one_of("item", kind)
