"""The same shawl from several skeins: all outlines over each other, laid start on start, to one scale."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import Point
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.charts.chart_heading import chart_heading
from halfhank.renderer.charts.skein_lane import LaneEntry, skein_lane
from halfhank.renderer.paper.house_style import EDGE, HAIRLINE, INK, MARGIN, SMALL, SOFT, SUBTITLE
from halfhank.renderer.paper.measure_words import M_PER_YARD, exact_mass, fixed, length_words, plain_number
from halfhank.renderer.paper.page_block import PageBlock, PageColumn
from halfhank.renderer.paper.page_sizes import TALLEST_MM, WIDEST_MM, scales
from halfhank.renderer.paper.ramp import RAMPS
from halfhank.renderer.paper.scale_bar import scale_bar
from halfhank.renderer.paper.scene import Group, Label, Path, Scene, Style, moved
from halfhank.renderer.paper.text_widths import label_width, text_width, wrap
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.polylines import Points, at_length, length_of
from halfhank.renderer.schematic.annotations.direction import arrow_group, arrow_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece
from halfhank.renderer.schematic.fabric.edge_lines import start_line

LANE_GAP = 4.0
AS_LONG = 0.003
"""A skein whose length is within this share of the shawl's own is that skein."""
LIGHTEST, DARKEST = 0.06, 0.62
"""Shades of the largest and the smallest outline, as shares of the ramp."""


Name = tuple[str, ...]


class SkeinOutline(NamedTuple):
    """One outline: the lines of its `name`, the piece, and its place: how far it is moved so that all starts lie on
    one point."""

    name: Name
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

    @property
    def words(self) -> str:
        """Its texts as one."""
        return ", ".join(line.removesuffix(",") for line in self.entry.lines)

    def further(self, by: Point) -> "SkeinOutline":
        """The same outline so much further to the right and down."""
        return self._replace(place=(self.place[0] + by[0], self.place[1] + by[1]))


def overlay(shawl: Shawl, worked: list[tuple[str, Shawl]]) -> Scene:
    """The page for a shawl worked from several skeins, each with its length in m or yd as its name; at least one."""
    named = _alike(shawl, worked)
    lane = max(max(text_width(text, SMALL) for text in _entry(name, one)) for name, one in named)
    scale, stacked = _choose_scale(named, lane)
    bounds = _around(stacked)
    width = max(bounds.width + LANE_GAP + lane + 2 * MARGIN, 110.0)
    head = _heading(shawl, width)
    onto_page = (MARGIN - bounds.left, head.bottom + 6.0 - bounds.top)
    outlines = [outline.further(onto_page) for outline in stacked]
    drawn = _around(outlines)
    labels, bottom = skein_lane([outline.entry for outline in outlines], drawn.right + LANE_GAP, drawn)
    below = max(drawn.bottom, bottom) + 4.0
    bar, bar_width = scale_bar(shawl.units, PageColumn(MARGIN, width - 2 * MARGIN), below, scale, fitted=True)
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
        *direction(outlines[-1], labels),
        *labels,
        Group("margin", (note,)),
        bar,
    )
    title, height = phrase("skeins.title", shawl=shawl.title), below + SMALL * 1.5 + MARGIN
    return Scene(width, height, title, _describe(outlines, scale), items)


def _alike(shawl: Shawl, worked: list[tuple[str, Shawl]]) -> list[tuple[Name, Shawl]]:
    """Skeins that give the same rows and stitches under one outline, with all their names, the shawl's own marked."""
    groups: dict[tuple[int, int], list[tuple[str, Shawl]]] = {}
    for name, one in worked:
        groups.setdefault((one.rows.count, sum(one.rows.stitches)), []).append((name, one))
    own_m = _metres_per_100g(shawl)
    return [_together(group, own_m) for group in groups.values()]


def _together(group: list[tuple[str, Shawl]], own_m: float) -> tuple[Name, Shawl]:
    """Skeins under one outline in both units, and the shawl from the last of them.

    Where one is as long as the shawl's own, of `own_m` metres in 100 g, it is `this skein`, and its shawl is given.
    """
    words = _listed([_in_both_units(name, _metres_per_100g(one)) for name, one in group])
    own = [pair for pair in group if abs(_metres_per_100g(pair[1]) / own_m - 1) <= AS_LONG]
    if not own:
        return (words,), group[-1][1]
    name, shawl = own[0]
    if len(group) == 1:
        return (phrase("skeins.own", names=words),), shawl
    return (words, phrase("skeins.is-own", name=name)), shawl


