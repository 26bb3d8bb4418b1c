"""The plan of a shawl as a report: what it takes, how large it will be, and every part and band."""

from collections.abc import Iterator

from halfhank.cli.report.figures import (
    chance,
    grams,
    grams_left,
    length,
    length_in_both,
    masses_in,
    metres,
    number_of,
    row_range,
    rows,
    size,
    size_in_both,
    stitch_words,
    stitches,
    swatch_length,
    tenths,
)
from halfhank.model.marks_and_stops.allowance_words import unit_words
from halfhank.model.marks_and_stops.repeat_choices import ROWS, RepeatChoice, RepeatChoices, repeat_choices
from halfhank.model.marks_and_stops.stops import one_more
from halfhank.model.number_words import counted
from halfhank.model.outline.outline import Size, Stretch
from halfhank.model.phrases import blocking_words, going_on
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    Content,
    Paragraph,
    Report,
    ReportSection,
    Table,
    TableCells,
    Value,
    cells,
    content,
    figures_column,
    joined,
    row_number,
    words_column,
)
from halfhank.model.shawl import Fabric, Mark, PartPlan, Shawl, Start

_ONE = {True: "one more", False: "one fewer"}


def plan_report(plan: Plan, with_rows: bool = False) -> Report:
    """The whole plan; `with_rows`: every row too."""
    shawl = plan.shawl
    facts = [Paragraph(text, lead) for lead, text in _facts(plan)]
    tables = [
        ("Marks", _marks(shawl)),
        ("Parts", _parts(shawl)),
        ("Bands", _bands(shawl)),
        ("Stitches", _fabrics(shawl)),
    ]
    if choices := repeat_choices(plan):
        tables.insert(1, ("One more, one fewer", choice_table(choices, shawl)))
    if with_rows:
        tables.append(("Rows", _rows(plan)))
    sections = [ReportSection(heading, (table,)) for heading, table in tables if table.rows]
    return masses_in(shawl.skein.unit, Report(shawl.title, (Paragraph((shawl.summary,)), *facts, *sections)))


def _facts(plan: Plan) -> Iterator[tuple[str, Content]]:
    shawl = plan.shawl
    yarn, outline = shawl.yarn, shawl.outline
    yield "yarn", _skein(shawl)
    yield "needles", (Value(f"{shawl.needles_mm:g} mm", shawl.needles_mm, "mm"),)
    yield "start", _start(shawl.start)
    yield "rows", _row_counts(shawl)
    yield "size", _size(shawl)
    yield "edges", _edges(outline.size, shawl.units)
    if outline.fan_words and outline.fan_words not in shawl.summary:
        yield "curve" if outline.fan_degrees is None else "fan", (outline.fan_words,)
    if outline.stretch is not None:
        yield "stretch", _stretch(outline.stretch, "pinning" if outline.pinned else "blocking")
    yield "takes", content(grams(yarn.total_g), ", ", metres(yarn.total_m))
    yield "for", _shares(shawl)
    yield "leaves", content(_left(yarn.left_g), "; the last ridge takes ", grams(yarn.last_ridge_g))
    sure = f" likely (by {yarn.basis}, give or take "
    yield "lasts", content(chance(yarn.chance_enough), sure, grams(yarn.sd_g), ")")
    if more := _spare_yarn(plan):
        yield "more", more
    for remark in shawl.remarks:
        yield "remark", (remark,)


def _skein(shawl: Shawl) -> Content:
    yarn = shawl.yarn
    name = f"{yarn.name}: " if yarn.name else ""
    return content(name, grams(yarn.skein_g), ", ", metres(yarn.skein_m), "; ", grams(yarn.keep_g), " kept back")


def _start(start: Start) -> Content:
    count = Value(counted(start.stitches, "st"), start.stitches, "sts")
    if start.words.endswith(f" {count}"):
        return content(start.words.removesuffix(count.words), count)
    return content(start.words, ": ", count)


