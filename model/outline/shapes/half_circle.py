"""Half-circle: all rows around one centre and of one angle."""

import math

from halfhank.grammar.description import PinnedStraight
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import PINNED_STRAIGHT, STRAIGHT_WITHIN, LocalOutline
from halfhank.model.outline.solvers.ring_sector import lay_sector, sector_of
from halfhank.model.outline.solvers.strip import cells_of


def lay(layout: Layout) -> LocalOutline:
    """A half-circle, or as much of a circle as the fabric makes."""
    straight = isinstance(layout.pinned, PinnedStraight)
    cells = cells_of(layout.rows)
    sector = sector_of(layout, cells, straight)
    degrees = math.degrees(sector.fan)
    local = lay_sector(layout, cells, sector, straight)
    said = _fan_words(degrees, straight)
    return local._replace(words=layout.in_words("half-circle"), fan_degrees=degrees, fan_words=said)


def _fan_words(degrees: float, straight: bool) -> str:
    if straight:
        return f"knits to {degrees:.0f}°; {PINNED_STRAIGHT}"
    if degrees < 180 - STRAIGHT_WITHIN:
        return f"top edges meet at {degrees:.0f}°, less than a half-circle: the tips hang below the neck"
    if degrees > 180 + STRAIGHT_WITHIN:
        return f"top edges meet at {degrees:.0f}°, more than a half-circle: the tips rise above the neck"
    return f"top edges meet at {degrees:.0f}°: the top edge is straight"
