"""Triangle: two wings at a spine, or level rows where nothing is shaped at the spine."""

import math
from collections.abc import Callable
from itertools import pairwise

from halfhank.grammar.description import PinnedStraight
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.construction_words import fan_words
from halfhank.model.outline.curve import Point
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.local_outline import EdgeLengths, Grain, LocalOutline, Measured
from halfhank.model.outline.region import Region, RowEnds, one_panel, two_wings, wings_and_panel
from halfhank.model.outline.shapes.rectangle import LEVEL, level_lengths
from halfhank.model.outline.solvers.sewn_wings import settled_gains, sew
from halfhank.model.outline.solvers.straight_rows import arms_ends, in_working_order
from halfhank.model.outline.solvers.strip import Settled, Steps, Strip, cells_of, settled
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.row_table import Rates, Rows

LEAST_FAN, MOST_FAN = 100.0, 260.0
"""Fans (degrees) that can be pinned to a straight top edge."""

LEAST_PANEL = 4
"""A spine of so many stitches is a panel between the wings, a narrower one the seam between them (a choice by eye)."""

WINGED_EDGE, WINGED_SPINE = 0.9, 0.4
"""Stitches a row at each edge from which a triangle is compared with a crescent where the spine gains at most such a
share of them (a choice)."""


class Angles(NamedTuple):
    """`phi`: by which the rows rise from the spine; `psi`: by which the edge lies over the rows' ends (radians)."""

    phi: float
    psi: float

    @property
    def fan_degrees(self) -> float:
        """The angle between the two edges, measured over the fabric."""
        return math.degrees(2 * (self.phi + self.psi))


class Wings(NamedTuple):
    """The wings laid out from the neck: the ends of their rows, where these meet the spine, and by how many cm2 each
    boundary is bowed (None: straight rows).

    `drawn`: how wide each cm of the spine lies. `grain`: of boundary 0…N. `ends_cm`: lengths of the first boundary
    and the last before any pinning.
    """

    ends: list[tuple[RowEnds, RowEnds]]
    spine: list[Point]
    bulges: list[float] | None
    drawn: float
    fan_degrees: float
    grain: list[Grain]
    ends_cm: tuple[float, float]


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
    found = settled(rows)
    panel = spine_panel(layout, found.strip)
    if _steady(rows) or _both_ways(rows):
        wings = _straight_wings(found, panel, angles, turned, straight)
    else:
        wings = _bent_wings(rows, found, panel, turned, straight)
    if straight and not _can_be_straight(wings.fan_degrees):
        return _cannot_be_straight(layout, wings.fan_degrees)
    local = _winged(panel, wings, turned, straight)
    return local._replace(problems=_winglike(layout, local))


def _steady(rows: Rows) -> bool:
    """Whether every row gains as much at the spine for its height."""
    slopes = [
        rates.spine * width / height if height > 0 else math.inf
        for rates, width, height in zip(rows.rates[1:], rows.width_cm[1:], rows.height_cm[1:], strict=True)
    ]
    return all(math.isclose(slope, slopes[0], rel_tol=1e-9) for slope in slopes)


def _both_ways(rows: Rows) -> bool:
    """Whether the spine grows in some rows and shrinks in others. That cannot lie flat: the wings have a mean slope."""
    rates = [rate.spine for rate in rows.rates]
    return min(rates) < 0 < max(rates)


def _can_be_straight(fan_degrees: float) -> bool:
    return LEAST_FAN <= fan_degrees <= MOST_FAN


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


def _straight_wings(found: Settled, panel: list[float], angles: Angles, turned: bool, straight: bool) -> Wings:
    """Wings whose rows all rise at phi. Pinned straight, the spine stays and the edges become level, as long as they
    were."""
    arm, wale = (math.cos(angles.phi), -math.sin(angles.phi)), (math.sin(angles.phi), math.cos(angles.phi))
    grain = Grain(0.0, 0.0, angles.phi, angles.phi)
    if straight and _can_be_straight(angles.fan_degrees):
        fan = angles.phi + angles.psi
        arm, wale = _levelled(arm, fan), _levelled(wale, fan)
        grain = Grain(math.hypot(*arm) - 1, math.hypot(*wale) - 1, 0.0, 0.0)
    step = 1 / math.cos(angles.phi)
    strip = found.strip.turned() if turned else found.strip
    ends = arms_ends(strip, arm, step, panel[::-1] if turned else panel, math.cos(angles.phi))
    spine = [(0.0, at * step) for at in strip.along_cm]
    laid = strip.before[0], strip.after[-1]
    return Wings(ends, spine, None, math.cos(angles.phi), angles.fan_degrees, [grain] * len(spine), laid)


