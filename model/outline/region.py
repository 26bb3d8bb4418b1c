"""A region of a piece: a stretch of every row between two of its seams."""

from collections.abc import Callable

from halfhank.model.outline.curve import Curve, Point

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

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The two ends of one boundary."""
        return self._ends(row, after)

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary, from its left (or upper) end."""
        if self._curve is not None:
            return self._curve(row, after)
        first, last = self._ends(row, after)
        return Curve(first, ((last,),))

    def mapped(self, transform: Transform) -> "Region":
        """The region under an affine map."""

        def ends(row: int, after: bool) -> RowEnds:
            first, last = self._ends(row, after)
            return transform(first), transform(last)

        curve = self._curve
        if curve is None:
            return Region(self.name, ends, None, self.spine_end)
        return Region(self.name, ends, lambda row, after: curve(row, after).mapped(transform), self.spine_end)


def one_panel(
    ends: list[tuple[RowEnds, RowEnds]], curve: Callable[[int, bool], Curve] | None = None
) -> tuple[Region, ...]:
    """A piece whose rows run from edge to edge without a seam; `ends` by row, before and after its jump."""
    return (Region("whole", lambda row, after: ends[row][after], curve),)


def two_wings(ends: list[tuple[RowEnds, RowEnds]], spine: list[Point]) -> tuple[Region, ...]:
    """Wings at both sides of a spine, which boundary i meets at `spine[i]`; their rows are straight."""
    return (
        Region("left wing", lambda row, after: (ends[row][after][LEFT], spine[row]), spine_end=RIGHT),
        Region("right wing", lambda row, after: (spine[row], ends[row][after][RIGHT]), spine_end=LEFT),
    )


def wings_and_panel(
    ends: list[tuple[RowEnds, RowEnds]], spine: list[Point], panel_cm: list[float]
) -> tuple[Region, ...]:
    """Wings at both sides of a spine that is a panel, so wide at each boundary; its rows are level."""
    sides = [((x - wide / 2, y), (x + wide / 2, y)) for (x, y), wide in zip(spine, panel_cm, strict=True)]
    return (
        Region("left wing", lambda row, after: (ends[row][after][LEFT], sides[row][LEFT]), spine_end=RIGHT),
        Region("spine panel", lambda row, after: sides[row]),
        Region("right wing", lambda row, after: (sides[row][RIGHT], ends[row][after][RIGHT]), spine_end=LEFT),
    )
