"""What can be said of a description besides its plan: small checks, each from the description or the work to
problems."""

from collections.abc import Callable, Iterator

from halfhank.grammar.builtin.stitch_patterns import FABRICS
from halfhank.grammar.description import (
    EVENLY,
    SPINE,
    Band,
    CastOn,
    Description,
    Drop,
    Mass,
    Shape,
    ShapingLine,
    Stitch,
)
from halfhank.grammar.problems import Problem, Span
from halfhank.model import known_problems as known
from halfhank.model.ends.marks import Progress
from halfhank.model.phrases import counted
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import MAX_ROWS, total_rows, turned_parts
from halfhank.model.rows.shaping import BIND_OFF, MAX_STITCHES, Worked, force_of
from halfhank.model.yarn.stitch_table import BUILT_IN, StitchTable, bands_of, swatch_m

Check = Callable[[StitchTable], Iterator[Problem]]
WorkCheck = Callable[[Progress], Iterator[Problem]]

ROWS_TO_STITCHES = {"garter": (1.7, 2.2), "stockinette": (1.25, 1.55)}
"""Where gauges of these fabrics lie, rows over stitches (common practice)."""

MAX_WRAPS = 100

YARN_TO_WIDTH = (3.2, 5.0)
"""Where yarn of a stitch over its width before blocking lies: Munden's constant, with room on both sides."""


def check_description(description: Description) -> list[Problem]:
    """All that shows without working a row."""
    room = StitchTable(description)
    return [problem for check in DESCRIPTION_CHECKS for problem in check(room)]


def check_work(at: Progress) -> list[Problem]:
    """All that shows in the rows."""
    return [problem for check in WORK_CHECKS for problem in check(at)]


def check_patterns(room: StitchTable, parts: list[Worked], rows: Rows) -> list[Problem]:
    """How the stitches' written rows fit into the rows of the shawl."""
    if not has_patterns(room):
        return []
    from halfhank.model.advice.pattern_review import review_fit

    return list(review_fit(room, parts, rows))


def check_rows(room: StitchTable, allowed: int) -> list[Problem]:
    """The row cap, before anything is put out."""
    rows = total_rows(room, allowed)
    if rows <= MAX_ROWS:
        return []
    span = room.description.parts[-1].span
    return [known.TOO_MANY_ROWS.at(span, rows=rows, most=MAX_ROWS)]


# From the description alone.


def _odd_gauge(room: StitchTable) -> Iterator[Problem]:
    for name, (least, most) in ROWS_TO_STITCHES.items():
        gauge = room.blocks[name].gauge if name in room.blocks else None
        if gauge and not least <= gauge.rows / gauge.stitches <= most:
            ratio, fabric = gauge.rows / gauge.stitches, name.capitalize()
            yield known.ODD_GAUGE.at(gauge.span, fabric=fabric, rows_to_stitch=ratio, least=least, most=most)


def _odd_swatch(room: StitchTable) -> Iterator[Problem]:
    if not any(block.gauge for block in room.blocks.values()):
        return
    least, most = YARN_TO_WIDTH
    for name, block in room.blocks.items():
        if block.swatch is None or name == "drop":  # No plain fabric.
            continue
        times = swatch_m(room.description, block.swatch) * 100 / room.unblocked_cm(name)
        if not least <= times <= most:
            yield known.ODD_SWATCH.at(block.swatch.span, times=times, least=least, most=most)


def _assumed_gauge(room: StitchTable) -> Iterator[Problem]:
    given = next((name for name, block in room.blocks.items() if block.gauge), None)
    firsts = {band.stitch.value: band.stitch.span for band in reversed(list(bands_of(room.description.parts, Band)))}
    for name, span in firsts.items():
        if given is None or (name in BUILT_IN and not (name == "garter" and given != "stockinette")):
            continue
        if room.measure(name).assumed:
            if room.root(name) in FABRICS and name not in BUILT_IN:
                yield known.ASSUMED_GAUGE_OF_BUILT_IN.at(span, stitch=name)
                continue
            source = "garter" if name != "garter" else room.measure(name).source.name.value
            yield known.ASSUMED_GAUGE.at(span, stitch=name, source=source)


def _measures_only(room: StitchTable) -> Iterator[Problem]:
    worked = {band.stitch.value for band in bands_of(room.description.parts, Band)}
    for name, block in room.blocks.items():
        if name in FABRICS and name not in BUILT_IN and name in worked and not room.rows(name):
            first, indent = _first_place(block)
            yield known.MEASURES_ONLY.at(block.name.span, first, stitch=name, indent=indent)


def _first_place(block: Stitch) -> tuple[Span | None, str | None]:
    """The place before a block's first measure, and the spaces before that."""
    facts = [fact.span for fact in (block.gauge, block.before_blocking, block.swatch) if fact]
    if not facts:
        return None, None
    line, column, _ = min(facts)
    return Span(line, column, column), " " * (column - 1)


