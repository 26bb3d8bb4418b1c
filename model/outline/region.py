"""A region of a piece: a stretch of every row between two of its seams."""

from collections.abc import Callable

from halfhank.model.outline.curve import Curve, Point, bowed

LEFT, RIGHT = 0, 1
"""The two ends of a row; in a piece worked sideways its upper and its lower end."""

RowEnds = tuple[Point, Point]
Transform = Callable[[Point], Point]


class Region:
    """A stretch of every row between two seams, such as the left wing of a triangle, in cm.

    `ends` gives the two ends of a boundary (its number, and whether after its jump), `curve` the boundary between
    them, a straight line where it is left out. `spine_end` is the end (`LEFT`, `RIGHT`) that lies on the spine, None
    where there is no spine.
    """

    def __init__(
        self,
        name: str,
        ends: Callable[[int, bool], RowEnds],
        curve: Callable[[int, bool], Curve] | None = None,
        spine_end: int | None = None,
    ) -> None:
        self.name = name
        self.spine_end = spine_end
        self._ends = ends
        self._curve = curve
        self._curves: dict[tuple[int, bool], Curve] = {}

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The two ends of one boundary."""
        return self._ends(row, after)

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary, from its left (or upper) end."""
        if self._curve is not None:
            if (row, after) not in self._curves:
                self._curves[row, after] = self._curve(row, after)
            return self._curves[row, after]
        first, last = self._ends(row, after)
        return Curve(first, ((last,),))

    def mapped(self, transform: Transform) -> "Region":
        """The region under an affine map."""

        def ends(row: int, after: bool) -> RowEnds:
            first, last = self._ends(row, after)
            return transform(first), transform(last)

        if self._curve is None:
            return Region(self.name, ends, None, self.spine_end)
        return Region(self.name, ends, lambda row, after: self.boundary(row, after).mapped(transform), self.spine_end)


def one_panel(
    ends: list[tuple[RowEnds, RowEnds]], curve: Callable[[int, bool], Curve] | None = None
) -> tuple[Region, ...]:
    """A piece whose rows run from edge to edge without a seam; `ends` by row, before and after its jump."""
    return (Region("whole", lambda row, after: ends[row][after], curve),)


def two_wings(
    ends: list[tuple[RowEnds, RowEnds]], spine: list[Point], bulges: list[float] | None = None
) -> tuple[Region, ...]:
    """Wings at both sides of a spine, which boundary i meets at `spine[i]`.

    Their rows are straight; with `bulges`, boundary i of each wing is bowed by an area of `bulges[i]` cm2 (downwards).
    """
    sides = [(point, point) for point in spine]
    return _wing(LEFT, ends, sides, bulges), _wing(RIGHT, ends, sides, bulges)


def wings_and_panel(
    ends: list[tuple[RowEnds, RowEnds]], spine: list[Point], panel_cm: list[float], bulges: list[float] | None = None
) -> tuple[Region, ...]:
    """Wings at both sides of a spine that is a panel, so wide at each boundary; its rows are level."""
    sides = [((x - wide / 2, y), (x + wide / 2, y)) for (x, y), wide in zip(spine, panel_cm, strict=True)]
    panel = Region("spine panel", lambda row, after: sides[row])
    return _wing(LEFT, ends, sides, bulges), panel, _wing(RIGHT, ends, sides, bulges)


def _wing(side: int, ends: list[tuple[RowEnds, RowEnds]], inner: list[RowEnds], bulges: list[float] | None) -> Region:
    def of_row(row: int, after: bool) -> RowEnds:
        both = inner[row][side], ends[row][after][side]
        return both if side == RIGHT else (both[1], both[0])

    def curve(row: int, after: bool) -> Curve:
        area = bulges[row] if bulges else 0.0
        bow = bowed(inner[row][side], ends[row][after][side], area if side == RIGHT else -area)
        return bow if side == RIGHT else bow.reversed()

    name = "right wing" if side == RIGHT else "left wing"
    return Region(name, of_row, curve if bulges else None, spine_end=LEFT if side == RIGHT else RIGHT)
