"""The lane over a plot of rows: the parts by name, a narrow one on a leader, and by number and key without room."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.charts.plot import Plot
from halfhank.renderer.paper.house_style import INK, RULE, SMALL, SOFT, THIN
from halfhank.renderer.paper.scene import Element, Group, Label, Path, Style
from halfhank.renderer.paper.scripts.directions import isolated
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.plane.path_data import segment

BASELINE = 2.2
"""From the baseline of the names down to the plot, mm."""
PADDING = 0.7
"""Beside a name inside its part."""
APART = 1.4
"""Between two names, one of them on a leader."""
FURTHEST = 9.0
"""From the middle of a part to that of its name, at most."""


class PartName(NamedTuple):
    """A part's text in the lane, empty where there is no room, with its middle; from `left` to `right` are its rows."""

    text: str
    x: float
    left: float
    right: float

    @property
    def leader(self) -> bool:
        """Whether the text is too wide for its part, and a line joins the two."""
        return text_width(self.text, SMALL) + 2 * PADDING > self.right - self.left

    @property
    def reach(self) -> tuple[float, float]:
        half = text_width(self.text, SMALL) / 2
        return self.x - half, self.x + half


def part_lane(shawl: Shawl, plot: Plot) -> Group:
    """Part bounds as upright lines, the parts' names above them."""
    items: list[Element] = []
    y, top = plot.box.top - BASELINE, plot.box.top
    for name in part_names(shawl, plot):
        bound = segment((name.right, top - 1.2), (name.right, plot.box.bottom))
        items.append(Path(bound, Style(stroke=RULE, width=0.3)))
        if name.text:
            items.append(Label(name.x, y, name.text, SMALL, INK, anchor="middle"))
        if name.text and name.leader:
            line = segment((name.x, y + 0.7), ((name.left + name.right) / 2, top))
            items.append(Path(line, Style(stroke=INK, width=THIN)))
    items.append(Label((plot.end + plot.box.right) / 2, y, phrase("lane.bind-off"), SMALL, SOFT, anchor="middle"))
    return Group("parts", tuple(items))


def part_names(shawl: Shawl, plot: Plot) -> list[PartName]:
    """Each part's name, in its part or beside it; a name without room gives way to its number, if that has room."""
    names = [_inside(part.name, str(k), plot, part.first_row, part.last_row) for k, part in enumerate(shawl.parts, 1)]
    bind_off = PartName(phrase("lane.bind-off"), (plot.end + plot.box.right) / 2, plot.end, plot.box.right)
    for place, part in enumerate(shawl.parts):
        if names[place].text != part.name:
            others = [name for name in (*names[:place], *names[place + 1 :], bind_off) if name.text]
            names[place] = _beside(names[place], part.name, others, plot) or names[place]
    return names


def parts_key(shawl: Shawl, plot: Plot) -> str:
    """The parts that have a number, or nothing, over the plot in place of their name; empty where all have one."""
    shown = enumerate(zip(shawl.parts, part_names(shawl, plot), strict=True), 1)
    return ", ".join(f"{number} {isolated(part.name)}" for number, (part, name) in shown if name.text != part.name)


def _inside(name: str, number: str, plot: Plot, first_row: int, last_row: int) -> PartName:
    """The name, the number in its place, or nothing, in the middle of the part."""
    left, right = plot.x(first_row - 1), plot.x(last_row)
    text = next((text for text in (name, number) if text_width(text, SMALL) + 2 * PADDING <= right - left), "")
    return PartName(text, (left + right) / 2, left, right)


def _beside(short: PartName, name: str, others: list[PartName], plot: Plot) -> PartName | None:
    """The whole name at the nearest place to its part's middle that keeps off the other names."""
    for step in range(int(FURTHEST / 0.25)):
        for side in (-1, 1):
            moved = short._replace(text=name, x=short.x + side * step * 0.25)
            left, right = moved.reach
            within = plot.box.left <= left and right <= plot.box.right
            if within and all(right + APART <= one.reach[0] or one.reach[1] + APART <= left for one in others):
                return moved
    return None
