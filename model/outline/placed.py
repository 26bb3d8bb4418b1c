"""A laid-out piece put into its place: its box at (0, 0), pinned out, measured."""

import math
from collections.abc import Iterable, Sequence
from itertools import chain, pairwise

from halfhank.grammar.description import PinnedTo
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.construction_words import construction_words
from halfhank.model.outline.curve import Curve, Point, joined
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import LocalOutline
from halfhank.model.outline.outline import Size, Stretch
from halfhank.model.outline.region import LEFT, RIGHT, Region, RowEnds
from halfhank.model.outline.solvers.strip import LEAST_CM, MOST_CM, cells_of
from halfhank.model.outline.stretch import stretch_of
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rows

LEAST_STRETCH = 0.02
"""The least stretch that is given where the piece is not pinned."""

_FINE_CM = 0.0005


class Placement(NamedTuple):
    """From a construction's own coordinates to the piece's box: moved by `x`, `y`, then scaled."""

    x: float
    y: float
    across: float
    down: float

    def at(self, point: Point) -> Point:
        """A point of the construction in the piece's box."""
        return ((point[0] - self.x) * self.across, (point[1] - self.y) * self.down)


class PlacedOutline:
    """The outline of a piece; see `halfhank.model.outline.outline.Outline`."""

    def __init__(self, layout: Layout, local: LocalOutline, knitted: Rows) -> None:
        """`layout` is what was laid out; `knitted` are the rows with the stitches of a ruffle."""
        (left, top), (right, bottom) = local.box
        pinned = layout.pinned if isinstance(layout.pinned, PinnedTo) else None
        scales = _scales(pinned, right - left, bottom - top)
        place = Placement(left, top, *scales)
        self._ends = [_moved(both, place) for both in local.ends]
        self.regions: tuple[Region, ...] = tuple(region.mapped(place.at) for region in local.regions)
        self.spine: Sequence[Point] | None = local.spine and [place.at(point) for point in local.spine]
        self.kind, self.toothed = local.kind, local.toothed
        self.words = construction_words(local.kind, local.toothed, layout.turned_back, local.curved)
        self.fan_words: str | None = local.fan_words
        self.fan_degrees: float | None = local.fan_degrees
        self.sideways = local.sideways
        self.pinned = local.straight or pinned is not None
        self.curved = local.curved
        self.ruffle = layout.ruffle
        self._flat = layout.rows
        self.stretch: Stretch | None = None
        self.problems: tuple[Problem, ...] = local.problems
        if self.pinned or local.formed:
            stretch, found = stretch_of(layout, local, scales)
            self.stretch = stretch if self.pinned or max(map(abs, stretch)) >= LEAST_STRETCH else None
            self.problems += found
        spread = local.formed and not local.curved and self.stretch is not None
        self._laid_ends = None if spread else local.laid_ends
        self.size = self._measured(knitted, local, ((right - left) * scales[0], (bottom - top) * scales[1]))
        if layout.pinned and not self.pinned:
            self.problems += (known.PINNED_IN_VAIN.at(layout.pinned.span),)

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary: those of the regions, joined."""
        return joined(region.boundary(row, after) for region in self.regions)

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The two ends of one boundary."""
        return self._ends[row][after]

    def row_cm(self, row: int, after: bool = False) -> float:
        """Length of a boundary along its curve."""
        return _length(self.boundary(row, after).flattened(_FINE_CM))

    def end_row_cm(self, row: int) -> float:
        """Length of the first row or the last (0, -1): its stitches times their width, drawn out as far as it is.

        Settling bends an edge a little at its ends, so the boundary itself is not quite as long. Where the rows of a
        ring's sector are stretched it is as long as it is drawn.
        """
        if self._laid_ends is None or self._laid_ends[row] <= 0:
            return self.row_cm(row)
        knitted = _end_cm(self._flat, row)
        return knitted * self.row_cm(row) / self._laid_ends[row] if self.pinned else knitted

    def wing_cm(self, row: int) -> float:
        """Length of one wing in the first row or the last."""
        wing = _length(self.regions[0].boundary(row).flattened(_FINE_CM))
        laid = self._laid_ends[row] if self._laid_ends else 0.0
        return wing * _end_cm(self._flat, row) / laid if laid > 0 else wing

    def edge_cm(self, side: int) -> float:
        """Length of an edge (0: left or upper, 1: right or lower), its jumps included."""
        return _length(self._edge(side))

    def opening_cm(self, row: int) -> float:
        """Distance between the two ends of a boundary."""
        return math.dist(*self._ends[row][0])

    def spine_cm(self) -> float | None:
        """Length of the spine."""
        return None if self.spine is None else _length(self.spine)

    def _edge(self, side: int) -> list[Point]:
        return list(chain.from_iterable((before[side], after[side]) for before, after in self._ends))

    def _measured(self, rows: Rows, local: LocalOutline, box_cm: tuple[float, float]) -> Size:
        edges = local.lengths(self)
        area = self._drawn_cm2() if self.pinned else knitted_cm2(rows)
        last_row = self.end_row_cm(-1) if self.ruffle is None else self._ruffle_cm(rows, local)
        return Size(*box_cm, self.spine_cm(), edges.top_cm, edges.sides_cm, last_row, area)

    def _ruffle_cm(self, rows: Rows, local: LocalOutline) -> float:
        """Length of a ruffle's edge: its stitches times their width, drawn out by the pinning alone."""
        laid = local.laid_ends[-1] if local.laid_ends and self.pinned else 0.0
        return _end_cm(rows, -1) * (self.row_cm(-1) / laid if laid > 0 else 1.0)

    def _drawn_cm2(self) -> float:
        """The area within the outline, by the trapezoid formula of its polygon (Gauss)."""
        last = len(self._ends) - 1
        around = self.boundary(0).flattened(_FINE_CM) + self._edge(RIGHT)
        around += self.boundary(last).flattened(_FINE_CM)[::-1] + self._edge(LEFT)[::-1]
        return abs(sum(p[0] * q[1] - q[0] * p[1] for p, q in pairwise([*around, around[0]]))) / 2


def knitted_cm2(rows: Rows) -> float:
    """The area of the fabric: stitches times their width times the height of their row."""
    cells = cells_of(rows)
    return sum(length * height for length, height in zip(cells.length_cm, cells.height_cm, strict=True))


def _end_cm(rows: Rows, row: int) -> float:
    """What the stitches of the first row or the last (0, -1) measure."""
    return rows.stitches[row] * min(max(rows.width_cm[row], LEAST_CM), MOST_CM)


def _moved(both: tuple[RowEnds, RowEnds], place: Placement) -> tuple[RowEnds, RowEnds]:
    before, after = both
    moved = (place.at(before[0]), place.at(before[1]))
    return moved, (moved if after is before else (place.at(after[0]), place.at(after[1])))


def _scales(pinned: PinnedTo | None, width_cm: float, depth_cm: float) -> tuple[float, float]:
    """By how much the piece's box is drawn out to the measures that it is pinned to."""
    if pinned is None:
        return 1.0, 1.0
    across = pinned.width.cm / width_cm if width_cm > 0 else 1.0
    down = pinned.depth.cm / depth_cm if depth_cm > 0 else 1.0
    return across, down


def _length(points: Iterable[Point]) -> float:
    return sum(math.dist(p, q) for p, q in pairwise(points))
