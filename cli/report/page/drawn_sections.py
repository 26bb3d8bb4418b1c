"""The sections of a page with drawings: the schematic, the charts of stitch patterns, the chart of the yarn."""

from contextlib import suppress

from halfhank.cli.report.html.inline_drawings import PlacedScene
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.pattern_sections import pattern_sections
from halfhank.model.instructions.written_instructions import used_patterns
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Figure, ReportSection
from halfhank.model.stitches.chart import chart_of
from halfhank.model.stitches.fit import needle_of
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.stitches.worked_rows import too_large
from halfhank.model.weighings.forecast import forecast
from halfhank.model.words.catalogue import said, say
from halfhank.renderer.charts.stitch_chart import Captions, stitch_chart
from halfhank.renderer.charts.yarn_chart import yarn_chart
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.page_sizes import MARGIN_SHARE, margin_of
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.schematic.options import DRAWING, NARROWEST_MM, TITLE_AND_TABLE, OptionError, Options
from halfhank.renderer.schematic.page import draw_schematic

BLEED = 1.0
"""What is left of a drawing's own margin, mm: lines have a width."""


class DrawingForm(NamedTuple):
    """How drawings are set: at most `width_mm` wide and `height_mm` high, enlarged by `zoom`, shaded by `ramp`."""

    width_mm: float
    height_mm: float
    zoom: float
    ramp: str

    def placed(self, scene: Scene, margin: float) -> "PlacedScene":
        """The drawing enlarged as far as it has room, its own white `margin` left out but for a little."""
        trim = max(margin - BLEED, 0.0)
        most = min(self.width_mm / (scene.width - 2 * trim), self.height_mm / (scene.height - 2 * trim))
        return PlacedScene(scene, trim, min(most, self.zoom))


class DrawnSection(NamedTuple):
    """A section, and the drawings of its figures by their names."""

    section: ReportSection
    scenes: dict[str, PlacedScene]


def schematic_section(plan: Plan, form: DrawingForm) -> DrawnSection:
    """The schematic without its table, which the page has among its parts."""
    scene, margin = _schematic(plan, form)
    figure = Figure("schematic", say("page.schematic-caption"))
    section = ReportSection(said("page.schematic"), (figure,))
    return DrawnSection(section, {"schematic": form.placed(scene, margin)})


def _schematic(plan: Plan, form: DrawingForm) -> tuple[Scene, float]:
    """The drawing at the width of the column, lower where it would be higher than a page, and its margin."""
    room = form.width_mm / form.zoom - 2 * BLEED
    width = max(min(room + 2 * MARGIN, room / (1 - 2 / MARGIN_SHARE)), NARROWEST_MM)
    options = Options(width_mm=width, ramp=form.ramp, without=TITLE_AND_TABLE)
    if form.zoom > 1:  # large letters leave no room for the skein, whose figures the page has in words
        options = options._replace(only=DRAWING, without=None)
    margin, scene = margin_of(width, MARGIN), draw_schematic(plan.shawl, options)
    most = form.height_mm / form.zoom
    if scene.height - 2 * margin > most:
        with suppress(OptionError):
            return draw_schematic(plan.shawl, options._replace(height_mm=most)), min(margin, margin_of(most, MARGIN))
    return scene, margin


def chart_section(plan: Plan, form: DrawingForm) -> DrawnSection:
    """Each stitch pattern with its chart and its written rows; in two wings with those of its mirror image."""
    sections, scenes = list[ReportSection](), dict[str, PlacedScene]()
    wings = needle_of(plan.design, plan.rows).wings
    for pattern in used_patterns(plan):
        images = zip((pattern, mirrored(pattern)), pattern_sections(pattern, wings), strict=False)
        for drawn, section in images:
            if not too_large(drawn):
                name = f"chart-{len(scenes) + 1}"
                scenes[name] = _chart(plan, drawn, form)
                figure = Figure(name, say("page.chart-caption", name=section.heading))
                section = section._replace(blocks=(figure, *section.blocks))
            sections.append(section)
    return DrawnSection(ReportSection(said("page.charts"), tuple(sections)), scenes)


def _chart(plan: Plan, pattern: Pattern, form: DrawingForm) -> PlacedScene:
    measure = plan.table.measures.measure(pattern.name)
    scene = stitch_chart(chart_of(pattern), Captions(pattern.name, (), measure.row_cm / measure.stitch_cm, False))
    return form.placed(scene, MARGIN)


def yarn_section(plan: Plan, form: DrawingForm) -> DrawnSection:
    """What is on the scale after each row, with the weighings and the forecast."""
    scene = yarn_chart(plan.shawl, forecast(plan), titled=False)
    figure = Figure("yarn-chart", say("page.yarn-chart-caption"))
    return DrawnSection(ReportSection(said("page.yarn-chart"), (figure,)), {"yarn-chart": form.placed(scene, MARGIN)})
