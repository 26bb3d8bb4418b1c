"""Increases: yarn over, make 1, several stitches in one place."""

from halfhank.model.outline.curve import Point
from halfhank.model.stitch_counts.appearance import Sign
from halfhank.renderer.charts.symbols.pen import Drawing, Pen, SymbolBox

# Letters as strokes in a frame of one by one, x to the right and y downwards.
_LETTERS: dict[str, tuple[tuple[Point, ...], ...]] = {
    "M": (((0.0, 1.0), (0.0, 0.0), (0.5, 0.62), (1.0, 0.0), (1.0, 1.0)),),
    "L": (((0.0, 0.0), (0.0, 1.0), (0.8, 1.0)),),
    "R": (
        ((0.0, 1.0), (0.0, 0.0), (0.55, 0.0), (0.85, 0.12), (0.85, 0.4), (0.55, 0.52), (0.0, 0.52)),
        ((0.42, 0.52), (0.9, 1.0)),
    ),
}


def yarn_over(sign: Sign, pen: Pen) -> Drawing:
    """A circle (Craft Yarn Council and JIS L 0201, from memory)."""
    return [pen.ring(0.0, 0.0, 0.29)]


def make_one(sign: Sign, pen: Pen) -> Drawing:
    """M, ML or MR for make 1, to the left or to the right (Craft Yarn Council, from memory).

    Purled, with a bar below.
    """
    word = {"m1": "M", "m1l": "ML", "m1r": "MR"}[sign.kind]
    low = 0.24 if sign.purl else 0.3
    if len(word) == 1:
        drawing = _letter(pen, "M", -0.26, 0.52, low)
    else:
        drawing = _letter(pen, "M", -0.4, 0.42, low) + _letter(pen, word[1], 0.14, 0.26, low)
    return [*drawing, pen.purl_bar()] if sign.purl else drawing


def cast_on(sign: Sign, pen: Pen) -> Drawing:
    """A loop of yarn with its two ends to the sides (JIS L 0201, from memory)."""
    return [
        pen.curve(
            (-0.38, 0.28),
            ((0.0, 0.28), (0.36, 0.1), (0.26, -0.18)),
            ((0.18, -0.4), (-0.18, -0.4), (-0.26, -0.18)),
            ((-0.36, 0.1), (0.0, 0.28), (0.38, 0.28)),
        )
    ]


def _letter(pen: Pen, letter: str, left: float, width: float, low: float) -> Drawing:
    high = low + 0.3
    return [pen.line(*((left + width * x, low - high * (1 - y)) for x, y in stroke)) for stroke in _LETTERS[letter]]


def in_one(sign: Sign, pen: Pen) -> Drawing:
    """Strokes that fan out from one foot, one to each new stitch, a ring for a yarn over (JIS L 0201, from memory).

    A purl has a bar at its head; stitches taken together are as many feet below the knot (our own extension).
    """
    box = pen.box
    knot = (pen.middle[0], box.y + (0.6 if sign.taken > 1 else 0.86) * box.height)
    drawing: Drawing = []
    for place, part in enumerate(sign.parts[::-1]):
        head = Pen(SymbolBox(box.x + place * box.width, box.y, box.width, box.height))
        drawing += _branch(part, head, knot)
    if sign.taken > 1:
        spread = min(0.7 * box.width, 0.8 * box.squares * box.width / max(1, sign.taken - 1))
        for foot in range(sign.taken):
            x = knot[0] + (foot - (sign.taken - 1) / 2) * spread
            drawing.append(pen.page_line((x, box.y + 0.86 * box.height), knot))
    return drawing


def _branch(part: Sign, head: Pen, knot: tuple[float, float]) -> Drawing:
    if part.kind == "yo":
        return [head.ring(0.0, -0.2, 0.18)]
    drawing: Drawing = [head.page_line(knot, head.at(0.0, -0.36))]
    if part.purl:
        drawing.append(head.line((-0.2, -0.36), (0.2, -0.36)))
    if part.twisted:
        drawing.append(head.ring(0.0, -0.24, 0.11))
    return drawing
