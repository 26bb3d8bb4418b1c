"""The working notation's items: stitches taken from the needle, stitches made, and loops of yarn drawn.

Meanings are those of the trade's abbreviation lists. A loop is drawn each time that the yarn is pulled
through or laid over the needle, so slipped stitches take none and a decrease takes one.
"""

from halfhank.grammar.record import NamedTuple


class ItemKind(NamedTuple):
    """One item: `taken` stitches from the left needle become `made` on the right, with `loops` of yarn.

    `counted`: a number may touch it (`k5`). `numbered`: a number follows it, of stitches (`bind off 3`), each of
    which takes and makes so many. `tbl`, `wyif`, `twice` and `wraps`: which words may follow it.
    """

    abbreviation: str
    taken: int
    made: int
    loops: int
    words: str
    counted: bool = False
    tbl: bool = False
    wyif: bool = False
    twice: bool = False
    wraps: bool = False
    numbered: bool = False


S2PP = (
    "slip 2 as if to knit, one by one, put them back, slip both at once as if to purl them together through the back, "
    "purl 1, pass the slipped stitches over"
)
"""The centred double decrease in purl: the slips turn the stitches and put the middle one on top."""

_KINDS = (
    ItemKind("k", 1, 1, 1, "knit", counted=True, tbl=True, wraps=True),
    ItemKind("p", 1, 1, 1, "purl", counted=True, tbl=True, wraps=True),
    ItemKind("yo", 0, 1, 1, "yarn over", twice=True),
    ItemKind("k2tog", 2, 1, 1, "knit 2 together", tbl=True, wraps=True),
    ItemKind("ssk", 2, 1, 1, "slip 2 as if to knit, one by one, knit them together", wraps=True),
    ItemKind("p2tog", 2, 1, 1, "purl 2 together", tbl=True, wraps=True),
    ItemKind("ssp", 2, 1, 1, "slip 2 as if to knit, one by one, purl them together through the back", wraps=True),
    ItemKind("k3tog", 3, 1, 1, "knit 3 together", tbl=True, wraps=True),
    ItemKind("sssk", 3, 1, 1, "slip 3 as if to knit, one by one, knit them together", wraps=True),
    ItemKind("s2kp", 3, 1, 1, "slip 2 together as if to knit, knit 1, pass the slipped stitches over", wraps=True),
    ItemKind("sk2p", 3, 1, 1, "slip 1, knit 2 together, pass the slipped stitch over", wraps=True),
    ItemKind("p3tog", 3, 1, 1, "purl 3 together", tbl=True, wraps=True),
    ItemKind("sssp", 3, 1, 1, "slip 3 as if to knit, one by one, purl them together through the back", wraps=True),
    ItemKind("s2pp", 3, 1, 1, S2PP, wraps=True),
    ItemKind("sl", 1, 1, 0, "slip as if to purl", counted=True, wyif=True),
    ItemKind("kfb", 1, 2, 2, "knit into the front and the back of one stitch", wraps=True),
    ItemKind("pfb", 1, 2, 2, "purl into the front and the back of one stitch", wraps=True),
    ItemKind("m1l", 0, 1, 1, "make 1 leaning to the left, from the strand between two stitches"),
    ItemKind("m1r", 0, 1, 1, "make 1 leaning to the right, from the strand between two stitches"),
    ItemKind("m1lp", 0, 1, 1, "make 1 purlwise leaning to the left, from the strand between two stitches"),
    ItemKind("m1rp", 0, 1, 1, "make 1 purlwise leaning to the right, from the strand between two stitches"),
    ItemKind("m1", 0, 1, 1, "make 1 from the strand between two stitches, either lean"),
    ItemKind("bind off", 1, 0, 1, "pass each stitch over the one worked after it", numbered=True),
    ItemKind("cast on", 0, 1, 1, "make each stitch as a loop on the right needle", numbered=True),
    ItemKind("drop wraps", 0, 0, 0, "drop the extra wraps of the row before, in the whole row"),
)

ITEMS = {kind.abbreviation: kind for kind in _KINDS}

METHODS = {
    "increase": ("yo", "m1", "kfb"),
    "decrease": ("k2tog", "ssk", "k3tog", "sssk", "s2kp", "sk2p", "p2tog", "ssp", "p3tog", "sssp", "s2pp"),
}
"""The items that a shaping line may name, by its action."""

CENTRED = ("s2kp", "s2pp")
"""The decreases whose middle stitch lies on top: over a spine of one stitch they stand for both sides of it."""

WHOLE_ROWS = {"knit": "k", "purl": "p"}
"""The words that mean a whole row, and the item that every stitch is then worked as."""

CABLE_TURNS = {
    "rc": "hold the first group at the back, work the second, then the first: leans to the right",
    "lc": "hold the first group at the front, work the second, then the first: leans to the left",
}
"""The two ways in which a cable crosses; it takes and makes all of its stitches, one loop each."""
