"""The skein as a ruler: what is used, by whom, what is left on the scale, in g or oz."""

import math
from itertools import pairwise

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.house_style import (
    BADGE_RADIUS,
    CASING_WIDTH,
    EDGE,
    HEADING,
    INK,
    LIGHT,
    RED,
    SMALL,
    SOFT,
    TEXT,
    THIN,
)
from halfhank.renderer.paper.measure_words import mass, plain_mass, yarn_words
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.ramp import Ramp
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width
from halfhank.renderer.plane.spreading import spread
from halfhank.renderer.schematic.annotations.badges import badge_items
from halfhank.renderer.schematic.fabric.drawn_bands import share_at
from halfhank.renderer.schematic.fabric.drawn_marks import DrawnMark
from halfhank.renderer.schematic.skein_axis import TICK, Ruler, ticks
from halfhank.renderer.schematic.skein_key import (
    BIND_OFF,
    KEY_PITCH,
    MARGIN_FIELD,
    SPARE,
    Field,
    KeyEntry,
    hatching,
    key,
    key_lines,
    key_width,
    margin,
)

BAR = 7.5
STEPS = 100
SMALL_BADGE = 1.9
INSIDE = 2.8
INSIDE_SIZES, INSIDE_ROOM = (INSIDE, 2.6), 0.7
BOUND_WIDTH = 0.9
LINES_APART = 0.85
"""Lines of two marks that are nearer than this would hide one another in the casing of the last, mm."""
SEEN = 0.2
"""Fields of the bar that are narrower have no words, mm."""


def ruler(shawl: Shawl, column: PageColumn, top: float, ramp: Ramp, marks: list[DrawnMark]) -> PageBlock:
    """Heading, marks' names, bar, ticks; the key to the bar's end above it, or below where names stand there."""
    yarn = shawl.yarn
    scale = Ruler(column.left, column.width, yarn.skein_g, min(0.0, yarn.skein_g - yarn.total_g), shawl.skein.unit)
    headings = _heading(shawl, column, top + HEADING)
    y = max(label.y for label in headings) + 2.0
    items: list[Element] = [Group("skein-heading", tuple(headings))]
    aside = _thin_parts(shawl, scale, marks)
    names, keyed = _mark_names(scale, marks, y + SMALL), _keyed(shawl, scale)
    above = _is_free_for_key(scale, names, marks, keyed)
    if above and keyed:
        items.append(key(keyed, column.right, y + SMALL, ramp))
    y += (5.0 if names or (above and keyed) else 1.0) + (5.0 if aside else 0.0)
    items.append(_bar(shawl, scale, y, ramp))
    items.append(_marks(scale, marks, y, 5.0 if aside else 0.0))
    items.append(Group("mark-names", tuple(names)))
    items.append(_badges(shawl, scale, y, aside, [scale.at(mark.on_skein_g) for mark in marks]))
    items.append(ticks(scale, y + BAR))
    bottom = y + BAR + TICK + SMALL + 2.2
    if keyed and not above:
        for line in key_lines(keyed, column.width):
            bottom += 3.4 if line[0] == keyed[0] else KEY_PITCH
            items.append(key(line, column.right, bottom - 1.6, ramp))
    return PageBlock(Group("skein", tuple(items)), bottom)


def _keyed(shawl: Shawl, scale: Ruler) -> list[KeyEntry]:
    """What of the bar's end needs the key: the bind-off always, else what is too narrow for its words."""
    yarn = shawl.yarn
    bound = scale.at(yarn.skein_g - yarn.total_g)
    entries = []
    if bound - scale.at(yarn.skein_g - shawl.used_g[-1]) >= 0.05:
        entries.append(KeyEntry(BIND_OFF, phrase("skein.bind-off", mass=mass(yarn.bind_off_g, scale.unit))))
    return entries + [entry for entry, first, last in _end_fields(shawl, scale) if not _inside(entry, last - first)]


def _is_free_for_key(scale: Ruler, names: list[Label], marks: list[DrawnMark], keyed: list[KeyEntry]) -> bool:
    start = scale.left + scale.width - (key_width(keyed) if keyed else 0.0) - 3.0
    ends = [label.x + text_width(label.text, SMALL) for label in names]
    return start > scale.left and all(x < start for x in [*ends, *(scale.at(mark.on_skein_g) for mark in marks)])


