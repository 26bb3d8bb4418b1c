"""What is written on the yarn chart: parts, marks, weighings, names of the curves, the margin and what lies below zero.

Every text that stands off its point is joined to it by a line. Texts find their room one after the other among the
`Obstacles`.
"""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.log import LoggedWeighing
from halfhank.model.weighings.posterior import BAND_SDS, Estimate
from halfhank.renderer.charts.plot import Plot
from halfhank.renderer.paper.house_style import INK, LIGHT, RED, RULE, SMALL, SOFT, THIN
from halfhank.renderer.paper.measure_words import exact_mass, plain_mass
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.label_places import (
    AROUND,
    TextLines,
    above,
    free_label,
    leader,
    near,
    some_label,
    some_lines,
    tether,
    tethered_label,
)
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline, segment
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark, drawn_marks

CLOSE = 3
"""A weighing's figure stands within so many steps of its point, or is left out."""
DEEP = RAMPS["tide"].colour(1.0)
ALONG = (0.3, 0.4, 0.2, 0.5, 0.12, 0.6, 0.7, 0.8)
"""Where a curve's name is tried, as a share of its rows."""


class YarnCurve(NamedTuple):
    """Grams left along the rows and through the bind-off, on the page: `points` of the mean, `xs` of all estimates."""

    xs: tuple[float, ...]
    estimates: tuple[Estimate, ...]
    points: Points


def part_lane(shawl: Shawl, plot: Plot) -> Group:
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


def parts_key(shawl: Shawl, plot: Plot) -> str:
    """The parts that have a number, or nothing, over the plot in place of their name; empty where all have one."""
    named = [
        f"{number} {isolated(part.name)}"
        for number, part in enumerate(shawl.parts, 1)
        if _short(part.name, "", plot.x(part.last_row) - plot.x(part.first_row - 1) - 1.4) != part.name
    ]
    return f"Parts: {', '.join(named)}." if named else ""


def _short(name: str, number: str, room: float) -> str:
    """The name, the number in its place, or nothing."""
    return next((text for text in (name, number) if text_width(text, SMALL) <= room), "")


def area_labels(shawl: Shawl, plot: Plot, obstacles: Obstacles) -> Group:
    """The margin by name, and that below zero the yarn is not enough."""
    items: list[Element] = []
    keep = shawl.yarn.keep_g
    if keep > 0:
        top, zero = plot.y(keep), plot.y(0)
        inside = (top + zero + SMALL * CAP_HEIGHT) / 2
        heights = (inside, top - 0.9) if zero - top > SMALL * 1.2 else (top - 0.9, zero + SMALL)
        items += _along_the_left(obstacles, plot, f"margin, {plain_mass(keep, plot.unit)}", heights)
    if plot.low_g < 0:
        items += _along_the_left(obstacles, plot, "below zero: not enough yarn", (plot.y(0) + SMALL * 1.1,))
    return Group("areas-named", tuple(items))


def _along_the_left(obstacles: Obstacles, plot: Plot, text: str, heights: tuple[float, ...]) -> list[Element]:
    """The text in the first room at one of the heights, as far left as it goes; if lines are everywhere, over them."""
    room = plot.box.right - plot.box.left - text_width(text, SMALL) - 2.0
    lefts = [plot.box.left + 1.2 + room * share / 12 for share in range(12)]
    places = [Label(left, y, text, SMALL, SOFT) for y in heights for left in lefts]
    label = some_label(obstacles, plot.box, places, [])
    return [label] if label else []


def marks(shawl: Shawl, plot: Plot, obstacles: Obstacles) -> Group:
    """Each mark as a cross-hair from its point on the curve to both axes, and its words above the curve."""
    items: list[Element] = []
    for mark in drawn_marks(shawl):
        point = (plot.x(mark.row), plot.y(mark.left_g))
        across = [(plot.box.left, point[1]), point, (point[0], plot.box.bottom)]
        items.append(Path(polyline(across), mark.style._replace(width=0.45, dash=_fine(mark))))
        items.append(Circle(*point, 0.9, Style(fill=RED, stroke=LIGHT, width=THIN)))
        obstacles.add_line(across)
    return Group("marks", (*items, *_marks_words(drawn_marks(shawl), plot, obstacles)))


def _marks_words(drawn: list[DrawnMark], plot: Plot, obstacles: Obstacles) -> list[Element]:
    """The words of all marks, each off the leaders of the others; what is at the right has the least room."""
    curves, leaders = obstacles.lines[:3], dict[int, Points]()
    points = {mark.row: (plot.x(mark.row), plot.y(mark.left_g)) for mark in drawn}
    items: list[Element] = []
    for mark in sorted(drawn, key=lambda mark: -mark.row):
        point = points[mark.row]
        others = [leaders.get(row, [at, (at[0], plot.box.top)]) for row, at in points.items() if row != mark.row]
        room = obstacles.copy()
        room.lines += others
        labels, line = _mark_words(room, plot.box, point, mark, [*curves, *others])
        items += labels
        for label in labels:
            obstacles.add_label(label)
        if line:
            obstacles.add_line(line)
            leaders[mark.row] = line
            items.append(Path(polyline(line), Style(stroke=RED, width=THIN)))
    return items


def _mark_words(
    obstacles: Obstacles, room: Box, point: Point, mark: DrawnMark, least: list[Points]
) -> tuple[TextLines, Points | None]:
    """A mark's words in two lines above the curve, and their leader where they stand far off; see `some_lines`."""
    places = list(above(point, mark.lines, RED, room))
    joined = [(labels, leader(point, labels)) for labels in places]
    clear = [labels for labels, line in joined if line is None or obstacles.line_free(line, 0.2)]
    labels = some_lines(obstacles, room, clear or places, least) or ()
    return labels, leader(point, labels) if labels else None


def _fine(mark: DrawnMark) -> tuple[float, ...]:
    return (0.0, 1.2) if mark.style.cap == "round" else (1.8, 1.0)


def weighings(readings: tuple[LoggedWeighing, ...], plot: Plot, obstacles: Obstacles) -> Group:
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
        items += _with_line((x, y), label, INK)
    return Group("weighings", tuple(items))


def _with_line(point: Point, label: Label | None, ink: str) -> list[Element]:
    """A label with the line to its point, where it stands off."""
    if label is None:
        return []
    line = tether(point, label)
    return [label] if line is None else [label, Path(polyline(line), Style(stroke=ink, width=THIN))]


def names(plot: Plot, now: YarnCurve, before: YarnCurve | None, obstacles: Obstacles) -> Group:
    """What each curve is, written beside it and joined to it by a line."""
    named = [(now, f"{'forecast' if before else 'plan'} with its 90 % range", DEEP)]
    named += [(before, "plan before the weighings", SOFT)] if before else []
    items: list[Element] = []
    for curve, text, ink in named:
        points = [_at(plot, curve, share) for share in ALONG]
        places = [(point, label) for point in points for label in near(point, text, ink, AROUND)]
        found = tethered_label(obstacles, plot.box, places)
        if found is not None:
            label, line = found
            items += [label, *([Path(polyline(line), Style(stroke=ink, width=THIN))] if line else [])]
        else:
            over = some_label(obstacles, plot.box, [label for _, label in places], obstacles.lines[:3])
            items += [over] if over else []
    return Group("names", tuple(items))


def _at(plot: Plot, curve: YarnCurve, share: float) -> Point:
    """The point of a curve at a share of its rows."""
    row = round(share * plot.rows)
    return (curve.xs[row], plot.y(curve.estimates[row].mean))
