"""What can be said of a design without working a row: small checks, each from the stitches to problems."""

from collections.abc import Callable, Iterator

from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS
from halfhank.grammar.description import EVENLY, SPINE, Stitch
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.design.band_walk import bands_of, elongated_of, total_rows
from halfhank.model.design.design import Design, ShapingLine, StitchBlock
from halfhank.model.design.shape_kinds import SHAPES
from halfhank.model.design.shaping_methods import is_centred
from halfhank.model.design.stitch_measures import BUILT_IN, StitchMeasures
from halfhank.model.number_words import counted, mass_figure
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.shaping import BIND_OFF, MAX_STITCHES
from halfhank.model.yarn.stitch_table import StitchTable, swatch_m

Check = Callable[[StitchTable], Iterator[Problem]]

ROWS_TO_STITCHES = {"garter": (1.7, 2.2), "stockinette": (1.25, 1.55)}
"""Where gauges of these fabrics lie, rows over stitches (common practice)."""

MAX_WRAPS = 100

YARN_TO_WIDTH = (3.2, 5.0)
"""Where yarn of a stitch over its width before blocking lies: Munden's constant, with room on both sides."""

VERY = 2.0
"""So many times beyond its bounds a swatch is very light or very heavy: its weight has lost or won a digit."""


def check_design(table: StitchTable) -> list[Problem]:
    """All that shows without working a row."""
    return [problem for check in DESIGN_CHECKS for problem in check(table)]


def check_rows(design: Design, allowed: int) -> list[Problem]:
    """The row cap, before anything is put into rows."""
    rows = total_rows(design, allowed)
    if rows <= MAX_ROWS:
        return []
    span = design.parts[-1].span
    return [known.TOO_MANY_ROWS.at(span, rows=rows, most=MAX_ROWS)]


def _odd_gauge(table: StitchTable) -> Iterator[Problem]:
    for name, (least, most) in ROWS_TO_STITCHES.items():
        block = table.blocks.get(name)
        gauge = block.gauge if block else None
        if gauge and not least <= gauge.rows / gauge.stitches <= most:
            ratio, fabric = gauge.rows / gauge.stitches, name.capitalize()
            written = block.written.value.gauge if block else None
            assert written
            yield known.ODD_GAUGE.at(written.span, fabric=fabric, rows_to_stitch=ratio, least=least, most=most)


def _odd_swatch(table: StitchTable) -> Iterator[Problem]:
    if not any(block.gauge for block in table.blocks.values()):
        return
    least, most = YARN_TO_WIDTH
    for name, block in table.blocks.items():
        if block.swatch is None or name == "drop":  # No plain fabric.
            continue
        times = swatch_m(block.swatch) * 100 / table.measures.unblocked_cm(name)
        if not least <= times <= most:
            yield _odd_weight(table, block, times)


