"""What is written on the yarn chart: marks, weighings, names of the curves, the margin and what lies below zero.

Every text that stands off its point is joined to it by a line. Texts find their room one after the other among the
`Obstacles`.
"""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.log import LoggedWeighing
from halfhank.model.weighings.posterior import BAND_SDS, Estimate
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.charts.plot import Plot
from halfhank.renderer.paper.house_style import INK, LIGHT, RED, SMALL, SOFT, THIN
from halfhank.renderer.paper.measure_words import exact_mass, plain_mass
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.label_places import (
    AROUND,
    NEAR,
    TextLines,
    above,
    leader,
    near,
    some_label,
    some_lines,
    tethered_label,
)
from halfhank.renderer.plane.obstacles import Obstacles
from halfhank.renderer.plane.path_data import polyline, segment
from halfhank.renderer.plane.polylines import Points
from halfhank.renderer.plane.text_boxes import label_box
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark, drawn_marks

CLOSE = 3
"""A figure of many weighings stands within so many steps of its point, or is left out."""
MANY = 12
DEEP = RAMPS["tide"].colour(1.0)
ALONG = (0.3, 0.4, 0.2, 0.5, 0.12, 0.6, 0.7, 0.8)
"""Where a curve's name is tried, as a share of its rows."""
UNDER = ((-1.0, 1.0), (-1.0, 0.0), (0.0, 1.0))
ALONG_RANGE = (0.6, 0.65, 0.55, 0.7, 0.75, 0.5, 0.8, 0.85, 0.45, 0.9, 0.35)
"""The same for the lower edge of its range, which has room under it and is far from the curve towards the end."""


class YarnCurve(NamedTuple):
    """Grams left along the rows and through the bind-off, on the page: `points` of the mean, `xs` of all estimates."""

    xs: tuple[float, ...]
    estimates: tuple[Estimate, ...]
    points: Points


def area_labels(shawl: Shawl, plot: Plot, obstacles: Obstacles) -> Group:
    """The margin by name, and that below zero the yarn is not enough."""
    items: list[Element] = []
    keep = shawl.yarn.keep_g
    if keep > 0:
        top, zero = plot.y(keep), plot.y(0)
        inside = (top + zero + SMALL * CAP_HEIGHT) / 2
        heights = (inside, top - 0.9) if zero - top > SMALL * 1.2 else (top - 0.9, zero + SMALL)
        items += _along_the_left(
            obstacles, plot, phrase("yarn-chart.margin", mass=plain_mass(keep, plot.unit)), heights
        )
    if plot.low_g < 0:
        items += _along_the_left(obstacles, plot, phrase("yarn-chart.below-zero"), (plot.y(0) + SMALL * 1.1,))
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
        labels, line = _mark_words(room, plot, point, mark, [*curves, *others])
        items += labels
        for label in labels:
            obstacles.add_label(label)
        if line:
            obstacles.add_line(line)
            leaders[mark.row] = line
            items.append(Path(polyline(line), Style(stroke=RED, width=THIN)))
    return items


def _mark_words(
    obstacles: Obstacles, plot: Plot, point: Point, mark: DrawnMark, least: list[Points]
) -> tuple[TextLines, Points | None]:
    """A mark's words in two lines above the curve, and their leader where they stand far off; see `some_lines`.

    They lie over the bind-off's column only where nothing else is as good.
    """
    rooms = (plot.box._replace(right=plot.end), plot.box)
    places = [labels for room in rooms for labels in above(point, mark.lines, RED, room) if _ends_in(labels, room)]
    joined = [(labels, leader(point, labels)) for labels in places]
    clear = [labels for labels, line in joined if line is None or obstacles.line_free(line, 0.2)]
    labels = some_lines(obstacles, plot.box, clear or places, least) or ()
    return labels, leader(point, labels) if labels else None


def _ends_in(labels: TextLines, room: Box) -> bool:
    return all(label_box(label).right <= room.right for label in labels)


def _fine(mark: DrawnMark) -> tuple[float, ...]:
    return (0.0, 1.2) if mark.style.cap == "round" else (1.8, 1.0)