def _heading(shawl: Shawl, column: PageColumn, y: float) -> list[Label]:
    """What the skein is, on a second line where it finds no room beside the heading."""
    heading, unit = phrase("skein.heading"), phrase_of("skein-unit", shawl.skein.unit)
    start = column.left + text_width(heading, HEADING, bold=True) + 3
    words = ", ".join(_skein_facts(shawl))
    labels = [
        Label(column.left, y, heading, HEADING, INK, bold=True),
        Label(column.right, y, unit, SMALL, SOFT, anchor="end"),
    ]
    if text_width(words, TEXT) <= column.right - text_width(unit, SMALL) - 4 - start:
        return [*labels, Label(start, y, words, TEXT, SOFT)]
    lines = text_lines(words, column.width, TEXT)
    return [*labels, *[Label(column.left, y + (k + 1) * 4.9, line, TEXT, SOFT) for k, line in enumerate(lines)]]


def _skein_facts(shawl: Shawl) -> list[str]:
    """Name, mass and length, fibre; what its label says and what the scale said, where it was weighed."""
    yarn, skein = shawl.yarn, shawl.skein
    mass, length = plain_mass(skein.label_g, skein.unit), yarn_words(skein.label_m, shawl.units)
    facts = [yarn.name, mass, length, yarn.fibre]
    if skein.weighed_g is not None:
        weighed = phrase("skein.weighed", mass=plain_mass(skein.weighed_g, skein.unit))
        facts = [yarn.name, mass, phrase("skein.by-label", length=length), weighed, yarn.fibre]
    elif skein.by_log:
        logged = phrase("skein.by-log", mass=plain_mass(yarn.skein_g, skein.unit))
        facts = [yarn.name, mass, phrase("skein.by-label", length=length), logged, yarn.fibre]
    return [fact for fact in facts if fact]


def _bar(shawl: Shawl, scale: Ruler, y: float, ramp: Ramp) -> Group:
    """The ramp over the rows, the hatched bind-off, what is spare, the margin, and the frame."""
    yarn = shawl.yarn
    knitted = scale.at(yarn.skein_g - shawl.used_g[-1])
    bound = scale.at(yarn.skein_g - yarn.total_g)
    items: list[Element] = margin(Field(scale.at(yarn.keep_g), scale.at(0), y, BAR)) if yarn.keep_g > 0 else []
    items += [*_ramp(shawl, scale, y, ramp), *hatching(Field(knitted, bound, y, BAR), ramp)]
    items += _bounds(shawl, scale, y)
    items.append(Rect(scale.left, y, scale.width, BAR, Style(stroke=SOFT, width=EDGE)))
    items += _end_words(shawl, scale, y)
    if scale.end_g < 0:
        zero, end = scale.at(0), scale.left + scale.width
        upper, lower = y + 0.3, y + BAR - 0.3
        corners = (("M", (zero, upper)), ("L", (end, upper)), ("L", (end, lower)), ("L", (zero, lower)), ("Z", ()))
        items += [Path(corners, Style(stroke=ink, width=width)) for ink, width in ((LIGHT, 1.0), (RED, 0.5))]
    return Group("bar", tuple(items))


def _bounds(shawl: Shawl, scale: Ruler, y: float) -> list[Element]:
    """A line cased in white between two parts, finer where they are thin."""
    segments = _segments(shawl, scale)
    items: list[Element] = []
    for (first, x), (_, last) in pairwise(segments):
        width = min(BOUND_WIDTH, (x - first) / 3, (last - x) / 3)
        line = (("M", (x, y)), ("L", (x, y + BAR)))
        items += [Path(line, Style(stroke=LIGHT, width=width)), Path(line, Style(stroke=INK, width=width / 3))]
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


