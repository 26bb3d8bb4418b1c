"""Triangle: two wings at a spine, or level rows where nothing is shaped at the spine."""

import math
from collections.abc import Callable

from halfhank.grammar.description import PinnedStraight
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import STRAIGHT_WITHIN, EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import one_panel, two_wings
from halfhank.model.outline.shapes.rectangle import LEVEL, level_lengths
from halfhank.model.outline.solvers.straight_rows import arms_ends, in_working_order
from halfhank.model.outline.solvers.strip import Strip, settled
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rates, Rows

LEAST_FAN, MOST_FAN = 100.0, 260.0
"""Fans (degrees) that can be pinned to a straight top edge."""


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
    strip = settled(rows).strip
    return _winged(strip.turned() if turned else strip, angles, turned, straight)


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


def _winged(strip: Strip, angles: Angles, turned: bool, straight: bool) -> LocalOutline:
    """Rows with two arms. Pinned straight, the spine stays and the edges become level, as long as they were."""
    arm, wale = (math.cos(angles.phi), -math.sin(angles.phi)), (math.sin(angles.phi), math.cos(angles.phi))
    grain = Grain(0.0, 0.0, angles.phi, angles.phi)
    if straight:
        arm, wale = _levelled(arm, angles), _levelled(wale, angles)
        grain = Grain(math.hypot(*arm) - 1, math.hypot(*wale) - 1, 0.0, 0.0)
    step = 1 / math.cos(angles.phi)
    ends = in_working_order(arms_ends(strip, arm, step), turned)
    spine = [(0.0, at * step) for at in strip.along_cm]
    if turned:
        spine.reverse()
    fan = angles.fan_degrees
    return LocalOutline(
        words="triangle from its lower edge" if turned else "triangle from the neck",
        ends=ends,
        regions=two_wings(ends, spine),
        reach=[spine[0], spine[-1]],
        lengths=_lengths_from_end if turned else _lengths_from_neck,
        grain=lambda row: grain,
        spine=spine,
        fan_degrees=fan,
        fan_words=fan_words(fan),
        straight=straight,
    )


def _levelled(vector: Point, angles: Angles) -> Point:
    """The right wing's map that keeps (0, 1) and takes the edge's direction to (1, 0)."""
    fan = angles.phi + angles.psi
    return vector[0] / math.sin(fan), vector[1] - vector[0] / math.tan(fan)


def fan_words(degrees: float) -> str:
    """What the fan does to the top edge."""
    if degrees < 180 - STRAIGHT_WITHIN:
        return f"a fan of {degrees:.0f} degrees: the top edge droops at both sides"
    if degrees > 180 + STRAIGHT_WITHIN:
        return f"a fan of {degrees:.0f} degrees: the top edge lifts into wings"
    return f"a fan of {degrees:.0f} degrees: the top edge is straight"


def _lengths_from_neck(piece: Measured) -> EdgeLengths:
    return _wing_lengths(piece, 0, -1)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return _wing_lengths(piece, -1, 0)


def _wing_lengths(piece: Measured, neck: int, point: int) -> EdgeLengths:
    """The top runs along both edges and across the opening of the neck; the sides are the arms of the outer row."""
    arm = piece.row_cm(point) / 2
    return EdgeLengths(piece.edge_cm(0) + piece.opening_cm(neck) + piece.edge_cm(1), (arm, arm))


def _level(layout: Layout, shaped: bool) -> LocalOutline:
    """Level rows, the longer end on top."""
    strip = settled(layout.rows).strip
    turned = not layout.turned_back and strip.before[-1] > strip.before[0]
    strip = strip.turned() if turned else strip
    ends = in_working_order(arms_ends(strip, (1.0, 0.0), 1.0), turned)
    spine = [(0.0, at) for at in strip.along_cm] if shaped else None
    return LocalOutline(
        words=_level_words(layout, turned),
        ends=ends,
        regions=two_wings(ends, spine) if spine else one_panel(ends),
        reach=[],
        lengths=_lengths_from_point if turned else level_lengths,
        grain=lambda row: LEVEL,
        spine=spine,
        problems=(_not_flat(layout),) if shaped else (),
    )


def _lengths_from_point(piece: Measured) -> EdgeLengths:
    return EdgeLengths(piece.row_cm(-1), (piece.edge_cm(0), piece.edge_cm(1)))


def _level_words(layout: Layout, turned: bool) -> str:
    if layout.turned_back:
        return "triangle and back"
    return "triangle from its point" if turned else "triangle from its long edge"


def _not_flat(layout: Layout) -> Problem:
    return known.NOT_FLAT.at(layout.shape_span)


def _cannot_be_straight(layout: Layout, fan: float) -> Problem:
    span = layout.pinned.span if layout.pinned else layout.shape_span
    return known.FAN_NOT_STRAIGHT.at(span, degrees=fan, least=LEAST_FAN, most=MOST_FAN)