def _row_counts(shawl: Shawl) -> Content:
    live = shawl.rows.stitches
    in_all = content(number_of(shawl.rows.count, "rows"), "; ", stitches(live[-1]), " at the end, ")
    allowed = "" if shawl.allowed is None else f"; as yarn allows: {shawl.allowance_words}"
    return content(in_all, number_of(sum(live[1:]), "sts"), " in all", allowed)


def _shares(shawl: Shawl) -> Content:
    start, knitting, end = map(grams, (shawl.yarn.start_g, shawl.yarn.knitting_g, shawl.yarn.bind_off_g))
    return content("the start ", start, ", the rows ", knitting, ", the end ", end)


def _size(shawl: Shawl) -> Content:
    measures = shawl.outline.size
    in_both = size_in_both(measures.wingspan_cm, measures.depth_cm, shawl.units)
    return content(in_both, f", {blocking_words(shawl.outline)}")


def _left(left_g: float) -> Content:
    if left_g >= 0:
        return (grams(left_g),)
    return content("nothing: ", grams(-left_g), " short")


def _stretch(stretch: Stretch, by: str) -> Content:
    """How far blocking draws the fabric out where it does so most, along the rows also where it does so least."""
    shares = (stretch.along_least, stretch.along, stretch.across)
    least, along, across = (Value(f"{round(100 * share):+d} %", 100 * share, "%") for share in shares)
    lowest = content(least, " to ") if least.words != along.words else ()
    return content(*lowest, along, " along the rows, ", across, f" across them at most, by {by}")


def _edges(lengths: Size, units: str) -> Content:
    edges = [("spine", lengths.spine_cm), ("top", lengths.top_cm), ("last row", lengths.last_row_cm or None)]
    if lengths.sides_cm is not None:
        edges += [("left side", lengths.sides_cm[0]), ("right side", lengths.sides_cm[1])]
    return joined(", ", [content(f"{name} ", length_in_both(cm, units)) for name, cm in edges if cm is not None])


def _marks(shawl: Shawl) -> Table:
    named = (
        ("half the yarn", shawl.marks.halfway),
        ("turn back by", shawl.marks.turn_back),
        ("bind off by", shawl.marks.bind_off_by),
    )
    columns = (
        words_column(""),
        figures_column("row"),
        figures_column("used", weight=2),
        figures_column("left"),
        words_column("", weight=1),
    )
    return Table(columns, tuple(_mark(shawl, name, mark) for name, mark in named if mark is not None))


def _mark(shawl: Shawl, name: str, mark: Mark) -> TableCells:
    on = f", in {going_on(shawl)}" if mark is shawl.marks.bind_off_by else ""
    beyond = f"past the planned end{on}" if mark.beyond else ""
    return cells(name, row_number(mark.row), grams(mark.used_g), grams_left(mark.left_g), beyond)


def choice_table(choices: RepeatChoices, shawl: Shawl) -> Table:
    """One fewer, as planned and one more, side by side."""
    of = f" of {choices.stitch}" if choices.stitch else ""
    columns = (
        words_column(""),
        figures_column(f"{choices.unit}{of}", weight=3),
        figures_column("rows in all", weight=2),
        figures_column("size", weight=4),
        figures_column("left over"),
        figures_column("chance of enough yarn", weight=5),
        words_column("", weight=1),
    )
    return Table(columns, tuple(_choice(shawl, choices.unit, choice) for choice in choices.choices))


def _choice(shawl: Shawl, unit: str, choice: RepeatChoice) -> TableCells:
    more, count = choice.difference > 0, abs(choice.difference)
    changed = f"{counted(count, 'row')} {'more' if more else 'fewer'}" if unit == ROWS else _ONE[more]
    return cells(
        changed if choice.difference else "as planned",
        number_of(choice.count, unit),
        number_of(choice.rows, "rows"),
        size(choice.size.wingspan_cm, choice.size.depth_cm, shawl.units),
        grams_left(choice.left_g),
        chance(choice.chance_enough),
        "into the margin" if 0 <= choice.left_g < shawl.yarn.keep_g else "",
    )


