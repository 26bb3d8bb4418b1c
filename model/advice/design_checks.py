"""What can be said of a design without working a row: small checks, each from the stitches to problems."""

from collections.abc import Callable, Iterator

from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import EVENLY, SPINE
from halfhank.grammar.problems import Problem, Span, advice, mistake
from halfhank.model.meaning.band_walk import bands_of, elongated_of, total_rows
from halfhank.model.meaning.design import Design, ShapingLine
from halfhank.model.meaning.shape_kinds import SHAPES
from halfhank.model.meaning.stitch_measures import BUILT_IN, StitchMeasures
from halfhank.model.number_words import counted
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.shaping import BIND_OFF, MAX_STITCHES
from halfhank.model.yarn.stitch_table import StitchTable, swatch_m

Check = Callable[[StitchTable], Iterator[Problem]]

ROWS_TO_STITCHES = {"garter": (1.7, 2.2), "stockinette": (1.25, 1.55)}
"""Where gauges of these fabrics lie, rows over stitches (common practice)."""

MAX_WRAPS = 100

YARN_TO_WIDTH = (3.2, 5.0)
"""Where yarn of a stitch over its width before blocking lies: Munden's constant, with room on both sides."""


def check_design(table: StitchTable) -> list[Problem]:
    """All that shows without working a row."""
    return [problem for check in DESIGN_CHECKS for problem in check(table)]


def check_rows(design: Design, allowed: int) -> list[Problem]:
    """The row cap, before anything is put into rows."""
    rows = total_rows(design, allowed)
    if rows <= MAX_ROWS:
        return []
    span = design.parts[-1].span
    return [mistake("too-many-rows", span, f"The parts come to {rows:,} rows; a shawl has at most {MAX_ROWS:,}.")]


def _odd_gauge(table: StitchTable) -> Iterator[Problem]:
    for name, (least, most) in ROWS_TO_STITCHES.items():
        block = table.blocks.get(name)
        gauge = block.gauge if block else None
        if gauge and not least <= gauge.rows / gauge.stitches <= most:
            message = (
                f"{name.capitalize()} has {gauge.rows / gauge.stitches:.2f} rows to a stitch here; "
                f"{least:g} to {most:g} are usual."
            )
            written = block.written.value.gauge if block else None
            assert written
            yield advice("odd-gauge", written.span, message, "count the swatch again: stitches first, then rows")


def _odd_swatch(table: StitchTable) -> Iterator[Problem]:
    if not any(block.gauge for block in table.blocks.values()):
        return
    least, most = YARN_TO_WIDTH
    for name, block in table.blocks.items():
        if block.swatch is None or name == "drop":  # No plain fabric.
            continue
        times = swatch_m(block.swatch) * 100 / table.measures.unblocked_cm(name)
        if not least <= times <= most:
            message = f"A stitch of this swatch takes {times:.3g} times its width; {least:g} to {most:g} are usual."
            yield advice(
                "odd-swatch", block.swatch.at.value, message, "check the swatch, its gauge and the skein's length"
            )


def _assumed_gauge(table: StitchTable) -> Iterator[Problem]:
    measures = table.measures
    given = next((name for name, block in table.blocks.items() if block.gauge), None)
    firsts = {band.stitch: band.written.value.stitch.span for band in reversed(list(bands_of(table.design)))}
    for name, span in firsts.items():
        if given is None or (name in BUILT_IN and not (name == "garter" and given != "stockinette")):
            continue
        if measures.measure(name).assumed:
            if measures.root(name) in STITCH_PATTERNS and name not in BUILT_IN:
                message = f"`{name[:40]}` has no gauge; what it usually measures stands in, reckoned from garter."
                hint = f"give the gauge of a swatch in its block, with `as {name}`"
                yield advice("assumed-gauge", span, message, hint)
                continue
            source = "garter" if name != "garter" else measures.measure(name).source.name
            message = f"`{name[:40]}` has no gauge; that of {source[:40]} stands in for it."
            yield advice("assumed-gauge", span, message)


def _measures_only(table: StitchTable) -> Iterator[Problem]:
    worked = {band.stitch for band in bands_of(table.design)}
    for name, block in table.blocks.items():
        if name in STITCH_PATTERNS and name not in BUILT_IN and name in worked and not table.measures.rows(name):
            message = f"This block gives what `{name}` measures; the built-in's rows are not taken with it."
            yield advice(
                "measures-only", block.written.value.name.span, message, f"write `as {name}` in it to work them"
            )


def _keep(table: StitchTable) -> Iterator[Problem]:
    margin, weighed = table.design.yarn.margin, table.design.weighed_start
    if weighed and margin.grams is not None and margin.grams >= weighed.mass_g:
        yield mistake("keep-too-large", margin.at.value, "A margin of the whole skein leaves nothing to knit with.")


