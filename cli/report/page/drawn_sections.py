"""The sections of a page with drawings: the schematic, the chart of the yarn."""

from contextlib import suppress

from halfhank.cli.report.html.inline_drawings import PlacedScene
from halfhank.grammar.record import NamedTuple
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Figure, ReportSection
from halfhank.model.weighings.forecast import forecast
from halfhank.model.words.catalogue import said, say
from halfhank.renderer.charts.yarn_chart import yarn_chart
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.page_sizes import MARGIN_SHARE, margin_of
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.schematic.options import DRAWING, NARROWEST_MM, TITLE_AND_TABLE, OptionError, Options
from halfhank.renderer.schematic.page import draw_schematic, drawn_to_scale

BLEED = 1.5
"""What is left of a drawing's own margin, mm: lines have a width, and letters are not measured to a hair."""
LEAST_PIECE_MM = 75.0
"""A schematic whose piece would be smaller than this waits for the next page, where it has all its height."""


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


def schematic_section(plan: Plan, form: DrawingForm, room_mm: float | None = None) -> DrawnSection:
    """The schematic without its table, which the page has among its parts.

    It is at most `room_mm` high where it can be drawn so low and still be large enough.
    """
    scene, margin = _schematic(plan, form)
    if room_mm is not None and scene.height - 2 * margin > room_mm - 2 * BLEED:
        scene, margin = _lower(plan, form, room_mm) or (scene, margin)
    figure = Figure("schematic", say("page.schematic-caption"))
    section = ReportSection(said("page.schematic"), (figure,))
    return DrawnSection(section, {"schematic": form.placed(scene, margin)})


def _lower(plan: Plan, form: DrawingForm, most: float) -> tuple[Scene, float] | None:
    """The drawing at the column's width and at most so high, without margins; None where the piece is tiny."""
    margin, size = margin_of(most + 2 * MARGIN, MARGIN), plan.shawl.outline.size
    options = Options(width_mm=_width(form), ramp=form.ramp, without=TITLE_AND_TABLE)
    with suppress(OptionError):
        scene, scale = drawn_to_scale(plan.shawl, options._replace(height_mm=most + 2 * (margin - BLEED)))
        return (scene, margin) if 10 * max(size.wingspan_cm, size.depth_cm) / scale >= LEAST_PIECE_MM else None
    return None


def _width(form: DrawingForm) -> float:
    """The width of a drawing that fills the column once its margins are left out."""
    room = form.width_mm / form.zoom - 2 * BLEED
    return max(min(room + 2 * MARGIN, room / (1 - 2 / MARGIN_SHARE)), NARROWEST_MM)


def _schematic(plan: Plan, form: DrawingForm) -> tuple[Scene, float]:
    """The drawing at the width of the column, lower where it would be higher than a page, and its margin."""
    width = _width(form)
    options = Options(width_mm=width, ramp=form.ramp, without=TITLE_AND_TABLE)
    if form.zoom > 1:  # large letters leave no room for the skein, whose figures the page has in words
        options = options._replace(only=DRAWING, without=None)
    margin, scene = margin_of(width, MARGIN), draw_schematic(plan.shawl, options)
    most = form.height_mm / form.zoom
    if scene.height - 2 * margin > most:
        with suppress(OptionError):
            return draw_schematic(plan.shawl, options._replace(height_mm=most)), min(margin, margin_of(most, MARGIN))
    return scene, margin


def yarn_section(plan: Plan, form: DrawingForm) -> DrawnSection:
    """What is on the scale after each row, with the weighings and the forecast."""
    scene = yarn_chart(plan.shawl, forecast(plan), titled=False)
    figure = Figure("yarn-chart", say("page.yarn-chart-caption"))
    return DrawnSection(ReportSection(said("page.yarn-chart"), (figure,)), {"yarn-chart": form.placed(scene, MARGIN)})
