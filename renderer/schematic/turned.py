"""A long thin piece laid on its side: the same shawl, its outline turned by a right angle."""

from collections.abc import Sequence

from halfhank.grammar.problems.problem import Problem
from halfhank.model.outline.curve import Curve, Point
from halfhank.model.outline.outline import Outline, Stretch
from halfhank.model.outline.region import Region, RowEnds
from halfhank.model.shawl import Shawl

THIN = 3.0
"""A piece more than so many times as deep as wide is long and thin."""


def can_be_turned(shawl: Shawl) -> bool:
    """Whether the piece is long and thin, and without a spine or a ruffle, which hang on how it lies."""
    outline = shawl.outline
    plain = not outline.sideways and outline.spine is None and outline.ruffle is None
    return plain and outline.size.depth_cm > THIN * outline.size.wingspan_cm


def turned(shawl: Shawl) -> Shawl:
    """The shawl as it lies on its side: its first row at the left, as on the skein, and its right edge above."""
    return shawl._replace(outline=TurnedOutline(shawl.outline))


class TurnedOutline:
    """An outline turned anticlockwise by a right angle, with its box from (0, 0) again: a piece worked sideways.

    So its rows run from what was their right end to what was their left one.
    """

    sideways = True
    spine: Sequence[Point] | None = None
    ruffle: int | None = None

    def __init__(self, upright: Outline) -> None:
        self._upright = upright
        size = upright.size
        self._wide = size.wingspan_cm
        sides = None if size.sides_cm is None else (size.sides_cm[1], size.sides_cm[0])
        self.size = size._replace(wingspan_cm=size.depth_cm, depth_cm=size.wingspan_cm, sides_cm=sides)
        self.words, self.fan_words, self.fan_degrees = upright.words, upright.fan_words, upright.fan_degrees
        self.kind, self.toothed = upright.kind, upright.toothed
        self.stretch: Stretch | None = upright.stretch
        self.pinned, self.curved = upright.pinned, upright.curved
        self.regions: tuple[Region, ...] = tuple(self._turned_region(region) for region in upright.regions[::-1])
        self.problems: tuple[Problem, ...] = upright.problems

    def _turned(self, point: Point) -> Point:
        return (point[1], self._wide - point[0])

    def _turned_ends(self, ends: RowEnds) -> RowEnds:
        return self._turned(ends[1]), self._turned(ends[0])

    def _turned_region(self, region: Region) -> Region:
        return Region(
            region.name,
            lambda row, after: self._turned_ends(region.ends(row, after)),
            lambda row, after: region.boundary(row, after).reversed().mapped(self._turned),
        )

    def boundary(self, row: int, after: bool = False) -> Curve:
        """The curve of one boundary, from its upper end."""
        return self._upright.boundary(row, after).reversed().mapped(self._turned)

    def ends(self, row: int, after: bool = False) -> RowEnds:
        """The upper and the lower end of one boundary."""
        return self._turned_ends(self._upright.ends(row, after))
