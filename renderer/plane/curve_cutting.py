"""Curves cut at a length along them"""

import math
from itertools import accumulate

from halfhank.model.outline.curve import Curve, Point, bezier_point


def curve_length(curve: Curve) -> float:
    """Length of a curve, to about a thousandth."""
    return sum(_lengths(curve))


def _lengths(curve: Curve) -> list[float]:
    lengths = []
    start = curve.start
    for piece in curve.pieces:
        lengths.append(math.dist(start, piece[0]) if len(piece) == 1 else _samples(start, piece)[-1])
        start = piece[-1]
    return lengths


def _samples(start: Point, piece: tuple[Point, ...]) -> list[float]:
    """Lengths along a cubic at eight equal steps of its parameter, from 0."""
    one, other, end = piece
    points = [start, *[bezier_point(start, one, other, end, step / 8) for step in range(1, 8)], end]
    return list(accumulate(map(math.dist, points, points[1:]), initial=0.0))


def _split(start: Point, piece: tuple[Point, ...], t: float) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """A piece cut in two at its parameter (de Casteljau): the pieces of the two halves."""

    def between(p: Point, q: Point) -> Point:
        return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))

    if len(piece) == 1:
        return (between(start, piece[0]),), piece
    a, b, c = between(start, piece[0]), between(piece[0], piece[1]), between(piece[1], piece[2])
    d, e = between(a, b), between(b, c)
    middle = between(d, e)
    return (a, d, middle), (e, c, piece[2])


def _parameter(start: Point, piece: tuple[Point, ...], length: float, whole: float) -> float:
    """The parameter of a piece at a length along it."""
    if len(piece) == 1:
        return length / whole
    run = _samples(start, piece)
    for step in range(1, 9):
        if run[step] >= length:
            return (step - 1 + (length - run[step - 1]) / max(run[step] - run[step - 1], 1e-12)) / 8
    return 1.0


def cut_at(curve: Curve, length: float) -> tuple[Curve, Curve]:
    """A curve cut in two at a length along it, which lies strictly inside."""
    start, run = curve.start, 0.0
    pieces = curve.pieces
    for i, (piece, whole) in enumerate(zip(pieces, _lengths(curve), strict=True)):
        if run + whole > length or i == len(pieces) - 1:
            t = min(max(_parameter(start, piece, length - run, whole), 0.0), 1.0) if whole > 0 else 1.0
            first, second = _split(start, piece, t)
            return Curve(curve.start, (*pieces[:i], first)), Curve(first[-1], (second, *pieces[i + 1 :]))
        start, run = piece[-1], run + whole
    return curve, Curve(curve.end, ())


def trimmed(curve: Curve, start: float, end: float) -> Curve | None:
    """The curve without so much of its two ends; None where nothing is left."""
    length = curve_length(curve)
    if length - start - end < 0.1:
        return None
    return cut_at(cut_at(curve, start)[1], length - start - end)[0]


def halfway_between(one: Curve, other: Curve) -> Curve:
    """The curve midway between two neighbouring boundaries; the second where they are built differently."""
    if [len(p) for p in one.pieces] != [len(p) for p in other.pieces]:
        return other

    def middle(p: Point, q: Point) -> Point:
        return ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)

    pieces = [
        tuple([middle(p, q) for p, q in zip(a, b, strict=True)]) for a, b in zip(one.pieces, other.pieces, strict=True)
    ]
    return Curve(middle(one.start, other.start), tuple(pieces))
