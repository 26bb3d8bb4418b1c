"""Where a shawl may end, as a report: `halfhank stops`."""

from halfhank.cli.report.figures import chance, grams, grams_left, masses_in, number_of, size
from halfhank.model.marks_and_stops.stops import Stop, stops
from halfhank.model.number_words import counted
from halfhank.model.phrases import stitch_name, without_words
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
from halfhank.model.words.catalogue import said

_NOTE = (
    "The shawl is bound off right after the row. The margin is included: what is left over contains it, and the chance "
    "of enough yarn is that with the margin used too."
)


def stop_report(plan: Plan) -> Report:
    """Tables of the stops by what each is, with what is left over at each and how it would look."""
    shawl, found = plan.shawl, stops(plan)
    groups = (
        ("Bind off early", [stop for stop in found if not (stop.planned or _another_count(stop))]),
        ("The planned end", [stop for stop in found if stop.planned]),
        ("With another number of repeats", [stop for stop in found if _another_count(stop)]),
    )
    sections = [ReportSection(heading, (_table(shawl, group),)) for heading, group in groups if group]
    return masses_in(shawl.skein.unit, Report(f"{shawl.title}: where it may end", (*sections, Paragraph((_NOTE,)))))


def _another_count(stop: Stop) -> bool:
    """Whether it takes more or fewer repeats than planned, so that its rows are those of another shawl."""
    return stop.beyond or stop.repeats > 0


def _table(shawl: Shawl, group: list[Stop]) -> Table:
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
    return Table(columns, tuple(_stop(shawl, stop) for stop in group))


def _stop(shawl: Shawl, stop: Stop) -> TableCells:
    repeat = f", repeat {stop.repeat:,}" if stop.repeat else ""
    return cells(
        row_number(stop.row),
        f"{stop.part}{repeat}: {stitch_name(stop.stitch)}" + (f", {stop.label}" if stop.label else ""),
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
    notes = [f"with {counted(stop.repeats, 'repeat')}"] if stop.repeats else []
    notes += [without_words(stop.left_out)] if stop.left_out else []
    notes += [said("choice.from-margin")] if 0 <= stop.left.mean < shawl.yarn.keep_g else []
    return [*notes, stop.finish.why]
