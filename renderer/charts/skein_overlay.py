"""The same shawl from several skeins: all outlines over each other, laid start on start, to one scale."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import counted
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from halfhank.renderer.charts.chart_heading import chart_heading
from halfhank.renderer.charts.skein_lane import LaneEntry, skein_lane
from halfhank.renderer.paper.house_style import EDGE, HAIRLINE, INK, MARGIN, SMALL, SOFT, SUBTITLE
from halfhank.renderer.paper.measure_words import exact_mass, length_words, plain_number
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.page_sizes import TALLEST_MM, WIDEST_MM, scales
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scale_bar import scale_bar
from halfhank.renderer.paper.scene import Group, Label, Path, Scene, Style, moved
from halfhank.renderer.paper.text_widths import label_width, text_width, wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.polylines import at_length, length_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import start_line

LANE_GAP = 4.0
LIGHTEST, DARKEST = 0.06, 0.62
"""Shades of the largest and the smallest outline, as shares of the ramp."""


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
    def entry(self) -> LaneEntry:
        """Its texts in the lane, and its last row."""
        x, y = self.place
        row = [(px + x, py + y) for px, py in self.piece.points(self.piece.last)]
        return LaneEntry(_entry(self.name, self.piece.shawl), row)

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
    labels, bottom = skein_lane([outline.entry for outline in outlines], drawn.right + LANE_GAP, drawn)
    below = max(drawn.bottom, bottom) + 4.0
    bar, bar_width = scale_bar(shawl.units, PageColumn(MARGIN, width - 2 * MARGIN), below, scale)
    note = Label(MARGIN, below + SMALL * 1.5, _margin_words(shawl), SMALL, SOFT)
    if label_width(note) + 4.0 > width - 2 * MARGIN - bar_width:
        below += 1.5 * SMALL
        bar = moved(bar, (0.0, 1.5 * SMALL))
    start = moved(start_line(outlines[0].piece), outlines[0].place)
    items = (
        *head.group.items,
        _shaded(outlines),
        _hidden_lines(outlines),
        start,
        *labels,
        Group("margin", (note,)),
        bar,
    )
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
    """An outline with the middle of its start, along it, at (0, 0)."""
    piece = DrawnPiece(shawl, mm)
    start = piece.points(0, True)
    x, y = at_length(start, length_of(start) / 2)[0]
    return SkeinOutline(name, piece, (-x, -y))


def _around(outlines: list[SkeinOutline]) -> Box:
    box = outlines[0].box
    for outline in outlines[1:]:
        box = box.joined(outline.box)
    return box


def _heading(shawl: Shawl, width: float) -> PageBlock:
    room = width - 2 * MARGIN
    words = f"the same shawl from skeins of other lengths (per 100 g), {shawl.bind_off.words}"
    return chart_heading(shawl.title, wrap(words, room, SUBTITLE, 8), room)


def _shaded(outlines: list[SkeinOutline]) -> Group:
    """The outlines' fabric, shaded the darker the smaller it is."""
    shaded = []
    for number, outline in enumerate(outlines):
        share = LIGHTEST + (DARKEST - LIGHTEST) * number / max(len(outlines) - 1, 1)
        path = Path(outline.piece.closed(0, outline.piece.last), Style(RAMPS["tide"].colour(share), INK, EDGE))
        shaded.append(moved(Group("skein", (path,), title=", ".join(outline.entry.lines)), outline.place))
    return Group("outlines", tuple(shaded))


def _hidden_lines(outlines: list[SkeinOutline]) -> Group:
    """What smaller outlines hide of larger ones, finely dashed as hidden edges are; elsewhere it lies on their lines.

    The smallest hides, and is not hidden.
    """
    style = Style(stroke=INK, width=HAIRLINE, dash=(0.7, 0.5))
    lines = [
        moved(Group("line", (Path(outline.piece.closed(0, outline.piece.last), style),)), outline.place)
        for outline in outlines[:-1]
    ]
    return Group("hidden-lines", tuple(lines))


def _entry(name: str, shawl: Shawl) -> tuple[str, ...]:
    """The texts of one skein in the lane: rows, size, and what the scale shows at half of the shawl's yarn."""
    size, units, half = shawl.outline.size, shawl.units, shawl.marks.halfway
    measures = f"{length_words(size.wingspan_cm, units)} × {length_words(size.depth_cm, units)}"
    at_half = () if half is None else (f"on the scale at half: {exact_mass(half.left_g, shawl.skein.unit)}",)
    return (f"{name}: {_repeats(shawl)}{counted(shawl.rows.count, 'row')}", measures, *at_half)


def _repeats(shawl: Shawl) -> str:
    """`6 repeats, ` before the rows; nothing where the yarn does not decide their number, or decides on rows alone."""
    words = shawl.allowance_words
    if shawl.allowed is None or words.endswith("rows"):
        return ""
    return f"{words if 'repeat' in words else counted(shawl.allowed, 'repeat')}, "


def _margin_words(shawl: Shawl) -> str:
    """What of every skein is not planned with."""
    share = shawl.yarn.keep_g / shawl.yarn.skein_g
    if share <= 0:
        return "Planned without a margin."
    return f"Planned with a margin of {plain_number(100 * share)} %, in addition to the yarn of the bind-off."


def _describe(outlines: list[SkeinOutline], scale: float) -> str:
    entries = "; ".join(", ".join(outline.entry.lines) for outline in outlines)
    return f"Outlines drawn over each other at 1:{scale:.4g}, start on start. {entries}."