def weighings(readings: tuple[LoggedWeighing, ...], weighed_g: float | None, plot: Plot, obstacles: Obstacles) -> Group:
    """Each weighing as a point with its figure, after rows with the scale's own 90 % as its bar.

    `weighed_g` is what the whole skein weighed before the start. The figures of many find room, or are left out.
    """
    start = [] if weighed_g is None else [(0, weighed_g)]
    weighed = [(plot.x(row), left_g) for row, left_g in (*start, *((r.row, r.left_g) for r in readings))]
    points = [(x, plot.y(left_g)) for x, left_g in weighed]
    dots = [Box(max(x - 1, plot.box.left), y - 1, x + 1, y + 1) for x, y in points]
    obstacles.boxes += dots
    items: list[Element] = []
    steps = len(NEAR) if len(weighed) <= MANY else CLOSE
    for point, dot, (_, left_g) in zip(points, dots, weighed, strict=True):
        obstacles.boxes.remove(dot)  # its own line ends there
        places = near(point, exact_mass(left_g, plot.unit), INK, AROUND, steps)
        clear = [(point, label) for label in places if not label_box(label).meets(dot)]
        items += _tethered(tethered_label(obstacles, plot.box, clear), INK)
        obstacles.boxes.append(dot)
    items += [item for reading in readings for item in _error_bar(reading, plot)]
    items += [Circle(*point, 0.6, Style(fill=LIGHT, stroke=INK, width=0.3)) for point in points]
    return Group("weighings", tuple(items))


def _error_bar(reading: LoggedWeighing, plot: Plot) -> list[Element]:
    x, reach, stroke = plot.x(reading.row), BAND_SDS * reading.noise_sd_g, Style(stroke=INK, width=0.3)
    low, high = plot.y(reading.left_g - reach), plot.y(reading.left_g + reach)
    ends: list[Element] = [Path(segment((x - 0.9, at), (x + 0.9, at)), stroke) for at in (low, high)]
    return [*ends, Path(segment((x, low), (x, high)), stroke)]


def _tethered(found: tuple[Label, Points | None] | None, ink: str) -> list[Element]:
    """A label with the line to its point, where it stands off; nothing where it found no room."""
    if found is None:
        return []
    label, line = found
    return [label] if line is None else [label, Path(polyline(line), Style(stroke=ink, width=THIN))]


def names(plot: Plot, now: YarnCurve, before: YarnCurve | None, start_weighed: bool, obstacles: Obstacles) -> Group:
    """What each curve is, and the range of the plan before the weighings: beside it and joined to it by a line.

    `start_weighed`: that plan has the skein's weighing in it, and only those after rows not.
    """
    named: list[tuple[str, str, tuple[Point, ...], Points]] = []
    named.append((phrase("yarn-chart.forecast" if before else "yarn-chart.plan"), DEEP, AROUND, _means(plot, now)))
    if before is not None:
        plan = phrase("yarn-chart.weighed-plan" if start_weighed else "yarn-chart.earlier-plan")
        named.append((plan, SOFT, AROUND, _means(plot, before)))
        named.append((phrase("yarn-chart.range", plan=plan), SOFT, UNDER, _lower_edge(plot, before)))
    items: list[Element] = []
    for text, ink, directions, points in named:
        places = [(point, label) for point in points for label in near(point, text, ink, directions)]
        curves = obstacles.copy()
        curves.lines = obstacles.lines[:3]
        rooms = (obstacles, curves)  # at the second go over part bounds and the lines of marks
        found = next(filter(None, (tethered_label(room, plot.box, places) for room in rooms)), None)
        over = None if found else some_label(obstacles, plot.box, [label for _, label in places], [])
        label = found[0] if found else over
        if label is not None:
            obstacles.add_label(label)
        items += _tethered(found, ink) or ([over] if over else [])
    return Group("names", tuple(items))


def _means(plot: Plot, curve: YarnCurve) -> Points:
    rows = [round(share * plot.rows) for share in ALONG]
    return [(curve.xs[row], plot.y(curve.estimates[row].mean)) for row in rows]


def _lower_edge(plot: Plot, curve: YarnCurve) -> Points:
    rows = [round(share * plot.rows) for share in ALONG_RANGE]
    return [(curve.xs[row], plot.y(curve.estimates[row].low)) for row in rows]
