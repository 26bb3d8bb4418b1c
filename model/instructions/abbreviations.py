"""Items in the trade's usual abbreviations, as pattern pages and chart keys print them.

The forms are those of the common abbreviation lists (Craft Yarn Council, from memory): lower case but for `M1`, `M1L`
and its kin and the cables' `RC` and `LC`; square brackets for what is repeated, round ones for what is worked in one
place.
"""

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, WholeRow, Work
from halfhank.grammar.items import ITEMS
from halfhank.model.report_tree import words_of
from halfhank.model.words.catalogue import said, say_one_of

_UPPER = {"m1": "M1", "m1l": "M1L", "m1r": "M1R", "m1lp": "M1LP", "m1rp": "M1RP"}
_COUNTED = frozenset({"k", "p"})


def abbreviation(item: Item) -> str:
    """One item as written instructions have it, the part between the stars without its stars."""
    match item:
        case WholeRow(kind):
            return kind
        case Cable(first, second, turn):
            return f"{first}/{second} {turn.upper()}"
        case Times(items, times):
            return f"[{listed(items)}] {repeated(times)}"
        case InOne(items, stitches):
            place = "next st" if stitches == 1 else f"next {stitches} sts together"
            return f"({listed(items)}) in {place}"
        case Across(items):
            return listed(items)
        case Work():
            return _work(item)
    raise TypeError(f"no item: {type(item).__name__}")


def listed(items: tuple[Item, ...]) -> str:
    """Several items, separated by commas."""
    return ", ".join(abbreviation(item) for item in items)


def repeated(times: int) -> str:
    """How often, in words."""
    return {1: "once", 2: "twice"}.get(times, f"{times} times")


def _work(item: Work) -> str:
    name = _UPPER.get(item.kind, item.kind)
    if item.kind in _COUNTED:
        name += str(item.count)
    elif item.kind == "sl" or ITEMS[item.kind].numbered:
        name += f" {item.count}"
    return name + _modifiers(item)


def _modifiers(item: Work) -> str:
    said = " tbl" if item.tbl else " wyif" if item.wyif else " twice" if item.twice else ""
    return said + (f" wrapping yarn {repeated(item.wraps)}" if item.wraps > 1 else "")


def key_abbreviation(item: Item) -> str:
    """One stitch's item as a chart's key has it, without its number."""
    if isinstance(item, Work) and (item.kind in (*_COUNTED, "sl") or ITEMS[item.kind].numbered):
        return item.kind + _modifiers(item)
    return abbreviation(item)


def explained(item: Item) -> str:
    """What to do, in words."""
    match item:
        case Work():
            return _work_words(item)
        case Cable():
            return _cable_words(item)
        case InOne(items, stitches):
            return said("key.in-one", count=len(items), stitches=stitches)
    return abbreviation(item)


def _work_words(item: Work) -> str:
    words = words_of(say_one_of("key-item", item.kind))
    if item.tbl:
        words = said("key.tbl", words=words)
    elif item.wyif:
        words = said("key.wyif", words=words)
    return said("key.wraps", words=words, wraps=item.wraps) if item.wraps > 1 else words


def _cable_words(item: Cable) -> str:
    """`first` over `second`: the front group comes from the left in RC, from the right in LC."""
    if item.turn == "rc":
        return said("key.held-at-back", held=item.second, worked=item.first)
    return said("key.held-in-front", held=item.first, worked=item.second)
