"""Triangle: two wings at a spine, or level rows where nothing is shaped at the spine."""

import math
from collections.abc import Callable

from halfhank.grammar.description import PinnedStraight
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import STRAIGHT_WITHIN, EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import Region, RowEnds, one_panel, two_wings, wings_and_panel
from halfhank.model.outline.shapes.rectangle import LEVEL, level_lengths
from halfhank.model.outline.solvers.straight_rows import arms_ends, in_working_order
from halfhank.model.outline.solvers.strip import Settled, Strip, cells_of, settled
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rates, Rows

LEAST_FAN, MOST_FAN = 100.0, 260.0
"""Fans (degrees) that can be pinned to a straight top edge."""

LEAST_PANEL = 4
"""A spine of so many stitches is a panel between the wings, a narrower one the seam between them (a choice by eye)."""

WINGED_EDGE, WINGED_SPINE = 0.9, 0.4
"""Stitches a row at each edge from which wings are as long as a crescent's where the spine gains at most such a share
of them (a choice)."""


class Angles(NamedTuple):
    """`phi`: by which the rows rise from the spine; `psi`: by which the edge lies over the rows' ends (radians)."""

    phi: float
    psi: float

    @property
    def fan_degrees(self) -> float:
        """The angle between the two edges, measured over the fabric."""
        return math.degrees(2 * (self.phi + self.psi))


def lay(layout: Layout) -> LocalOutline | Problem:
    """The construction that the shaping makes."""
    rows = layout.rows
    shaped = any(rates.spine for rates in rows.rates)
    if not shaped or layout.turned_back:
        return _level(layout, shaped)
    angles = Angles(_angle(rows, _spine_rate), _angle(rows, _edge_rate))
    turned = angles.phi < 0
    if turned:
        angles = Angles(-angles.phi, -angles.psi)
    straight = isinstance(layout.pinned, PinnedStraight)
    if straight and not LEAST_FAN <= angles.fan_degrees <= MOST_FAN:
        return _cannot_be_straight(layout, angles.fan_degrees)
    found = settled(rows)
    panel = spine_panel(layout, found.strip)
    return _winged(found, panel, angles, turned, straight)._replace(problems=_winglike(layout))


def _spine_rate(rates: Rates) -> float:
    return rates.spine


def _edge_rate(rates: Rates) -> float:
    return (rates.upper + rates.lower) / 2


def _angle(rows: Rows, rate: Callable[[Rates], float]) -> float:
    """The angle that shaping of this rate makes: its tangent is width gained over height in the shaped rows."""
    gained = height = 0.0
    for rates, width_cm, height_cm in zip(rows.rates, rows.width_cm, rows.height_cm, strict=True):
        if stitches := rate(rates):
            gained += stitches * width_cm
            height += height_cm
    return math.atan2(gained, height) if height > 0 else 0.0


def spine_panel(layout: Layout, strip: Strip) -> list[float]:
    """How wide the spine lies at each boundary, in cm as knitted, where it is a panel; empty where it is a seam.

    It is as wide everywhere as its stitches are on average: the seams stay straight where the gauge changes.
    """
    if layout.spine < LEAST_PANEL:
        return []
    cells = cells_of(layout.rows)
    area = sum(width * height for width, height in zip(cells.width_cm, cells.height_cm, strict=True))
    wide = layout.spine * area / strip.height_cm
    return [min(wide, before, after) for before, after in zip(strip.before, strip.after, strict=True)]


def _winged(found: Settled, panel: list[float], angles: Angles, turned: bool, straight: bool) -> LocalOutline:
    """Rows with two arms. Pinned straight, the spine stays and the edges become level, as long as they were."""
    arm, wale = (math.cos(angles.phi), -math.sin(angles.phi)), (math.sin(angles.phi), math.cos(angles.phi))
    grain = Grain(0.0, 0.0, angles.phi, angles.phi)
    if straight:
        arm, wale = _levelled(arm, angles), _levelled(wale, angles)
        grain = Grain(math.hypot(*arm) - 1, math.hypot(*wale) - 1, 0.0, 0.0)
    step = 1 / math.cos(angles.phi)
    strip = found.strip.turned() if turned else found.strip
    ends = arms_ends(strip, arm, step, panel[::-1] if turned else panel, math.cos(angles.phi))
    ends = in_working_order(ends, turned)
    spine = [(0.0, at * step) for at in strip.along_cm]
    if turned:
        spine.reverse()
    fan = angles.fan_degrees
    return LocalOutline(
        words="triangle from its lower edge" if turned else "triangle from the neck",
        ends=ends,
        regions=_regions(ends, spine, [x * math.cos(angles.phi) for x in panel]),
        reach=[spine[0], spine[-1]],
        lengths=_lengths_from_end if turned else _lengths_from_neck,
        grain=lambda row: grain,
        spine=spine,
        fan_degrees=fan,
        fan_words=fan_words(fan),
        straight=straight,
        laid_ends=found.ends_cm,
    )


