"""Even and uneven sequences of bands, and which of them may stop anywhere without looking cut off.

A sequence that repeats one and the same pattern shows where it was broken off; one whose bands differ in height from
pass to pass does not (common practice, no source).
"""

from collections.abc import Iterator

from halfhank.grammar.description import AnyBand, Band, Description, Drop, Repeat, Stitch
from halfhank.grammar.problems import Problem, advice


def check_even_sequence(description: Description) -> tuple[Problem, ...]:
    """Advice where the yarn decides how often one and the same pattern is repeated, with a list that would vary it."""
    repeat = open_repeat(description)
    if repeat is None or description.turn_back is not None or not is_even(repeat):
        return ()
    message = "The yarn decides where this even sequence ends, and an even sequence looks cut off between its passes."
    return (advice("even-sequence", repeat.span, message, _proposal(description, repeat)),)


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


def _walked(pieces: tuple[AnyBand, ...]) -> Iterator[AnyBand]:
    for piece in pieces:
        yield piece
        if isinstance(piece, Repeat):
            yield from _walked(piece.bands)


def _proposal(description: Description, repeat: Repeat) -> str | None:
    """The list to write, for the first band that can be varied: plain fabrics before those with written rows."""
    written = {stitch.name.value: stitch for stitch in description.stitches}
    direct = [piece for piece in repeat.bands if isinstance(piece, Band) and piece.counts]
    direct.sort(key=lambda band: _rows_of(written.get(band.stitch.value)) > 0)
    for band in direct:
        varied = uneven(counts(band)[0], _step(band, written.get(band.stitch.value)))
        if varied is not None:
            numbers = ", ".join(str(number) for number in varied)
            return f"`{band.stitch.value} {numbers} {_plural(band.unit)}` takes the same total in three passes"
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
