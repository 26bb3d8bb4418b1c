"""The skein as a ruler: what is used, by whom, what is left, in grams on the scale."""

import math
from itertools import pairwise

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import (
    BADGE_RADIUS,
    CASING_WIDTH,
    EDGE,
    HEADING,
    INK,
    LIGHT,
    PAPER,
    RED,
    SMALL,
    SOFT,
    TEXT,
    THIN,
)
from halfhank.renderer.paper.measure_words import grams, plain_number, signed, yarn_words
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width, wrap
from halfhank.renderer.plane.spreading import spread
from halfhank.renderer.schematic.annotations.badges import badge_items
from halfhank.renderer.schematic.fabric.drawn_bands import share_at
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark

BAR = 7.5
STEPS = 100
TICK = 1.5
SMALL_BADGE = 1.9
INSIDE = 2.8
INSIDE_SIZES, INSIDE_ROOM = (INSIDE, 2.4), 0.7


class Ruler(NamedTuple):
    """The scale: from `full_g` grams left at the bar's left end to `end_g` (0, or below it where yarn is short)."""

    left: float
    width: float
    full_g: float
    end_g: float

    def at(self, left_g: float) -> float:
        """Where so many grams are left, in mm on the page."""
        return self.left + self.width * (self.full_g - left_g) / (self.full_g - self.end_g)


def ruler(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp, marks: list[DrawnMark]) -> PageBlock:
    """Heading, marks' names, bar, ticks."""
    yarn = shawl.yarn
    scale = Ruler(column.left, column.width, yarn.skein_g, min(0.0, yarn.skein_g - yarn.total_g))
    headings = _heading(shawl, column, top + HEADING)
    y = max(label.y for label in headings) + 2.0
    items: list[Element] = [Group("skein-heading", tuple(headings))]
    aside = _thin_parts(shawl, scale, marks)
    names = _mark_names(scale, marks, y + SMALL)
    y += (5.0 if names else 1.0) + (5.0 if aside else 0.0)
    items.append(_bar(shawl, scale, y, ramp))
    items.append(_marks(scale, marks, y, 5.0 if aside else 0.0))
    items.append(Group("mark-names", tuple(names)))
    items.append(_badges(shawl, scale, y, aside, [scale.at(mark.left_g) for mark in marks]))
    ticks = _ticks(scale, y + BAR)
    return PageBlock(Group("skein", (*items, ticks)), y + BAR + TICK + SMALL + 2.2)


def _heading(shawl: Shawl, column: PageColumn, y: float) -> list[Label]:
    """What the skein is, on a second line where it finds no room beside the heading."""
    yarn = shawl.yarn
    heading = "The skein"
    unit = "grams left"
    start = column.left + text_width(heading, HEADING, bold=True) + 3
    facts = [yarn.name, f"{plain_number(yarn.skein_g)} g", yarn_words(yarn.skein_m, shawl.units), yarn.fibre]
    words = ", ".join(fact for fact in facts if fact)
    labels = [
        Label(column.left, y, heading, HEADING, INK, bold=True),
        Label(column.right, y, unit, SMALL, SOFT, anchor="end"),
    ]
    if text_width(words, TEXT) <= column.right - text_width(unit, SMALL) - 4 - start:
        return [*labels, Label(start, y, words, TEXT, SOFT)]
    lines = wrap(words, column.width, TEXT, 3)
    return [*labels, *[Label(column.left, y + (k + 1) * 4.9, line, TEXT, SOFT) for k, line in enumerate(lines)]]


def _bar(shawl: Shawl, scale: Ruler, y: float, ramp: Ramp) -> Group:
    """The ramp over the rows, the hatched bind-off, what is left open, the margin kept, and the frame."""
    yarn = shawl.yarn
    knitted = scale.at(yarn.skein_g - shawl.used_g[-1])
    bound = scale.at(yarn.skein_g - yarn.total_g)
    items: list[Element] = _kept(shawl, scale, y)
    items += [*_ramp(shawl, scale, y, ramp), *_hatching(knitted, bound, y, ramp.colour(1.0))]
    items += _bounds(shawl, scale, y)
    items.append(Rect(scale.left, y, scale.width, BAR, Style(stroke=SOFT, width=EDGE)))
    items += _left_words(shawl, scale, y)
    if scale.end_g < 0:
        zero = scale.at(0)
        items.append(Rect(zero, y, scale.left + scale.width - zero, BAR, Style(stroke=RED, width=0.5)))
    return Group("bar", tuple(items))


