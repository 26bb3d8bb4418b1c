"""A plan for people: what the shawl takes, how large it will be, and every part and band, as text."""

from halfhank.cli.report.figures import (
    CM_IN_INCH,
    chance,
    count,
    grams,
    length,
    length_in_both,
    metres,
    span,
    stitch_words,
    swatched,
    tenths,
)
from halfhank.cli.report.spare_yarn import more_words
from halfhank.cli.report.text_table import Table, TableColumn, paragraph
from halfhank.cli.terminal import Words, safe
from halfhank.model.ends.allowance_words import allowed_words
from halfhank.model.number_words import counted
from halfhank.model.phrases import going_on
from halfhank.model.outline.outline import Size, Stretch
from halfhank.model.shawl import Mark, Shawl, Start

_LEAD = 10
_WIDEST = 100


def plan_text(shawl: Shawl, with_rows: bool, room: int | None, colour: bool) -> str:
    """The whole plan. `room` is the terminal's width, None where there is none: then nothing is cut."""
    words = Words(colour)
    if room is not None:
        room = max(24, min(room, _WIDEST))
    blocks = [
        _heading(shawl, words, room),
        _facts(shawl, room),
        _section("Marks", _marks(shawl), room, words),
        _section("Parts", _parts(shawl), room, words),
        _section("Bands", _bands(shawl), room, words),
        _section("Stitches", _stitches(shawl), room, words),
    ]
    if with_rows:
        blocks.append(_section("Rows", _rows(shawl), room, words))
    return "\n".join("\n".join(block) + "\n" for block in blocks if block)


def _section(title: str, table: Table, room: int | None, words: Words) -> list[str]:
    return [words.bold(title), *table.lines(room, words)] if table.rows else []


def _heading(shawl: Shawl, words: Words, room: int | None) -> list[str]:
    title = paragraph("", safe(shawl.title), 0, room or _WIDEST)
    return [words.bold(line) for line in title] + paragraph("", safe(shawl.summary), 0, room or _WIDEST)


def _facts(shawl: Shawl, room: int | None) -> list[str]:
    yarn = shawl.yarn
    name = f"{yarn.name}: " if yarn.name else ""
    facts = (
        ("yarn", f"{name}{grams(yarn.skein_g)}, {metres(yarn.skein_m)}; {grams(yarn.keep_g)} kept back"),
        ("needles", f"{shawl.needles_mm:g} mm"),
        ("start", _start(shawl.start)),
        ("rows", _rows_fact(shawl)),
        ("size", _size(shawl)),
        ("edges", _edges(shawl.outline.size, shawl.units)),
        *_fan(shawl),
        *_stretch(shawl.outline.stretch),
        ("takes", f"{grams(yarn.total_g)}, {metres(yarn.total_m)}"),
        ("for", _shares(shawl)),
        ("leaves", f"{_left(yarn.left_g)}; the last ridge takes {grams(yarn.last_ridge_g)}"),
        ("lasts", f"{chance(yarn.chance_enough)} likely (by {yarn.basis}, give or take {grams(yarn.sd_g)})"),
    )
    more = [("more", text) for text in (more_words(shawl),) if text]
    remarks = [("remark", remark.value) for remark in shawl.description.remarks]
    lines = []
    for lead, text in [*facts, *more, *remarks]:
        lines += paragraph(lead, safe(text), _LEAD, room or _WIDEST)
    return lines


def _start(start: Start) -> str:
    stitches = f" {counted(start.stitches, 'st')}"
    return start.words if start.words.endswith(stitches) else f"{start.words}:{stitches}"


def _rows_fact(shawl: Shawl) -> str:
    stitches = shawl.rows.stitches
    allowed = "" if shawl.allowed is None else f"; as yarn allows: {allowed_words(shawl)}"
    ends = f"{count(stitches[-1])} sts at the end, {count(sum(stitches[1:]))} in all"
    return f"{count(shawl.rows.count)}; {ends}{allowed}"


def _shares(shawl: Shawl) -> str:
    yarn = shawl.yarn
    return f"the start {grams(yarn.start_g)}, the rows {grams(yarn.knitting_g)}, the end {grams(yarn.bind_off_g)}"


def _size(shawl: Shawl) -> str:
    size = shawl.outline.size
    wide, deep = size.wingspan_cm, size.depth_cm
    cm = f"{tenths(wide)} x {tenths(deep)} cm"
    inches = f"{tenths(wide / CM_IN_INCH)} x {tenths(deep / CM_IN_INCH)} in"
    both = f"{inches} ({cm})" if shawl.units == "in" else f"{cm} ({inches})"
    return f"{both}, {'pinned' if shawl.outline.pinned else 'as knitted'}"


