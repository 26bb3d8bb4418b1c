"""How an item looks from the right side of the fabric: what a chart shows, whichever side it was worked on.

Turning the fabric exchanges knit and purl. What crosses over what stays as it is, seen from behind: a decrease, a twist
or a cable keeps its lean, since both the direction and the order of the strands are turned round. So `k2tog` worked
on the wrong side looks like `p2tog` worked on the right one.
"""

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, Work
from halfhank.grammar.record import NamedTuple


class Sign(NamedTuple):
    """One look. `kind` is the knit-side item (`k`, `k2tog`, `yo`, `sl`, `cable`, `in one` …).

    `purl`: its bumps show. `twisted`: through the back loop. `wraps`: all wraps of the needle. `strand`: of a slipped
    stitch, the yarn passes in front of it. `over`, `under`: stitches of a cable's front and back group, `turn` where
    the front one leans (`rc`, `lc`). `parts`: what is made into the same `taken` stitches, from right to left. `width`:
    squares.
    """

    kind: str
    purl: bool = False
    twisted: bool = False
    wraps: int = 1
    strand: bool = False
    over: int = 0
    under: int = 0
    turn: str = ""
    parts: tuple["Sign", ...] = ()
    taken: int = 1
    width: int = 1


_PURLED = {"p": "k", "p2tog": "k2tog", "ssp": "ssk", "p3tog": "k3tog", "sssp": "sssk", "s2pp": "s2kp"}
_PURLED |= {"m1lp": "m1l", "m1rp": "m1r"}
_BOTH_SIDES = {"kfb": "k", "pfb": "p"}
_NO_TEXTURE = frozenset({"yo", "sl", "bind off", "cast on"})


def sign_of(item: Item, wrong_side: bool) -> Sign:
    """The look of one item, a `Work` of count 1, a `Cable` or an `InOne`, seen from the right side."""
    match item:
        case Cable(first, second, turn):
            over, under = (second, first) if wrong_side else (first, second)
            return Sign("cable", purl=wrong_side, over=over, under=under, turn=turn, width=first + second)
        case InOne():
            return _in_one(tuple(units(item.items)), item.stitches, wrong_side)
        case Work("kfb" | "pfb"):
            front = item._replace(kind=_BOTH_SIDES[item.kind], count=1)
            return _in_one((front, front._replace(tbl=True)), 1, wrong_side)
        case Work():
            return _work(item, wrong_side)
    raise TypeError(f"no single item: {type(item).__name__}")


def _in_one(parts: tuple[Item, ...], taken: int, wrong_side: bool) -> Sign:
    signs = tuple(sign_of(part, wrong_side) for part in parts)
    return Sign("in one", parts=signs[::-1] if wrong_side else signs, taken=taken, width=len(signs))


def _work(item: Work, wrong_side: bool) -> Sign:
    kind = _PURLED.get(item.kind, item.kind)
    if item.kind == "sl":
        return Sign("sl", strand=item.wyif != wrong_side)
    purl = (item.kind in _PURLED) != wrong_side and kind not in _NO_TEXTURE
    return Sign(kind, purl=purl, twisted=item.tbl, wraps=item.wraps)


def units(items: tuple[Item, ...]) -> list[Item]:
    """Items one stitch at a time: counts and brackets worked out, `drop wraps` left out. Their number must be small."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Times):
            found += units(item.items) * item.times
        elif isinstance(item, Across):
            found += units(item.items)
        elif isinstance(item, Work) and item.kind == "drop wraps":
            continue
        elif isinstance(item, Work):
            found += [item._replace(count=1, twice=False)] * (item.count * (2 if item.twice else 1))
        else:
            found.append(item)
    return found
