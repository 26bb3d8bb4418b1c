"""The working notation's items: stitches taken from the needle, stitches made, and loops of yarn drawn.

Meanings are those of the trade's abbreviation lists. A loop is drawn each time that the yarn is pulled
through or laid over the needle, so slipped stitches take none and a decrease takes one.
"""

from halfhank.grammar.record import NamedTuple


class ItemKind(NamedTuple):
    """One item: `taken` stitches from the left needle become `made` on the right, with `loops` of yarn.

    `counted`: a number may touch it (`k5`). `tbl`, `wyif`, `twice` and `wraps`: which words may follow it.
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
    ItemKind("sl", 1, 1, 0, "slip as if to purl", counted=True, wyif=True),
    ItemKind("kfb", 1, 2, 2, "knit into the front and the back of one stitch", wraps=True),
    ItemKind("m1l", 0, 1, 1, "make 1 leaning to the left, from the strand between two stitches"),
    ItemKind("m1r", 0, 1, 1, "make 1 leaning to the right, from the strand between two stitches"),
    ItemKind("m1", 0, 1, 1, "make 1 from the strand between two stitches, either lean"),
)

ITEMS = {kind.abbreviation: kind for kind in _KINDS}

WHOLE_ROWS = {"knit": "k", "purl": "p"}
"""The words that mean a whole row, and the item that every stitch is then worked as."""

CABLE_TURNS = {
    "rc": "hold the first group at the back, work the second, then the first: leans to the right",
    "lc": "hold the first group at the front, work the second, then the first: leans to the left",
}
"""The two ways in which a cable crosses; it takes and makes all of its stitches, one loop each."""