def _left(left_g: float) -> str:
    return grams(left_g) if left_g >= 0 else f"nothing: {grams(-left_g)} short"


def _stretch(stretch: Stretch | None) -> list[tuple[str, str]]:
    """How far pinning draws the fabric out where it does so most."""
    if stretch is None:
        return []
    ways = ((stretch.along, "along the rows"), (stretch.across, "across them"))
    return [("stretch", ", ".join(f"{100 * share:+.0f} % {way}" for share, way in ways) + " at most, by pinning")]


def _fan(shawl: Shawl) -> list[tuple[str, str]]:
    """What the fan does to the top edge, unless the heading says it."""
    words = shawl.outline.fan_words
    return [("fan", words)] if words and words not in shawl.summary else []


def _edges(size: Size, units: str) -> str:
    lengths = [("spine", size.spine_cm), ("top", size.top_cm), ("last row", size.last_row_cm)]
    if size.sides_cm is not None:
        lengths += [("left side", size.sides_cm[0]), ("right side", size.sides_cm[1])]
    return ", ".join(f"{name} {length_in_both(value, units)}" for name, value in lengths if value is not None)


def _marks(shawl: Shawl) -> Table:
    named = (
        ("half the yarn", shawl.marks.halfway),
        ("turn back by", shawl.marks.turn_back),
        ("bind off by", shawl.marks.bind_off_by),
    )
    columns = (
        TableColumn("", True),
        TableColumn("row"),
        TableColumn("used", weight=2),
        TableColumn("left"),
        TableColumn("", True, 1),
    )
    return Table(columns, tuple(_mark(shawl, name, mark) for name, mark in named if mark is not None))


def _mark(shawl: Shawl, name: str, mark: Mark) -> tuple[str, ...]:
    on = f", in {going_on(shawl)}" if mark is shawl.marks.bind_off_by else ""
    beyond = f"past the planned end{on}" if mark.beyond else ""
    return (name, count(mark.row), grams(mark.used_g), grams(mark.left_g), beyond)


def _parts(shawl: Shawl) -> Table:
    columns = (
        TableColumn("part", True),
        TableColumn("rows"),
        TableColumn("sts at end", weight=2),
        TableColumn("used", weight=3),
        TableColumn("share", weight=1),
        TableColumn("left"),
    )
    rows = (
        (
            part.name,
            span(part.first_row, part.last_row),
            count(part.stitches_at_end),
            grams(part.used_g),
            f"{part.share:.1%}",
            grams(part.left_g),
        )
        for part in shawl.parts
    )
    return Table(columns, tuple(rows))


def _bands(shawl: Shawl) -> Table:
    columns = (
        TableColumn("part", True, 4),
        TableColumn("stitch", True),
        TableColumn("", True, 3),
        TableColumn("rows"),
        TableColumn("sts at end", weight=2),
        TableColumn("height", weight=1),
        TableColumn("used"),
        TableColumn("left", weight=5),
    )
    return Table(columns, tuple(_band(shawl, index) for index in range(len(shawl.bands))))


def _band(shawl: Shawl, index: int) -> tuple[str, ...]:
    band = shawl.bands[index]
    opens = index == 0 or shawl.bands[index - 1].part != band.part
    return (
        shawl.parts[band.part].name if opens else "",
        stitch_words(band.stitch, band.wraps),
        band.label or "",
        span(band.first_row, band.last_row),
        count(band.stitches_at_end),
        length(band.height_cm, shawl.units),
        grams(band.used_g),
        grams(band.left_g),
    )


def _stitches(shawl: Shawl) -> Table:
    columns = (
        TableColumn("stitch", True),
        TableColumn("gauge"),
        TableColumn("over", weight=3),
        TableColumn("yarn a stitch", weight=2),
        TableColumn("by", True, 1),
    )
    rows = (
        (
            fabric.name,
            f"{fabric.gauge[0]:.4g} x {fabric.gauge[1]:.4g}",
            swatched(fabric.gauge_over_cm),
            f"{tenths(fabric.yarn_m * 1000)} mm",
            fabric.basis + ("; gauge assumed" if fabric.gauge_assumed else ""),
        )
        for fabric in shawl.fabrics
    )
    return Table(columns, tuple(rows))


def _rows(shawl: Shawl) -> Table:
    columns = (TableColumn("row"), TableColumn("sts"), TableColumn("used", weight=1), TableColumn("left"))
    skein_g, used_g, stitches = shawl.yarn.skein_g, shawl.used_g, shawl.rows.stitches
    rows = (
        (count(row), count(stitches[row]), grams(used_g[row]), grams(skein_g - used_g[row]))
        for row in range(1, shawl.rows.count + 1)
    )
    return Table(columns, tuple(rows))