def _bent_wings(rows: Rows, found: Settled, panel: list[float], turned: bool, straight: bool) -> Wings:
    """Wings whose rows turn from the slope of the spine's shaping at each to a direction that they share."""
    strip, level = (found.strip.turned(), panel[::-1]) if turned else (found.strip, panel)
    level = level or [0.0] * len(strip.along_cm)
    wings = sew(_heights(strip), _halves(strip, level), _gains(rows, found, turned))
    drawn = strip.height_cm / wings.spine_cm[-1]
    half = _half_fan(rows, wings.tips, turned)
    pinned = half if straight and _can_be_straight(math.degrees(2 * half)) else None
    tips, bulges = wings.tips, wings.bulges
    grain = [_grain(down, both[0], pinned) for down, both in zip(wings.spine_cm, tips, strict=True)]
    first, last = (2 * wings.row_cm(row) + level[row] * drawn for row in (0, -1))
    if pinned is not None:
        tips = [(_levelled(one, half), _levelled(other, half)) for one, other in tips]
        bulges = [area / math.sin(half) for area in bulges]
    ends = [_mirrored(both, wide * drawn / 2) for both, wide in zip(tips, level, strict=True)]
    spine = [(0.0, at) for at in wings.spine_cm]
    return Wings(ends, spine, bulges, drawn, math.degrees(2 * half), grain, (first, last))


def _heights(strip: Strip) -> list[float]:
    return [b - a for a, b in pairwise(strip.along_cm)]


def _halves(strip: Strip, level: list[float]) -> Steps:
    """How long each boundary is in one wing."""
    before = [(length - wide) / 2 for length, wide in zip(strip.before, level, strict=True)]
    return before, [(length - wide) / 2 for length, wide in zip(strip.after, level, strict=True)]


def _gains(rows: Rows, found: Settled, turned: bool) -> list[float]:
    """What each row gains at the spine, from the neck on, settled like the rows' lengths."""
    cells = cells_of(rows)
    gains = [rates.spine * width for rates, width in zip(rows.rates[1:], cells.width_cm, strict=True)]
    gains = settled_gains(cells.height_cm, gains, found.sharp, found.reach_cm)
    return [-gain for gain in reversed(gains)] if turned else gains


def _half_fan(rows: Rows, tips: list[tuple[Point, Point]], turned: bool) -> float:
    """The angle from the spine to the edge's chord, from the neck to the last row that is shaped at the edges."""
    shaped = [row for row, rates in enumerate(rows.rates) if row and _edge_rate(rates)]
    furthest = rows.count
    if shaped:
        furthest = rows.count + 1 - shaped[0] if turned else shaped[-1]
    (x, y), (far_x, far_y) = tips[0][1], tips[furthest][0]
    return math.atan2(far_x - x, far_y - y)


def _grain(spine: float, tip: Point, half_fan: float | None) -> Grain:
    """How a boundary lies, its wales at right angles to it until they are pinned straight."""
    rise = math.atan2(spine - tip[1], tip[0])
    if half_fan is None:
        return Grain(0.0, 0.0, abs(rise), abs(rise))
    along = _levelled((math.cos(rise), -math.sin(rise)), half_fan)
    across = _levelled((math.sin(rise), math.cos(rise)), half_fan)
    return Grain(math.hypot(*along) - 1, math.hypot(*across) - 1, 0.0, 0.0)


def _mirrored(tips: tuple[Point, Point], aside: float) -> tuple[RowEnds, RowEnds]:
    """The two ends of a boundary whose right one is given, so far from the middle of the spine."""
    one, other = (((-x - aside, y), (x + aside, y)) for x, y in tips)
    return one, (one if tips[0] == tips[1] else other)


