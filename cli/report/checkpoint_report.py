"""What the scale should show, with room for ticks: `halfhank plan --checkpoints`."""

from halfhank.cli.report.figures import gram_range, grams, masses_in, number_of, stitch_words
from halfhank.cli.report.plan_tables.band_tables import ends_inside
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    TICKED,
    UNTICKED,
    Paragraph,
    Report,
    Table,
    TableCells,
    cells,
    figures_column,
    row_number,
    ticks_column,
    words_column,
)
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.checkpoints import Checkpoint, checkpoints
from halfhank.model.words.catalogue import said, say


def checkpoint_report(plan: Plan, every: int | None) -> Report:
    """What the scale should show, from the start to the last row, and every so many rows."""
    shawl = plan.shawl
    table = checkpoint_table(shawl, checkpoints_shown(plan, every))
    title = said("checkpoints.title", shawl=shawl.title)
    return masses_in(shawl.skein.unit, Report(title, (table, Paragraph(say("checkpoints.note")))))


def checkpoint_table(shawl: Shawl, points: list[Checkpoint]) -> Table:
    """A line for each of the checkpoints."""
    columns = (
        figures_column(said("column.row")),
        figures_column(said("column.stitches"), weight=2),
        words_column(said("column.after")),
        figures_column(said("column.on-scale")),
        figures_column(said("column.range")),
        figures_column(said("column.weighed"), weight=1),
        ticks_column(""),
    )
    return Table(columns, tuple(_checkpoint(shawl, point) for point in points))


def checkpoints_shown(plan: Plan, every: int | None) -> list[Checkpoint]:
    """The checkpoints, those inside a run of very short bands of one stitch left out unless they are asked for."""
    inside = ends_inside(plan.shawl.bands)
    return [
        point
        for point in checkpoints(plan, every)
        if point.row not in inside or point.weighed_g is not None or (every and point.row % every == 0)
    ]


def _checkpoint(shawl: Shawl, point: Checkpoint) -> TableCells:
    reading, weighed_g = point.reading, point.weighed_g
    return cells(
        row_number(point.row),
        number_of(point.stitches, "sts"),
        _after(shawl, point),
        grams(reading.mean),
        gram_range(reading.low, reading.high),
        "" if weighed_g is None else grams(weighed_g),
        UNTICKED if weighed_g is None else TICKED,
    )


def _after(shawl: Shawl, point: Checkpoint) -> str:
    """What was just worked: the start, a whole band, or nothing that has a name."""
    if point.row == 0:
        return shawl.start.words
    if point.band is None:
        return ""
    band = point.band
    part, stitch = shawl.parts[band.part].name, stitch_words(band.stitch, band.wraps)
    if band.label:
        return said("checkpoints.worked-labelled", part=part, stitch=stitch, label=band.label)
    return said("checkpoints.worked", part=part, stitch=stitch)
