"""A plot's frame: where a row and a number of grams lie on the page, the grid, the ticks and the axes' titles."""

import math
from collections.abc import Sequence

from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.record import NamedTuple
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import HAIRLINE, INK, RULE, SMALL, SOFT, THIN
from halfhank.renderer.paper.measure_words import MINUS
from halfhank.renderer.paper.scene import Element, Group, Label, Path, PathData, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.path_data import polyline, segment
from halfhank.renderer.plane.polylines import simplified

GRID = "#e4e8ea"
TICK = 1.1


class Plot(NamedTuple):
    """`box` on the page; rows 0…`rows` run along it to `end`, where the bind-off's column begins; grams upwards.

    The figures of the axes are in `unit`, g or oz.
    """

    box: Box
    rows: int
    end: float
    low_g: float
    high_g: float
    skein_g: float
    unit: str

    def x(self, row: float) -> float:
        """Where a row ends."""
        return self.box.left + (self.end - self.box.left) * row / self.rows

    def y(self, left_g: float) -> float:
        """The height of so many grams left; what lies outside the axis is kept on its end."""
        share = (min(max(left_g, self.low_g), self.high_g) - self.low_g) / (self.high_g - self.low_g)
        return self.box.bottom - share * self.box.height


def nice_step(span: float, most: int) -> float:
    """The smallest of 1, 2, 5 times a power of ten that cuts a positive span into at most so many steps."""
    power = 10.0 ** math.floor(math.log10(span / most))
    return next((power * f for f in (1.0, 2.0, 5.0) if span <= most * power * f * (1 + 1e-9)), 10 * power)


def ticks(low: float, high: float, step: float) -> list[float]:
    """The multiples of a step from `low` to `high`, both included."""
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [k * step for k in range(first, last + 1)]


def tick_text(value: float, step: float) -> str:
    """A tick's figure, with as many decimals as its step has; a real minus sign."""
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    return f"{value + 0.0:,.{decimals}f}".replace("-", MINUS)


def grid(plot: Plot) -> Group:
    """Light lines at the ticks of rows and grams left, and the frame."""
    box, light = plot.box, Style(stroke=GRID, width=THIN)
    items: list[Element] = []
    for row in _row_ticks(plot):
        items.append(Path(segment((plot.x(row), box.top), (plot.x(row), box.bottom)), light))
    for left_g, _ in _mass_ticks(plot, plot.low_g, plot.high_g):
        items.append(Path(segment((box.left, plot.y(left_g)), (box.right, plot.y(left_g))), light))
    items.append(Rect(box.left, box.top, box.width, box.height, Style(stroke=RULE, width=THIN)))
    return Group("grid", tuple(items))


def zero_line(plot: Plot) -> Group:
    """A firm line where the yarn is used up, from side to side of the plot."""
    ends = ((plot.box.left, plot.y(0)), (plot.box.right, plot.y(0)))
    return Group("zero", (Path(segment(*ends), Style(stroke=INK, width=THIN + HAIRLINE)),))


def axes(plot: Plot) -> Group:
    """Ticks with their figures: rows below, grams left on the left, grams used on the right; and the axes' titles."""
    left = [(plot.y(left_g), text) for left_g, text in _mass_ticks(plot, plot.low_g, plot.high_g)]
    least, most = plot.skein_g - plot.high_g, plot.skein_g - plot.low_g
    used = [(plot.y(plot.skein_g - g), text) for g, text in _mass_ticks(plot, least, most) if g >= 0]
    items = _upright(left, plot.box.left, -1) + _upright(used, plot.box.right, 1) + _level(plot)
    middle = (plot.box.top + plot.box.bottom) / 2
    items.append(_axis_title(_beside(plot.box.left, left, -1), middle, phrase("axis.on-scale", unit=plot.unit)))
    items.append(_axis_title(_beside(plot.box.right, used, 1), middle, phrase("axis.used", unit=plot.unit)))
    middle = (plot.box.left + plot.end) / 2
    items.append(Label(middle, plot.box.bottom + 9.6, phrase("axis.rows"), SMALL, SOFT, anchor="middle"))
    return Group("axes", tuple(items))


def _mass_ticks(plot: Plot, low_g: float, high_g: float) -> list[tuple[float, str]]:
    """The ticks of a mass axis from one mass to another: their grams, and their figures in the plot's unit."""
    unit_g = GRAMS_IN[plot.unit]
    step = nice_step((plot.high_g - plot.low_g) / unit_g, 11)
    return [(value * unit_g, tick_text(value, step)) for value in ticks(low_g / unit_g, high_g / unit_g, step)]


def _row_ticks(plot: Plot) -> list[float]:
    return ticks(0, plot.rows, max(nice_step(plot.rows, 14), 1.0))


def _upright(places: list[tuple[float, str]], x: float, side: int) -> list[Element]:
    """Ticks on a vertical axis; `side` is -1 on the left of the plot and 1 on its right."""
    items: list[Element] = []
    for y, text in places:
        items.append(Path(segment((x, y), (x + side * TICK, y)), Style(stroke=SOFT, width=THIN)))
        anchor = "end" if side < 0 else "start"
        items.append(Label(x + side * 1.9, y + SMALL * CAP_HEIGHT / 2, text, SMALL, INK, anchor=anchor))
    return items


def _beside(x: float, places: list[tuple[float, str]], side: int) -> float:
    """The baseline of an axis' title: clear of the widest figure; turned text stands left of its baseline."""
    widest = max((text_width(text, SMALL) for _, text in places), default=0.0)
    return x + side * (widest + 3.6) + (SMALL * 0.9 if side > 0 else 0.0)


def _axis_title(x: float, middle: float, text: str) -> Label:
    return Label(x, middle, text, SMALL, SOFT, anchor="middle", turn=-90)


def _level(plot: Plot) -> list[Element]:
    items: list[Element] = []
    for row in _row_ticks(plot):
        x = plot.x(row)
        items.append(Path(segment((x, plot.box.bottom), (x, plot.box.bottom + TICK)), Style(stroke=SOFT, width=THIN)))
        items.append(Label(x, plot.box.bottom + 4.6, f"{row:.0f}", SMALL, INK, anchor="middle"))
    return items


def ribbon(plot: Plot, xs: Sequence[float], lows: Sequence[float], highs: Sequence[float]) -> PathData:
    """The closed area between two curves of grams over the same places."""
    upper = simplified([(x, plot.y(g)) for x, g in zip(xs, highs, strict=True)], 0.02)
    lower = simplified([(x, plot.y(g)) for x, g in zip(xs, lows, strict=True)], 0.02)
    return (*polyline(upper + lower[::-1]), ("Z", ()))