def _winged(panel: list[float], wings: Wings, turned: bool, straight: bool) -> LocalOutline:
    """Rows with two arms."""
    ends = in_working_order(wings.ends, turned)
    order = -1 if turned else 1
    spine, grain, fan = wings.spine[::order], wings.grain[::order], wings.fan_degrees
    bulges = wings.bulges and wings.bulges[::order]
    regions = _regions(ends, spine, [x * wings.drawn for x in panel], bulges)
    return LocalOutline(
        kind="triangle-from-its-lower-edge" if turned else "triangle-from-the-neck",
        ends=ends,
        regions=regions,
        reach=[spine[0], spine[-1], *(_bowed_points(regions[-1], ends) if bulges else ())],
        lengths=_lengths_from_end if turned else _lengths_from_neck,
        grain=lambda row: grain[row],
        spine=spine,
        fan_degrees=fan,
        fan_words=fan_words(fan),
        straight=straight,
        laid_ends=(wings.ends_cm[1], wings.ends_cm[0]) if turned else wings.ends_cm,
    )


def _bowed_points(right: Region, ends: list[tuple[RowEnds, RowEnds]]) -> list[Point]:
    """Where curved rows reach beyond their ends, from those of the right wing; the left one is its mirror image."""
    rows = [
        (row, after) for row, (one, other) in enumerate(ends) for after in ((False,) if one == other else (False, True))
    ]
    found = [point for row, after in rows for point in right.boundary(row, after).furthest()]
    return [*found, *((-x, y) for x, y in found)]


def _regions(
    ends: list[tuple[RowEnds, RowEnds]], spine: list[Point], panel: list[float], bulges: list[float] | None = None
) -> tuple[Region, ...]:
    return wings_and_panel(ends, spine, panel, bulges) if panel else two_wings(ends, spine, bulges)


def _levelled(vector: Point, half_fan: float) -> Point:
    """The right wing's map that keeps (0, 1) and takes the edge's direction to (1, 0)."""
    return vector[0] / math.sin(half_fan), vector[1] - vector[0] / math.tan(half_fan)


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
        kind=_level_kind(layout, turned),
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


def _level_kind(layout: Layout, turned: bool) -> str:
    if layout.turned_back:
        return "triangle"
    return "triangle-from-its-point" if turned else "triangle-from-its-long-edge"


def _winglike(layout: Layout, local: LocalOutline) -> tuple[Problem, ...]:
    """Advice where the edges gain nearly every row and the spine seldom, and a crescent of the same counts is wider and
    less deep than the triangle as knitted."""
    shaped = [rates for rates in layout.rows.rates[1:] if _edge_rate(rates) or rates.spine]
    edge, spine = sum(map(_edge_rate, shaped)) / len(shaped), sum(rates.spine for rates in shaped) / len(shaped)
    if edge < WINGED_EDGE or not 0 < spine <= WINGED_SPINE * edge:
        return ()
    if local.straight:
        return _winglike_free(layout)
    (wide, deep), (crescent_wide, crescent_deep) = _size(local), _size(_as_crescent(layout))
    if crescent_wide <= wide or crescent_deep >= deep:
        return ()
    return (known.WINGED_TRIANGLE.at(layout.shape_span, edge=edge, spine=spine),)


def _winglike_free(layout: Layout) -> tuple[Problem, ...]:
    free = lay(layout._replace(pinned=None))
    return () if isinstance(free, Problem) else free.problems


def _as_crescent(layout: Layout) -> LocalOutline:
    """The same counts with what the spine gains at the edges, as a crescent."""
    from halfhank.model.outline.shapes import crescent

    rows = layout.rows
    moved = rows._replace(
        upper=tuple(edge + spine for edge, spine in zip(rows.upper, rows.spine, strict=True)),
        lower=tuple(edge + spine for edge, spine in zip(rows.lower, rows.spine, strict=True)),
        spine=(0,) * len(rows.spine),
        rates=tuple(
            rate._replace(upper=rate.upper + rate.spine, lower=rate.lower + rate.spine, spine=0.0)
            for rate in rows.rates
        ),
    )
    return crescent.lay(layout._replace(shape="crescent", rows=moved, pinned=None))


def _size(local: LocalOutline) -> tuple[float, float]:
    (left, top), (right, bottom) = local.box
    return right - left, bottom - top


def _not_flat(layout: Layout) -> Problem:
    return known.NOT_FLAT.at(layout.shape_span)


def _cannot_be_straight(layout: Layout, fan: float) -> Problem:
    span = layout.pinned.span if layout.pinned else layout.shape_span
    return known.FAN_NOT_STRAIGHT.at(span, degrees=fan, least=LEAST_FAN, most=MOST_FAN)
