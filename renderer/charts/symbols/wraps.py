"""Elongated stitches: the number of wraps over loops."""

from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols.pen import Drawing, Pen


def wrapped(sign: Sign, pen: Pen) -> Drawing:
    """A number over two loops (common practice for drop stitch.

    The published lists are silent); purled, with a bar below.
    """
    low = 0.28 if sign.purl else 0.36
    drawing: Drawing = [pen.figure(0.0, -0.2, str(sign.wraps), 0.5), *_loops(pen, low)]
    return [*drawing, pen.purl_bar(0.43)] if sign.purl else drawing


def _loops(pen: Pen, low: float) -> Drawing:
    high = low - 0.24
    return [
        pen.curve(
            (-0.34, low),
            ((-0.05, low), (-0.02, high), (-0.15, high)),
            ((-0.28, high), (-0.25, low), (0.02, low)),
            ((0.28, low), (0.3, high), (0.17, high)),
            ((0.04, high), (0.06, low), (0.34, low)),
        )
    ]


def corner_number(sign: Sign, pen: Pen) -> Drawing:
    """The number alone in the upper left corner, for elongated decreases and increases."""
    return [pen.figure(-0.32, -0.28, str(sign.wraps), 0.36)]
