"""The pattern page of a shawl: all that a knitter needs, as one report with its drawings."""

from collections.abc import Iterator
from functools import partial

from halfhank.cli.report.html.elements import Element
from halfhank.cli.report.html.html_page import COLUMN_MM, PageForm, PageNames, html_page
from halfhank.cli.report.html.html_writer import report_elements
from halfhank.cli.report.html.inline_drawings import InlineDrawings, PlacedScene
from halfhank.cli.report.page import page_parts as named
from halfhank.cli.report.page.chart_sections import chart_section
from halfhank.cli.report.page.drawn_sections import (
    DrawingForm,
    DrawnSection,
    schematic_section,
    yarn_section,
)
from halfhank.cli.report.page.opening_layout import opened, room_below
from halfhank.cli.report.page.page_head import page_head
from halfhank.cli.report.page.page_masses import page_masses
from halfhank.cli.report.page.table_sections import parts_block, skein_section
from halfhank.cli.report.page.weighing_table import checkpoint_section
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions import written_instructions as instructions
from halfhank.model.instructions.opening.notes_section import construction
from halfhank.model.plan import Plan
from halfhank.model.report_tree import ListBlock, Paragraph, Report, ReportBlock, ReportSection
from halfhank.model.words.catalogue import said

_STANDARD_MM, _LARGE_MM = 215.0, 190.0
"""What a drawing may take of the height of either paper: all but its heading and its caption."""
_LARGE_ZOOM = 1.7
"""How many times as large drawings are in large print: as texts are."""


class PageOptions(NamedTuple):
    """Which `parts` a page has, the `form` of its paper, and the `ramp` of its schematic."""

    parts: frozenset[str]
    form: PageForm = PageForm()
    ramp: str = "tide"


def pattern_page(plan: Plan, options: PageOptions) -> Element:
    """The page as a tree of HTML."""
    report, scenes = page_report(plan, options)
    inline = InlineDrawings()

    drawings = {name: partial(inline.element, placed) for name, placed in scenes.items()}
    names = PageNames(plan.shawl.title, plan.design.by)
    headings = (said("notes.heading"), said("page.construction"))
    elements = report_elements(report, drawings)
    return html_page(names, opened(elements, headings) if _is_narrow(plan, options, scenes) else elements, options.form)


def _is_narrow(plan: Plan, options: PageOptions, scenes: dict[str, PlacedScene]) -> bool:
    """Whether facts and notes stand in two columns: not where the schematic has no room below them all the same."""
    placed, room = scenes.get("schematic"), _room(plan, options)
    return placed is None or (room is not None and placed.height_mm <= room + 0.1)


def _room(plan: Plan, options: PageOptions) -> float | None:
    """The height that the schematic may have on the first page."""
    return room_below([*page_head(plan, options.parts), *_opening(plan, options.parts)], options.form)


def page_report(plan: Plan, options: PageOptions) -> tuple[Report, dict[str, PlacedScene]]:
    """The page as a report, and the drawings of its figures."""
    blocks, scenes = list[ReportBlock](page_head(plan, options.parts)), dict[str, PlacedScene]()
    for section in _sections(plan, options):
        blocks.append(section.section if isinstance(section, DrawnSection) else section)
        scenes.update(section.scenes if isinstance(section, DrawnSection) else {})
    return page_masses(plan.shawl.skein.unit, Report(plan.shawl.title, tuple(blocks))), scenes


def _sections(plan: Plan, options: PageOptions) -> Iterator[ReportSection | DrawnSection]:
    """The sections that the page has, in their order."""
    parts, large, form = options.parts, options.form.large, _drawing_form(options)
    yield from _opening(plan, parts)
    if named.SCHEMATIC in parts:
        yield schematic_section(plan, form, _room(plan, options))
    if named.INSTRUCTIONS in parts:
        yield ReportSection(said("page.instructions"), (parts_block(plan), *instructions.steps(plan)))
    if named.CHARTS in parts and instructions.used_patterns(plan):
        yield chart_section(plan, form)
    if named.ABBREVIATIONS in parts:
        yield instructions.abbreviations(plan)
    if named.CHECKPOINTS in parts:
        yield checkpoint_section(plan, large)
    if named.SKEINS in parts:
        yield skein_section(plan, large)
    if named.YARN_CHART in parts:
        yield yarn_section(plan, form)


def _opening(plan: Plan, parts: frozenset[str]) -> Iterator[ReportSection]:
    """What is read before the first drawing."""
    if named.NOTES in parts:
        yield _notes(plan)
    if named.CONSTRUCTION in parts:
        yield ReportSection(said("page.construction"), (Paragraph(construction(plan)),))


def _notes(plan: Plan) -> ReportSection:
    """The notes but for the construction, which is a part of the page by itself."""
    section, made = instructions.notes(plan), construction(plan)
    lists = (
        ListBlock(tuple(item for item in block.items if item.text != made)) if isinstance(block, ListBlock) else block
        for block in section.blocks
    )
    return section._replace(blocks=tuple(lists))


def _drawing_form(options: PageOptions) -> DrawingForm:
    height, zoom = (_LARGE_MM, _LARGE_ZOOM) if options.form.large else (_STANDARD_MM, 1.0)
    return DrawingForm(COLUMN_MM, height, zoom, options.ramp)