def _bounds(shawl: Shawl, scale: Ruler, y: float) -> list[Element]:
    """A white line between two parts, finer where they are thin."""
    segments = _segments(shawl, scale)
    items: list[Element] = []
    for (first, x), (_, last) in pairwise(segments):
        width = min(0.5, (x - first) / 3, (last - x) / 3)
        items.append(Rect(x - width / 2, y, width, BAR, Style(fill=LIGHT)))
    return items


def _ramp(shawl: Shawl, scale: Ruler, y: float, ramp: Ramp) -> list[Element]:
    """The used part of the skein in steps of a hundredth, each reaching under the next."""
    end = share_at(shawl, shawl.rows.count)
    total, skein = shawl.yarn.total_g, shawl.yarn.skein_g
    steps = max(1, math.ceil(STEPS * end))
    items: list[Element] = []
    for k in range(steps):
        first, last = end * k / steps, end * min(k + 2, steps) / steps
        x = scale.at(skein - first * total)
        colour = ramp.colour(end * (k + 0.5) / steps)
        items.append(Rect(x, y, scale.at(skein - last * total) - x, BAR, Style(fill=colour)))
    return items


def _hatching(left: float, right: float, y: float, colour: str) -> list[Element]:
    """The bind-off: slanted strokes in its colour."""
    if right - left < 0.05:
        return []
    box = (("M", (left, y)), ("L", (right, y)), ("L", (right, y + BAR)), ("L", (left, y + BAR)), ("Z", ()))
    strokes = []
    x = left - 2.0
    while x < right:
        strokes += [("M", (x, y + BAR)), ("L", (x + 2.4, y))]
        x += 1.2
    hatching = Path(tuple(strokes), Style(stroke=LIGHT, width=0.4))
    ground = Rect(left, y, right - left, BAR, Style(fill=colour))
    return [ground, Group("bind-off-yarn", (hatching,), clip=box)]


def _kept(shawl: Shawl, scale: Ruler, y: float) -> list[Element]:
    """The margin that is never planned for, set apart at the end of the skein."""
    keep = shawl.yarn.keep_g
    if keep <= 0:
        return []
    x, end = scale.at(keep), scale.at(0)
    border = Path((("M", (x, y)), ("L", (x, y + BAR))), Style(stroke=SOFT, width=THIN, dash=(1.0, 0.7)))
    return [Rect(x, y, end - x, BAR, Style(fill=PAPER)), border]


def _left_words(shawl: Shawl, scale: Ruler, y: float) -> list[Element]:
    """`kept` in the margin and `19 g left` in the open part, each where it fits."""
    yarn = shawl.yarn
    bound = scale.at(yarn.skein_g - yarn.total_g)
    kept = scale.at(yarn.keep_g)
    items: list[Element] = []
    fields = [("kept", max(kept, bound), scale.at(0)), (f"{grams(max(yarn.left_g, 0))} g left", bound, kept)]
    for words, first, last in fields:
        sizes = [size for size in INSIDE_SIZES if last - first >= text_width(words, size) + 2 * INSIDE_ROOM]
        if sizes:
            y_text = y + BAR / 2 + sizes[0] * CAP_HEIGHT / 2
            items.append(Label((first + last) / 2, y_text, words, sizes[0], SOFT, anchor="middle"))
    return items


