"""Stitches that keep the count: knit, purl, twisted, slipped."""

from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols.pen import Drawing, Pen


def stitch(sign: Sign, pen: Pen) -> Drawing:
    """Knit: an empty square. Purl: a level bar. Both Craft Yarn Council, from memory."""
    if sign.twisted:
        return twisted(sign, pen)
    return [pen.line((-0.26, 0.0), (0.26, 0.0))] if sign.purl else []


def twisted(sign: Sign, pen: Pen) -> Drawing:
    """Through the back loop: a loop whose legs cross (JIS L 0201 twisted stitch, from memory).

    Purled, with a bar below.
    """
    lift = -0.06 if sign.purl else 0.0
    loop = pen.curve(
        (-0.24, 0.36 + lift),
        ((0.05, 0.2 + lift), (0.3, 0.0 + lift), (0.22, -0.2 + lift)),
        ((0.14, -0.4 + lift), (-0.14, -0.4 + lift), (-0.22, -0.2 + lift)),
        ((-0.3, 0.0 + lift), (-0.05, 0.2 + lift), (0.24, 0.36 + lift)),
    )
    return [loop, pen.purl_bar()] if sign.purl else [loop]


def slipped(sign: Sign, pen: Pen) -> Drawing:
    """Slipped: a V; with the yarn in front of it as seen, a bar under the V (Craft Yarn Council, from memory)."""
    if sign.strand:
        return [pen.line((-0.26, -0.36), (0.0, 0.2), (0.26, -0.36)), pen.line((-0.26, 0.36), (0.26, 0.36))]
    return [pen.line((-0.26, -0.32), (0.0, 0.32), (0.26, -0.32))]
