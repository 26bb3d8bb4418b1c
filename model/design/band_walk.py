"""Walks over the bands of a design as they are written: repeats opened or counted, never put into rows."""

from collections.abc import Iterator

from halfhank.model.design.design import AnyBand, Band, Design, Elongated, Repeat


def walked(bands: tuple[AnyBand, ...]) -> Iterator[AnyBand]:
    """Every band and repeat, each repeat before what is in it."""
    for band in bands:
        yield band
        if isinstance(band, Repeat):
            yield from walked(band.bands)


def leaves(bands: tuple[AnyBand, ...]) -> Iterator[Band | Elongated]:
    """Every band in the order of the file, repeats opened once."""
    return (band for band in walked(bands) if not isinstance(band, Repeat))


def bands_of(design: Design) -> Iterator[Band]:
    """Every band of one stitch, in the order of the file."""
    return (band for part in design.parts for band in leaves(part.bands) if isinstance(band, Band))


def elongated_of(design: Design) -> Iterator[Elongated]:
    """Every elongated row, in the order of the file."""
    return (band for part in design.parts for band in leaves(part.bands) if isinstance(band, Elongated))


def count_rows(bands: tuple[AnyBand, ...], allowed: int, times: int = 1) -> int:
    """Rows of so many times through bands, counted without putting them into rows; `allowed`: as yarn allows."""
    total = 0
    for band in bands:
        if isinstance(band, Repeat):
            inner = allowed if band.times is None else band.times
            total += times * count_rows(band.bands, allowed, inner)
        elif isinstance(band, Elongated):
            total += 2 * times
        elif band.as_yarn_allows:
            total += times * allowed * band.step_rows
        else:
            total += _listed(band.rows, times)
    return total


def _listed(values: tuple[int, ...], times: int) -> int:
    """The sum of a list's values over so many times through it."""
    rounds, rest = divmod(times, len(values))
    return rounds * sum(values) + sum(values[:rest])


def total_rows(design: Design, allowed: int) -> int:
    """Rows of the whole shawl."""
    counts = [count_rows(part.bands, allowed) for part in design.parts]
    return sum(counts) + sum(counts[: design.turned_parts])


def has_allowance(bands: tuple[AnyBand, ...]) -> bool:
    """Whether `as yarn allows` is anywhere in the bands."""
    return any(not isinstance(band, Elongated) and band.as_yarn_allows for band in walked(bands))


def growing_part(design: Design) -> int | None:
    """Index of the part with `as yarn allows`, None without."""
    found = (k for k, part in enumerate(design.parts) if has_allowance(part.bands))
    return next(found, None)


def open_piece(design: Design) -> Band | Repeat | None:
    """What goes on `as yarn allows`: a band or a repeat, if there is one."""
    pieces = (piece for part in design.parts for piece in walked(part.bands))
    return next((piece for piece in pieces if not isinstance(piece, Elongated) and piece.as_yarn_allows), None)
