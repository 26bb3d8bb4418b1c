"""From a description as written to what it means; every default of the language is filled in here and nowhere else.

A name that nothing explains stays as it is: the checks report it.
"""

from collections.abc import Iterator
from itertools import count

from halfhank.grammar import description as written
from halfhank.grammar.description import EACH_EDGE, EVENLY, GRAMS_IN, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.model.design.design import (
    AnyBand,
    Aside,
    Band,
    BareRow,
    BindOff,
    Design,
    Edge,
    Elongated,
    Gains,
    Gauge,
    Margin,
    Methods,
    Part,
    Pinned,
    Repeat,
    Shape,
    ShapingLine,
    Spine,
    Start,
    StitchBlock,
    Swatch,
    Weighing,
    Yarn,
)
from halfhank.model.design.shape_kinds import default_spine
from halfhank.model.design.shaping_methods import amount_at
from halfhank.model.design.stitch_chain import by_name, chain
from halfhank.model.stitch_counts.bare_items import bare

DEFAULT_MARGIN, DEFAULT_MARGIN_TURNED = 5.0, 10.0
"""Per cent of the skein that no plan uses, the second with `turn back`."""
DEFAULT_EDGE_STITCH, DEFAULT_BIND_OFF = "garter", "standard"
DEFAULT_FILL = "stockinette"
DEFAULT_PICOT = (2, 4)
"""Stitches that a picot casts on and binds off where no numbers are written."""


def resolve(description: written.Description) -> Design:
    """The design that a description means."""
    yarn = _yarn(description)
    stitches = tuple(_stitch(stitch, yarn.metres_per_gram) for stitch in description.stitches)
    built_ins = tuple(_stitch(stitch, yarn.metres_per_gram) for stitch in description.built_ins)
    repeat_rows = _repeat_rows(stitches, built_ins)
    line_numbers, band_numbers = count(), count()
    shape = description.shape
    spine = _spine(shape)
    lines = tuple(_line(next(line_numbers), line, spine) for line in shape.shaping)
    parts = tuple(
        Part(
            part.name.value,
            tuple(_line(next(line_numbers), line, spine) for line in part.shaping)
            if part.shaping or part.even
            else None,
            tuple(_band(band, repeat_rows, band_numbers) for band in part.bands),
            Aside(part.span),
        )
        for part in description.parts
    )
    return Design(
        title=description.title.value,
        by=description.by.value if description.by else None,
        remarks=tuple(remark.value for remark in description.remarks),
        units=description.units,
        yarn=yarn,
        needles_cm=description.needles.cm,
        stitches=stitches,
        built_ins=built_ins,
        shape=Shape(shape.name.value, Aside(shape.name.span)),
        start=_start(shape.start),
        edge=_edge(shape.edge),
        spine=spine,
        lines=lines,
        pinned=_pinned(shape.pinned),
        parts=parts,
        turns_back=description.turn_back is not None,
        turned_parts=_turned_parts(description),
        bind_off=_bind_off(description.bind_off),
        log=tuple(_weighing(weighing) for weighing in description.log),
        written=Aside(description),
    )


def _yarn(description: written.Description) -> Yarn:
    yarn = description.yarn
    return Yarn(
        yarn.name.value if yarn.name else None,
        yarn.fibre.value if yarn.fibre else None,
        yarn.skein.mass.g,
        yarn.skein.length.m,
        _margin(yarn.keep, description.turn_back is not None),
        Aside(yarn.skein.span),
        yarn.skein.mass.unit,
    )


def _margin(keep: written.Percent | written.Mass | None, turns_back: bool) -> Margin:
    if keep is None:
        return Margin(DEFAULT_MARGIN_TURNED if turns_back else DEFAULT_MARGIN, None, Aside(None))
    if isinstance(keep, written.Percent):
        return Margin(keep.value, None, Aside(keep.span))
    return Margin(None, keep.g, Aside(keep.span))


def _stitch(stitch: written.Stitch, metres_per_gram: float) -> StitchBlock:
    multiple = stitch.multiple
    return StitchBlock(
        stitch.name.value,
        _gauge(stitch.gauge),
        _gauge(stitch.before_blocking),
        _swatch(stitch.swatch, metres_per_gram),
        (multiple.stitches, multiple.extra) if multiple else None,
        stitch.fill.value if stitch.fill else None,
        stitch.base.value if stitch.base else None,
        tuple(BareRow(row.numbers, tuple(bare(item) for item in row.items)) for row in stitch.rows),
        Aside(stitch),
    )


def _gauge(gauge: written.Gauge | None) -> Gauge | None:
    return Gauge(gauge.stitches, gauge.rows, gauge.over.cm) if gauge else None


