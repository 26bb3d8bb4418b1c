"""The second wing: rows worked as the mirror image of the first."""

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, Work
from halfhank.model.stitches.pattern import Pattern, PatternRow

_TWINS = {"k2tog": "ssk", "p2tog": "ssp", "k3tog": "sssk", "p3tog": "sssp", "m1l": "m1r", "m1lp": "m1rp"}
_TWINS |= {twin: item for item, twin in _TWINS.items()}
# These lean, and the notation has no mirror image of the same make: the one that leans the other way is used.
_STAND_INS = {"sk2p": "k3tog"}


def mirrored(pattern: Pattern) -> Pattern:
    """The pattern with every row in reverse order and every lean turned round."""
    return pattern._replace(rows=tuple(_row(row) for row in pattern.rows))


def stand_ins(pattern: Pattern) -> tuple[str, ...]:
    """Items whose mirror image is not exact, in order of appearance."""
    found: dict[str, None] = {}
    for row in pattern.rows:
        found.update(dict.fromkeys(kind for kind in _kinds(row.items) if kind in _STAND_INS))
    return tuple(found)


def _kinds(items: tuple[Item, ...]) -> list[str]:
    kinds: list[str] = []
    for item in items:
        if isinstance(item, Work):
            kinds.append(item.kind)
        elif isinstance(item, Times | InOne | Across):
            kinds += _kinds(item.items)
    return kinds


def _row(row: PatternRow) -> PatternRow:
    tally = row.tally._replace(before=row.tally.after, after=row.tally.before) if row.across else row.tally
    return row._replace(items=_row_reversed(row.items), tally=tally)


def _row_reversed(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """A row's items from its other end; wraps are dropped throughout it, which stays said first."""
    if isinstance(items[0], Work) and items[0].kind == "drop wraps":
        return (items[0], *_reversed(items[1:]))
    return _reversed(items)


def _reversed(items: tuple[Item, ...]) -> tuple[Item, ...]:
    return tuple(_item(item) for item in reversed(items))


def _item(item: Item) -> Item:
    match item:
        case Work(kind):
            return item._replace(kind=_TWINS.get(kind, _STAND_INS.get(kind, kind)))
        case Cable():
            return item._replace(turn="lc" if item.turn == "rc" else "rc")
        case Times() | InOne() | Across():
            return item._replace(items=_reversed(item.items))
    return item
