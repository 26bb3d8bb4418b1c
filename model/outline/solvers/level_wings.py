"""Crescents whose wings come up level with their start: the radius of the arcs is sought."""

import math
from collections.abc import Callable

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.solvers.arcs import ArcRadii, right_end
from halfhank.model.outline.solvers.roots import bisected, false_position
from halfhank.model.outline.solvers.strip import Strip

_SAMPLES = 30
_STEP = 1.4
_LEVEL = 1e-7  # of the piece's size: as good as level


def level_radii(strip: Strip, growth: float) -> ArcRadii | None:
    """Three arcs, or arcs around one centre where those turn the start further; None where no radius does."""
    start, turn = strip.before[0], middle_turn(growth)
    rows = WingLevel(strip)
    middle = start / (2 * turn)
    radius = largest_radius(rows, ArcRadii, start / math.pi, middle)
    if radius is not None and radius < middle:
        return ArcRadii(radius)
    outer = largest_radius(rows, lambda r: ArcRadii(middle, turn, r), 1e-3 * strip.height_cm, rows.far_cm)
    return None if outer is None else ArcRadii(middle, turn, outer)


def middle_turn(growth: float) -> float:
    """Half the angle t at which straight wings would end level with the start: `tan t (growth - 2 t) = 2`.

    The left side rises from 0 without bound on 0 < t < pi/2, its slope `(growth - 2 t - sin 2t) / cos^2 t` being
    positive for growths over pi; so there is one root, found by halving.
    """
    return bisected(lambda t: math.tan(t) * (growth - 2 * t) < 2, 0.0, math.pi / 2) / 2


class WingRow(NamedTuple):
    """One boundary's distance from the start and its length."""

    along_cm: float
    length_cm: float


class WingLevel:
    """The rows whose ends come up level with the start's: those over half as long as the longest.

    Radii are sought over a sample of them, which grows by the highest row until none is higher.
    """

    def __init__(self, strip: Strip) -> None:
        pairs = zip(strip.along_cm[1:], map(max, strip.before[1:], strip.after[1:]), strict=True)
        every = [WingRow(at, length) for at, length in pairs]
        longest = max(row.length_cm for row in every)
        self.start_cm = strip.before[0]
        self.rows = [row for row in every if row.length_cm > longest / 2]
        self.sample = [*self.rows[:: max(1, len(self.rows) // _SAMPLES)], self.rows[-1]]
        self.size_cm = longest + strip.height_cm
        self.far_cm = 4 * self.size_cm**2 / strip.height_cm

    def below(self, radii: ArcRadii, rows: list[WingRow]) -> tuple[float, WingRow]:
        """How far the highest of these rows' ends lies below the start's (negative: above), and which row that is."""
        lowest = right_end(radii, 0.0, self.start_cm)[1]
        heights = [right_end(radii, *row)[1] for row in rows]
        highest = min(heights)
        return highest - lowest, rows[heights.index(highest)]


def largest_radius(level: WingLevel, radii_of: Callable[[float], ArcRadii], least: float, most: float) -> float | None:
    """The largest radius from `least` to `most` at which the highest end is level with the start's.

    Infinite where only a larger one than `most` does it; None where none does.
    """
    radius = None
    for _ in range(8):
        radius = _largest_on_sample(level, radii_of, least, most)
        if radius is None or math.isinf(radius):
            return radius
        below, row = level.below(radii_of(radius), level.rows)
        if below > -_LEVEL * level.size_cm or row in level.sample:
            break
        level.sample.append(row)
    return radius


def _largest_on_sample(
    level: WingLevel, radii_of: Callable[[float], ArcRadii], least: float, most: float
) -> float | None:
    """The same for the sampled rows, by going down in steps until the ends have come up."""

    def below(radius: float) -> float:
        return level.below(radii_of(radius), level.sample)[0]

    high, there = most, below(most)
    if there <= 0:
        return math.inf if below(1e3 * level.far_cm) > -_LEVEL * level.size_cm else None
    while high > least:
        low = max(high / _STEP, least)
        here = below(low)
        if here <= 0:
            return false_position(below, (low, here), (high, there), _LEVEL / 10 * level.size_cm)
        high, there = low, here
    return None