def _odd_weight(table: StitchTable, block: StitchBlock, times: float) -> Problem:
    """A swatch that is light or heavy for its width: what one of its size usually weighs, or how long its yarn is."""
    swatch, written = block.swatch, block.written.value.swatch if block.written.value else None
    assert swatch and written
    least, most = YARN_TO_WIDTH
    usual_m = [swatch.metres * bound / times for bound in YARN_TO_WIDTH]
    if written.mass:
        does, unit = "weighs", written.mass.unit
        low, high = (mass_figure(metres / table.design.yarn.metres_per_gram, unit) for metres in usual_m)
    else:
        does, unit = "takes", "m"
        low, high = (f"{metres:.3g}" for metres in usual_m)
    light, very = times < least, times * VERY < least or times > most * VERY
    slip = " Is a digit missing?" if light else " Is there a digit too many?"
    return known.ODD_SWATCH.at(
        swatch.at.value,
        weight=("very " if very else "") + ("light" if light else "heavy"),
        stitches=swatch.stitches,
        rows=swatch.rows,
        does=does,
        low=low,
        high=high,
        unit=unit,
        question=slip if very else "",
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
                yield known.ASSUMED_GAUGE_OF_BUILT_IN.at(span, stitch=name)
                continue
            source = "garter" if name != "garter" else measures.measure(name).source.name
            yield known.ASSUMED_GAUGE.at(span, stitch=name, source=source)


def _measures_only(table: StitchTable) -> Iterator[Problem]:
    worked = {band.stitch for band in bands_of(table.design)}
    for name, block in table.blocks.items():
        if name in STITCH_PATTERNS and name not in BUILT_IN and name in worked and not table.measures.rows(name):
            first, indent = _first_place(block.written.value)
            yield known.MEASURES_ONLY.at(block.written.value.name.span, first, stitch=name, indent=indent)


def _first_place(block: Stitch) -> tuple[Span | None, str | None]:
    """The place before a block's first measure, and the spaces before that."""
    facts = [fact.span for fact in (block.gauge, block.before_blocking, block.swatch) if fact]
    if not facts:
        return None, None
    line, column, _ = min(facts)
    return Span(line, column, column), " " * (column - 1)


def _keep(table: StitchTable) -> Iterator[Problem]:
    margin, weighed = table.design.yarn.margin, table.design.weighed_start
    if weighed and margin.grams is not None and margin.grams >= weighed.mass_g:
        yield known.KEEP_TOO_LARGE.at(margin.at.value)


def _places(table: StitchTable) -> Iterator[Problem]:
    shape = table.design.shape
    kind = SHAPES.get(shape.name)
    if kind is None:
        shapes = ", ".join(f"`{name}`" for name in SHAPES)
        yield known.UNKNOWN_SHAPE.at(shape.span, shape=shape.name, shapes=shapes)
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
        return known.SHAPING_NOT_ALLOWED.at(span, shape=shape)
    where = place if place == EVENLY else f"at {place}"
    places = ", ".join(one if one == EVENLY else f"at `{one}`" for one in allowed)
    return known.PLACE_NOT_ALLOWED.at(span, shape=shape, where=where, places=places)


def _unshaped(table: StitchTable) -> Iterator[Problem]:
    shape = table.design.shape
    if shape.name == "triangle" and not table.design.all_lines:
        yield known.UNSHAPED.at(shape.span)


def _acts_once(table: StitchTable) -> Iterator[Problem]:
    """A line of the shape that says neither how often nor where: most often `every … rows` is forgotten."""
    for line in table.design.lines:
        once = line.every is None and line.evenly_to is None
        if once and not line.written.value.from_written:
            yield known.ACTS_ONCE.at(line.span)


def _spine(table: StitchTable) -> Iterator[Problem]:
    """A spine where there is none, and a start that is too narrow for it or cannot be halved by it."""
    shape = table.design.shape
    kind = SHAPES.get(shape.name)
    if kind is None:
        return
    spine = table.design.spine
    if SPINE not in kind.places:
        if spine.at.value and spine.stitches:
            yield known.NO_SPINE.at(spine.at.value, shape=shape.name)
        return
    if any(place == SPINE for line in table.design.all_lines for place, _ in _placed(line)):
        yield from _halved(table.design)


def _centred(table: StitchTable) -> Iterator[Problem]:
    """More than one centred decrease over a spine of one stitch, in one row."""
    spine = table.design.spine.stitches
    for line in table.design.all_lines:
        for placed in line.written.value.places:
            if is_centred(placed, spine) and placed.amount > 2:
                yield known.MORE_THAN_CENTRED.at(placed.span, method=placed.method)


def _halved(design: Design) -> Iterator[Problem]:
    start, edges, spine = design.start.stitches, 2 * design.edge.stitches, design.spine.stitches
    span = design.start.at.value
    wings = start - edges - spine
    if start < edges or (wings >= 0 and wings % 2 == 0):
        return
    taken = {"edges": counted(edges, "st"), "spine": counted(spine, "st")}
    if wings < 0:
        least = edges + spine
        cast_on = None if design.start.tab else least
        yield known.NARROW_START.at(span, **taken, start=counted(start, "st"), least=least, cast_on=cast_on)
    else:
        wing_words, fewer, more = counted(wings, "st"), start - 1, start + 1
        yield known.UNEVEN_START.at(span, **taken, wings=wing_words, fewer=fewer, more=more)


def _too_many_at_once(table: StitchTable) -> Iterator[Problem]:
    start = table.design.start
    if start.stitches > MAX_STITCHES:
        yield known.TOO_MANY_STITCHES_AT_START.at(start.at.value, stitches=start.stitches, most=MAX_STITCHES)


def _saw_teeth(table: StitchTable) -> Iterator[Problem]:
    design = table.design
    lines = {line: None for part in design.parts[: design.turned_parts] for line in design.lines_in(part)}
    for line in lines:
        if line.action == BIND_OFF:
            yield known.TEETH_TURN_BACK.at(line.span)


def _too_many_wraps(table: StitchTable) -> Iterator[Problem]:
    for band in elongated_of(table.design):
        if band.wraps > MAX_WRAPS:
            yield known.TOO_MANY_WRAPS.at(band.span, most=MAX_WRAPS)


def _patterns(table: StitchTable) -> Iterator[Problem]:
    if has_patterns(table.measures):
        from halfhank.model.checks.pattern_review import review_rows

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
    _acts_once,
    _spine,
    _centred,
    _too_many_at_once,
    _saw_teeth,
    _too_many_wraps,
    _patterns,
)