def _keep(room: StitchTable) -> Iterator[Problem]:
    keep = room.description.yarn.keep
    weighed = next((one for one in room.description.log if one.row == 0), None)
    if weighed and isinstance(keep, Mass) and keep.g >= weighed.mass.g:
        yield known.KEEP_TOO_LARGE.at(keep.span)


def _places(room: StitchTable) -> Iterator[Problem]:
    from halfhank.model.outline.shapes.shape_table import SHAPES

    shape = room.description.shape
    kind = SHAPES.get(shape.name.value)
    if kind is None:
        shapes = ", ".join(f"`{name}`" for name in SHAPES)
        yield known.UNKNOWN_SHAPE.at(shape.name.span, shape=shape.name.value, shapes=shapes)
        return
    allowed = tuple(place for place in kind.places)
    for line in all_lines(room.description):
        for place, span in _placed(line):
            if place not in allowed:
                yield _not_allowed(shape.name.value, place, allowed, span)


def _placed(line: ShapingLine) -> list[tuple[str, Span]]:
    if line.evenly_to is not None:
        return [(EVENLY, line.span)]
    return [(placed.place, placed.span) for placed in line.places]


def _not_allowed(shape: str, place: str, allowed: tuple[str, ...], span: Span) -> Problem:
    if not allowed:
        return known.SHAPING_NOT_ALLOWED.at(span, shape=shape)
    where = place if place == EVENLY else f"at {place}"
    places = ", ".join(one if one == EVENLY else f"at `{one}`" for one in allowed)
    return known.PLACE_NOT_ALLOWED.at(span, shape=shape, where=where, places=places)


def all_lines(description: Description) -> Iterator[ShapingLine]:
    """Every shaping line as written."""
    yield from description.shape.shaping
    for part in description.parts:
        yield from part.shaping


def _unshaped(room: StitchTable) -> Iterator[Problem]:
    shape = room.description.shape
    if shape.name.value == "triangle" and not any(all_lines(room.description)):
        yield known.UNSHAPED.at(shape.name.span)


def _spine(room: StitchTable) -> Iterator[Problem]:
    """A spine where there is none, and a start that is too narrow for it or cannot be halved by it."""
    from halfhank.model.outline.shapes.shape_table import SHAPES

    shape = room.description.shape
    kind = SHAPES.get(shape.name.value)
    if kind is None:
        return
    if SPINE not in kind.places:
        if shape.spine and shape.spine.value:
            yield known.NO_SPINE.at(shape.spine.span, shape=shape.name.value)
        return
    if any(place == SPINE for line in all_lines(room.description) for place, _ in _placed(line)):
        yield from _halved(shape, shape.spine.value if shape.spine else kind.spine_stitches)


def _halved(shape: Shape, spine: int) -> Iterator[Problem]:
    start, edges = shape.start.stitches, 2 * shape.edge.stitches if shape.edge else 0
    wings = start - edges - spine
    if start < edges or (wings >= 0 and wings % 2 == 0):
        return
    taken = {"edges": counted(edges, "st"), "spine": counted(spine, "st")}
    if wings < 0:
        least = edges + spine
        cast_on = least if isinstance(shape.start, CastOn) else None
        start_words = counted(start, "st")
        yield known.NARROW_START.at(shape.start.span, **taken, start=start_words, least=least, cast_on=cast_on)
    else:
        wing_words, fewer, more = counted(wings, "st"), start - 1, start + 1
        yield known.UNEVEN_START.at(shape.start.span, **taken, wings=wing_words, fewer=fewer, more=more)


def _too_many_at_once(room: StitchTable) -> Iterator[Problem]:
    start = room.description.shape.start
    if start.stitches > MAX_STITCHES:
        yield known.TOO_MANY_STITCHES_AT_START.at(start.span, stitches=start.stitches, most=MAX_STITCHES)


def _saw_teeth(room: StitchTable) -> Iterator[Problem]:
    description = room.description
    parts = description.parts[: turned_parts(description)]
    lines = {line: None for part in parts for line in force_of(description, part).lines}
    for line in lines:
        if line.action == BIND_OFF:
            yield known.TEETH_TURN_BACK.at(line.span)


def _too_many_wraps(room: StitchTable) -> Iterator[Problem]:
    for band in bands_of(room.description.parts, Drop):
        if band.wraps > MAX_WRAPS:
            yield known.TOO_MANY_WRAPS.at(band.span, most=MAX_WRAPS)


def _patterns(room: StitchTable) -> Iterator[Problem]:
    if has_patterns(room):
        from halfhank.model.advice.pattern_review import review_rows

        yield from review_rows(room)


