"""The yarn chart: grams on the scale after every row, how sure they are, the weighings and the marks."""

import math

from halfhank.grammar.description import GRAMS_IN
from halfhank.model.number_words import half_up, mass_digits
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.forecast import Forecast
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.charts.chart_heading import chart_heading
from halfhank.renderer.charts.part_lane import part_lane, parts_key
from halfhank.renderer.charts.plot import Plot, axes, grid, nice_step, ribbon, zero_line
from halfhank.renderer.charts.yarn_labels import (
    DEEP,
    YarnCurve,
    area_labels,
    marks,
    names,
    weighings,
)
from halfhank.renderer.paper.house_style import (
    HAIRLINE,
    MARGIN,
    PAPER,
    SMALL,
    SOFT,
    SUBTITLE,
    THIN,
)
from halfhank.renderer.paper.measure_words import plain_mass, yarn_words
from halfhank.renderer.paper.page_block import PageBlock
from halfhank.renderer.paper.page_sizes import WIDEST_MM
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Scene, Style
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.paper.text_widths import wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline, segment
from halfhank.renderer.plane.polylines import simplified
from halfhank.renderer.schematic.fabric.drawn_marks import mark_notes
from halfhank.renderer.schematic.skein_key import PITCH, SLANT, Field, hatching
from halfhank.renderer.schematic.skein_ruler import BAR
from halfhank.renderer.text_alternatives.yarn_description import describe_yarn_chart, end_words, weighing_count
from halfhank.renderer.text_alternatives.yarn_words import chance_words

PLOT_HEIGHT = 92.0
AXIS_ROOM = 14.0
BIND_OFF_WIDTH = 12.5
LINE = 4.6
BAND, BAND_EDGE = RAMPS["tide"].colour(0.3), RAMPS["tide"].colour(0.55)
OLD_BAND = "#eceff1"
MARGIN_BORDER = Style(stroke=SOFT, width=THIN, dash=(1.0, 0.7))
COLUMN_HATCH = RAMPS["tide"].colour(0.2)
"""Pale, so that curves are seen over it."""
HATCH_SWATCH = 3.0
"""The height of the bind-off's full hatching, at the head of its column."""
BELOW_ZERO = 5.0
"""The least height of what lies below zero, mm, so that it can be said what it is."""


def yarn_chart(shawl: Shawl, forecast: Forecast, titled: bool = True) -> Scene:
    """The chart on a page 180 mm wide; the height follows from its notes.

    `titled`: the shawl's title stands above it.
    """
    heading = _heading(shawl, forecast, shawl.title if titled else "")
    plot = _plot(shawl, forecast, heading.bottom + 9.0)
    now = _curve(plot, forecast.rows, forecast.end)
    before = _curve(plot, forecast.plan, forecast.plan_end) if forecast.weighings else None
    obstacles = _obstacles(shawl, plot, now, before)
    drawing = [
        _areas(shawl, plot),
        grid(plot),
        _bands(plot, now, before),
        *_limits(shawl, plot),
        part_lane(shawl, plot),
        marks(shawl, plot, obstacles),
        _lines(now, before),
        weighings(forecast.weighings, shawl.skein.weighed_g, plot, obstacles),
        area_labels(shawl, plot, obstacles),
        names(plot, now, before, shawl.skein.weighed_g is not None, obstacles),
        axes(plot),
    ]
    notes = _notes(shawl, forecast, plot)
    height = plot.box.bottom + 16.0 + LINE * (len(notes.items) - 1) + MARGIN
    title = phrase("yarn-chart.title", shawl=shawl.title)
    return Scene(
        WIDEST_MM, height, title, describe_yarn_chart(shawl, forecast), (*heading.group.items, *drawing, notes)
    )


def _heading(shawl: Shawl, forecast: Forecast, title: str) -> PageBlock:
    """The title, what is shown, the yarn; and what the weighings say of the skein, the length as much as its grams."""
    yarn, unit, room = shawl.yarn, shawl.skein.unit, WIDEST_MM - 2 * MARGIN
    number = half_up(yarn.skein_g / GRAMS_IN[unit], mass_digits(unit))
    metres = number * GRAMS_IN[unit] * yarn.skein_m / yarn.skein_g
    skein = f"{plain_mass(yarn.skein_g, unit)}, {yarn_words(metres, shawl.units)}"
    words = [phrase("yarn-chart.subtitle"), *([isolated(yarn.name)] if yarn.name else [])]
    weighed = weighing_count(shawl, forecast)
    corrected = phrase("yarn-chart.corrected", weighings=phrase("count.weighing", count=weighed), skein=skein)
    texts = [", ".join(words), corrected] if weighed else [", ".join([*words, skein])]
    return chart_heading(title, [line for text in texts for line in wrap(text, room, SUBTITLE, 9)], room)


def _plot(shawl: Shawl, forecast: Forecast, top: float) -> Plot:
    """Grams from nothing, or from the worst that the bands hold, to the most that the skein may hold."""
    everything = [*forecast.rows, forecast.end]
    if forecast.weighings:
        everything += [*forecast.plan, forecast.plan_end]
    high = max(max(e.high for e in everything), *(r.left_g for r in forecast.weighings), shawl.yarn.skein_g)
    high = max(high, shawl.skein.weighed_g or 0.0)
    worst = min(min(e.low for e in everything), 0.0)
    low = max(worst, min(min(e.mean for e in everything), 0.0) - 0.12 * high)
    low = min(low, -high * BELOW_ZERO / PLOT_HEIGHT) if low < 0 else 0.0
    unit = shawl.skein.unit
    step_g = nice_step((high - low) / GRAMS_IN[unit], 11) * GRAMS_IN[unit]
    box = Box(MARGIN + AXIS_ROOM, top, WIDEST_MM - MARGIN - AXIS_ROOM, top + PLOT_HEIGHT)
    head = high + 0.25 * step_g
    return Plot(box, shawl.rows.count, box.right - BIND_OFF_WIDTH, low, head, shawl.yarn.skein_g, unit)


