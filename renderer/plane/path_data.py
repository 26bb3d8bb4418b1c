"""Polylines and curves as the commands of a path."""

from collections.abc import Iterable

from halfhank.model.outline.curve import Curve, Point
from halfhank.renderer.paper.scene import PathData


def segment(p: Point, q: Point) -> PathData:
    """A straight line."""
    return (("M", p), ("L", q))


def polyline(points: Iterable[Point]) -> PathData:
    """An open path through points."""
    return tuple([("L" if i else "M", point) for i, point in enumerate(points)])


def open_path(curve: Curve) -> PathData:
    """A curve as an open path."""
    return (("M", curve.start), *onwards(curve))


def onwards(curve: Curve) -> PathData:
    """A curve's commands where the path stands at its start already."""
    return tuple(
        [("L", piece[0]) if len(piece) == 1 else ("C", (*piece[0], *piece[1], *piece[2])) for piece in curve.pieces]
    )