def _ticks(scale: Ruler, y: float) -> Group:
    """Ticks at round grams with their numbers, the skein's own mass first; what would touch another is left out."""
    items: list[Element] = []
    taken: list[tuple[float, float]] = []
    step = _step(scale)
    for value in [scale.full_g, 0.0, *_round_grams(scale, step)]:
        x = scale.at(value)
        first = value == scale.full_g
        words = f"{plain_number(value)} g" if first else signed(f"{value:.{max(0, -math.floor(math.log10(step)))}f}")
        width = text_width(words, SMALL)
        ends = value == 0.0 and scale.end_g == 0
        start = x if first else x - width if ends else x - width / 2
        inside = start >= scale.left - 0.01 and start + width <= scale.left + scale.width + 0.01
        if not inside or any(start < b + 1.5 and a < start + width + 1.5 for a, b in taken):
            continue
        taken.append((start, start + width))
        items.append(Path((("M", (x, y)), ("L", (x, y + TICK))), Style(stroke=SOFT, width=THIN)))
        items.append(Label(start, y + TICK + SMALL + 0.2, words, SMALL, SOFT))
    return Group("ticks", tuple(items))


def _step(scale: Ruler) -> float:
    """Grams between two ticks: 1, 2 or 5 times a power of ten, so that there are at most some twelve."""
    raw = (scale.full_g - scale.end_g) / 12
    power = float(10 ** math.floor(math.log10(raw)))
    return next(power * m for m in (1, 2, 5, 10) if power * m >= raw * 0.999)


def _round_grams(scale: Ruler, step: float) -> list[float]:
    """The multiples of the step inside the scale."""
    first = math.floor(scale.full_g / step)
    last = math.ceil(scale.end_g / step)
    return [k * step for k in range(first, last - 1, -1) if 0 != k * step < scale.full_g]


def _marks(scale: Ruler, marks: list[DrawnMark], y: float, above: float) -> Group:
    items: list[Element] = []
    for k, mark in enumerate(marks):
        x = scale.at(mark.left_g)
        if any(abs(scale.at(other.left_g) - x) < CASING_WIDTH for other in marks[k + 1 :]):
            continue
        inside = (("M", (x, y)), ("L", (x, y + BAR)))
        whole = (("M", (x, y - 1.0 - above)), ("L", (x, y + BAR)))
        items.append(Path(inside, Style(stroke=LIGHT, width=CASING_WIDTH - 0.3)))
        items.append(Path(whole, mark.style._replace(width=mark.style.width - 0.15)))
    return Group("ruler-marks", tuple(items))


def _mark_names(scale: Ruler, marks: list[DrawnMark], y: float) -> list[Label]:
    """The marks' names above their lines, moved apart where they would meet."""
    placed: list[Label] = []
    ordered = sorted(marks, key=lambda mark: scale.at(mark.left_g))
    edge = scale.left
    starts = []
    for mark in ordered:
        width = text_width(mark.name, SMALL)
        start = max(edge, scale.at(mark.left_g) - width / 2)
        starts.append((start, width))
        edge = start + width + 2.5
    limit = scale.left + scale.width
    for mark, (start, width) in zip(reversed(ordered), reversed(starts), strict=True):
        start = min(start, limit - width)
        placed.append(Label(start, y, mark.name, SMALL, RED))
        limit = start - 2.5
    return placed[::-1]


class Aside(NamedTuple):
    """One part, or several next to each other, too thin for badges.

    `first` to `last` are their numbers; they lie from `start` to `end` on the bar, and the number stands at `x`.
    """

    first: int
    last: int
    start: float
    end: float
    x: float

    @property
    def half(self) -> float:
        """Half of the room that the number takes."""
        return SMALL_BADGE if self.first == self.last else text_width(self.words, INSIDE, bold=True) / 2

    @property
    def words(self) -> str:
        return f"{self.first}–{self.last}"


