"""Items as working notation, as `halfhank.grammar.reading` reads them."""

from collections.abc import Iterable

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, WholeRow, Work
from halfhank.model.instructions.rows.segments import WORK

_SPACED = frozenset({"bind off", "cast on"})


def notation(items: Iterable[Item]) -> str:
    """`k3, m1r, [yo, k2tog] 14 times, k3`."""
    return ", ".join(map(_written, items))


def _written(item: Item) -> str:
    match item:
        case WholeRow(kind):
            return kind
        case Cable(first, second, turn):
            return f"{first}/{second} {turn}"
        case Times(items, times):
            return f"[{notation(items)}] {times} {'time' if times == 1 else 'times'}"
        case InOne(items, stitches):
            return f"[{notation(items)}] in {stitches}"
        case Across(items):
            return f"*{notation(items)}*"
        case Work():
            return _work(item)
    raise TypeError(f"no item: {type(item).__name__}")


def _work(item: Work) -> str:
    if item.kind.startswith(f"{WORK} "):
        return f"{WORK} {item.count} in {item.kind.removeprefix(f'{WORK} ')}"
    count = f" {item.count}" if item.kind in _SPACED else f"{item.count}" if item.kind in ("k", "p", "sl") else ""
    said = " tbl" if item.tbl else " wyif" if item.wyif else " twice" if item.twice else ""
    return f"{item.kind}{count}{said}" + (f" with {item.wraps} wraps" if item.wraps > 1 else "")
