"""The plan of a shawl as a report: the yarn used, how large it will be, and every part and band."""

from collections.abc import Iterator

from halfhank.cli.report.figures import (
    chance,
    gram_range,
    grams,
    grams_left,
    length_in_both,
    masses_in,
    metres,
    number_of,
    shown_mass,
    size_in_both,
    stitches,
    swatch_length,
    tenths,
)
from halfhank.cli.report.plan_tables.band_tables import band_table, part_table, same_count
from halfhank.cli.report.plan_tables.choice_table import choice_table
from halfhank.cli.report.plan_tables.spare_yarn import ends_itself, spare_yarn
from halfhank.model.marks_and_stops.repeat_choices import RepeatChoices, repeat_choices
from halfhank.model.number_words import counted, half_up
from halfhank.model.outline.outline import Size, Stretch
from halfhank.model.phrases import blocking_words, going_on, stitch_name, turns_as_planned
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
from halfhank.model.shawl import Fabric, Mark, Shawl, Start, YarnPlan
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.words.drawn_words import phrase_of
from halfhank.model.yarn.stitch_table import WEIGHED
from halfhank.model.yarn.uncertainty import GAUGE, RATIO, SWATCH

_SOURCE = {SWATCH: "its swatch", RATIO: "another stitch", GAUGE: "its gauge", WEIGHED: "weighings"}
_KNOWN_FROM = {
    SWATCH: "estimated from the swatch",
    RATIO: "estimated from another stitch's swatch",
    GAUGE: "estimated from the gauge",
    WEIGHED: "corrected by weighings",
}


MORE_OR_FEWER = "One more, one fewer"


def plan_report(plan: Plan, with_rows: bool = False) -> Report:
    """The whole plan; `with_rows`: every row too."""
    shawl = plan.shawl
    facts = [Paragraph(text, lead) for lead, text in _facts(plan)]
    tables = [
        ("Marks", _marks(shawl)),
        ("Parts", part_table(shawl)),
        ("Bands", band_table(shawl)),
        ("Stitches", _fabrics(plan)),
    ]
    choices = repeat_choices(plan)
    if choices:
        tables.insert(1, (MORE_OR_FEWER, choice_table(choices, shawl)))
    if with_rows:
        tables.append(("Rows", _rows(plan)))
    sections = [
        ReportSection(heading, (table, *_below(shawl, heading, choices))) for heading, table in tables if table.rows
    ]
    return masses_in(shawl.skein.unit, Report(shawl.title, (Paragraph((shawl.summary,)), *facts, *sections)))


def _facts(plan: Plan) -> Iterator[tuple[str, Content]]:
    shawl = plan.shawl
    yarn, outline = shawl.yarn, shawl.outline
    yield "yarn", _skein(shawl)
    yield "needles", (Value(phrase_of("measure", "mm", number=f"{shawl.needles_mm:g}"), shawl.needles_mm, "mm"),)
    yield "start", _start(shawl.start)
    yield "rows", _row_counts(shawl)
    yield "size", _size(shawl)
    yield "edges", _edges(outline.size, shawl.units)
    if outline.fan_words and outline.fan_words not in shawl.summary:
        yield "curve" if outline.fan_degrees is None else "angle at the neck", (outline.fan_words,)
    if outline.stretch is not None:
        yield "stretch", _stretch(outline.stretch, "pinning" if outline.pinned else "blocking")
    yield "yarn used", content(grams(yarn.total_g), ", ", metres(yarn.total_m))
    yield "of which", _shares(shawl)
    yield "left over", _left(shawl)
    yield "last ridge", content(grams(yarn.last_ridge_g), ", in addition to the bind-off")
    yield "chance of enough yarn", _chance(yarn)
    if more := spare_yarn(plan):
        yield "spare yarn", more
    for remark in shawl.remarks:
        yield "remark", (remark,)


