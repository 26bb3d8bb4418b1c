"""How shaped stitches are made: as the line says, else as is usual (common practice).

What is said here is for rows in which the stitches are knit; where they are purled it is the purl form.
"""

from halfhank.grammar.description import EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE, Placed
from halfhank.grammar.items import CENTRED, METHODS

CAST_ON, BIND_OFF = "cast on", "bind off"
LEAST_CAST_ON, LEAST_BOUND_OFF = 5, 4
"""So many stitches at one edge in one row are cast on or bound off where nothing is said (common practice)."""

BESIDE_SPINE = "k2tog, ssk"
"""A decrease on each side of the spine: `k2tog` before it, `ssk` after it, in the order of a right-side row."""

_USUAL = {
    "increase": {UPPER_EDGE: "m1l", LOWER_EDGE: "m1r", SPINE: "yo", EVENLY: "m1"},
    "decrease": {UPPER_EDGE: "k2tog", LOWER_EDGE: "ssk", SPINE: BESIDE_SPINE, EVENLY: "k2tog"},
}
_AT_ONCE = {"increase": (LEAST_CAST_ON, CAST_ON), "decrease": (LEAST_BOUND_OFF, BIND_OFF)}


def method_of(action: str, place: str, amount: int, named: str | None) -> str:
    """How `amount` stitches at a place (one edge, one side of the spine, the whole row evenly) are made in one act.

    `action` is what is really done: in a mirrored second half the opposite of what the line says, so that the method
    that it names has no use. The method is an item of the notation, or `BESIDE_SPINE`. `m1` that is named leans as the
    usual one does: to the right at the lower edge, to the left at the upper one.
    """
    if action == BIND_OFF:
        return BIND_OFF
    if named and named in METHODS[action]:
        return named
    least, at_once = _AT_ONCE[action]
    if amount >= least and place in (UPPER_EDGE, LOWER_EDGE):
        return at_once
    return _USUAL[action][place]


def is_centred(placed: Placed, spine: int) -> bool:
    """Whether these stitches are decreased in the middle of a spine of one stitch, with it: half on each side."""
    return placed.place == SPINE and spine == 1 and placed.method in CENTRED


def amount_at(placed: Placed, spine: int) -> int:
    """Stitches at the place, at the spine on each side of it; `spine` is its width in stitches."""
    return placed.amount // 2 if is_centred(placed, spine) else placed.amount
