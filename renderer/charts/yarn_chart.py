"""The yarn chart: grams left on the scale after every row, how sure they are, the weighings and the marks."""

from halfhank.grammar.description import GRAMS_IN
from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import counted
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.forecast import Forecast
from halfhank.model.weighings.log import LoggedWeighing
from halfhank.model.weighings.posterior import BAND_SDS, Estimate
from halfhank.renderer.charts.chart_heading import chart_heading
from halfhank.renderer.charts.plot import Plot, axes, grid, nice_step, ribbon
from halfhank.renderer.paper.house_style import (
    HAIRLINE,
    INK,
    LIGHT,
    MARGIN,
    PAPER,
    RED,
    RULE,
    SMALL,
    SOFT,
    SUBTITLE,
    THIN,
)
from halfhank.renderer.paper.measure_words import exact, exact_mass, plain_mass, yarn_words
from halfhank.renderer.paper.page_block import PageBlock
from halfhank.renderer.paper.page_sizes import WIDEST_MM
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Rect, Scene, Style
from halfhank.renderer.paper.text_widths import fit, text_width, wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.label_places import AROUND, above, free_label, leader, near, some_label
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline, segment
from halfhank.renderer.plane.polylines import Points, simplified
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark, drawn_marks, mark_notes

PLOT_HEIGHT = 92.0
AXIS_ROOM = 14.0
BIND_OFF_WIDTH = 12.5
LINE = 4.6
CLOSE = 3
"""A weighing's figure stands within so many steps of its point, or is left out."""
DEEP, BAND, BAND_EDGE = RAMPS["tide"].colour(1.0), RAMPS["tide"].colour(0.3), RAMPS["tide"].colour(0.55)
OLD_BAND = "#eceff1"
ALONG = (0.3, 0.4, 0.2, 0.5, 0.12, 0.6, 0.7, 0.8)
"""Where a curve's name is tried, as a share of its rows."""


class YarnCurve(NamedTuple):
    """Grams left along the rows and through the bind-off, on the page: `points` of the mean, `xs` of all estimates."""

    xs: tuple[float, ...]
    estimates: tuple[Estimate, ...]
    points: Points


def yarn_chart(shawl: Shawl, forecast: Forecast) -> Scene:
    """The chart on a page 180 mm wide; the height follows from its notes."""
    heading = _heading(shawl)
    plot = _plot(shawl, forecast, heading.bottom + 9.0)
    now = _curve(plot, forecast.rows, forecast.end)
    before = _curve(plot, forecast.plan, forecast.plan_end) if forecast.weighings else None
    obstacles = _obstacles(shawl, plot, now, before)
    drawing = [
        _areas(shawl, plot),
        grid(plot),
        _bands(plot, now, before),
        _part_lane(shawl, plot),
        _marks(shawl, plot, obstacles),
        _lines(now, before),
        _readings(forecast.weighings, plot, obstacles),
        _names(plot, now, before, obstacles),
        axes(plot),
    ]
    notes = _notes(shawl, forecast, plot.box.bottom + 16.0)
    height = plot.box.bottom + 16.0 + LINE * (len(notes.items) - 1) + MARGIN
    title = f"{shawl.title}: the yarn, row by row"
    return Scene(WIDEST_MM, height, title, _description(shawl, forecast), (*heading.group.items, *drawing, notes))


def _heading(shawl: Shawl) -> PageBlock:
    yarn, room = shawl.yarn, WIDEST_MM - 2 * MARGIN
    skein = f"{plain_mass(yarn.skein_g, shawl.skein.unit)}, {yarn_words(yarn.skein_m, shawl.units)}"
    words = ", ".join(["the yarn, row by row", *([yarn.name] if yarn.name else []), skein])
    return chart_heading(shawl.title, [fit(words, room, SUBTITLE)], room)


def _plot(shawl: Shawl, forecast: Forecast, top: float) -> Plot:
    """Grams from nothing, or from the worst that the bands hold, to the most that the skein may hold."""
    everything = [*forecast.rows, forecast.end]
    if forecast.weighings:
        everything += [*forecast.plan, forecast.plan_end]
    high = max(max(e.high for e in everything), *(r.left_g for r in forecast.weighings), shawl.yarn.skein_g)
    worst = min(min(e.low for e in everything), 0.0)
    low = max(worst, min(min(e.mean for e in everything), 0.0) - 0.12 * high)
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
    """The column of the bind-off, and the margin that is kept."""
    box, keep = plot.box, shawl.yarn.keep_g
    items: list[Element] = [Rect(plot.end, box.top, box.right - plot.end, box.height, Style(fill=PAPER))]
    if keep > 0:
        items.append(Rect(box.left, plot.y(keep), box.width, plot.y(0) - plot.y(keep), Style(fill=PAPER)))
    return Group("areas", tuple(items))


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


def _part_lane(shawl: Shawl, plot: Plot) -> Group:
    """Part bounds as upright lines, the parts' names above; a name without room gives way to its number."""
    items: list[Element] = []
    y = plot.box.top - 2.2
    for number, part in enumerate(shawl.parts, 1):
        left, right = plot.x(part.first_row - 1), plot.x(part.last_row)
        bound = segment((right, plot.box.top - 1.2), (right, plot.box.bottom))
        items.append(Path(bound, Style(stroke=RULE, width=0.3)))
        text = _short(part.name, str(number), right - left - 1.4)
        if text:
            items.append(Label((left + right) / 2, y, text, SMALL, INK, anchor="middle"))
    items.append(Label((plot.end + plot.box.right) / 2, y, "bind-off", SMALL, SOFT, anchor="middle"))
    return Group("parts", tuple(items))


