"""Even and uneven sequences of bands, and which of them may stop anywhere without looking cut off.

A sequence that repeats one and the same pattern shows where it was broken off; one whose bands differ in height from
pass to pass does not (common practice, no source).
"""

from collections.abc import Iterator

from halfhank.grammar.description import Band, Description, Drop, Repeat, Stitch
from halfhank.grammar.problems import Problem, Span
from halfhank.model import known_problems as known

Piece = Band | Drop | Repeat


def check_even_sequence(description: Description) -> tuple[Problem, ...]:
    """Advice where the yarn decides how often one and the same pattern is repeated, with a list that would vary it."""
    repeat = open_repeat(description)
    if repeat is None or description.turn_back is not None or not is_even(repeat):
        return ()
    proposal = _proposal(description, repeat)
    if proposal is None:
        return (known.EVEN_SEQUENCE.at(repeat.span),)
    band, varied = proposal
    place = Span(band.span.line, band.counts[0].span.column, band.counts[-1].span.end)
    stitch, unit = band.stitch.value, _plural(band.unit)
    return (known.EVEN_SEQUENCE_TO_VARY.at(repeat.span, place, stitch=stitch, counts=varied, unit=unit),)


def open_piece(description: Description) -> Band | Repeat | None:
    """What goes on `as yarn allows`: a band or a repeat, if there is one."""
    pieces = (piece for part in description.parts for piece in _walked(part.bands))
    return next((piece for piece in pieces if not isinstance(piece, Drop) and piece.as_yarn_allows), None)


def open_repeat(description: Description) -> Repeat | None:
    """The `repeat as yarn allows`, if there is one."""
    piece = open_piece(description)
    return piece if isinstance(piece, Repeat) else None


def is_even(repeat: Repeat) -> bool:
    """Whether every pass of a repeat is the same and made of more than one fabric, so that its passes can be seen."""
    bands = [piece for piece in _walked(repeat.bands) if isinstance(piece, Band)]
    return len(fabrics_in(repeat)) > 1 and not any(len(set(counts(band))) > 1 for band in bands)


def fabrics_in(repeat: Repeat) -> set[tuple[str, int]]:
    """The fabrics of a repeat's bands: stitch and wraps."""
    bands = [piece for piece in _walked(repeat.bands) if not isinstance(piece, Repeat)]
    return {(band.stitch.value, 1) if isinstance(band, Band) else ("drop", band.wraps) for band in bands}


def counts(band: Band) -> tuple[int, ...]:
    """The band's count, or those of its list."""
    return tuple(count.value for count in band.counts)


def uneven(count: int, step: int = 1) -> tuple[int, int, int] | None:
    """Three counts around `count` with the same total as three times it, a quarter less and more, in whole steps.

    None where the count is too small to be varied.
    """
    change = step * max(1, round(count / step / 4))
    return (count - change, count + change, count) if count > change else None


def _walked(pieces: tuple[Piece, ...]) -> Iterator[Piece]:
    for piece in pieces:
        yield piece
        if isinstance(piece, Repeat):
            yield from _walked(piece.bands)


def _proposal(description: Description, repeat: Repeat) -> tuple[Band, str] | None:
    """The first band that can be varied, plain fabrics before those with written rows, and the list to write in it."""
    written = {stitch.name.value: stitch for stitch in description.stitches}
    direct = [piece for piece in repeat.bands if isinstance(piece, Band) and piece.counts]
    direct.sort(key=lambda band: _rows_of(written.get(band.stitch.value)) > 0)
    for band in direct:
        varied = uneven(counts(band)[0], _step(band, written.get(band.stitch.value)))
        if varied is not None:
            return band, ", ".join(str(number) for number in varied)
    return None


def _rows_of(stitch: Stitch | None) -> int:
    """How many rows a stitch has written."""
    return sum(len(row.numbers) for row in stitch.rows) if stitch is not None else 0


def _step(band: Band, stitch: Stitch | None) -> int:
    """Bands change by whole ridges or whole repeats, so that they go on ending where they did."""
    if band.unit != "rows":
        return 1
    rows = _rows_of(stitch) or 2
    return rows if rows % 2 == 0 else 2 * rows


def _plural(unit: str | None) -> str:
    return {"row": "rows", "ridge": "ridges", "repeat": "repeats"}.get(unit or "rows", unit or "rows")
