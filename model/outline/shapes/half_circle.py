"""Half-circle: all rows around one centre and of one angle."""

import math

from halfhank.grammar.description import PinnedStraight
from halfhank.model.outline.construction_words import circle_words
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import LocalOutline
from halfhank.model.outline.solvers.ring_sector import lay_sector, sector_of
from halfhank.model.outline.solvers.strip import cells_of


def lay(layout: Layout) -> LocalOutline:
    """A half-circle, or as much of a circle as the fabric makes."""
    straight = isinstance(layout.pinned, PinnedStraight)
    cells = cells_of(layout.rows)
    sector = sector_of(layout, cells, straight)
    degrees = math.degrees(sector.fan)
    local = lay_sector(layout, cells, sector, straight)
    return local._replace(kind="half-circle", fan_degrees=degrees, fan_words=circle_words(degrees, straight))
