"""At the foot of the page: the facts and the designer's remarks in words, and the scale bar."""

from halfhank.model.shawl import Shawl
from halfhank.model.words.drawn_words import phrase
from halfhank.renderer.paper.house_style import SMALL, SOFT
from halfhank.renderer.paper.measure_words import CM_PER_INCH, plain_number
from halfhank.renderer.paper.page_block import PageBlock, PageColumn, text_lines
from halfhank.renderer.paper.scale_bar import scale_bar
from halfhank.renderer.paper.scene import Element, Group, Label, moved
from halfhank.renderer.paper.text_widths import text_width


def remarks(shawl: Shawl) -> list[str]:
    """The designer's own remarks."""
    return list(shawl.remarks)


def part_names(shawl: Shawl) -> str:
    """What the badges' numbers stand for, where there is no table to say it."""
    named = [phrase("facts.part", number=str(number), name=part.name) for number, part in enumerate(shawl.parts, 1)]
    return phrase("facts.parts", parts=", ".join(named))


def facts_block(
    shawl: Shawl, column: PageColumn, top: float, facts: list[str], scale: float, fitted: bool = False
) -> PageBlock:
    """The facts in words at the left, the scale bar at the right of the first, or below it where that is too long.

    `fitted`: the scale was chosen for the page.
    """
    bar, bar_width = scale_bar(shawl.units, column, top, scale, fitted)
    beside = text_width(facts[0], SMALL) <= column.width - bar_width - 6
    items: list[Element] = []
    y = top
    for number, fact in enumerate(facts):
        for line in text_lines(fact, column.width, SMALL):
            y += SMALL * 1.5
            items.append(Label(column.left, y, line, SMALL, SOFT))
        if number == 0 and not beside:
            bar = moved(bar, (bar_width - column.width, y - top))
            y += SMALL * 1.5
    return PageBlock(Group("facts", (*items, bar)), y + 0.8)


def shawl_facts(shawl: Shawl) -> list[str]:
    """What the gauge is counted over, and the needles."""
    over = {round(f.gauge_over_cm, 3) for f in shawl.fabrics}
    over_words = _over_words(over.pop(), shawl.units) if len(over) == 1 else phrase("facts.gauge-length")
    needles = phrase("facts.needles", size=f"{round(shawl.needles_mm, 2):g}")
    blocked = phrase("facts.before-pinning" if shawl.outline.pinned else "facts.blocked")
    return [phrase("facts.gauge", over=over_words, blocked=blocked, needles=needles)]


def _over_words(cm: float, units: str) -> str:
    """The length as it was given; where inches lead, 10 cm is called 4 in, as patterns do."""
    inches = cm / CM_PER_INCH
    if abs(inches - round(inches)) < 1e-6:
        return phrase("measure.in", number=plain_number(inches))
    if units == "in" and cm == 10:
        return phrase("size.both", first=phrase("measure.in", number="4"), second=phrase("measure.cm", number="10"))
    return phrase("measure.cm", number=plain_number(cm))