def _curve(plot: Plot, rows: tuple[Estimate, ...], end: Estimate) -> YarnCurve:
    xs = (*[plot.x(row) for row in range(len(rows))], plot.box.right)
    estimates = (*rows, end)
    return YarnCurve(xs, estimates, simplified([(x, plot.y(e.mean)) for x, e in zip(xs, estimates, strict=True)], 0.02))


def _obstacles(shawl: Shawl, plot: Plot, now: YarnCurve, before: YarnCurve | None) -> Obstacles:
    """What labels keep off: the curves and the edges of their bands (that of `now` first), and the part bounds."""
    obstacles = Obstacles(plot.box)
    for curve in filter(None, (now, before)):
        obstacles.add_line(curve.points)
        for grams in ([e.low for e in curve.estimates], [e.high for e in curve.estimates]):
            obstacles.add_line(simplified([(x, plot.y(g)) for x, g in zip(curve.xs, grams, strict=True)], 0.05))
    for part in shawl.parts:
        x = plot.x(part.last_row)
        obstacles.add_line([(x, plot.box.top), (x, plot.box.bottom)])
    return obstacles


def _areas(shawl: Shawl, plot: Plot) -> Group:
    """The column of the bind-off and the margin, in the hatching and the tint that they have on a skein's bar."""
    box, keep = plot.box, shawl.yarn.keep_g
    items: list[Element] = [_column(plot)]
    if keep > 0:
        top = plot.y(keep)
        items.append(Rect(box.left, top, box.width, plot.y(0) - top, Style(fill=PAPER)))
    swatch = hatching(Field(plot.end, box.right, box.top, HATCH_SWATCH), RAMPS["tide"])
    return Group("areas", (*items, Group("bind-off-swatch", tuple(swatch))))


def _limits(shawl: Shawl, plot: Plot) -> tuple[Group, ...]:
    """Where the margin begins, dashed as on a skein's bar, and where the yarn is used up, from side to side."""
    keep, box = shawl.yarn.keep_g, plot.box
    border = Path(segment((box.left, plot.y(keep)), (box.right, plot.y(keep))), MARGIN_BORDER)
    return (*([Group("margin-border", (border,))] if keep > 0 else []), zero_line(plot))


def _column(plot: Plot) -> Group:
    """Slanted strokes as on a skein's bar, pale and wide apart."""
    box, pitch = plot.box, 2 * PITCH
    slant, strokes = SLANT / BAR * box.height, []
    for k in range(math.ceil((box.right - plot.end + slant) / pitch)):
        x = plot.end - slant + k * pitch
        strokes += [("M", (x, box.bottom)), ("L", (x + slant, box.top))]
    corners = [(plot.end, box.top), (box.right, box.top), (box.right, box.bottom), (plot.end, box.bottom)]
    lines = Path(tuple(strokes), Style(stroke=COLUMN_HATCH, width=THIN))
    return Group("bind-off-column", (lines,), clip=(*polyline(corners), ("Z", ())))


def _bands(plot: Plot, now: YarnCurve, before: YarnCurve | None) -> Group:
    """The 90 % bands: that of the plan pale, that of the forecast darker, both with fine edges for greyscale."""
    items: list[Element] = []
    if before is not None:
        items.append(_band(plot, before, Style(fill=OLD_BAND, stroke=SOFT, width=HAIRLINE, dash=(0.8, 0.8))))
    items.append(_band(plot, now, Style(fill=BAND, stroke=BAND_EDGE, width=HAIRLINE)))
    return Group("bands", tuple(items))


def _band(plot: Plot, curve: YarnCurve, style: Style) -> Path:
    lows, highs = [e.low for e in curve.estimates], [e.high for e in curve.estimates]
    return Path(ribbon(plot, curve.xs, lows, highs), style)


def _lines(now: YarnCurve, before: YarnCurve | None) -> Group:
    items: list[Element] = []
    if before is not None:
        items.append(Path(polyline(before.points), Style(stroke=SOFT, width=0.35, dash=(1.6, 1.1))))
    items.append(Path(polyline(now.points), Style(stroke=DEEP, width=0.7, cap="round")))
    return Group("curves", tuple(items))


def _notes(shawl: Shawl, forecast: Forecast, plot: Plot) -> Group:
    """What the picture alone does not say: names of narrow parts, how sure the end is, marks that lie beyond it."""
    lines = [end_words(forecast.end, shawl.skein.unit), chance_words(shawl), *mark_notes(shawl)]
    wrapped = [line for text in lines for line in wrap(text, WIDEST_MM - 2 * MARGIN, SMALL, 9)]
    wrapped = wrap(parts_key(shawl, plot), WIDEST_MM - 2 * MARGIN, SMALL, len(shawl.parts)) + wrapped
    top = plot.box.bottom + 16.0
    labels = [Label(MARGIN, top + LINE * k, line, SMALL, SOFT) for k, line in enumerate(wrapped)]
    return Group("notes", tuple(labels))