def _parts(shawl: Shawl) -> Table:
    columns = (
        words_column("part"),
        figures_column("rows"),
        figures_column("sts at end", weight=2),
        figures_column("used", weight=3),
        figures_column("share", weight=1),
        figures_column("left"),
    )
    return Table(columns, tuple(map(_part, shawl.parts)))


def _part(part: PartPlan) -> TableCells:
    return cells(
        part.name,
        row_range(part.first_row, part.last_row),
        number_of(part.stitches_at_end, "sts"),
        grams(part.used_g),
        Value(f"{part.share:.1%}", 100 * part.share, "%"),
        grams_left(part.left_g),
    )


def _bands(shawl: Shawl) -> Table:
    columns = (
        words_column("part", weight=4),
        words_column("stitch"),
        words_column("", weight=3),
        figures_column("rows"),
        figures_column("sts at end", weight=2),
        figures_column("height", weight=1),
        figures_column("used"),
        figures_column("left", weight=5),
    )
    return Table(columns, tuple(_band(shawl, index) for index in range(len(shawl.bands))))


def _band(shawl: Shawl, index: int) -> TableCells:
    band = shawl.bands[index]
    opens = index == 0 or shawl.bands[index - 1].part != band.part
    return cells(
        shawl.parts[band.part].name if opens else "",
        stitch_words(band.stitch, band.wraps),
        band.label or "",
        row_range(band.first_row, band.last_row),
        number_of(band.stitches_at_end, "sts"),
        length(band.height_cm, shawl.units),
        grams(band.used_g),
        grams_left(band.left_g),
    )


def _fabrics(shawl: Shawl) -> Table:
    columns = (
        words_column("stitch"),
        figures_column("gauge"),
        figures_column("over", weight=3),
        figures_column("yarn a stitch", weight=2),
        words_column("by", weight=1),
    )
    return Table(columns, tuple(map(_fabric, shawl.fabrics)))


def _fabric(fabric: Fabric) -> TableCells:
    across, up = fabric.gauge
    return cells(
        fabric.name,
        content(Value(f"{across:.4g}", across, "sts"), " x ", Value(f"{up:.4g}", up, "rows")),
        swatch_length(fabric.gauge_over_cm),
        Value(f"{tenths(fabric.yarn_m * 1000)} mm", fabric.yarn_m * 1000, "mm"),
        fabric.basis + ("; gauge assumed" if fabric.gauge_assumed else ""),
    )


def _rows(plan: Plan) -> Table:
    shawl = plan.shawl
    columns = (figures_column("row"), figures_column("sts"), figures_column("used", weight=1), figures_column("left"))
    used_g, left_g, live = shawl.used_g, plan.working.left_g, shawl.rows.stitches
    return Table(
        columns,
        tuple(
            cells(row_number(row), number_of(live[row], "sts"), grams(used_g[row]), grams_left(left_g[row]))
            for row in range(1, shawl.rows.count + 1)
        ),
    )


def _spare_yarn(plan: Plan) -> Content:
    """How many rows more could be paid for, and what one more repeat takes; empty where neither is known."""
    return joined("; ", [text for text in (_more_rows(plan.shawl), _more_repeats(plan)) if text])


def _more_rows(shawl: Shawl) -> Content:
    mark = shawl.marks.bind_off_by
    if mark is None or mark.row < shawl.rows.count:
        return ()
    more, spare_g = mark.row - shawl.rows.count, shawl.yarn.left_g - shawl.yarn.keep_g
    if not more and spare_g > shawl.yarn.last_ridge_g:
        return ()  # Its decreases end the piece, not the yarn.
    return content("the yarn pays for ", rows(more) if more else "no row", " past the end")


def _more_repeats(plan: Plan) -> Content:
    more, shawl = one_more(plan), plan.shawl
    if more is None:
        return ()
    left_g = more.left.mean
    takes = content(unit_words(plan.table.measures), " would take ", grams(more.takes_g))
    if left_g >= shawl.yarn.keep_g:
        return content(takes, ", and ", grams(left_g), " would be left")
    if left_g >= 0:
        return content(takes, ", which goes into the margin")
    return content(takes, ", ", grams(-left_g), " more than there is")
