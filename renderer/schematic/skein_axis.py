"""The skein's scale: where on the bar so much yarn is left, and the ticks and figures under it."""

import math
from itertools import pairwise

from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.house_style import SMALL, SOFT, THIN
from halfhank.renderer.paper.measure_words import plain_mass, signed
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import text_width

TICK = 1.5
EVERY = (1, 2, 5, 10)
"""Every tick has its figure, or every second and so on, whatever the figures have room for."""
APART = 1.5
"""The least room between two figures, mm."""


class Ruler(NamedTuple):
    """The scale: from `full_g` grams left at the bar's left end to `end_g` (0, or below it where yarn is short).

    Its figures are in `unit`, g or oz.
    """

    left: float
    width: float
    full_g: float
    end_g: float
    unit: str

    def at(self, left_g: float) -> float:
        """Where so many grams are left, in mm on the page."""
        return self.left + self.width * (self.full_g - left_g) / (self.full_g - self.end_g)


class TickFigure(NamedTuple):
    """The figure of one tick, at `x`, and where its words begin and end, mm."""

    value_g: float
    x: float
    words: str
    start: float
    end: float


def ticks(scale: Ruler, y: float) -> Group:
    """Ticks at round masses, the skein's own mass first; each has its figure, or every second one, evenly."""
    full = _figure(scale, scale.full_g, plain_mass(scale.full_g, scale.unit))
    round_masses = [0.0, *_round_masses(scale, _step(scale))]
    shown = next((found for every in EVERY if (found := _figures(scale, full, every)) is not None), [full])
    off_full = [value for value in round_masses if scale.at(value) > full.end or _is_even(scale, value)]
    items: list[Element] = []
    for x in sorted({scale.at(value) for value in [scale.full_g, *off_full]}):
        items.append(Path((("M", (x, y)), ("L", (x, y + TICK))), Style(stroke=SOFT, width=THIN)))
    items += [Label(one.start, y + TICK + SMALL + 0.2, one.words, SMALL, SOFT) for one in shown]
    return Group("ticks", tuple(items))


def _is_even(scale: Ruler, value_g: float) -> bool:
    """Whether a tick is a whole step or more from the skein's own mass."""
    return scale.full_g - value_g >= _step(scale) * GRAMS_IN[scale.unit] * 0.999


def _figures(scale: Ruler, full: TickFigure, every: int) -> list[TickFigure] | None:
    """The skein's mass and the figure of every so-manieth step; None where they would touch.

    A round mass less than such a step below the skein's own, whose figure would touch that, has none.
    """
    step = _step(scale)
    decimals = max(0, -math.floor(math.log10(step)))
    values = sorted([0.0, *_round_masses(scale, step * every)], reverse=True)
    found = [
        _figure(scale, value, signed(f"{value / GRAMS_IN[scale.unit]:.{decimals}f}") if value else "0")
        for value in values
    ]
    limit = scale.left + scale.width + 0.01
    found = [one for one in found if one.end <= limit]
    near = found and scale.full_g - found[0].value_g < step * every * GRAMS_IN[scale.unit] * 0.999
    if near and found[0].start < full.end + APART:
        found = found[1:]
    touching = any(after.start < before.end + APART for before, after in pairwise([full, *found]))
    return None if touching else [full, *found]


def _figure(scale: Ruler, value_g: float, words: str) -> TickFigure:
    """The skein's mass begins at its tick, zero ends at the bar's end, the others stand under the middle."""
    x, width = scale.at(value_g), text_width(words, SMALL)
    at_end = value_g == 0.0 and scale.end_g == 0
    start = x if value_g == scale.full_g else x - width if at_end else x - width / 2
    return TickFigure(value_g, x, words, start, start + width)


def _step(scale: Ruler) -> float:
    """The mass between two ticks in the scale's unit: 1, 2 or 5 times a power of ten, at most some twelve ticks."""
    raw = (scale.full_g - scale.end_g) / GRAMS_IN[scale.unit] / 12
    power = float(10 ** math.floor(math.log10(raw)))
    return next(power * m for m in (1, 2, 5, 10) if power * m >= raw * 0.999)


def _round_masses(scale: Ruler, step: float) -> list[float]:
    """The multiples of the step inside the scale, in g."""
    step_g = step * GRAMS_IN[scale.unit]
    first = math.floor(scale.full_g / step_g)
    last = math.ceil(scale.end_g / step_g)
    return [k * step_g for k in range(first, last - 1, -1) if 0 != k * step_g < scale.full_g]
