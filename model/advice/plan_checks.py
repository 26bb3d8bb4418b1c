"""What can be said of a description besides its plan: small checks, each from the description or the work to
problems."""

from collections.abc import Callable, Iterator

from halfhank.grammar.builtin.stitch_patterns import FABRICS
from halfhank.grammar.description import EVENLY, SPINE, Band, Description, Drop, Mass, Shape, ShapingLine
from halfhank.grammar.problems import Problem, Span, advice, mistake
from halfhank.model.ends.marks import Progress
from halfhank.model.meaning.shape_kinds import SHAPES
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
    return [mistake("too-many-rows", span, f"The parts come to {rows:,} rows; a shawl has at most {MAX_ROWS:,}.")]


# From the description alone.


def _odd_gauge(room: StitchTable) -> Iterator[Problem]:
    for name, (least, most) in ROWS_TO_STITCHES.items():
        gauge = room.blocks[name].gauge if name in room.blocks else None
        if gauge and not least <= gauge.rows / gauge.stitches <= most:
            message = (
                f"{name.capitalize()} has {gauge.rows / gauge.stitches:.2f} rows to a stitch here; "
                f"{least:g} to {most:g} are usual."
            )
            yield advice("odd-gauge", gauge.span, message, "count the swatch again: stitches first, then rows")


def _odd_swatch(room: StitchTable) -> Iterator[Problem]:
    if not any(block.gauge for block in room.blocks.values()):
        return
    least, most = YARN_TO_WIDTH
    for name, block in room.blocks.items():
        if block.swatch is None or name == "drop":  # No plain fabric.
            continue
        times = swatch_m(room.description, block.swatch) * 100 / room.unblocked_cm(name)
        if not least <= times <= most:
            message = f"A stitch of this swatch takes {times:.3g} times its width; {least:g} to {most:g} are usual."
            yield advice("odd-swatch", block.swatch.span, message, "check the swatch, its gauge and the skein's length")


def _assumed_gauge(room: StitchTable) -> Iterator[Problem]:
    given = next((name for name, block in room.blocks.items() if block.gauge), None)
    firsts = {band.stitch.value: band.stitch.span for band in reversed(list(bands_of(room.description.parts, Band)))}
    for name, span in firsts.items():
        if given is None or (name in BUILT_IN and not (name == "garter" and given != "stockinette")):
            continue
        if room.measure(name).assumed:
            if room.root(name) in FABRICS and name not in BUILT_IN:
                message = f"`{name[:40]}` has no gauge; what it usually measures stands in, reckoned from garter."
                hint = f"give the gauge of a swatch in its block, with `as {name}`"
                yield advice("assumed-gauge", span, message, hint)
                continue
            source = "garter" if name != "garter" else room.measure(name).source.name.value
            message = f"`{name[:40]}` has no gauge; that of {source[:40]} stands in for it."
            yield advice("assumed-gauge", span, message)


def _measures_only(room: StitchTable) -> Iterator[Problem]:
    worked = {band.stitch.value for band in bands_of(room.description.parts, Band)}
    for name, block in room.blocks.items():
        if name in FABRICS and name not in BUILT_IN and name in worked and not room.rows(name):
            message = f"This block gives what `{name}` measures; the built-in's rows are not taken with it."
            yield advice("measures-only", block.name.span, message, f"write `as {name}` in it to work them")


def _keep(room: StitchTable) -> Iterator[Problem]:
    keep = room.description.yarn.keep
    weighed = next((one for one in room.description.log if one.row == 0), None)
    if weighed and isinstance(keep, Mass) and keep.g >= weighed.mass.g:
        yield mistake("keep-too-large", keep.span, "A margin of the whole skein leaves nothing to knit with.")


def _places(room: StitchTable) -> Iterator[Problem]:
    shape = room.description.shape
    kind = SHAPES.get(shape.name.value)
    if kind is None:
        hint = "here fits " + ", ".join(f"`{name}`" for name in SHAPES)
        yield mistake("unknown-shape", shape.name.span, f"There is no shape `{shape.name.value[:40]}`.", hint)
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
        message = f"A {shape} is not shaped: every row has the stitches of the cast-on."
        return mistake("shaping-not-allowed", span, message, "a strip on the bias is `asymmetric`")
    where = place if place == EVENLY else f"at {place}"
    hint = "shape it " + ", ".join(one if one == EVENLY else f"at `{one}`" for one in allowed)
    return mistake("place-not-allowed", span, f"`{shape}` is not shaped {where}.", hint)


def all_lines(description: Description) -> Iterator[ShapingLine]:
    """Every shaping line as written."""
    yield from description.shape.shaping
    for part in description.parts:
        yield from part.shaping


def _unshaped(room: StitchTable) -> Iterator[Problem]:
    shape = room.description.shape
    if shape.name.value == "triangle" and not any(all_lines(room.description)):
        message = "Nothing shapes this triangle: every row has the stitches of the cast-on."
        yield advice("unshaped", shape.name.span, message, "add a line such as `increase 1 at each edge every 2 rows`")


def _spine(room: StitchTable) -> Iterator[Problem]:
    """A spine where there is none, and a start that is too narrow for it or cannot be halved by it."""
    shape = room.description.shape
    kind = SHAPES.get(shape.name.value)
    if kind is None:
        return
    if SPINE not in kind.places:
        if shape.spine and shape.spine.value:
            message = f"A {shape.name.value} has no spine; these stitches are worked like the rest."
            yield advice("no-spine", shape.spine.span, message, "leave the line out")
        return
    if any(place == SPINE for line in all_lines(room.description) for place, _ in _placed(line)):
        yield from _halved(shape, shape.spine.value if shape.spine else kind.spine_stitches)


