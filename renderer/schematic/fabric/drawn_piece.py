"""The piece to scale: the model's boundaries in mm, measured and cached, with the piece's box from (0, 0)."""

from functools import cached_property

from halfhank.model.outline.curve import Curve, Point, joined
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.scene import PathData
from halfhank.renderer.plane.curve_cutting import curve_length, cut_at
from halfhank.renderer.plane.path_data import onwards, open_path
from halfhank.renderer.plane.polygons import area_of
from halfhank.renderer.plane.polylines import at_length, length_of, simplified
from halfhank.renderer.schematic.fabric.ruffled_edge import RISE_MM, waved, waves_along

FLAT_MM = 0.03


class DrawnPiece:
    """The boundaries of one shawl at `mm` millimetres to the centimetre.

    Lengths and points are in mm from the upper left corner of the piece's box, and so is everything that is laid out
    on and around it; it is moved as a whole when it goes on the page.
    """

    def __init__(self, shawl: Shawl, mm: float) -> None:
        self.shawl = shawl
        self.mm = mm
        self.last = shawl.rows.count
        self.width = shawl.outline.size.wingspan_cm * mm
        self.height = shawl.outline.size.depth_cm * mm
        spine = shawl.outline.spine
        self.spine = None if spine is None else [(x * mm, y * mm) for x, y in spine]
        self.seams = self._seams()
        self.ruffle = shawl.outline.ruffle
        self._curves: dict[tuple[int, bool], Curve] = {}
        self._points: dict[tuple[int, bool], list[Point]] = {}
        self._edges = self._both_edges()
        self._runs: dict[tuple[int, int, int], list[Point]] = {}
        self._silhouette: list[Point] = []

    def _both_edges(self) -> tuple[list[tuple[Point, Point]], list[tuple[Point, Point]]]:
        """For each edge, the end of every boundary before and after its jump."""
        left, right = [], []
        ends, mm = self.shawl.outline.ends, self.mm
        for row in range(self.last + 1):
            (ax, ay), (bx, by) = ends(row)
            (cx, cy), (dx, dy) = ends(row, True)
            left.append(((ax * mm, ay * mm), (cx * mm, cy * mm)))
            right.append(((bx * mm, by * mm), (dx * mm, dy * mm)))
        return left, right

    def _seams(self) -> list[list[Point]]:
        """The lines at which regions meet, from left to right."""
        mm, regions = self.mm, self.shawl.outline.regions
        rows = range(self.last + 1)
        return [[(x * mm, y * mm) for x, y in (region.ends(i)[RIGHT] for i in rows)] for region in regions[:-1]]

    def stretches(self, row: int, after: bool = False) -> list[Curve]:
        """One boundary as the outline's regions have it, from left to right; in a ruffle in waves."""
        plain = [self._scaled(region.boundary(row, after)) for region in self.shawl.outline.regions]
        if self.ruffle is None or row < self.ruffle:
            return plain
        rise, side = self._ruffle_rise(row), self.outer_side
        return [waved(curve, waves, rise, side) for curve, waves in zip(plain, self.ruffle_waves, strict=True)]

    def _ruffle_rise(self, row: int) -> float:
        """How far the waves of a ruffle's row stand out: evenly more from the fabric to the edge."""
        heights, first = self.shawl.rows.height_cm, self.ruffle or self.last
        return RISE_MM * sum(heights[first : row + 1]) / sum(heights[first:])

    @cached_property
    def ruffle_edge(self) -> list[Curve]:
        """The last boundary of a ruffled piece without its waves."""
        return [self._scaled(region.boundary(self.last)) for region in self.shawl.outline.regions]

    @cached_property
    def ruffle_waves(self) -> list[int]:
        """The waves of each region's edge."""
        return [waves_along(curve_length(curve)) for curve in self.ruffle_edge]

    @cached_property
    def outer_side(self) -> int:
        """The side of the last row (1: to the right of its direction on the page) that lies away from the fabric."""
        edge, fabric = (_middle_of(self.shawl.outline.boundary(i)) for i in (self.last, (self.ruffle or self.last) - 1))
        (x, y), (dx, dy) = edge
        px, py = fabric[0]
        return 1 if (y - py) * dx - (x - px) * dy >= 0 else -1

    def _scaled(self, curve: Curve) -> Curve:
        mm = self.mm
        return Curve(
            (curve.start[0] * mm, curve.start[1] * mm),
            tuple([tuple([(x * mm, y * mm) for x, y in piece]) for piece in curve.pieces]),
        )

    def curve(self, row: int, after: bool = False) -> Curve:
        """One boundary from end to end."""
        key = (row, after)
        if key not in self._curves:
            ruffled = self.ruffle is not None and row >= self.ruffle
            plain = self.shawl.outline.boundary
            self._curves[key] = joined(self.stretches(row, after)) if ruffled else self._scaled(plain(row, after))
        return self._curves[key]

    def halves(self, row: int) -> list[Curve]:
        """One boundary as its halves from the spine outwards; see `outwards`."""
        return self.outwards(self.stretches(row))

    def outwards(self, stretches: list[Curve]) -> list[Curve]:
        """Curves along a row, one for each region, turned to run outwards from the spine.

        Without a spine a row is cut in two at its middle; in a piece worked sideways it stays whole. So what is drawn
        along the curves is as symmetrical as the piece.
        """
        if self.shawl.outline.sideways:
            return stretches
        halves: list[Curve] = []
        for region, curve in zip(self.shawl.outline.regions, stretches, strict=True):
            if region.spine_end is None:
                halves += _from_middle(curve)
            else:
                halves.append(curve.reversed() if region.spine_end == RIGHT else curve)
        return halves

    def points(self, row: int, after: bool = False) -> list[Point]:
        """One boundary as a polyline within 0.03 mm."""
        key = (row, after)
        if key not in self._points:
            self._points[key] = self.curve(row, after).flattened(FLAT_MM)
        return self._points[key]

    def edge(self, side: int, first: int, last: int) -> list[Point]:
        """The edge from boundary `first` (after its jump) to boundary `last` (before its jump)."""
        key = (side, first, last)
        if key not in self._runs:
            self._runs[key] = self._run(side, first, last)
        return self._runs[key]

    def _run(self, side: int, first: int, last: int) -> list[Point]:
        ends = self._edges[side]
        if last == first + 1:
            return [ends[first][1], ends[last][0]]
        points = [ends[first][1]]
        for before, after in ends[first + 1 : last]:
            points.append(before)
            if after != before:
                points.append(after)
        points.append(ends[last][0])
        return simplified(points) if len(points) > 4 else points

    def end(self, side: int, row: int, after: bool = False) -> Point:
        """One end of a boundary."""
        return self._edges[side][row][after]

    @property
    def silhouette(self) -> list[Point]:
        """The whole outline as one closed polygon, to 0.04 mm: for finding room, not for drawing."""
        if not self._silhouette:
            self._silhouette = simplified(self.region(0, self.last), 0.04)
        return self._silhouette

    def region(self, first: int, last: int) -> list[Point]:
        """The rows between two boundaries as a polygon."""
        around = self.points(first, True) + self.edge(RIGHT, first, last)[1:]
        around += self.points(last)[::-1][1:]
        return around + self.edge(LEFT, first, last)[::-1][1:-1]

    def rise(self, first: int, last: int) -> float:
        """Height of the rows between two boundaries, across the fabric: as knitted, or measured where pinned."""
        if self.shawl.outline.pinned and first < last:
            lengths = length_of(self.points(first, True)) + length_of(self.points(last))
            return 2 * area_of(self.region(first, last)) / lengths if lengths > 0 else 0.0
        return self.mm * sum(self.shawl.rows.height_cm[first + 1 : last + 1])

    def closed(self, first: int, last: int) -> PathData:
        """The rows between two boundaries as a closed path."""
        down = [("L", point) for point in self.edge(RIGHT, first, last)[1:]]
        up = [("L", point) for point in self.edge(LEFT, first, last)[-2:0:-1]]
        return (*open_path(self.curve(first, True)), *down, *onwards(self.curve(last).reversed()), *up, ("Z", ()))


def _middle_of(curve: Curve) -> tuple[Point, Point]:
    points = curve.flattened()
    return at_length(points, length_of(points) / 2)


def _from_middle(curve: Curve) -> list[Curve]:
    length = curve_length(curve)
    if length <= 0:
        return []
    left, right = cut_at(curve, length / 2)
    return [left.reversed(), right]
