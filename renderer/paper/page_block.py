"""Blocks of a page, one below the other, and the column that they keep to."""

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.scene import Group


class PageColumn(NamedTuple):
    """The column that all blocks keep to: its left edge and width, mm."""

    left: float
    width: float

    @property
    def right(self) -> float:
        return self.left + self.width


class PageBlock(NamedTuple):
    """A group and where it ends, mm from the top of the page."""

    group: Group
    bottom: float
