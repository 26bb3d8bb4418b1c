"""One shawl from skeins of other lengths, as a report: `halfhank skeins`."""

from halfhank.cli.report.figures import M_IN_YARD, grams, masses_in, number_of, size, tenths
from halfhank.model.design.band_walk import open_piece
from halfhank.model.design.design import Repeat
from halfhank.model.plan import Plan
from halfhank.model.planning.skeins import SkeinPlan
from halfhank.model.report_tree import (
    Content,
    Paragraph,
    Report,
    Table,
    TableCells,
    TableColumn,
    Value,
    cells,
    content,
    figures_column,
    words_column,
)
from halfhank.model.shawl import Mark
from halfhank.model.words.catalogue import said, say


def skein_report(plan: Plan, found: list[SkeinPlan], names: list[str]) -> Report:
    """A table of the skeins under their `names`, with what the shawl becomes from each."""
    shawl, repeats = plan.shawl, isinstance(open_piece(plan.design), Repeat)
    rows = tuple(_skein(one, name, repeats) for one, name in zip(found, names, strict=True))
    percent = 100 * shawl.yarn.keep_g / shawl.yarn.skein_g
    margin = Value(f"{tenths(percent).removesuffix('.0')} %", percent, "%")
    note, title = say("other-skeins.note", margin=margin), said("other-skeins.title", shawl=shawl.title)
    return masses_in(shawl.skein.unit, Report(title, (Table(_columns(repeats), rows), Paragraph(note))))


def _columns(repeats: bool) -> tuple[TableColumn, ...]:
    return (
        words_column(said("column.in-100-g")),
        figures_column(said("column.rows")),
        *([figures_column(said("column.repeats"))] if repeats else []),
        figures_column(said("column.stitches-at-end")),
        figures_column(said("column.stitches-in-all"), weight=1),
        figures_column(said("column.wingspan")),
        figures_column(said("column.at-half")),
        figures_column(said("column.bind-off")),
        figures_column(said("column.left-over"), weight=2),
    )


def _skein(one: SkeinPlan, name: str, repeats: bool) -> TableCells:
    unit = "yd" if name.endswith("yd") else "m"
    length = Value(name, one.metres_per_100g / (M_IN_YARD if unit == "yd" else 1), unit)
    shawl = one.shawl
    if shawl is None:
        return cells(length, "-", *(["-"] if repeats else []), "-", "-", said("other-skeins.not-enough"), "-", "-", "-")
    outline_size = shawl.outline.size
    return cells(
        length,
        number_of(shawl.rows.count, "rows"),
        *([number_of(shawl.allowed or 0, "repeats")] if repeats else []),
        number_of(shawl.rows.stitches[-1], "sts"),
        number_of(sum(shawl.rows.stitches[1:]), "sts"),
        size(outline_size.wingspan_cm, outline_size.depth_cm, shawl.units),
        _half(shawl.marks.halfway),
        grams(shawl.yarn.bind_off_g),
        _left_over(shawl.yarn.left_g),
    )


def _half(mark: Mark | None) -> str | Value:
    return "-" if mark is None else grams(mark.left_g)


def _left_over(left_g: float) -> Content:
    return content(grams(left_g)) if left_g >= 0 else say("size.short", mass=grams(-left_g))