def _short(name: str, number: str, room: float) -> str:
    """The name, the number in its place, or nothing."""
    return next((text for text in (name, number) if text_width(text, SMALL) <= room), "")


def _marks(shawl: Shawl, plot: Plot, obstacles: Obstacles) -> Group:
    """Each mark as a cross-hair from its point on the curve to both axes, and its words above the curve."""
    items: list[Element] = []
    for mark in drawn_marks(shawl):
        point = (plot.x(mark.row), plot.y(mark.left_g))
        across = [(plot.box.left, point[1]), point, (point[0], plot.box.bottom)]
        items.append(Path(polyline(across), mark.style._replace(width=0.45, dash=_fine(mark))))
        items.append(Circle(*point, 0.9, Style(fill=RED, stroke=LIGHT, width=THIN)))
        obstacles.add_line(across)
    for mark in drawn_marks(shawl):
        point = (plot.x(mark.row), plot.y(mark.left_g))
        items += _mark_words(obstacles, plot, point, mark.words)
    return Group("marks", tuple(items))


def _mark_words(obstacles: Obstacles, plot: Plot, point: Point, words: str) -> list[Element]:
    """A mark's words above the curve, on a leader where they stand far off."""
    label = some_label(obstacles, plot.box, list(above(point, words, RED, plot.box)), obstacles.lines[:3])
    if label is None:
        return []
    line = leader(point, label)
    if line is None:
        return [label]
    obstacles.add_line(line)
    return [label, Path(polyline(line), Style(stroke=RED, width=THIN))]


def _fine(mark: DrawnMark) -> tuple[float, ...]:
    return (0.0, 1.2) if mark.style.cap == "round" else (1.8, 1.0)


def _readings(readings: tuple[LoggedWeighing, ...], plot: Plot, obstacles: Obstacles) -> Group:
    """Each weighing as a point with the scale's own 90 % as its bar; figures where they find room."""
    items: list[Element] = []
    points = [(plot.x(r.row), plot.y(r.left_g)) for r in readings]
    for x, y in points:
        obstacles.add_box(Box(x - 1, y - 1, x + 1, y + 1))
    stroke = Style(stroke=INK, width=0.3)
    for reading, (x, y) in zip(readings, points, strict=True):
        reach = BAND_SDS * reading.noise_sd_g
        low, high = plot.y(reading.left_g - reach), plot.y(reading.left_g + reach)
        items += [Path(segment((x - 0.9, at), (x + 0.9, at)), stroke) for at in (low, high)]
        items.append(Path(segment((x, low), (x, high)), stroke))
        items.append(Circle(x, y, 0.6, stroke._replace(fill=LIGHT)))
        label = free_label(obstacles, plot.box, near((x, y), exact_mass(reading.left_g, plot.unit), INK, AROUND, CLOSE))
        items += [label] if label else []
    return Group("weighings", tuple(items))


def _names(plot: Plot, now: YarnCurve, before: YarnCurve | None, obstacles: Obstacles) -> Group:
    """What each curve is, written beside it."""
    named = [(now, "forecast with its 90 % band" if before else "plan with its 90 % band", DEEP)]
    named += [(before, "plan before the weighings", SOFT)] if before else []
    items: list[Element] = []
    for curve, text, ink in named:
        places = [label for share in ALONG for label in near(_at(plot, curve, share), text, ink, AROUND)]
        label = some_label(obstacles, plot.box, places, obstacles.lines[:3])
        items += [label] if label else []
    return Group("names", tuple(items))


def _at(plot: Plot, curve: YarnCurve, share: float) -> Point:
    """The point of a curve at a share of its rows."""
    row = round(share * plot.rows)
    return (curve.xs[row], plot.y(curve.estimates[row].mean))


def _notes(shawl: Shawl, forecast: Forecast, top: float) -> Group:
    """What the picture alone does not say: how sure the end is, the margin, marks that lie beyond the end."""
    lines = [_end_words(forecast.end, shawl.skein.unit), _chance_words(shawl), *mark_notes(shawl)]
    wrapped = [line for text in lines for line in wrap(text, WIDEST_MM - 2 * MARGIN, SMALL, 3)]
    labels = [Label(MARGIN, top + LINE * k, line, SMALL, SOFT) for k, line in enumerate(wrapped)]
    return Group("notes", tuple(labels))


def _end_words(end: Estimate, unit: str) -> str:
    low = f"{exact(end.low, unit)} to" if end.low >= 0 else f"{exact_mass(-end.low, unit)} missing to"
    high = exact_mass(end.high, unit) if end.high >= 0 else f"{exact_mass(-end.high, unit)} missing"
    band = f"{low} {high}, nine times in ten"
    left = f"{exact_mass(end.mean, unit)} are left" if end.mean >= 0 else f"{exact_mass(-end.mean, unit)} are missing"
    return f"After the bind-off {left} ({band})."


def _chance_words(shawl: Shawl) -> str:
    keep = f" A margin of {plain_mass(shawl.yarn.keep_g, shawl.skein.unit)} is kept." if shawl.yarn.keep_g > 0 else ""
    return f"Chance that the yarn lasts: {_chance(shawl.yarn.chance_enough)}.{keep}"


def _chance(chance: float) -> str:
    """A chance in whole per cent, never a certainty that nobody has."""
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{100 * chance:.0f} %"


def _description(shawl: Shawl, forecast: Forecast) -> str:
    yarn, unit = shawl.yarn, shawl.skein.unit
    weighed = f" {counted(len(forecast.weighings), 'weighing')}." if forecast.weighings else ""
    return (
        f"Yarn left after each of {shawl.rows.count:,} rows, from {exact_mass(yarn.skein_g, unit)} to "
        f"{exact_mass(forecast.end.mean, unit)} after the bind-off, with a 90 % band.{weighed}"
    )
