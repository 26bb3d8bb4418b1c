"""The bind-offs: what each takes for a live stitch, and its name on drawings and in written instructions."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import BindOff
from halfhank.model.design.resolve import DEFAULT_PICOT
from halfhank.model.start_and_bind_off.starts import CAST_ON_STITCH

BIND_OFF_STITCH = 1.12
"""A stitch bound off, in plain stitches: 4.6 times the width (nimble-needles.com) over Kw = 4.1."""

MEASURED = "measured"
PICOT = "picot"


class BindOffMethod(NamedTuple):
    """What one method takes for each live stitch, in plain stitches, and what it is called."""

    stitches: float
    words: str


BIND_OFFS = {
    "standard": BindOffMethod(BIND_OFF_STITCH, "standard bind-off"),
    "elastic": BindOffMethod(2.0, "elastic bind-off"),
    "i-cord": BindOffMethod(3.0, "i-cord bind-off"),
    "draw through": BindOffMethod(0.3, "last stitches drawn together"),
}
"""k2tog tbl 2 and a three-stitch i-cord 3 (mathemaknitter.com 2018/11), draw through from memory. Picot's follow from
its numbers."""


def bind_off_stitches(off: BindOff) -> float:
    """Yarn of the bind-off for each live stitch, in plain stitches (measured ones excepted)."""
    if off.method == PICOT:
        worked = CAST_ON_STITCH * off.cast_on + BIND_OFF_STITCH * off.bind_off
        return worked / (off.bind_off - off.cast_on)
    return BIND_OFFS[off.method].stitches


def bind_off_words(off: BindOff) -> str:
    """How the shawl ends."""
    if off.method == MEASURED:
        return f"bind-off of {off.times_width:g} times the width"
    if off.method != PICOT:
        return BIND_OFFS[off.method].words
    if (off.cast_on, off.bind_off) == DEFAULT_PICOT:
        return "picot bind-off"
    return f"picot bind-off (cast on {off.cast_on}, bind off {off.bind_off})"
