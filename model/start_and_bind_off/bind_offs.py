"""The bind-offs: what each takes for a live stitch, and its name on drawings and in written instructions."""

from halfhank.model.design.design import BindOff
from halfhank.model.design.resolve import DEFAULT_PICOT
from halfhank.model.start_and_bind_off.starts import CAST_ON_STITCH
from halfhank.model.words.drawn_words import phrase, phrase_of

BIND_OFF_STITCH = 1.12
"""A stitch bound off, in plain stitches: 4.6 times the width (nimble-needles.com) over Kw = 4.1."""

MEASURED, MEASURED_EACH = "measured", "measured each"
PICOT, DRAWN = "picot", "draw through"
CORD_STITCHES = 3
"""Stitches of an i-cord."""

BIND_OFFS = {"standard": BIND_OFF_STITCH, "elastic": 2.0, "i-cord": float(CORD_STITCHES), DRAWN: 0.3}
"""What each method takes for each live stitch, in plain stitches.

k2tog tbl 2 and a three-stitch i-cord 3 (mathemaknitter.com 2018/11), draw through from memory. Picot's follow from
its numbers."""


def bind_off_stitches(off: BindOff) -> float:
    """Yarn of the bind-off for each live stitch, in plain stitches (those measured by the width excepted)."""
    if off.method == MEASURED_EACH:
        return off.takes or 0.0
    if off.method == PICOT:
        worked = CAST_ON_STITCH * off.cast_on + BIND_OFF_STITCH * off.bind_off
        return worked / (off.bind_off - off.cast_on)
    return BIND_OFFS[off.method]


def picots(off: BindOff, live: int) -> tuple[int, int]:
    """How many picots so many live stitches make, and the stitches left for the end, at least one."""
    each = off.bind_off - off.cast_on
    count = (live - 1) // each
    return count, live - count * each


def bind_off_words(off: BindOff) -> str:
    """How the shawl ends."""
    if off.method == MEASURED:
        return phrase("end.by-width", takes=f"{off.takes:g}")
    if off.method == MEASURED_EACH:
        return phrase("end.by-stitch", takes=f"{off.takes:g}")
    if off.method != PICOT:
        return phrase_of("method", off.method)
    if (off.cast_on, off.bind_off) == DEFAULT_PICOT:
        return phrase("end.picot")
    return phrase("end.other-picot", cast_on=str(off.cast_on), bind_off=str(off.bind_off))
