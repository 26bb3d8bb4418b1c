"""What a scene holds, taken apart without the renderer's own geometry: texts, points and filled areas in mm."""

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, PathData, Rect, Scene
from halfhank.renderer.paper.text_widths import text_width
from shapely import Polygon

ASCENT, DESCENT = 0.75, 0.21
"""Helvetica's ascender (0.718) and descender (0.207) in ems, from its font metrics, with a little air."""


class TextBox(NamedTuple):
    """A label, the upright box around it, and its own four corners."""

    label: Label
    left: float
    top: float
    right: float
    bottom: float
    corners: tuple[tuple[float, float], ...]

    def meets(self, other: "TextBox") -> bool:
        upright = (
            self.left < other.right - 1e-6
            and other.left < self.right - 1e-6
            and self.top < other.bottom - 1e-6
            and other.top < self.bottom - 1e-6
        )
        return upright and Polygon(self.corners).intersection(Polygon(other.corners)).area > 1e-6


def text_box(label: Label) -> TextBox:
    width = text_width(label.text, label.size, label.face, label.bold)
    left = -{"start": 0.0, "middle": 0.5, "end": 1.0}[label.anchor] * width
    up, down = ASCENT * label.size, DESCENT * label.size
    turn = math.radians(label.turn)
    c, s = math.cos(turn), math.sin(turn)
    around = ((left, -up), (left + width, -up), (left + width, down), (left, down))
    corners = tuple((label.x + c * x - s * y, label.y + s * x + c * y) for x, y in around)
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return TextBox(label, min(xs), min(ys), max(xs), max(ys), corners)


def walk(items: tuple[Element, ...], clipped: bool = False) -> Iterator[tuple[Element, bool]]:
    """Every item that is no group, and whether a clip confines it."""
    for item in items:
        if isinstance(item, Group):
            yield from walk(item.items, clipped or item.clip is not None)
        else:
            yield item, clipped


def labels(scene: Scene) -> list[Label]:
    return [item for item, _ in walk(scene.items) if isinstance(item, Label) and item.text.strip()]


def group(items: tuple[Element, ...], name: str) -> Group:
    """The group of that name, wherever it is."""
    for item in items:
        if isinstance(item, Group):
            if item.name == name:
                return item
            try:
                return group(item.items, name)
            except LookupError:
                pass
    raise LookupError(name)


_T = np.linspace(0, 1, 49)[1:, None]
BERNSTEIN = np.hstack([(1 - _T) ** 3, 3 * (1 - _T) ** 2 * _T, 3 * (1 - _T) * _T**2, _T**3])
"""The weights of a cubic's four points at 48 equal steps of its parameter."""


def flattened(data: PathData) -> list[tuple[float, float]]:
    """The points of one subpath, each cubic cut into equal steps of its parameter."""
    points: list[tuple[float, float]] = []
    for letter, numbers in data:
        if letter in "ML":
            points.append((numbers[0], numbers[1]))
        elif letter == "C":
            corners = np.array([*points[-1], *numbers]).reshape(4, 2)
            points += [(x, y) for x, y in (BERNSTEIN @ corners).tolist()]
        else:
            assert letter == "Z", letter
    return points


def extent(item: Element) -> tuple[float, float, float, float]:
    """The upright box of an item's centre lines."""
    if isinstance(item, Label):
        return text_box(item)[1:5]
    if isinstance(item, Circle):
        return (item.x - item.radius, item.y - item.radius, item.x + item.radius, item.y + item.radius)
    if isinstance(item, Rect):
        return (item.x, item.y, item.x + item.width, item.y + item.height)
    assert isinstance(item, Path)
    points = flattened(item.data)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def strips(scene: Scene) -> list[Path]:
    """The shaded strips of the fabric, in working order."""
    bands = [item for item in group(scene.items, "fabric").items if isinstance(item, Group)]
    return [item for band in bands for item in band.items if isinstance(item, Path) and item.style.fill]


def areas(paths: list[Path]) -> list[Polygon]:
    """Filled paths as polygons, made valid."""
    return [Polygon(flattened(path.data)).buffer(0) for path in paths]
