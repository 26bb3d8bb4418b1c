"""Strokes inside one square of a chart, whatever its proportions."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.renderer.paper.house_style import INK
from halfhank.renderer.paper.scene import Circle, Element, Label, Path, Style

_LONGEST = 1.3
"""How much longer than the shorter side of its square a symbol may be, so that it keeps its shape in flat squares."""


class SymbolBox(NamedTuple):
    """The room of a symbol on the page, in mm: `squares` of `width` each, side by side."""

    x: float
    y: float
    width: float
    height: float
    squares: int = 1


class Pen:
    """Draws in a frame about the middle of a box: u from -0.5 (left) to 0.5, v from -0.5 (top) to 0.5."""

    def __init__(self, box: SymbolBox) -> None:
        self.box = box
        self.unit = min(box.width, box.height)
        self.middle = (box.x + box.squares * box.width / 2, box.y + box.height / 2)
        self._wide = min(box.width, _LONGEST * box.height)
        self._high = min(box.height, _LONGEST * box.width)
        self.style = Style(stroke=INK, width=max(0.2, 0.085 * self.unit), cap="round")

    def at(self, u: float, v: float) -> Point:
        """A place of the frame on the page."""
        return (self.middle[0] + u * self._wide, self.middle[1] + v * self._high)

    def line(self, *points: Point) -> Path:
        """A polyline through places of the frame."""
        return self.page_line(*(self.at(u, v) for u, v in points))

    def page_line(self, *points: Point) -> Path:
        """A polyline through places on the page."""
        return Path(tuple(("L" if i else "M", point) for i, point in enumerate(points)), self.style)

    def curve(self, start: Point, *pieces: tuple[Point, Point, Point]) -> Path:
        """Bezier curves through places of the frame."""
        data: list[tuple[str, tuple[float, ...]]] = [("M", self.at(*start))]
        data += [("C", (*self.at(*a), *self.at(*b), *self.at(*c))) for a, b, c in pieces]
        return Path(tuple(data), self.style)

    def ring(self, u: float, v: float, radius: float) -> Circle:
        """A circle; its radius is in parts of the square's shorter side."""
        return Circle(*self.at(u, v), radius * self.unit, self.style)

    def dot(self, u: float, v: float, radius: float) -> Circle:
        """A filled circle; its radius is in parts of the square's shorter side."""
        return Circle(*self.at(u, v), radius * self.unit, Style(fill=INK))

    def purl_bar(self, v: float = 0.41, half: float = 0.26) -> Path:
        """The bar that means purl, under a symbol."""
        return self.line((-half, v), (half, v))

    def figure(self, u: float, v: float, text: str, size: float) -> Label:
        """A figure whose middle is at a place of the frame; its font size is in parts of the square's shorter side."""
        x, y = self.at(u, v)
        mm = size * self.unit
        return Label(x, y + 0.358 * mm, text, mm, INK, bold=True, anchor="middle")


Drawing = list[Element]