def _places(table: StitchTable) -> Iterator[Problem]:
    shape = table.design.shape
    kind = SHAPES.get(shape.name)
    if kind is None:
        hint = "here fits " + ", ".join(f"`{name}`" for name in SHAPES)
        yield mistake("unknown-shape", shape.span, f"There is no shape `{shape.name[:40]}`.", hint)
        return
    allowed = tuple(place for place in kind.places)
    for line in table.design.all_lines:
        for place, span in _placed(line):
            if place not in allowed:
                yield _not_allowed(shape.name, place, allowed, span)


def _placed(line: ShapingLine) -> list[tuple[str, Span]]:
    if line.evenly_to is not None:
        return [(EVENLY, line.span)]
    return [(placed.place, placed.span) for placed in line.written.value.places]


def _not_allowed(shape: str, place: str, allowed: tuple[str, ...], span: Span) -> Problem:
    if not allowed:
        message = f"A {shape} is not shaped: every row has the stitches of the cast-on."
        return mistake("shaping-not-allowed", span, message, "a strip on the bias is `asymmetric`")
    where = place if place == EVENLY else f"at {place}"
    hint = "shape it " + ", ".join(one if one == EVENLY else f"at `{one}`" for one in allowed)
    return mistake("place-not-allowed", span, f"`{shape}` is not shaped {where}.", hint)


def _unshaped(table: StitchTable) -> Iterator[Problem]:
    shape = table.design.shape
    if shape.name == "triangle" and not table.design.all_lines:
        message = "Nothing shapes this triangle: every row has the stitches of the cast-on."
        yield advice("unshaped", shape.span, message, "add a line such as `increase 1 at each edge every 2 rows`")


def _spine(table: StitchTable) -> Iterator[Problem]:
    """A spine where there is none, and a start that is too narrow for it or cannot be halved by it."""
    shape = table.design.shape
    kind = SHAPES.get(shape.name)
    if kind is None:
        return
    spine = table.design.spine
    if SPINE not in kind.places:
        if spine.at.value and spine.stitches:
            message = f"A {shape.name} has no spine; these stitches are worked like the rest."
            yield advice("no-spine", spine.at.value, message, "leave the line out")
        return
    if any(place == SPINE for line in table.design.all_lines for place, _ in _placed(line)):
        yield from _halved(table.design)


def _halved(design: Design) -> Iterator[Problem]:
    start, edges, spine = design.start.stitches, 2 * design.edge.stitches, design.spine.stitches
    span = design.start.at.value
    wings = start - edges - spine
    if start < edges or (wings >= 0 and wings % 2 == 0):
        return
    taken = f"{counted(edges, 'st')} of the edges and {counted(spine, 'st')} of the spine"
    if wings < 0:
        message = f"The shawl starts with {counted(start, 'st')}, too few for {taken}."
        yield advice("narrow-start", span, message, f"start with at least {edges + spine}")
    else:
        message = f"Without {taken}, {counted(wings, 'st')} of the start cannot be halved for two wings."
        yield advice("uneven-start", span, message, f"start with {start - 1:,} or {start + 1:,}")


def _too_many_at_once(table: StitchTable) -> Iterator[Problem]:
    start = table.design.start
    if start.stitches > MAX_STITCHES:
        message = f"The shawl would start with {start.stitches:,} stitches; a row has at most {MAX_STITCHES:,}."
        yield mistake("too-many-stitches", start.at.value, message)


def _saw_teeth(table: StitchTable) -> Iterator[Problem]:
    design = table.design
    lines = {line: None for part in design.parts[: design.turned_parts] for line in design.lines_in(part)}
    for line in lines:
        if line.action == BIND_OFF:
            message = "Saw teeth do not turn back: what is bound off cannot be worked back."
            hint = "turn back around the part with the teeth, or leave it out"
            yield mistake("teeth-turn-back", line.span, message, hint)


def _too_many_wraps(table: StitchTable) -> Iterator[Problem]:
    for band in elongated_of(table.design):
        if band.wraps > MAX_WRAPS:
            message = f"A needle is wrapped at most {MAX_WRAPS} times for a stitch."
            yield mistake("too-many-wraps", band.span, message)


def _patterns(table: StitchTable) -> Iterator[Problem]:
    if has_patterns(table.measures):
        from halfhank.model.advice.pattern_review import review_rows

        yield from review_rows(table.measures)


def has_patterns(measures: StitchMeasures) -> bool:
    """Whether any stitch has rows, so that there is something to check in them."""
    names = {band.stitch for band in bands_of(measures.design)}
    names |= {block.base for block in measures.blocks.values() if block.base}
    library = any(name in STITCH_PATTERNS and name not in BUILT_IN for name in names)
    return library or any(block.rows for block in measures.blocks.values())


DESIGN_CHECKS: tuple[Check, ...] = (
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
