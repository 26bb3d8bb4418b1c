"""The working notation's items as records, and what each abbreviation does to the stitches.

Meanings are those of the trade's abbreviation lists. A loop is drawn each time that the yarn is pulled through or laid
over the needle: none for a slipped stitch, one for a decrease, two for an increase into the front and the back.
"""

from typing import NamedTuple

KNIT, PURL = "knit", "purl"


class Meaning(NamedTuple):
    """`taken` stitches become `made`; `face` is that of the new stitches on the side that is worked."""

    taken: int
    made: int
    loops: int
    face: str


MEANINGS = {
    "k": Meaning(1, 1, 1, KNIT),
    "p": Meaning(1, 1, 1, PURL),
    "k2tog": Meaning(2, 1, 1, KNIT),
    "ssk": Meaning(2, 1, 1, KNIT),
    "p2tog": Meaning(2, 1, 1, PURL),
    "ssp": Meaning(2, 1, 1, PURL),
    "k3tog": Meaning(3, 1, 1, KNIT),
    "sssk": Meaning(3, 1, 1, KNIT),
    "p3tog": Meaning(3, 1, 1, PURL),
    "sssp": Meaning(3, 1, 1, PURL),
    "s2kp": Meaning(3, 1, 1, KNIT),
    "s2pp": Meaning(3, 1, 1, PURL),
    "sk2p": Meaning(3, 1, 1, KNIT),
    "kfb": Meaning(1, 2, 2, KNIT),
    "pfb": Meaning(1, 2, 2, PURL),
}
LIFTED = {"m1": KNIT, "m1l": KNIT, "m1r": KNIT, "m1lp": PURL, "m1rp": PURL}
"""The increases from the strand between two stitches, and their face."""

COUNTED = frozenset({"k", "p", "sl"})


class Work(NamedTuple):
    """`number` times an abbreviation of MEANINGS, each loop with the yarn `wraps` times around the needle."""

    name: str
    number: int
    wraps: int


class Slip(NamedTuple):
    """Stitches slipped to the right needle."""

    number: int


class Over(NamedTuple):
    """Yarn overs, once or twice."""

    number: int


class Lift(NamedTuple):
    """A make 1."""

    name: str


class Cable(NamedTuple):
    """Two groups of stitches that cross."""

    first: int
    second: int
    turn: str


class Group(NamedTuple):
    """What is in brackets, a number of times."""

    items: "Items"
    times: int


class InPlace(NamedTuple):
    """What is in brackets, all of it into the same stitches."""

    items: "Items"
    stitches: int


class WholeRow(NamedTuple):
    """Every stitch of the row knit or purl."""

    name: str


class BindOff(NamedTuple):
    """Stitches bound off at the edge of a row."""

    number: int


class CastOn(NamedTuple):
    """Stitches cast on, onto the right needle or `to_left`."""

    number: int
    to_left: bool


class DropWraps(NamedTuple):
    """The extra wraps of the row before fall from the needle in this row."""


class SlipBack(NamedTuple):
    """Stitches slipped from the right needle back to the left."""

    number: int


class PassOver(NamedTuple):
    """The second stitch on the right needle passed over the first."""


class WorkIn(NamedTuple):
    """Stitches of a pattern whose rows are not written."""

    number: int
    pattern: str


Item = (
    Work
    | Slip
    | Over
    | Lift
    | Cable
    | Group
    | InPlace
    | WholeRow
    | BindOff
    | CastOn
    | DropWraps
    | SlipBack
    | PassOver
    | WorkIn
)
Items = tuple[Item, ...]
