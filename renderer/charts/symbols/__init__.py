"""Chart symbols: one published list throughout (Craft Yarn Council's; where it is silent, JIS L 0201), as own strokes.

The meaning of each is noted beside its drawing. All are drawn as seen from the right side of the fabric.
"""

from collections.abc import Callable

from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols import cables, decreases, increases, plain_stitches, wraps
from halfhank.renderer.charts.symbols.pen import Drawing, Pen, SymbolBox
from halfhank.renderer.paper.scene import Element

Symbol = Callable[[Sign, Pen], Drawing]

SYMBOLS: dict[str, Symbol] = {
    "k": plain_stitches.stitch,
    "sl": plain_stitches.slipped,
    "k2tog": decreases.two_together,
    "ssk": decreases.two_together,
    "k3tog": decreases.three_together,
    "sssk": decreases.three_together,
    "sk2p": decreases.slip_over_two,
    "s2kp": decreases.centred,
    "yo": increases.yarn_over,
    "m1": increases.make_one,
    "m1l": increases.make_one,
    "m1r": increases.make_one,
    "cast on": increases.cast_on,
    "bind off": decreases.bound_off,
    "in one": increases.in_one,
    "cable": cables.crossed,
}


def symbol(sign: Sign, box: SymbolBox) -> tuple[Element, ...]:
    """The strokes of a sign in its box of `sign.width` squares; nothing for a plain knit stitch."""
    pen = Pen(box)
    if sign.wraps > 1 and sign.kind == "k" and not sign.twisted:
        return tuple(wraps.wrapped(sign, pen))
    drawing = SYMBOLS[sign.kind](sign, pen)
    return (*drawing, *wraps.corner_number(sign, pen)) if sign.wraps > 1 else tuple(drawing)