def _in_both_units(name: str, metres: float) -> str:
    """A length as it was asked for, in metres or in yards, and in the other unit."""
    if name.endswith("yd"):
        other = phrase("measure.m", number=fixed(metres, 0))
    else:
        other = phrase("measure.yd", number=fixed(metres / M_PER_YARD, 0))
    return phrase("size.both", first=name, second=other)


def _metres_per_100g(shawl: Shawl) -> float:
    return 100 * shawl.yarn.skein_m / shawl.yarn.skein_g


def _listed(names: list[str]) -> str:
    """Names in a row, of many the first and the last."""
    return ", ".join(names) if len(names) <= 2 else phrase("skeins.from-to", first=names[0], last=names[-1])


def _choose_scale(worked: list[tuple[Name, Shawl]], lane: float) -> tuple[float, list[SkeinOutline]]:
    """The largest round scale at which all outlines and the lane fit a page; the largest piece first."""
    ordered = sorted(worked, key=lambda named: -named[1].outline.size.area_cm2)
    for scale in scales():
        outlines = [_on_its_start(name, shawl, 10 / scale) for name, shawl in ordered]
        bounds = _around(outlines)
        if bounds.width + LANE_GAP + lane <= WIDEST_MM - 2 * MARGIN and bounds.height <= TALLEST_MM:
            return scale, outlines
    raise AssertionError("the scales have no end")


def _on_its_start(name: Name, shawl: Shawl, mm: float) -> SkeinOutline:
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
    words = (phrase("skeins.subtitle"), phrase("skeins.same-gauge", bind_off=shawl.bind_off.words))
    return chart_heading(shawl.title, [line for text in words for line in wrap(text, room, SUBTITLE, 8)], room)


def _shaded(outlines: list[SkeinOutline]) -> Group:
    """The outlines' fabric, shaded the darker the smaller it is."""
    shaded = []
    for number, outline in enumerate(outlines):
        share = LIGHTEST + (DARKEST - LIGHTEST) * number / max(len(outlines) - 1, 1)
        path = Path(outline.piece.closed(0, outline.piece.last), Style(RAMPS["tide"].colour(share), INK, EDGE))
        shaded.append(moved(Group("skein", (path,), title=outline.words), outline.place))
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


def direction(smallest: SkeinOutline, labels: tuple[Group, ...]) -> list[Group]:
    """The arrow of the working direction, where it has room on all outlines and off the leaders."""
    x, y = smallest.place
    drawn = [item for lane in labels for item in lane.items if isinstance(item, Path)]
    leaders: list[Points] = [[(px - x, py - y) for _, (px, py) in path.data] for path in drawn]
    arrow = arrow_of(smallest.piece, leaders)
    return [moved(arrow_group(arrow), smallest.place)] if arrow else []


def _entry(name: Name, shawl: Shawl) -> tuple[str, ...]:
    """The texts of one skein in the lane: rows, size, and what the scale shows at half of the shawl's yarn."""
    size, units, half = shawl.outline.size, shawl.units, shawl.marks.halfway
    wide, deep = length_words(size.wingspan_cm, units), length_words(size.depth_cm, units)
    lines = (*name, _repeats_and_rows(shawl), phrase("skeins.size", wide=wide, deep=deep))
    if half is None:
        return lines
    mass = exact_mass(half.left_g, shawl.skein.unit)
    return (*lines, phrase("skeins.at-half"), phrase("skeins.half-row", row=half.row, mass=mass))


def _repeats_and_rows(shawl: Shawl) -> str:
    """`6 repeats, 120 rows`; rows alone where the yarn does not decide the number of repeats, or decides on rows."""
    words, rows = shawl.allowance_words, phrase("count.row", count=shawl.rows.count)
    if shawl.allowed is None or words.endswith("rows"):
        return rows
    repeats = words if "repeat" in words else phrase("count.repeat", count=shawl.allowed)
    return phrase("skeins.repeats-and-rows", repeats=repeats, rows=rows)


def _margin_words(shawl: Shawl) -> str:
    """What of every skein is not planned with."""
    share = shawl.yarn.keep_g / shawl.yarn.skein_g
    if share <= 0:
        return phrase("skeins.no-margin")
    return phrase("skeins.margin", share=plain_number(100 * share))


def _describe(outlines: list[SkeinOutline], scale: float) -> str:
    entries = "; ".join(outline.words for outline in outlines)
    return phrase("skeins.description", scale=f"1:{scale:.4g}", entries=entries)