def _regions(ends: list[tuple[RowEnds, RowEnds]], spine: list[Point], panel: list[float]) -> tuple[Region, ...]:
    return wings_and_panel(ends, spine, panel) if panel else two_wings(ends, spine)


def _levelled(vector: Point, angles: Angles) -> Point:
    """The right wing's map that keeps (0, 1) and takes the edge's direction to (1, 0)."""
    fan = angles.phi + angles.psi
    return vector[0] / math.sin(fan), vector[1] - vector[0] / math.tan(fan)


def fan_words(degrees: float) -> str:
    """The angle between the top edges, and what it does to the tips."""
    if degrees < 180 - STRAIGHT_WITHIN:
        return f"top edges meet at {degrees:.0f}°: the tips hang below the neck"
    if degrees > 180 + STRAIGHT_WITHIN:
        return f"top edges meet at {degrees:.0f}°: the tips rise above the neck"
    return f"top edges meet at {degrees:.0f}°: the top edge is straight"


def _lengths_from_neck(piece: Measured) -> EdgeLengths:
    return _wing_lengths(piece, 0, -1)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return _wing_lengths(piece, -1, 0)


def _wing_lengths(piece: Measured, neck: int, point: int) -> EdgeLengths:
    """The top runs along both edges and across the opening of the neck; the sides are the arms of the outer row."""
    arm = piece.wing_cm(point)
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(neck) + piece.edge_cm(1), (arm, arm))


def _level(layout: Layout, shaped: bool) -> LocalOutline:
    """Level rows, the longer end on top."""
    found = settled(layout.rows, layout.gathered)
    turned = not layout.turned_back and found.strip.before[-1] > found.strip.before[0]
    strip = found.strip.turned() if turned else found.strip
    ends = in_working_order(arms_ends(strip, (1.0, 0.0), 1.0), turned)
    spine = [(0.0, at) for at in strip.along_cm] if shaped else None
    return LocalOutline(
        words=_level_words(layout, turned),
        ends=ends,
        regions=_regions(ends, spine, spine_panel(layout, found.strip)) if spine else one_panel(ends),
        reach=[],
        lengths=_lengths_from_point if turned else level_lengths,
        grain=lambda row: LEVEL,
        spine=spine,
        laid_ends=found.ends_cm,
        problems=(_not_flat(layout),) if shaped else (),
    )


def _lengths_from_point(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.end_row_cm(-1), (piece.edge_cm(0), piece.edge_cm(1)))


def _level_words(layout: Layout, turned: bool) -> str:
    if layout.turned_back:
        return "triangle and back"
    return "triangle from its point" if turned else "triangle from its long edge"


def _winglike(layout: Layout) -> tuple[Problem, ...]:
    """Advice where the edges gain nearly every row and the spine seldom."""
    shaped = [rates for rates in layout.rows.rates[1:] if _edge_rate(rates) or rates.spine]
    edge, spine = sum(map(_edge_rate, shaped)) / len(shaped), sum(rates.spine for rates in shaped) / len(shaped)
    if edge < WINGED_EDGE or not 0 < spine <= WINGED_SPINE * edge:
        return ()
    return (known.WINGED_TRIANGLE.at(layout.shape_span, edge=edge, spine=spine),)


def _not_flat(layout: Layout) -> Problem:
    return known.NOT_FLAT.at(layout.shape_span)


def _cannot_be_straight(layout: Layout, fan: float) -> Problem:
    span = layout.pinned.span if layout.pinned else layout.shape_span
    return known.FAN_NOT_STRAIGHT.at(span, degrees=fan, least=LEAST_FAN, most=MOST_FAN)
