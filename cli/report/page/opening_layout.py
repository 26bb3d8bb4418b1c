"""The head of a page: facts, notes and construction, which stand in two columns on paper, and what is left below them.

On the screen and in large print they are one column.
"""

import math

from halfhank.cli.report.html.elements import Element, new_element
from halfhank.cli.report.html.html_page import COLUMN_MM, PageForm, paper_height_mm
from halfhank.model.report_tree import ListBlock, Paragraph, ReportBlock, ReportSection, words_of
from halfhank.renderer.paper.text_widths import text_width

_SIZE_MM, _LINE_MM = 3.175, 4.15
"""The letters of the two columns, and a line of them."""
_COLUMN_MM, _LEAD_MM, _BULLET_MM = (COLUMN_MM - 8) / 2, 22.0, 4.0
_HEADING_MM, _AFTER_MM, _ITEM_MM = 11.0, 2.0, 0.9
_TITLE_MM, _FIGURE_MM = 17.0, 21.0
"""Title and designer; the heading and the caption of the figure below."""
_SLACK_MM = 8.5
"""Columns are not quite as high as one another."""


def opened(elements: list[Element], headings: tuple[str, ...]) -> list[Element]:
    """The elements of a page, its facts and the sections of these headings in a frame of their own."""
    inside = [one for one in elements if one.get("class") == "facts" or (len(one) and one[0].text in headings)]
    if not inside:
        return elements
    place = elements.index(inside[0])
    frame = new_element("div", None, inside, {"class": "opening"})
    outside = [one for one in elements if one not in inside]
    return [*outside[:place], frame, *outside[place:]]


def room_below(blocks: list[ReportBlock], form: PageForm) -> float | None:
    """The height (mm) that a figure under these blocks may have on the first page; None in large print."""
    if form.large:
        return None
    total = sum(map(_block_mm, blocks))
    return paper_height_mm(form) - _TITLE_MM - total / 2 - _SLACK_MM - _FIGURE_MM


def _block_mm(block: ReportBlock) -> float:
    match block:
        case Paragraph(text, None):
            return _lines_mm(words_of(text), _COLUMN_MM) + _AFTER_MM
        case Paragraph(text):
            return _lines_mm(words_of(text), _COLUMN_MM - _LEAD_MM) + _ITEM_MM
        case ListBlock(items):
            return sum(_lines_mm(words_of(one.text), _COLUMN_MM - _BULLET_MM) + _ITEM_MM for one in items) + _AFTER_MM
        case ReportSection(_, inner):
            return _HEADING_MM + sum(map(_block_mm, inner))
    return 0.0


def _lines_mm(words: str, wide: float) -> float:
    """The height of a text in a column; lines are a little shorter than it, for words are not cut."""
    return _LINE_MM * math.ceil(text_width(words, _SIZE_MM) / (0.95 * wide))
