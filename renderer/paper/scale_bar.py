"""The scale bar: a round length as it is drawn, and the scale in figures."""

from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.renderer.paper.house_style import INK, LIGHT, SMALL, SOFT
from halfhank.renderer.paper.measure_words import CM_PER_INCH, scale_words
from halfhank.renderer.paper.page_block import PageColumn
from halfhank.renderer.paper.scene import Group, Label, Rect, Style
from halfhank.renderer.paper.text_widths import CAP_HEIGHT, text_width

FRAME_WIDTH = 0.22
LONGEST = 24.0


def scale_bar(units: str, column: PageColumn, top: float, scale: float, fitted: bool = False) -> tuple[Group, float]:
    """A bar of a round length with its measure and the scale, at the right margin; and its width.

    `fitted`: the scale was chosen for the page, and holds at the width that it has.
    """
    length, words = _bar_length(units, scale, LONGEST)
    figures = _figures(words, scale, fitted)
    if LONGEST + 1.8 + text_width(figures, SMALL) > column.width:
        length, words = _bar_length(units, scale, column.width - 1.8 - text_width(figures, SMALL))
        figures = _figures(words, scale, fitted)
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


def _figures(length: str, scale: float, fitted: bool) -> str:
    return phrase("scale.fitted" if fitted else "scale.given", length=length, scale=scale_words(scale))


def _bar_length(units: str, scale: float, longest: float) -> tuple[float, str]:
    """The longest round length of at most so much on paper, in mm there, and its words."""
    unit_mm, name = (10 * CM_PER_INCH, "in") if units == "in" else (10.0, "cm")
    best = (0.0, "")
    for power in range(-3, 7):
        for step in (1, 2, 4, 5) if units == "in" else (1, 2, 5):
            value = step * 10**power
            drawn = value * unit_mm / scale
            if best[0] < drawn <= longest:
                best = (drawn, phrase_of("measure", name, number=f"{value:,g}"))
    return best