def has_patterns(room: StitchTable) -> bool:
    """Whether any stitch has rows, so that there is something to check in them."""
    names = {band.stitch.value for band in bands_of(room.description.parts, Band)}
    names |= {block.base.value for block in room.blocks.values() if block.base}
    library = any(name in FABRICS and name not in BUILT_IN for name in names)
    return library or any(block.rows for block in room.blocks.values())


DESCRIPTION_CHECKS: tuple[Check, ...] = (
    _odd_gauge,
    _odd_swatch,
    _assumed_gauge,
    _measures_only,
    _keep,
    _places,
    _unshaped,
    _spine,
    _too_many_at_once,
    _saw_teeth,
    _too_many_wraps,
    _patterns,
)


# From the work.


def _wrong_side_start(at: Progress) -> Iterator[Problem]:
    for part in at.parts:
        if part.section.back or not part.force.own:
            continue
        for line in part.force.lines:
            if line.every == 1 or line.from_row % 2 == 0 or (part.first_row + line.from_row) % 2 == 0:
                continue
            yield known.WRONG_SIDE_START.at(line.span, row=part.first_row + line.from_row - 1)


def _wrong_side_back(at: Progress) -> Iterator[Problem]:
    """Lines that act on right-side rows on the way out and on wrong-side rows on the way back."""
    out = {part.section.part: part for part in at.parts if not part.section.back}
    told = set[Span]()
    for part in at.parts:
        first = part.first_row
        for k, row in sorted(part.starts.items()) if part.section.back else ():
            line, forth = part.force.lines[k], out[part.section.part]
            right = all((forth.first_row + act.row) % 2 == 0 for act in forth.acts if act.line == k)
            if not right or (line.every or 0) % 2 or (first + row) % 2 == 0 or line.span in told:
                continue
            told.add(line.span)
            yield known.WRONG_SIDE_START_ON_WAY_BACK.at(line.span, row=first + row - 1)


def _wrong_side_pattern(at: Progress) -> Iterator[Problem]:
    told = set[Span]()
    for part in at.parts:
        row = part.first_row
        for run in part.section.runs:
            if isinstance(run.source, Band) and at.room.repeat_rows(run.stitch) and row % 2 == 0:
                if run.source.span not in told:
                    yield known.WRONG_SIDE_START_OF_ROWS.at(run.source.span, stitch=run.stitch, row=row)
                told.add(run.source.span)
            row += run.rows


def _lines_without_effect(at: Progress) -> Iterator[Problem]:
    acting = {part.force.lines[act.line] for part in at.parts for act in part.acts}
    rows = len(at.used_m) - 1
    for line in all_lines(at.room.description):
        if line in acting:
            continue
        owners = (part for part in at.parts if part.force.own and part.first_row <= line.from_row <= part.last_row)
        own = next(owners, None)
        if line in at.room.description.shape.shaping and line.every is None and own:
            yield known.LINE_LOST.at(line.span, row=line.from_row, part=own.section.name)
        else:
            yield _idle(at, line, rows)


def _idle(at: Progress, line: ShapingLine, rows: int) -> Problem:
    part = next((one for one in at.parts if one.force.own and line in one.force.lines), None)
    if part is None or line.from_row <= part.section.rows:
        return known.IDLE_LINE.at(line.span, rows=rows)
    return known.IDLE_LINE_IN_PART.at(line.span, rows=part.section.rows)


def _wide_edges(at: Progress) -> Iterator[Problem]:
    shape = at.room.description.shape
    counts = (k for part in at.parts for k in part.counts)
    narrow = next((k for k in (shape.start.stitches, *counts) if k < at.yarn.edges), None)
    if narrow is not None and shape.edge:
        yield known.WIDE_EDGES.at(shape.edge.span, edges=at.yarn.edges, stitches=narrow)


def _picot_multiple(at: Progress) -> Iterator[Problem]:
    off, live = at.room.description.bind_off, at.parts[-1].end
    if off is None or off.method != "picot":
        return
    every = off.bind_off - off.cast_on
    if (live - 1) % every:
        yield known.PICOT_MULTIPLE.at(off.span, each=counted(every, "st"), stitches=live)


def _yarn_short(at: Progress) -> Iterator[Problem]:
    gram, skein = at.skein.metres_per_gram, at.skein
    total_g, span = at.total_m / gram, at.room.description.yarn.skein.span
    if total_g > skein.skein_g:
        yield known.YARN_SHORT.at(span, total_g=total_g, skein_g=skein.skein_g)
    elif not skein.pays(at.total_m):
        yield known.MARGIN_SHORT.at(span, left_g=skein.skein_g - total_g, keep_g=skein.keep_g)


WORK_CHECKS: tuple[WorkCheck, ...] = (
    _wrong_side_start,
    _wrong_side_back,
    _wrong_side_pattern,
    _lines_without_effect,
    _wide_edges,
    _picot_multiple,
    _yarn_short,
)