def _halved(shape: Shape, spine: int) -> Iterator[Problem]:
    start, edges = shape.start.stitches, 2 * shape.edge.stitches if shape.edge else 0
    wings = start - edges - spine
    if start < edges or (wings >= 0 and wings % 2 == 0):
        return
    taken = f"{counted(edges, 'st')} of the edges and {counted(spine, 'st')} of the spine"
    if wings < 0:
        message = f"The shawl starts with {counted(start, 'st')}, too few for {taken}."
        yield advice("narrow-start", shape.start.span, message, f"start with at least {edges + spine}")
    else:
        message = f"Without {taken}, {counted(wings, 'st')} of the start cannot be halved for two wings."
        yield advice("uneven-start", shape.start.span, message, f"start with {start - 1:,} or {start + 1:,}")


def _too_many_at_once(room: StitchTable) -> Iterator[Problem]:
    start = room.description.shape.start
    if start.stitches > MAX_STITCHES:
        message = f"The shawl would start with {start.stitches:,} stitches; a row has at most {MAX_STITCHES:,}."
        yield mistake("too-many-stitches", start.span, message)


def _saw_teeth(room: StitchTable) -> Iterator[Problem]:
    description = room.description
    parts = description.parts[: turned_parts(description)]
    lines = {line: None for part in parts for line in force_of(description, part).lines}
    for line in lines:
        if line.action == BIND_OFF:
            message = "Saw teeth do not turn back: what is bound off cannot be worked back."
            hint = "turn back around the part with the teeth, or leave it out"
            yield mistake("teeth-turn-back", line.span, message, hint)


def _too_many_wraps(room: StitchTable) -> Iterator[Problem]:
    for band in bands_of(room.description.parts, Drop):
        if band.wraps > MAX_WRAPS:
            message = f"A needle is wrapped at most {MAX_WRAPS} times for a stitch."
            yield mistake("too-many-wraps", band.span, message)


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
            row = part.first_row + line.from_row - 1
            message = f"This line first acts on row {row:,}, a wrong-side row: odd rows lie before the part."
            yield advice("wrong-side-start", line.span, message, "make the part before it a row longer or shorter")


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
            message = f"On the way back this line first acts on row {first + row - 1:,}, a wrong-side row."
            yield advice("wrong-side-start", line.span, message, "make the way out a row longer or shorter")


def _wrong_side_pattern(at: Progress) -> Iterator[Problem]:
    told = set[Span]()
    for part in at.parts:
        row = part.first_row
        for run in part.section.runs:
            if isinstance(run.source, Band) and at.room.repeat_rows(run.stitch) and row % 2 == 0:
                if run.source.span not in told:
                    message = f"Row 1 of `{run.stitch}` falls on row {row:,}, a wrong-side row."
                    yield advice("wrong-side-start", run.source.span, message, "put an even number of rows before it")
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
            name = own.section.name
            message = f"Row {line.from_row:,} lies in “{name}”, which has shaping lines of its own: this one is lost."
            yield advice("line-lost", line.span, message, "write it in that part")
        else:
            yield _idle(at, line, rows)


def _idle(at: Progress, line: ShapingLine, rows: int) -> Problem:
    part = next((one for one in at.parts if one.force.own and line in one.force.lines), None)
    if part is None or line.from_row <= part.section.rows:
        return advice("idle-line", line.span, f"This line never acts in the {rows:,} rows that are worked.")
    message = f"This line never acts in the {part.section.rows:,} rows of its part."
    return advice("idle-line", line.span, message, "in a part, `from row` counts from the part's first row")


def _wide_edges(at: Progress) -> Iterator[Problem]:
    shape = at.room.description.shape
    counts = (k for part in at.parts for k in part.counts)
    narrow = next((k for k in (shape.start.stitches, *counts) if k < at.yarn.edges), None)
    if narrow is not None and shape.edge:
        message = f"The edges have {at.yarn.edges:,} stitches together, wider than a row of {narrow:,}."
        yield advice("wide-edges", shape.edge.span, message)


def _picot_multiple(at: Progress) -> Iterator[Problem]:
    off, live = at.room.description.bind_off, at.parts[-1].end
    if off is None or off.method != "picot":
        return
    every = off.bind_off - off.cast_on
    if (live - 1) % every:
        message = f"Each picot uses up {counted(every, 'st')}; {live:,} are not a multiple of that, plus 1."
        yield advice("picot-multiple", off.span, message)


def _yarn_short(at: Progress) -> Iterator[Problem]:
    gram, skein = at.skein.metres_per_gram, at.skein
    total_g, span = at.total_m / gram, at.room.description.yarn.skein.span
    if total_g > skein.skein_g:
        message = f"The shawl takes {total_g:,.1f} g; the skein has {skein.skein_g:,.1f} g."
        yield advice("yarn-short", span, message, "work fewer rows, or one band `as yarn allows`")
    elif not skein.pays(at.total_m):
        left_g = skein.skein_g - total_g
        message = f"The shawl leaves {left_g:,.1f} g, less than the margin of {skein.keep_g:,.1f} g."
        yield advice("margin-short", span, message, "work fewer rows, or `keep` less")


WORK_CHECKS: tuple[WorkCheck, ...] = (
    _wrong_side_start,
    _wrong_side_back,
    _wrong_side_pattern,
    _lines_without_effect,
    _wide_edges,
    _picot_multiple,
    _yarn_short,
)
