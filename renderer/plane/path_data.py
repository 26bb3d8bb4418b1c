"""Polylines and curves as the commands of a path."""

from collections.abc import Iterable

from halfhank.model.outline.curve import Curve, Point
from halfhank.renderer.paper.scene import PathData

FLAT_MM = 0.05


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


def strokes_of(data: PathData) -> list[list[Point]]:
    """The path's runs from one move to the next, as polylines that stay within 0.05 mm of it."""
    runs: list[Curve] = []
    for letter, numbers in data:
        points = tuple(zip(numbers[::2], numbers[1::2], strict=True))
        if letter == "M":
            runs.append(Curve(points[0], ()))
        else:
            runs[-1] = runs[-1]._replace(pieces=(*runs[-1].pieces, points or (runs[-1].start,)))
    return [run.flattened(FLAT_MM) for run in runs]
