"""The names of parts beside their outer badges, or at their bands' edges with their numbers: all or none."""

from collections.abc import Iterator
from itertools import product

from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.renderer.paper.house_style import BADGE_RADIUS, SMALL, SOFT
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.crossings import crosses
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.polygons import inside
from halfhank.renderer.plane.polylines import Points, at_length, length_of, simplified
from halfhank.renderer.plane.text_boxes import label_box
from halfhank.renderer.schematic.annotations.badges import Badge
from halfhank.renderer.schematic.annotations.flags import Flag
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

GAP, FROM_FABRIC, LONGEST = 1.6, 0.7, 30.0
GAPS = (1.6, 2.6, 3.8, 5.2, 6.6)
"""How far from a band's edge its name is tried, mm; more where the edge is slanted."""
ALONG_EDGE = (0.5, 0.36, 0.64)
LEAST_BAND = 2.6
"""The least length of a band's edge that a name stands beside, mm."""
TURNED_RATIO = 0.7
COARSE = 0.2
"""How closely the piece's outline is followed, mm."""
OFF_FLAGS, DOT = 2.0, 0.85
"""What is between a name and the words, the leader and the dot of a flag, mm; the dot's radius."""
LEAST_COLUMN = 95.0
"""A narrower column, that of a page of less than 110 mm, has no names, mm."""

FlagRoom = tuple[Points, list[Box]]


def part_names(
    piece: DrawnPiece, badges: list[Badge], flags: list[Flag], obstacles: Obstacles, content: float
) -> list[Label]:
    """Each name at the first free place inside the drawing's bounds; their room is then taken.

    Where not every part finds a place, or the column (`content`, mm) is narrow, there are none: the table has them. A
    shawl of one part has its name above it.
    """
    if len(piece.shawl.parts) < 2 or content < LEAST_COLUMN:
        return []
    room, found = obstacles.copy(), list[Label]()
    outline, near = simplified([*piece.silhouette, piece.silhouette[0]], COARSE), list(map(_flag_room, flags))
    for number in range(1, len(piece.shawl.parts) + 1):
        places = (label for label in _places(piece, number, badges) if _has_room(outline, label_box(label), near, room))
        label = next(places, None)
        if label is None:
            return []
        room.add_label(label)
        found.append(label)
    for label in found:
        obstacles.add_label(label)
    return found


def _places(piece: DrawnPiece, number: int, badges: list[Badge]) -> Iterator[Label]:
    name = piece.shawl.parts[number - 1].name
    if not name or text_width(name, SMALL) > LONGEST:
        return
    for badge in badges:
        if badge.number == number and badge.last is None and badge.leader:
            x, y = badge.centre
            for sign, anchor in ((1, "start"), (-1, "end")):
                yield _level(x + sign * (BADGE_RADIUS + GAP / 2), y, name, anchor)
            return
    yield from _beside_band(piece, number, f"{number} {name}")


def _beside_band(piece: DrawnPiece, number: int, words: str) -> Iterator[Label]:
    """Along the band's edge, at its middle first: beside one that runs down, above or below one that runs across."""
    part = piece.shawl.parts[number - 1]
    for share, side in product(ALONG_EDGE, (RIGHT, LEFT)):
        edge = piece.edge(side, part.first_row - 1, part.last_row)
        (px, py), (qx, qy) = edge[0], edge[-1]
        x, y = at_length(edge, share * length_of(edge))[0]
        if abs(qy - py) >= LEAST_BAND:
            sign = 1 if side == RIGHT else -1
            outwards = ((sign, "start" if sign > 0 else "end"), (-sign, "end" if sign > 0 else "start"))
            for gap, (way, anchor) in product(GAPS, outwards):
                yield _level(x + way * gap, y, words, anchor)
        elif abs(qx - px) >= TURNED_RATIO * text_width(words, SMALL):
            for way in (-1, 1):
                yield _level(x, y + way * (GAP + SMALL * CAP_HEIGHT / 2), words, "middle")


def _level(x: float, y: float, name: str, anchor: str) -> Label:
    """The name with the middle of its capitals at a height."""
    return Label(x, y + SMALL * CAP_HEIGHT / 2, name, SMALL, SOFT, anchor=anchor)


def _has_room(outline: Points, box: Box, flags: list[FlagRoom], obstacles: Obstacles) -> bool:
    bounds, room = obstacles.bounds, box.grown(FROM_FABRIC + COARSE)
    within = bounds.left <= box.left and box.right <= bounds.right and bounds.top <= box.top
    return (
        within
        and box.bottom <= bounds.bottom
        and obstacles.free(box)
        and not any(_is_near(flag, box) for flag in flags)
        and not inside((box.left, box.top), outline)
        and not crosses(outline, room)
    )


def _flag_room(flag: Flag) -> FlagRoom:
    """The leader of a flag, and the boxes of its words and its dot."""
    x, y = flag.leader[0]
    return flag.leader, [Box(x, y, x, y).grown(DOT), *map(label_box, flag.labels)]


def _is_near(flag: FlagRoom, box: Box) -> bool:
    """Whether a name's box lies closer to a flag than names may."""
    room, (leader, boxes) = box.grown(OFF_FLAGS), flag
    return any(room.meets(other) for other in boxes) or crosses(leader, room)
