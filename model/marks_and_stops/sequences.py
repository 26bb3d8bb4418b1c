"""Advice on even sequences that the yarn ends, by the rule of stops, and lists that would vary them."""

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.design.band_walk import leaves, open_piece
from halfhank.model.design.design import Band, Design, Repeat
from halfhank.model.design.stitch_chain import Blocks, by_name
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.marks_and_stops.finish import fabric_fault, finish_of, places_in
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.shaping import MAX_STITCHES


def check_even_sequence(measures: StitchMeasures) -> tuple[Problem, ...]:
    """Advice where the yarn decides how often one and the same pattern is repeated, with a list that would vary it.

    It is given where `finish_of` finds an end in the repeat unfinished by its sequence, and nowhere else.
    """
    design = measures.design
    repeat = open_repeat(design)
    if repeat is None or design.turns_back:
        return ()
    judged = ((place, finish_of(measures, place)) for place in places_in(repeat, MAX_STITCHES))
    if not any(finish.by_sequence for _, finish in judged):
        return ()
    fabric = fabric_fault(measures, list(places_in(repeat, MAX_STITCHES))[-1]) if _ends_with(design, repeat) else None
    proposal = _proposal(by_name(design.stitches), repeat)
    if proposal is None:
        return (known.EVEN_SEQUENCE.at(repeat.span, fabric=fabric),)
    band, varied = proposal
    counts, unit = band.written.value.counts, band.written.value.unit
    place = Span(band.span.line, counts[0].span.column, counts[-1].span.end)
    values = {"fabric": fabric, "stitch": band.stitch, "counts": varied, "unit": unit}
    return (known.EVEN_SEQUENCE_TO_VARY.at(repeat.span, place, **values),)


def _ends_with(design: Design, repeat: Repeat) -> bool:
    """Whether a repeat ends the shawl, so that its last fabric is bound off."""
    last = list(leaves(design.parts[-1].bands))[-1:]
    return [leaf.number for leaf in last] == [leaf.number for leaf in list(leaves(repeat.bands))[-1:]]


def open_repeat(design: Design) -> Repeat | None:
    """The `repeat as yarn allows`, if there is one."""
    piece = open_piece(design)
    return piece if isinstance(piece, Repeat) else None


def uneven(count: int, step: int = 1) -> tuple[int, int, int] | None:
    """Three counts around `count` with the same total as three times it, a quarter less and more, in whole steps.

    None where the count is too small to be varied.
    """
    change = step * max(1, round(count / step / 4))
    return (count - change, count + change, count) if count > change else None


def _proposal(blocks: Blocks, repeat: Repeat) -> tuple[Band, str] | None:
    """The first band that can be varied, plain fabrics before those with written rows, and the list to write in it."""
    direct = [piece for piece in repeat.bands if isinstance(piece, Band) and piece.rows]
    direct.sort(key=lambda band: _rows_of(blocks, band) > 0)
    for band in direct:
        varied = uneven(band.written.value.counts[0].value, _step(blocks, band))
        if varied is not None:
            return band, ", ".join(str(number) for number in varied)
    return None


def _rows_of(blocks: Blocks, band: Band) -> int:
    """How many rows a band's stitch has written itself."""
    block = blocks.get(band.stitch)
    return sum(len(row.numbers) for row in block.rows) if block is not None else 0


def _step(blocks: Blocks, band: Band) -> int:
    """Bands change by whole ridges or whole repeats, so that they go on ending where they did."""
    if band.written.value.unit != "rows":
        return 1
    rows = _rows_of(blocks, band) or 2
    return rows if rows % 2 == 0 else 2 * rows
