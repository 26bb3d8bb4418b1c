"""Decreases: the longest stroke leans as the stitch on top does; as many feet as stitches where three become one."""

from halfhank.model.outline.curve import Point
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols.pen import Drawing, Pen
from halfhank.renderer.paper.scene import Circle, Path

_TOP, _FOOT = -0.37, 0.37
_PURL_FOOT = 0.26


def two_together(sign: Sign, pen: Pen) -> Drawing:
    """k2tog: a stroke that leans to the right; ssk: to the left (Craft Yarn Council, from memory).

    Worked through the back loops k2tog leans to the left, with a twist at its foot (common practice).
    """
    side = 1.0 if sign.kind == "k2tog" and not sign.twisted else -1.0
    foot = _foot(sign)
    drawing: Drawing = [pen.line((-0.36 * side, foot), (0.36 * side, _TOP))]
    if sign.twisted:
        drawing.append(_twist(pen, foot))
    return _with_bar(sign, pen, drawing)


def three_together(sign: Sign, pen: Pen) -> Drawing:
    """k3tog leans to the right, sssk to the left: three feet meet under the long stroke (JIS L 0201, from memory)."""
    side = 1.0 if sign.kind == "k3tog" and not sign.twisted else -1.0
    foot = _foot(sign)
    meet = (0.06 * side, (foot + _TOP) / 2 - 0.06)
    drawing: Drawing = [_long(pen, side, foot), pen.line((0.0, foot), meet), pen.line((0.36 * side, foot), meet)]
    if sign.twisted:
        drawing.append(_twist(pen, foot))
    return _with_bar(sign, pen, drawing)


def slip_over_two(sign: Sign, pen: Pen) -> Drawing:
    """sk2p: the slipped stitch's long stroke to the left over a short leg (Craft Yarn Council, from memory)."""
    foot = _foot(sign)
    drawing: Drawing = [_long(pen, -1.0, foot), pen.line((-0.36, foot), (-0.05, (foot + _TOP) / 2))]
    return _with_bar(sign, pen, drawing)


def centred(sign: Sign, pen: Pen) -> Drawing:
    """s2kp: two legs that lean against an upright one (both lists, centred double decrease, from memory)."""
    foot = _foot(sign)
    apex: Point = (0.0, _TOP + 0.14)
    legs = pen.line((-0.36, foot), apex, (0.36, foot))
    return _with_bar(sign, pen, [legs, pen.line((0.0, foot), (0.0, _TOP))])


def bound_off(sign: Sign, pen: Pen) -> Drawing:
    """A filled circle for each stitch that leaves the needle (JIS L 0201, from memory)."""
    return [pen.dot(0.0, 0.0, 0.24)]


def _foot(sign: Sign) -> float:
    return _PURL_FOOT if sign.purl else _FOOT


def _long(pen: Pen, side: float, foot: float) -> Path:
    return pen.line((-0.36 * side, foot), (0.36 * side, _TOP))


def _twist(pen: Pen, foot: float) -> Circle:
    return pen.ring(0.2, foot - 0.06, 0.1)


def _with_bar(sign: Sign, pen: Pen, drawing: Drawing) -> Drawing:
    """Purled, with a bar below (Craft Yarn Council, from memory)."""
    return [*drawing, pen.purl_bar()] if sign.purl else drawing
