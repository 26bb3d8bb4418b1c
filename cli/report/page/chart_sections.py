"""The stitch patterns of a page: each with its chart and its written rows, in two wings with those of both."""

from halfhank.cli.report.html.inline_drawings import PlacedScene
from halfhank.cli.report.page.drawn_sections import DrawingForm, DrawnSection
from halfhank.model.instructions.pattern_sections import pattern_sections
from halfhank.model.instructions.written_instructions import used_patterns
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Figure, ListBlock, ListItem, ReportSection
from halfhank.model.stitches.chart import chart_of
from halfhank.model.stitches.fit import needle_of
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.stitches.worked_rows import too_large
from halfhank.model.words.catalogue import said, say
from halfhank.renderer.charts.stitch_chart import Captions, fit_beside, stitch_chart, wing_charts
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.scene import Scene

_Drawn = dict[str, PlacedScene]


def chart_section(plan: Plan, form: DrawingForm) -> DrawnSection:
    """Each stitch pattern with its chart and its written rows; in two wings with those of its mirror image."""
    sections, scenes = list[ReportSection](), _Drawn()
    wings = needle_of(plan.design, plan.rows).wings
    for pattern in used_patterns(plan):
        own = tuple(pattern_sections(pattern, wings))
        if len(own) > 1 and _beside(plan, pattern, form):
            sections.append(_both(plan, pattern, own, form, scenes))
        else:
            sections += _one_by_one(plan, pattern, own, form, scenes)
    return DrawnSection(ReportSection(said("page.charts"), tuple(sections)), scenes)


def _beside(plan: Plan, pattern: Pattern, form: DrawingForm) -> bool:
    second = mirrored(pattern)
    if too_large(pattern) or too_large(second):
        return False
    return fit_beside(chart_of(pattern), chart_of(second), _row_to_stitch(plan, pattern), form.width_mm / form.zoom)


def _both(
    plan: Plan, pattern: Pattern, own: tuple[ReportSection, ...], form: DrawingForm, scenes: _Drawn
) -> ReportSection:
    """The charts of both wings in one drawing, then the rows of each."""
    scene = wing_charts(chart_of(pattern), chart_of(mirrored(pattern)), _captions(plan, pattern))
    figure = _figure(form.placed(scene, MARGIN), say("page.wings-caption", name=pattern.name), scenes)
    names = (say("page.first-wing"), say("page.second-wing"))
    wings = tuple(ListItem(name, _lines(section)) for name, section in zip(names, own, strict=True))
    return own[0]._replace(blocks=(figure, ListBlock(wings)))


def _lines(section: ReportSection) -> tuple[ListItem, ...]:
    return tuple(item for block in section.blocks if isinstance(block, ListBlock) for item in block.items)


def _one_by_one(
    plan: Plan, pattern: Pattern, own: tuple[ReportSection, ...], form: DrawingForm, scenes: _Drawn
) -> list[ReportSection]:
    """Each wing's chart with its rows, one after the other."""
    found = list[ReportSection]()
    images = ((pattern, pattern.name), (mirrored(pattern), said("page.mirrored-name", name=pattern.name)))
    for (drawn, name), section in zip(images, own, strict=False):
        if not too_large(drawn):
            scene: Scene = stitch_chart(chart_of(drawn), _captions(plan, drawn))
            figure = _figure(form.placed(scene, MARGIN), say("page.chart-caption", name=name), scenes)
            section = section._replace(blocks=(figure, *section.blocks))
        found.append(section)
    return found


def _figure(placed: PlacedScene, caption: Content, scenes: _Drawn) -> Figure:
    drawing = f"chart-{len(scenes) + 1}"
    scenes[drawing] = placed
    return Figure(drawing, caption)


def _captions(plan: Plan, pattern: Pattern) -> Captions:
    return Captions(pattern.name, (), _row_to_stitch(plan, pattern), False)


def _row_to_stitch(plan: Plan, pattern: Pattern) -> float:
    measure = plan.table.measures.measure(pattern.name)
    return measure.row_cm / measure.stitch_cm
