"""The scale bar: a round length as it is drawn, and the scale in figures."""

from halfhank.renderer.paper.house_style import INK, LIGHT, SMALL, SOFT
from halfhank.renderer.paper.measure_words import CM_PER_INCH
from halfhank.renderer.paper.page_block import PageColumn
from halfhank.renderer.paper.scene import Group, Label, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width

FRAME_WIDTH = 0.22


def scale_bar(units: str, column: PageColumn, top: float, scale: float) -> tuple[Group, float]:
    """A bar of a round length with its measure and the scale, at the right margin; and its width."""
    length, words = _bar_length(units, scale)
    figures = f"{words}, 1:{scale:.4g}"
    x = column.right - text_width(figures, SMALL)
    y = top + SMALL * 1.5
    bar, height = x - 1.8 - length, 1.3
    middle = y - SMALL * CAP_HEIGHT / 2 - height / 2
    items = (
        Rect(bar, middle, length, height, Style(fill=LIGHT, stroke=INK, width=FRAME_WIDTH)),
        Rect(bar, middle, length / 2, height, Style(fill=INK)),
        Label(x, y, figures, SMALL, SOFT),
    )
    return Group("scale", items), column.right - bar


def _bar_length(units: str, scale: float) -> tuple[float, str]:
    """The longest round length of at most 24 mm on paper, in mm there, and its words."""
    unit_mm, name = (10 * CM_PER_INCH, "in") if units == "in" else (10.0, "cm")
    best = (0.0, "")
    for power in range(-3, 7):
        for step in (1, 2, 4, 5) if units == "in" else (1, 2, 5):
            value = step * 10**power
            drawn = value * unit_mm / scale
            if best[0] < drawn <= 24:
                best = (drawn, f"{value:g} {name}")
    return best
