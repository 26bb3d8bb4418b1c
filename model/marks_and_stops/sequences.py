"""Even and uneven sequences of bands, and which of them may stop anywhere without looking cut off.

A sequence that repeats one and the same pattern shows where it was broken off; one whose bands differ in height from
time to time does not (common practice, no source).
"""

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.design.band_walk import open_piece, walked
from halfhank.model.design.design import Band, Design, Repeat
from halfhank.model.design.stitch_chain import Blocks, by_name
from halfhank.model.problems import plan_problems as known


def check_even_sequence(design: Design) -> tuple[Problem, ...]:
    """Advice where the yarn decides how often one and the same pattern is repeated, with a list that would vary it."""
    repeat = open_repeat(design)
    if repeat is None or design.turns_back or not is_even(repeat):
        return ()
    proposal = _proposal(by_name(design.stitches), repeat)
    if proposal is None:
        return (known.EVEN_SEQUENCE.at(repeat.span),)
    band, varied = proposal
    counts, unit = band.written.value.counts, band.written.value.unit
    place = Span(band.span.line, counts[0].span.column, counts[-1].span.end)
    return (known.EVEN_SEQUENCE_TO_VARY.at(repeat.span, place, stitch=band.stitch, counts=varied, unit=unit),)


def open_repeat(design: Design) -> Repeat | None:
    """The `repeat as yarn allows`, if there is one."""
    piece = open_piece(design)
    return piece if isinstance(piece, Repeat) else None


def is_even(repeat: Repeat) -> bool:
    """Whether a repeat is the same each time and made of more than one fabric, so that its repeats can be seen."""
    bands = [piece for piece in walked(repeat.bands) if isinstance(piece, Band)]
    return len(fabrics_in(repeat)) > 1 and not any(len(set(band.rows)) > 1 for band in bands)


def fabrics_in(repeat: Repeat) -> set[tuple[str, int]]:
    """The fabrics of a repeat's bands: stitch and wraps."""
    bands = [piece for piece in walked(repeat.bands) if not isinstance(piece, Repeat)]
    return {(band.stitch, 1) if isinstance(band, Band) else ("drop", band.wraps) for band in bands}


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
