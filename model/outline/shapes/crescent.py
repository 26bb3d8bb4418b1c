"""Crescent: a fan while it grows slowly; beyond that parallel curves of three arcs, whose wings come up level."""

import math
from collections.abc import Callable
from typing import NamedTuple

from halfhank.model.outline.laid import EdgeLengths, Laid, Measured
from halfhank.model.outline.layout import Layout
from halfhank.model.outline.region import one_panel
from halfhank.model.outline.shapes.arcs import Bow, bend, bent, bow_grain, right_end
from halfhank.model.outline.shapes.half_circle import lay_sector, sector_of
from halfhank.model.outline.strip import Strip, cells_of, settled

NEARLY_FULL = 0.999
LEAST_FAN = 0.02
MOST_TURN = math.radians(100)
"""How far a row may turn to each side."""

_SAMPLES = 30
_STEP = 1.4
_LEVEL = 1e-7  # of the piece's size: as good as level


def lay(layout: Layout) -> Laid:
    """The construction that the growth of the rows makes."""
    cells = cells_of(layout.rows)
    sector = sector_of(layout, cells, False)
    strip, turned = settled(layout.rows).strip, sector.turned
    strip = strip.turned() if turned else strip
    words = "crescent and back" if layout.turned_back else "crescent"
    growth = growth_of(strip)
    bow = fan_bow(strip, growth) if growth <= math.pi else curved_bow(strip, growth)
    if bow is None or _turns_too_far(strip, bow):
        return lay_sector(layout, cells, sector)._replace(words=words)
    bows = bend(strip, bow, turned)
    degrees = math.degrees(max(growth, LEAST_FAN)) if growth <= math.pi else None
    return Laid(
        words=words,
        ends=bows.ends,
        regions=one_panel(bows.ends, bows.curve),
        reach=bows.reach,
        lengths=_lengths_from_end if turned else _lengths_from_start,
        grain=bow_grain(bows.turns),
        fan_degrees=degrees,
        fan_words=None if degrees is None else f"grows slowly: a fan of {degrees:.0f} degrees",
    )


def growth_of(strip: Strip) -> float:
    """By how much rows gain on each other for each cm between them, up to the first that is nearly the longest."""
    longest = max(max(strip.before), max(strip.after))
    for at, before, after in zip(strip.along_cm[1:], strip.before[1:], strip.after[1:], strict=True):
        if max(before, after) >= NEARLY_FULL * longest:
            return (max(before, after) - strip.before[0]) / at
    return 0.0


def fan_bow(strip: Strip, growth: float) -> Bow:
    """A fan around one centre: its angle is what rows gain for each cm of radius."""
    return Bow(strip.before[0] / max(growth, LEAST_FAN))


def curved_bow(strip: Strip, growth: float) -> Bow | None:
    """Three arcs, or arcs around one centre where those turn the start further; None where no radius does."""
    start, turn = strip.before[0], middle_turn(growth)
    rows = WingLevel(strip)
    middle = start / (2 * turn)
    radius = largest_radius(rows, Bow, start / math.pi, middle)
    if radius is not None and radius < middle:
        return Bow(radius)
    outer = largest_radius(rows, lambda r: Bow(middle, turn, r), 1e-3 * strip.height_cm, rows.far_cm)
    return None if outer is None else Bow(middle, turn, outer)


def middle_turn(growth: float) -> float:
    """Half the angle t at which straight wings would end level with the start: `tan t (growth - 2 t) = 2`.

    The left side rises from 0 without bound on 0 < t < pi/2, its slope `(growth - 2 t - sin 2t) / cos^2 t` being
    positive for growths over pi; so there is one root, found by halving.
    """
    low, high = 0.0, math.pi / 2
    for _ in range(60):
        t = (low + high) / 2
        if math.tan(t) * (growth - 2 * t) < 2:
            low = t
        else:
            high = t
    return low / 2


class Row(NamedTuple):
    """One boundary's distance from the start and its length."""

    along_cm: float
    length_cm: float


class WingLevel:
    """The rows whose ends come up level with the start's: those over half as long as the longest.

    Radii are sought over a sample of them, which grows by the highest row until none is higher.
    """

    def __init__(self, strip: Strip) -> None:
        pairs = zip(strip.along_cm[1:], map(max, strip.before[1:], strip.after[1:]), strict=True)
        every = [Row(at, length) for at, length in pairs]
        longest = max(row.length_cm for row in every)
        self.start_cm = strip.before[0]
        self.rows = [row for row in every if row.length_cm > longest / 2]
        self.sample = [*self.rows[:: max(1, len(self.rows) // _SAMPLES)], self.rows[-1]]
        self.size_cm = longest + strip.height_cm
        self.far_cm = 4 * self.size_cm**2 / strip.height_cm

    def below(self, bow: Bow, rows: list[Row]) -> tuple[float, Row]:
        """How far the highest of these rows' ends lies below the start's (negative: above), and which row that is."""
        lowest = right_end(bow, 0.0, self.start_cm)[1]
        heights = [right_end(bow, *row)[1] for row in rows]
        highest = min(heights)
        return highest - lowest, rows[heights.index(highest)]


def largest_radius(level: WingLevel, bow_of: Callable[[float], Bow], least: float, most: float) -> float | None:
    """The largest radius from `least` to `most` at which the highest end is level with the start's.

    Infinite where only a larger one than `most` does it; None where none does.
    """
    radius = None
    for _ in range(8):
        radius = _largest_on_sample(level, bow_of, least, most)
        if radius is None or math.isinf(radius):
            return radius
        below, row = level.below(bow_of(radius), level.rows)
        if below > -_LEVEL * level.size_cm or row in level.sample:
            break
        level.sample.append(row)
    return radius


def _largest_on_sample(level: WingLevel, bow_of: Callable[[float], Bow], least: float, most: float) -> float | None:
    """The same for the sampled rows, by going down in steps until the ends have come up."""

    def below(radius: float) -> float:
        return level.below(bow_of(radius), level.sample)[0]

    high, there = most, below(most)
    if there <= 0:
        return math.inf if below(1e3 * level.far_cm) > -_LEVEL * level.size_cm else None
    while high > least:
        low = max(high / _STEP, least)
        here = below(low)
        if here <= 0:
            return _root(below, (low, here), (high, there), _LEVEL / 10 * level.size_cm)
        high, there = low, here
    return None


def _root(below: Callable[[float], float], low: tuple[float, float], high: tuple[float, float], near: float) -> float:
    """The root between two places of unlike sign, each given with its value: false position, Illinois rule
    (Dowell and Jarratt, BIT 11, 1971)."""
    (a, fa), (b, fb) = low, high
    for _ in range(60):
        c = b - fb * (b - a) / (fb - fa)
        fc = below(c)
        if abs(fc) < near:
            return c
        if fc * fb < 0:
            a, fa = b, fb
        else:
            fa /= 2
        b, fb = c, fc
    return b


def _turns_too_far(strip: Strip, bow: Bow) -> bool:
    rows = zip(strip.along_cm, map(max, strip.before, strip.after), strict=True)
    return any(bent(bow, at, length).turn > MOST_TURN for at, length in rows)


def _lengths_from_start(piece: Measured) -> EdgeLengths:
    return _lengths(piece, 0)


def _lengths_from_end(piece: Measured) -> EdgeLengths:
    return _lengths(piece, -1)


def _lengths(piece: Measured, inner: int) -> EdgeLengths:
    """The top runs along both edges and the inner row between them."""
    return EdgeLengths(piece.edge_cm(0) + piece.row_cm(inner) + piece.edge_cm(1), None)