def _end_fields(shawl: Shawl, scale: Ruler) -> list[tuple[KeyEntry, float, float]]:
    """What lies behind the bind-off: its words, and from where to where."""
    yarn, unit = shawl.yarn, scale.unit
    bound, kept, end = (scale.at(grams) for grams in (yarn.skein_g - yarn.total_g, yarn.keep_g, 0.0))
    spare = KeyEntry(SPARE, phrase("skein.spare", mass=mass(max(yarn.left_g - yarn.keep_g, 0.0), unit)))
    kept_back = KeyEntry(MARGIN_FIELD, phrase("skein.margin", mass=mass(yarn.keep_g, unit)))
    fields = [(spare, bound, kept), (kept_back, max(kept, bound), end)]
    return [field for field in fields if field[2] - field[1] >= SEEN]


def _inside(entry: KeyEntry, room: float) -> float | None:
    """The size at which the words fit into a field; None where they do not."""
    return next((size for size in INSIDE_SIZES if room >= text_width(entry.words, size) + 2 * INSIDE_ROOM), None)


def _end_words(shawl: Shawl, scale: Ruler, y: float) -> list[Element]:
    """`spare 19 g` and `margin 6 g` in their fields, each where it fits."""
    items: list[Element] = []
    for entry, first, last in _end_fields(shawl, scale):
        size = _inside(entry, last - first)
        if size is not None:
            baseline = y + BAR / 2 + size * CAP_HEIGHT / 2
            items.append(Label((first + last) / 2, baseline, entry.words, size, SOFT, anchor="middle"))
    return items


def _marks(scale: Ruler, marks: list[DrawnMark], y: float, above: float) -> Group:
    items: list[Element] = []
    for k, mark in enumerate(marks):
        x = scale.at(mark.on_skein_g)
        if any(abs(scale.at(other.on_skein_g) - x) < LINES_APART for other in marks[k + 1 :]):
            continue
        inside = (("M", (x, y)), ("L", (x, y + BAR)))
        upper = (("M", (x, y)), ("L", (x, y - 1.0 - above)))
        style = mark.style._replace(width=mark.style.width - 0.15)
        items += [Path(inside, Style(stroke=LIGHT, width=CASING_WIDTH - 0.3)), Path(inside, style), Path(upper, style)]
    return Group("ruler-marks", tuple(items))


def _mark_names(scale: Ruler, marks: list[DrawnMark], y: float) -> list[Label]:
    """The marks' names above their lines, moved apart where they would meet."""
    placed: list[Label] = []
    ordered = sorted(marks, key=lambda mark: scale.at(mark.on_skein_g))
    edge = scale.left
    starts = []
    for mark in ordered:
        width = text_width(mark.name, SMALL)
        start = max(edge, scale.at(mark.on_skein_g) - width / 2)
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
    """The parts too thin to hold their badges, numbered above the bar, more of them as one until all have room."""
    lines = [scale.at(mark.on_skein_g) for mark in marks]
    for least, close in ((3, 2 * SMALL_BADGE), (2, 2 * SMALL_BADGE), (2, 3 * SMALL_BADGE), (2, 6 * SMALL_BADGE)):
        wanted = _together(shawl, scale, lines, least, close)
        placed = _placed_aside(wanted, scale, lines)
        if len(placed) == len(wanted):
            return placed
    wanted = _together(shawl, scale, lines, 2, scale.width)
    return _placed_aside(wanted, scale, lines) or wanted


def _placed_aside(wanted: list[Aside], scale: Ruler, lines: list[float]) -> list[Aside]:
    """Those of the numbers that find room above the bar, beside the marks' lines and apart."""
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


def _together(shawl: Shawl, scale: Ruler, lines: list[float], least: int, close: float) -> list[Aside]:
    """The thin parts, neighbours as one where at least so many lie closer than `close` to the next."""
    runs: list[list[Aside]] = []
    for number, (first, last) in enumerate(_segments(shawl, scale), 1):
        if _off_lines(first, last, lines) is None:
            aside = Aside(number, number, first, last, (first + last) / 2)
            near = runs and runs[-1][-1].last == number - 1 and aside.x - runs[-1][-1].x < close
            runs[-1].append(aside) if near else runs.append([aside])
    found: list[Aside] = []
    for run in runs:
        start, end = run[0].start, run[-1].end
        one = Aside(run[0].first, run[-1].last, start, end, (start + end) / 2)
        found += [one] if len(run) >= least else run
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