def _skein(shawl: Shawl) -> Content:
    yarn = shawl.yarn
    name = f"{yarn.name}: " if yarn.name else ""
    return content(name, grams(yarn.skein_g), ", ", metres(yarn.skein_m), "; margin ", grams(yarn.keep_g))


def _start(start: Start) -> Content:
    count = Value(counted(start.stitches, "st"), start.stitches, "sts")
    if start.words.endswith(f" {count}"):
        return content(start.words.removesuffix(count.words), count)
    return content(start.words, ": ", count)


def _row_counts(shawl: Shawl) -> Content:
    live = shawl.rows.stitches
    where = " in every row, " if same_count(shawl) else " at the end, "
    in_all = content(number_of(shawl.rows.count, "rows"), "; ", stitches(live[-1]), where)
    allowed = "" if shawl.allowed is None else f"; as yarn allows: {shawl.allowance_words}"
    return content(in_all, number_of(sum(live[1:]), "sts"), " in all", allowed)


def _shares(shawl: Shawl) -> Content:
    start, knitting, end = map(grams, (shawl.yarn.start_g, shawl.yarn.knitting_g, shawl.yarn.bind_off_g))
    return content("start ", start, ", rows ", knitting, ", bind-off ", end)


def _chance(yarn: YarnPlan) -> Content:
    """The chance, where the yarn is known from, and how far the yarn used may be off.

    It is the chance that the whole skein is enough, so that the margin may be used for it.
    """
    used = Estimate(yarn.total_g, yarn.sd_g)
    off = content("90 % range of yarn used ", gram_range(max(used.low, 0.0), used.high))
    included = "; if the margin is used too" if yarn.keep_g else ""
    return content(chance(yarn.chance_enough), f", {_KNOWN_FROM[yarn.basis]} (", off, ")", included)


def _size(shawl: Shawl) -> Content:
    measures = shawl.outline.size
    in_both = size_in_both(measures.wingspan_cm, measures.depth_cm, shawl.units)
    spine_cm = measures.spine_cm
    apart = spine_cm is not None and half_up(spine_cm, 1) != half_up(measures.depth_cm, 1)
    depth = "; the depth is measured from the highest point of the top edge" if apart else ""
    return content(in_both, f", {blocking_words(shawl.outline)}{depth}")


def _left(shawl: Shawl) -> Content:
    """What is left over, and how much of it is margin and how much spare yarn: as shown, the two add up."""
    left_g, keep_g, unit = shawl.yarn.left_g, shawl.yarn.keep_g, shawl.skein.unit
    if left_g < 0:
        return content("not enough yarn: ", grams(-left_g), " short")
    spare_g = shown_mass(left_g, unit) - shown_mass(keep_g, unit)
    if not keep_g:
        return (grams(left_g),)
    if spare_g < 0:
        return content(grams(left_g), ", less than the margin of ", grams(keep_g))
    return content(grams(left_g), ": margin ", grams(keep_g), " and spare ", grams(spare_g))


def _stretch(stretch: Stretch, by: str) -> Content:
    """How far blocking draws the fabric out where it does so most, along the rows also where it does so least."""
    shares = (stretch.along_least, stretch.along, stretch.across)
    least, along, across = (Value(f"{round(100 * share):+d} %", 100 * share, "%") for share in shares)
    lowest = content(least, " to ") if least.words != along.words else ()
    return content(*lowest, along, " along the rows, ", across, f" across them at most, by {by}")


def _edges(lengths: Size, units: str) -> Content:
    edges = [("spine", lengths.spine_cm), ("top edge", lengths.top_cm), ("bind-off edge", lengths.last_row_cm or None)]
    sides = _sides(lengths.sides_cm, units) if lengths.sides_cm else []
    if len(sides) == 2 and lengths.sides_cm and lengths.top_cm == lengths.sides_cm[0]:
        del edges[1]  # A piece worked sideways: its top is the upper edge.
    named = [content(f"{name} ", length_in_both(cm, units)) for name, cm in edges if cm is not None]
    return joined(", ", [*named, *sides])