def _thin_parts(shawl: Shawl, scale: Ruler, marks: list[DrawnMark]) -> list[Aside]:
    """The parts too thin to hold their badges, numbered above the bar; those without room are left out."""
    lines = [scale.at(mark.left_g) for mark in marks]
    wanted = _together(shawl, scale, lines)
    gap = 2 * max((aside.half for aside in wanted), default=0.0) + 0.7
    if len(wanted) > int(scale.width / gap):
        return []
    places = spread([aside.x for aside in wanted], gap, scale.left + gap / 2, scale.left + scale.width - gap / 2)
    placed: list[Aside] = []
    for aside, place in zip(wanted, places, strict=True):
        low, high = scale.left + aside.half, scale.left + scale.width - aside.half
        others = [*(other.x for other in placed), *(x for x in places if x != place)]
        for x in [place, *sorted(_beside(lines, aside.half), key=lambda x: abs(x - place))]:
            clear = all(abs(x - line) > aside.half + 0.79 for line in lines)
            apart = all(abs(x - other) > gap - 0.4 for other in others)
            if clear and apart and abs(x - aside.x) < 2 * gap and low <= x <= high:
                placed.append(aside._replace(x=x))
                break
    return placed


def _together(shawl: Shawl, scale: Ruler, lines: list[float]) -> list[Aside]:
    """The thin parts, neighbours as one where three or more lie too close for badges of their own."""
    runs: list[list[Aside]] = []
    for number, (first, last) in enumerate(_segments(shawl, scale), 1):
        if _off_lines(first, last, lines) is None:
            aside = Aside(number, number, first, last, (first + last) / 2)
            close = runs and runs[-1][-1].last == number - 1 and aside.x - runs[-1][-1].x < 2 * SMALL_BADGE
            runs[-1].append(aside) if close else runs.append([aside])
    found: list[Aside] = []
    for run in runs:
        start, end = run[0].start, run[-1].end
        found += [Aside(run[0].first, run[-1].last, start, end, (start + end) / 2)] if len(run) > 2 else run
    return found


def _beside(lines: list[float], half: float) -> list[float]:
    """Places just left and right of each mark's line for something so wide."""
    return [line + side * (half + 0.8) for line in lines for side in (-1, 1)]


def _segments(shawl: Shawl, scale: Ruler) -> list[tuple[float, float]]:
    bounds = [scale.at(shawl.yarn.skein_g), *[scale.at(part.left_g) for part in shawl.parts]]
    return list(pairwise(bounds))


def _badges(shawl: Shawl, scale: Ruler, y: float, aside: list[Aside], lines: list[float]) -> Group:
    items = [item for one in aside for item in _aside_items(one, y)]
    for number, (first, last) in enumerate(_segments(shawl, scale), 1):
        place = _off_lines(first, last, lines)
        if place is not None:
            items += badge_items(number, place, y + BAR / 2)
    return Group("ruler-badges", tuple(items))


def _aside_items(aside: Aside, y: float) -> list[Element]:
    """A small badge on a leader, or the numbers of several parts over a bracket."""
    style = Style(stroke=INK, width=THIN)
    if aside.first == aside.last:
        leader = (("M", (aside.x, y - 4.2 + SMALL_BADGE)), ("L", ((aside.start + aside.end) / 2, y + 0.2)))
        return [Path(leader, style), *badge_items(aside.first, aside.x, y - 3.2, SMALL_BADGE)]
    x, bend = (aside.start + aside.end) / 2, y - 1.0
    bracket = [("M", (aside.start, y - 0.3)), ("L", (aside.start, bend)), ("L", (aside.end, bend))]
    bracket += [("L", (aside.end, y - 0.3)), ("M", (x, bend)), ("L", (aside.x, y - 1.9))]
    words = Label(aside.x, y - 2.2, aside.words, INSIDE, INK, bold=True, anchor="middle")
    return [Path(tuple(bracket), style), words]


def _off_lines(first: float, last: float, lines: list[float]) -> float | None:
    """The place nearest to a segment's middle at which a badge fits and keeps off the marks."""
    low, high = first + BADGE_RADIUS + 0.4, last - BADGE_RADIUS - 0.4
    clear = BADGE_RADIUS + 1.2
    middle = (first + last) / 2
    places = [middle, *[line + side * clear for line in lines for side in (-1, 1)]]
    free = [x for x in places if low <= x <= high and all(abs(x - line) >= clear - 1e-9 for line in lines)]
    return min(free, key=lambda x: abs(x - middle)) if free else None
