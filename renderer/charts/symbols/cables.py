"""Cables: crossing strokes, the front group whole, the back group broken where it passes behind."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols.pen import Drawing, Pen
from halfhank.renderer.paper.scene import Path

_INSET = 0.14
_TALL, _TALL_PURLED = 0.86, 0.76
_GAP = 2.8
"""Between the front group and the broken strokes, in widths of a stroke."""
_SHORTEST = 0.12


class _Band(NamedTuple):
    """A group of stitches from square `foot` at the bottom to square `head` at the top."""

    foot: float
    head: float
    stitches: int

    def left(self, t: float) -> float:
        """Its left side at the height t, from 0 at the foot to 1 at the head, in squares."""
        return self.foot + _INSET + t * (self.head - self.foot)

    def right(self, t: float) -> float:
        """Its right side."""
        return self.left(t) + self.stitches - 2 * _INSET


def crossed(sign: Sign, pen: Pen) -> Drawing:
    """A band for each group, as wide as its stitches; RC: the front one rises to the right, LC: to the left.

    Craft Yarn Council's diagonal strokes across the squares, from memory; seen from behind, with a bar below.
    """
    over, under = sign.over, sign.under
    front, back = (_Band(0, under, over), _Band(over, 0, under))
    if sign.turn == "lc":
        front, back = (_Band(under, 0, over), _Band(0, over, under))
    tall = _TALL_PURLED if sign.purl else _TALL
    drawing: Drawing = [_stroke(pen, side(0), side(1), 0, 1, tall) for side in (front.left, front.right)]
    gap = _GAP * pen.style.width / pen.box.width
    for side in (back.left, back.right):
        for start, end in _seen(side(0), side(1), front, gap):
            drawing.append(_stroke(pen, side(start), side(end), start, end, tall))
    return [*drawing, pen.purl_bar(0.4, 0.2)] if sign.purl else drawing


def _seen(foot: float, head: float, front: _Band, gap: float) -> list[tuple[float, float]]:
    """The stretches of a stroke that are not behind the front band, as heights from 0 to 1."""
    lean = (head - foot) - (front.head - front.foot)
    ends = sorted(((front.left(0) - gap - foot) / lean, (front.right(0) + gap - foot) / lean))
    below, above = max(0.0, min(1.0, ends[0])), max(0.0, min(1.0, ends[1]))
    return [(start, end) for start, end in ((0.0, below), (above, 1.0)) if end - start > _SHORTEST]


def _stroke(pen: Pen, low_x: float, high_x: float, start: float, end: float, tall: float) -> Path:
    box = pen.box

    def at(square: float, t: float) -> Point:
        foot, head = tall, 1 - _TALL
        return (box.x + square * box.width, box.y + (foot + t * (head - foot)) * box.height)

    return pen.page_line(at(low_x, start), at(high_x, end))