def _sides(sides_cm: tuple[float, float], units: str) -> list[Content]:
    """The two sides: one length where they are as long, else each by the ends of the rows that lie there."""
    upper, lower = (length_in_both(cm, units) for cm in sides_cm)
    if upper.words == lower.words:
        return [content("each side ", upper)]
    return [content("upper edge (end of RS rows) ", upper), content("lower edge (start of RS rows) ", lower)]


def _marks(shawl: Shawl) -> Table:
    end = "end of the shawl" if ends_itself(shawl) else "bind off at the latest"
    turn = "turn back" if turns_as_planned(shawl) else "turn back at the latest"
    named = (
        ("half of this shawl's yarn", shawl.marks.halfway),
        (turn, shawl.marks.turn_back),
        (end, shawl.marks.bind_off_by),
    )
    columns = (
        words_column(""),
        figures_column("after row"),
        figures_column("yarn used", weight=2),
        figures_column("on the scale", weight=3),
        words_column("", weight=1),
    )
    return Table(columns, tuple(_mark(shawl, name, mark) for name, mark in named if mark is not None))


def _mark(shawl: Shawl, name: str, mark: Mark) -> TableCells:
    more = f"{mark.row - shawl.rows.count:,} more in {going_on(shawl)}" if mark.beyond else ""
    return cells(name, row_number(mark.row), grams(mark.used_g), grams_left(mark.left_g), more)


def _below(shawl: Shawl, heading: str, choices: RepeatChoices | None) -> tuple[Paragraph, ...]:
    """What has to be said below a table."""
    if heading == MORE_OR_FEWER and choices and any(half_up(one.left_g, 1) < 0 for one in choices.choices):
        return (Paragraph(("Short: more yarn than there is, even if the margin is used.",)),)
    if heading == "Stitches" and any(fabric.basis in (SWATCH, RATIO) for fabric in shawl.fabrics):
        return (Paragraph(("The yarn per stitch is that of a swatch without its cast-on and bind-off.",)),)
    return ()


def _fabrics(plan: Plan) -> Table:
    columns = (
        words_column("stitch"),
        figures_column("gauge"),
        figures_column("over", weight=3),
        figures_column("yarn per stitch", weight=2),
        words_column("known from", weight=1),
    )
    return Table(columns, tuple(_fabric(plan, fabric) for fabric in plan.shawl.fabrics))


def _fabric(plan: Plan, fabric: Fabric) -> TableCells:
    across, up = fabric.gauge
    use = _use(plan, fabric.name)
    return cells(
        stitch_name(fabric.name) + (f" ({use})" if use else ""),
        content(Value(f"{across:.4g}", across, "sts"), " x ", Value(f"{up:.4g}", up, "rows")),
        swatch_length(fabric.gauge_over_cm),
        Value(phrase_of("measure", "mm", number=tenths(fabric.yarn_m * 1000)), fabric.yarn_m * 1000, "mm"),
        _SOURCE[fabric.basis] + ("; gauge assumed" if fabric.gauge_assumed else ""),
    )


def _use(plan: Plan, stitch: str) -> str:
    """What has to be said of a stitch's figures: what it is used for where no band is worked in it."""
    if stitch == "drop":
        return "before the extra wraps"
    if any(band.stitch == stitch for band in plan.shawl.bands):
        return ""
    edge = plan.design.edge
    return "edges" if edge.stitches and edge.stitch == stitch else "fill"


def _rows(plan: Plan) -> Table:
    shawl = plan.shawl
    columns = (
        figures_column("row"),
        figures_column("sts"),
        figures_column("yarn used", weight=1),
        figures_column("on the scale"),
    )
    used_g, left_g, live = shawl.used_g, plan.working.left_g, shawl.rows.stitches
    return Table(
        columns,
        tuple(
            cells(row_number(row), number_of(live[row], "sts"), grams(used_g[row]), grams_left(left_g[row]))
            for row in range(1, shawl.rows.count + 1)
        ),
    )
