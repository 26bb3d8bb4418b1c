"""Tables about the skein for people: checkpoints, stops, other skeins."""

from halfhank.cli.report.figures import chance, count, grams, length, stitch_words
from halfhank.cli.report.text_table import Table, TableColumn, paragraph
from halfhank.cli.terminal import Words, safe
from halfhank.grammar.description import Repeat
from halfhank.model.ends.sequences import open_piece
from halfhank.model.ends.stops import Stop
from halfhank.model.scale.checkpoints import Checkpoint
from halfhank.model.scale.posterior import Estimate
from halfhank.model.planning.skeins import SkeinPlan
from halfhank.model.shawl import Shawl

_WIDEST = 100


def checkpoint_table(shawl: Shawl, points: list[Checkpoint]) -> Table:
    """What the scale is to show, from the start to the last row, with room for ticks."""
    columns = (
        TableColumn("row"),
        TableColumn("sts", weight=2),
        TableColumn("after", True),
        TableColumn("scale to show"),
        TableColumn("between"),
        TableColumn("weighed", weight=1),
        TableColumn("", True),
    )
    return Table(columns, tuple(_checkpoint(shawl, point) for point in points))


def _checkpoint(shawl: Shawl, point: Checkpoint) -> tuple[str, ...]:
    if point.row == 0:
        after = shawl.start.words
    elif point.band is None:
        after = ""
    else:
        band = point.band
        name = shawl.parts[band.part].name
        after = f"{name}: {stitch_words(band.stitch, band.wraps)}" + (f", {band.label}" if band.label else "")
    weighed = "" if point.weighed_g is None else grams(point.weighed_g)
    return (
        count(point.row),
        count(point.stitches),
        after,
        grams(point.reading.mean),
        between(point.reading),
        weighed,
        "[x]" if weighed else "[ ]",
    )


def between(estimate: Estimate) -> str:
    """A 90 % band."""
    return f"{grams(estimate.low).removesuffix(' g')} to {grams(estimate.high)}"


def stop_table(shawl: Shawl, found: list[Stop]) -> Table:
    """Where the shawl may end."""
    columns = (
        TableColumn("row"),
        TableColumn("after", True),
        TableColumn("sts"),
        TableColumn("on the scale"),
        TableColumn("bind-off"),
        TableColumn("left over"),
        TableColumn("lasts"),
        TableColumn("size", weight=3),
        TableColumn("looks", True, 4),
        TableColumn("", True, 1),
    )
    return Table(columns, tuple(_stop(shawl, stop) for stop in found))


def _stop(shawl: Shawl, stop: Stop) -> tuple[str, ...]:
    margin = stop.left.mean < shawl.yarn.keep_g
    notes = ["beyond the plan"] if stop.beyond else []
    notes += [f"without {', '.join(stop.left_out)}"] if stop.left_out else []
    notes += ["into the margin"] if margin else []
    return (
        count(stop.row),
        f"{stop.part}: {stop.stitch}" + (f", {stop.label}" if stop.label else ""),
        count(stop.stitches),
        grams(stop.reading_g),
        grams(stop.bind_off_g),
        grams(stop.left.mean),
        chance(stop.left.chance_positive),
        size_words(shawl, stop.size.wingspan_cm, stop.size.depth_cm),
        f"{'finished' if stop.finish.finished else 'cut off'} ({stop.finish.why})",
        "; ".join(notes),
    )


def size_words(shawl: Shawl, wide: float, deep: float) -> str:
    """Wingspan and depth in the leading unit."""
    number, unit = length(wide, shawl.units).split(" ")
    return f"{number} x {length(deep, shawl.units).split(' ')[0]} {unit}"


def skein_table(shawl: Shawl, found: list[SkeinPlan], names: list[str]) -> Table:
    """The same shawl from skeins of other lengths."""
    repeats = isinstance(open_piece(shawl.description), Repeat)
    columns = [TableColumn("per 100 g", True), TableColumn("rows")]
    columns += [TableColumn("repeats")] if repeats else []
    columns += [TableColumn("sts at end"), TableColumn("in all", weight=1), TableColumn("wingspan x depth")]
    columns += [TableColumn("half at"), TableColumn("bind-off"), TableColumn("left over", weight=2)]
    return Table(tuple(columns), tuple(_skein(one, name, repeats) for one, name in zip(found, names, strict=True)))


def _skein(one: SkeinPlan, name: str, repeats: bool) -> tuple[str, ...]:
    shawl = one.shawl
    if shawl is None:
        return (name, "-", *(["-"] if repeats else []), "-", "-", "not enough yarn", "-", "-", "-")
    half = shawl.marks.halfway
    return (
        name,
        count(shawl.rows.count),
        *([count(shawl.allowed or 0)] if repeats else []),
        count(shawl.rows.stitches[-1]),
        count(sum(shawl.rows.stitches[1:])),
        size_words(shawl, shawl.outline.size.wingspan_cm, shawl.outline.size.depth_cm),
        "-" if half is None else grams(half.left_g),
        grams(shawl.yarn.bind_off_g),
        grams(shawl.yarn.left_g) if shawl.yarn.left_g >= 0 else f"{grams(-shawl.yarn.left_g)} short",
    )


def page(title: str, table: Table, notes: list[str], room: int | None, colour: bool) -> str:
    """A titled table with notes under it, at most so wide as the terminal."""
    words = Words(colour)
    if room is not None:
        room = max(24, min(room, 140))
    lines = [words.bold(safe(title)), *table.lines(room, words)]
    for note in notes:
        lines += ["", *paragraph("", safe(note), 0, min(room or _WIDEST, _WIDEST))]
    return "\n".join(lines) + "\n"