def _swatch(swatch: written.Swatch | None, metres_per_gram: float) -> Swatch | None:
    if swatch is None:
        return None
    length_m = swatch.length.m if swatch.length else 0.0
    metres = swatch.mass.g * metres_per_gram if swatch.mass is not None else length_m
    return Swatch(swatch.stitches, swatch.rows, metres, Aside(swatch.span))


def _repeat_rows(stitches: tuple[StitchBlock, ...], built_ins: tuple[StitchBlock, ...]) -> dict[str, int]:
    """Rows of one repeat as written, by the stitches that have rows, their own or taken over."""
    names = dict.fromkeys(block.name for block in (*stitches, *built_ins))
    chains = {name: chain(by_name(stitches), by_name(built_ins), name) for name in names}
    rows = {name: next((block.rows for block in blocks if block.rows), ()) for name, blocks in chains.items()}
    return {name: sum(len(row.numbers) for row in written_rows) for name, written_rows in rows.items()}


def _start(start: written.CastOn | written.GarterTab) -> Start:
    tab = (start.tab_stitches, start.tab_rows) if isinstance(start, written.GarterTab) else None
    return Start(start.stitches, tab, Aside(start.span))


def _edge(edge: written.Edge | None) -> Edge:
    if edge is None:
        return Edge(0, DEFAULT_EDGE_STITCH, Aside(None))
    return Edge(edge.stitches, edge.stitch.value if edge.stitch else DEFAULT_EDGE_STITCH, Aside(edge.span))


def _spine(shape: written.Shape) -> Spine:
    if shape.spine is not None:
        return Spine(shape.spine.value, Aside(shape.spine.span))
    return Spine(default_spine(shape.name.value), Aside(None))


def _line(number: int, line: written.ShapingLine, spine: Spine) -> ShapingLine:
    amounts = dict.fromkeys((EACH_EDGE, UPPER_EDGE, LOWER_EDGE, SPINE, EVENLY), 0)
    methods = dict.fromkeys(amounts, None) | {placed.place: placed.method for placed in line.places}
    for placed in line.places:
        amounts[placed.place] += amount_at(placed, spine.stitches)
    each = amounts[EACH_EDGE]
    gains = Gains(each + amounts[UPPER_EDGE], each + amounts[LOWER_EDGE], amounts[SPINE], amounts[EVENLY])
    made = Methods(
        methods[EACH_EDGE] or methods[UPPER_EDGE],
        methods[EACH_EDGE] or methods[LOWER_EDGE],
        methods[SPINE],
        methods[EVENLY],
    )
    return ShapingLine(
        number, line.action, gains, made, line.every, line.from_row, line.until, line.evenly_to, Aside(line)
    )


def _band(
    band: written.Band | written.Drop | written.Repeat, repeat_rows: dict[str, int], numbers: Iterator[int]
) -> AnyBand:
    number = next(numbers)
    if isinstance(band, written.Repeat):
        times = None if band.times is None else band.times.value
        inner = tuple(_band(one, repeat_rows, numbers) for one in band.bands)
        return Repeat(number, times, inner, Aside(band.span))
    label = band.label.value if band.label else None
    if isinstance(band, written.Drop):
        return Elongated(number, band.wraps, label, Aside(band.span))
    repeat = repeat_rows.get(band.stitch.value, 0)
    unit = {"ridges": 2, "repeats": repeat}.get(band.unit or "rows", 1)
    rows = tuple(one.value * unit for one in band.counts)
    return Band(number, band.stitch.value, rows, 0 if rows else repeat or 2, label, Aside(band))


def _pinned(pinned: written.PinnedStraight | written.PinnedTo | None) -> Pinned | None:
    if pinned is None:
        return None
    box = (pinned.width.cm, pinned.depth.cm) if isinstance(pinned, written.PinnedTo) else None
    return Pinned(box, Aside(pinned))


def _turned_parts(description: written.Description) -> int:
    """How many of the first parts are worked back: all, or all but the one turned around; 0 without `turn back`."""
    if description.turn_back is None:
        return 0
    return len(description.parts) - (1 if description.turn_back.around else 0)


def _bind_off(off: written.BindOff | None) -> BindOff:
    if off is None:
        return BindOff(DEFAULT_BIND_OFF, 0, 0, None, Aside(None))
    cast_on, bind_off = off.cast_on, off.bind_off
    if off.method == "picot" and not bind_off:
        cast_on, bind_off = DEFAULT_PICOT
    return BindOff(off.method, cast_on, bind_off, off.takes, Aside(off.span))


def _weighing(weighing: written.Weighing) -> Weighing:
    mass = weighing.mass
    step_g = GRAMS_IN["oz"] * 10.0 ** -min(mass.decimals, 3) if mass.unit == "oz" else 0.1 if mass.decimals else 1.0
    return Weighing(weighing.row, mass.g, step_g, weighing.used, Aside(weighing))
