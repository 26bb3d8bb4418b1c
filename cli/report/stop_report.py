"""Where a shawl may end, as a report: `halfhank stops`."""

from halfhank.cli.report.figures import chance, grams, grams_left, masses_in, number_of, size
from halfhank.cli.report.plan_tables.choice_table import FROM_MARGIN, choice_table
from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
from halfhank.model.marks_and_stops.stops import Stop, stops
from halfhank.model.number_words import counted
from halfhank.model.phrases import stitch_name
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    Paragraph,
    Report,
    ReportSection,
    Table,
    TableCells,
    cells,
    figures_column,
    row_number,
    words_column,
)
from halfhank.model.shawl import Shawl

_NOTE = (
    "The shawl is bound off right after the row; what the plan has after it is left out. What is left over includes "
    "the margin."
)


def stop_report(plan: Plan) -> Report:
    """A table of the stops, with what is left over at each and how it would look."""
    shawl = plan.shawl
    columns = (
        figures_column("row"),
        words_column("after"),
        figures_column("sts"),
        figures_column("on the scale"),
        figures_column("bind-off"),
        figures_column("left over"),
        figures_column("chance"),
        figures_column("size", weight=3),
        words_column("looks", weight=4),
        words_column("", weight=1),
    )
    table = Table(columns, tuple(_stop(shawl, stop) for stop in stops(plan)))
    choices = repeat_choices(plan)
    whole = (ReportSection("One more, one fewer", (choice_table(choices, shawl),)),) if choices else ()
    return masses_in(shawl.skein.unit, Report(f"{shawl.title}: where it may end", (table, Paragraph((_NOTE,)), *whole)))


def _stop(shawl: Shawl, stop: Stop) -> TableCells:
    return cells(
        row_number(stop.row),
        f"{stop.part}: {stitch_name(stop.stitch)}" + (f", {stop.label}" if stop.label else ""),
        number_of(stop.stitches, "sts"),
        grams(stop.reading_g),
        grams(stop.bind_off_g),
        grams_left(stop.left.mean),
        chance(stop.left.chance_positive),
        size(stop.size.wingspan_cm, stop.size.depth_cm, shawl.units),
        "finished" if stop.finish.finished else "unfinished",
        "; ".join(_notes(shawl, stop)),
    )


def _notes(shawl: Shawl, stop: Stop) -> list[str]:
    notes = ["the planned end"] if stop.planned else []
    notes += [f"with {counted(stop.repeats, 'repeat')}"] if stop.repeats else []
    notes += ["beyond the plan"] if stop.beyond else []
    notes += [f"without {', '.join(stop.left_out)}"] if stop.left_out else []
    notes += [FROM_MARGIN] if 0 <= stop.left.mean < shawl.yarn.keep_g else []
    return [*notes, stop.finish.why]
