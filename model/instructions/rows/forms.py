"""The increases and decreases of shaping: which leans which way, and its form in a purled row."""

from collections.abc import Iterable

from halfhank.grammar.description import InOne, Item, Times, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.shaping_methods import CAST_ON
from halfhank.model.instructions.rows.segments import AFTER_SPINE, BEFORE_SPINE, FIRST_EDGE, KNIT, PURL, stitch_item
from halfhank.model.stitch_counts.bare_items import NOWHERE

_PURLED = {
    "m1": "m1lp",
    "m1l": "m1lp",
    "m1r": "m1rp",
    "kfb": "pfb",
    "k2tog": "p2tog",
    "ssk": "ssp",
    "k3tog": "p3tog",
    "sssk": "sssp",
    "sk2p": "sssp",
    "s2kp": "s2pp",
}
_OF_THREE = frozenset({"k3tog", "sssk", "sk2p", "s2kp", "p3tog", "sssp", "s2pp"})
_WIDER = {"k2tog": "k3tog", "ssk": "sssk", "p2tog": "p3tog", "ssp": "sssp"}


class IncreaseForms(NamedTuple):
    """Increases worked in a stitch (`takes_stitch`), and those made from the strand between two (`made`)."""

    takes_stitch: frozenset[str]
    made: frozenset[str]


INCREASES = IncreaseForms(frozenset({"kfb", "pfb"}), frozenset({"m1", "m1l", "m1r", "m1lp", "m1rp"}))


def as_worked(method: str, kind: str) -> Work:
    """The item of a method where the stitches beside it are worked so: its purl form among purl stitches."""
    return stitch_item(_PURLED.get(method, method) if kind == PURL else method)


def leaning(method: str, place: str) -> str:
    """The method of a place where two lean differently: `m1` leans away from the middle or from the spine, and of
    the pair `ssk, k2tog` that one is used which leans as the edge of the fabric does there.

    The place is that of a right-side row.
    """
    if method == "m1":
        return "m1r" if place in (FIRST_EDGE, BEFORE_SPINE) else "m1l"
    if ", " in method:
        return "ssk" if place in (FIRST_EDGE, AFTER_SPINE) else "k2tog"
    return method


def stitches_gone(method: str) -> int:
    """Stitches by which a decrease makes the row shorter."""
    return 2 if method in _OF_THREE else 1


def of_three(method: str) -> str:
    """The decrease of the same lean that takes three stitches."""
    return _WIDER.get(method, method)


def uses_strand(item: Item) -> bool:
    """Whether no strand is left beside an item that can be lifted."""
    return isinstance(item, Work) and (item.kind in INCREASES.made or item.kind == CAST_ON)


def increased(made: int, wraps: int = 1) -> Work | InOne:
    """So many stitches worked in one: in front and back, or knit and purl by turns."""
    if made == 2:
        return stitch_item("kfb", 1, wraps)
    return InOne(tuple(stitch_item((KNIT, PURL)[number % 2], 1, wraps) for number in range(made)), 1, NOWHERE)


def together(stitches: int, kind: str, wraps: int = 1) -> Work | InOne:
    """So many stitches worked as one."""
    if stitches > 3:
        return InOne((stitch_item(kind, 1, wraps),), stitches, NOWHERE)
    return as_worked({1: kind, 2: "k2tog", 3: "k3tog"}[stitches], kind)._replace(wraps=wraps)


def has_double_yarn_over(items: Iterable[Item]) -> bool:
    """Whether a yarn over is made twice in one place anywhere."""
    for item in items:
        if isinstance(item, Work) and item.twice:
            return True
        if isinstance(item, Times | InOne) and has_double_yarn_over(item.items):
            return True
    return False
