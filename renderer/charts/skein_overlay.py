"""The same shawl from several skeins: all outlines over each other, laid start on start, to one scale."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import LEFT, RIGHT
from halfhank.model.shawl import Shawl
from halfhank.renderer.charts.chart_heading import chart_heading
from halfhank.renderer.paper.house_style import EDGE, INK, LIGHT, MARGIN, SMALL, SOFT, SUBTITLE, TEXT, THIN
from halfhank.renderer.paper.measure_words import length_words, row_range
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.page_sizes import TALLEST_MM, WIDEST_MM, scales
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scale_bar import scale_bar
from halfhank.renderer.paper.scene import Circle, Element, Group, Label, Path, Scene, Style, moved
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width, wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.polylines import at_length, length_of
from halfhank.renderer.plane.spreading import spread
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import start_line

LANE_GAP, LEADER_GAP = 4.0, 1.2
ENTRY = 2.5 * TEXT
"""Height of one entry of two lines in the lane beside the outlines."""
LIGHTEST, DARKEST = 0.06, 0.62
"""Shades of the largest and the smallest outline, as shares of the ramp."""
SHARE, SHARE_SIDEWAYS = 0.8, 0.5
"""Where along its last row an outline has its leader."""


class SkeinOutline(NamedTuple):
    """One outline: the skein's `name`, the piece, and its place: how far it is moved so that all starts lie on one
    point."""

    name: str
    piece: DrawnPiece
    place: Point

    @property
    def box(self) -> Box:
        """Where it lies."""
        x, y = self.place
        return Box(x, y, x + self.piece.width, y + self.piece.height)

    @property
    def anchor(self) -> Point:
        """Where its leader begins: a point of the last row."""
        row = self.piece.points(self.piece.last)
        share = SHARE_SIDEWAYS if self.piece.shawl.outline.sideways else SHARE
        (x, y), _ = at_length(row, share * length_of(row))
        return x + self.place[0], y + self.place[1]

    @property
    def entry(self) -> tuple[str, str]:
        """Its text in the lane, in two lines."""
        return _entry(self.name, self.piece.shawl)

    def further(self, by: Point) -> "SkeinOutline":
        """The same outline so much further to the right and down."""
        return self._replace(place=(self.place[0] + by[0], self.place[1] + by[1]))


def overlay(shawl: Shawl, worked: list[tuple[str, Shawl]]) -> Scene:
    """The page for a shawl worked from several skeins, each with its name; at least one."""
    worked = _alike(worked)
    lane = max(max(text_width(text, SMALL) for text in _entry(name, one)) for name, one in worked)
    scale, stacked = _choose_scale(worked, lane)
    bounds = _around(stacked)
    width = max(bounds.width + LANE_GAP + lane + 2 * MARGIN, 110.0)
    head = _heading(shawl, width)
    onto_page = (MARGIN - bounds.left, head.bottom + 6.0 - bounds.top)
    outlines = [outline.further(onto_page) for outline in stacked]
    drawn = _around(outlines)
    labels = _lane(outlines, drawn.right + LANE_GAP, drawn)
    below = max(drawn.bottom, labels.bottom) + 4.0
    bar, _ = scale_bar(shawl.units, PageColumn(MARGIN, width - 2 * MARGIN), below, scale)
    shaded = Group("outlines", tuple(_shaded(outline, k, len(outlines)) for k, outline in enumerate(outlines)))
    start = moved(start_line(outlines[0].piece), outlines[0].place)
    items = (*head.group.items, shaded, start, *labels.items, bar)
    title, height = f"{shawl.title}: from other skeins", below + SMALL * 1.5 + MARGIN
    return Scene(width, height, title, _describe(outlines, scale), items)


def _alike(worked: list[tuple[str, Shawl]]) -> list[tuple[str, Shawl]]:
    """Skeins that give the same rows and stitches under one outline, with all their names."""
    groups: dict[tuple[int, int], list[tuple[str, Shawl]]] = {}
    for name, shawl in worked:
        groups.setdefault((shawl.rows.count, sum(shawl.rows.stitches)), []).append((name, shawl))
    return [(_listed([name for name, _ in group]), group[-1][1]) for group in groups.values()]


def _listed(names: list[str]) -> str:
    """Names in a row, of many the first and the last."""
    return ", ".join(names) if len(names) <= 2 else f"{names[0]} to {names[-1]}"


def _choose_scale(worked: list[tuple[str, Shawl]], lane: float) -> tuple[float, list[SkeinOutline]]:
    """The largest round scale at which all outlines and the lane fit a page; the largest piece first."""
    ordered = sorted(worked, key=lambda named: -named[1].outline.size.area_cm2)
    for scale in scales():
        outlines = [_on_its_start(name, shawl, 10 / scale) for name, shawl in ordered]
        bounds = _around(outlines)
        if bounds.width + LANE_GAP + lane <= WIDEST_MM - 2 * MARGIN and bounds.height <= TALLEST_MM:
            return scale, outlines
    raise AssertionError("the scales have no end")


def _on_its_start(name: str, shawl: Shawl, mm: float) -> SkeinOutline:
    """An outline with the middle of its start at (0, 0)."""
    piece = DrawnPiece(shawl, mm)
    (ax, ay), (bx, by) = piece.end(LEFT, 0, True), piece.end(RIGHT, 0, True)
    return SkeinOutline(name, piece, (-(ax + bx) / 2, -(ay + by) / 2))


def _around(outlines: list[SkeinOutline]) -> Box:
    box = outlines[0].box
    for outline in outlines[1:]:
        box = box.joined(outline.box)
    return box


class _Part(NamedTuple):
    items: tuple[Element, ...]
    bottom: float


def _heading(shawl: Shawl, width: float) -> PageBlock:
    room = width - 2 * MARGIN
    words = f"the same shawl from skeins of other lengths (in 100 g), {shawl.bind_off.words}"
    return chart_heading(shawl.title, wrap(words, room, SUBTITLE, 2), room)


def _shaded(outline: SkeinOutline, number: int, count: int) -> Group:
    """One outline, shaded the darker the smaller it is."""
    share = LIGHTEST + (DARKEST - LIGHTEST) * number / max(count - 1, 1)
    style = Style(fill=RAMPS["tide"].colour(share), stroke=INK, width=EDGE)
    path = Path(outline.piece.closed(0, outline.piece.last), style)
    return moved(Group("skein", (path,), title=", ".join(outline.entry)), outline.place)


def _entry(name: str, shawl: Shawl) -> tuple[str, str]:
    """The text of one skein in the lane."""
    size, units = shawl.outline.size, shawl.units
    allowed = shawl.allowance_words
    repeats = f", as yarn allows {allowed}" if allowed else ""
    measures = f"{length_words(size.wingspan_cm, units)} × {length_words(size.depth_cm, units)}"
    return f"{name}: {row_range(1, shawl.rows.count)}{repeats}", measures


def _lane(outlines: list[SkeinOutline], x: float, drawn: Box) -> _Part:
    """An entry for each outline beside the drawing, in the order of their leaders."""
    ordered = sorted(outlines, key=lambda outline: outline.anchor[1])
    wanted = [outline.anchor[1] - TEXT * 0.5 for outline in ordered]
    low = drawn.top + TEXT * CAP_HEIGHT
    places = spread(wanted, ENTRY, low, max(drawn.bottom, low + ENTRY * len(ordered)))
    texts: list[Element] = []
    leaders: list[Element] = []
    for outline, y in zip(ordered, places, strict=True):
        first, second = outline.entry
        texts += [Label(x, y, first, SMALL, INK), Label(x, y + 1.35 * SMALL, second, SMALL, SOFT)]
        level = y - SMALL * CAP_HEIGHT / 2
        line = (("M", outline.anchor), ("L", (x - LEADER_GAP, level)))
        leaders += [Path(line, Style(stroke=LIGHT, width=3 * THIN)), Path(line, Style(stroke=INK, width=THIN))]
        leaders.append(Circle(*outline.anchor, 0.6, Style(fill=INK, stroke=LIGHT, width=THIN)))
    return _Part((Group("leaders", tuple(leaders)), Group("lane", tuple(texts))), places[-1] + 1.6 * SMALL)


def _describe(outlines: list[SkeinOutline], scale: float) -> str:
    entries = "; ".join(", ".join(outline.entry) for outline in outlines)
    return f"Outlines drawn over each other at 1:{scale:.4g}, start on start. {entries}."
