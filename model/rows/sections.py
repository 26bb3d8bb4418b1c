"""Bands put out: repeats opened, lists run through, ridges and repeats of a stitch turned into rows."""

from collections.abc import Iterator
from typing import NamedTuple

from halfhank.grammar.description import AnyBand, Band, Description, Drop, Part, Repeat
from halfhank.model.yarn.stitch_table import StitchTable

MAX_ROWS = 20_000


class Run(NamedTuple):
    """One expanded band: `rows` of a stitch, of drop stitch an elongated row of so many `wraps` and its release.

    `source`: as written.
    """

    source: Band | Drop
    stitch: str
    rows: int
    wraps: int = 1


class Section(NamedTuple):
    """One part as worked: `part` is its index in the description, `back` whether it is the way back through it."""

    part: int
    name: str
    runs: tuple[Run, ...]
    rows: int
    back: bool = False


def unit_rows(room: StitchTable, band: Band) -> int:
    """Rows of one unit of a band: a row, a ridge, a repeat, or the step of `as yarn allows`."""
    if band.as_yarn_allows:
        return room.repeat_rows(band.stitch.value) or 2
    if band.unit == "ridges":
        return 2
    return room.repeat_rows(band.stitch.value) if band.unit == "repeats" else 1


def spread(room: StitchTable, bands: tuple[AnyBand, ...], allowed: int, turn: int = 0) -> Iterator[Run]:
    """The runs of bands in working order; `turn` is the pass, from 0, of the innermost repeat around them."""
    for band in bands:
        if isinstance(band, Repeat):
            times = allowed if band.times is None else band.times.value
            if count_rows(room, band.bands, allowed):
                for k in range(times):
                    yield from spread(room, band.bands, allowed, k)
        elif isinstance(band, Drop):
            yield Run(band, "drop", 2, band.wraps)
        else:
            count = allowed if band.as_yarn_allows else band.counts[turn % len(band.counts)].value
            yield Run(band, band.stitch.value, count * unit_rows(room, band))


def count_rows(room: StitchTable, bands: tuple[AnyBand, ...], allowed: int, times: int = 1) -> int:
    """Rows of so many passes through bands, counted without putting them out."""
    total = 0
    for band in bands:
        if isinstance(band, Repeat):
            inner = allowed if band.times is None else band.times.value
            total += times * count_rows(room, band.bands, allowed, inner)
        elif isinstance(band, Drop):
            total += 2 * times
        elif band.as_yarn_allows:
            total += times * allowed * unit_rows(room, band)
        else:
            total += _listed(tuple(count.value for count in band.counts), times) * unit_rows(room, band)
    return total


def _listed(values: tuple[int, ...], times: int) -> int:
    """The sum of a list's values over so many passes."""
    rounds, rest = divmod(times, len(values))
    return rounds * sum(values) + sum(values[:rest])


def has_allowance(bands: tuple[AnyBand, ...]) -> bool:
    """Whether `as yarn allows` stands anywhere in the bands."""
    return any(
        not isinstance(band, Drop) and (band.as_yarn_allows or (isinstance(band, Repeat) and has_allowance(band.bands)))
        for band in bands
    )


def growing_part(description: Description) -> int | None:
    """Index of the part with `as yarn allows`, None without."""
    found = (k for k, part in enumerate(description.parts) if has_allowance(part.bands))
    return next(found, None)


def forth(room: StitchTable, index: int, part: Part, allowed: int) -> Section:
    """A part as worked on the way out."""
    runs = tuple(spread(room, part.bands, allowed))
    return Section(index, part.name.value, runs, sum(run.rows for run in runs))


def back(section: Section) -> Section:
    """The way back through a part: bands in reverse order, each worked forward."""
    return section._replace(name=f"{section.name}, back", runs=section.runs[::-1], back=True)


def turned_parts(description: Description) -> int:
    """How many of the first parts are worked back: all, or all but the one turned around; 0 without `turn back`."""
    if description.turn_back is None:
        return 0
    return len(description.parts) - (1 if description.turn_back.around else 0)


def sections(room: StitchTable, allowed: int) -> list[Section]:
    """All parts in the order in which they are worked, the way back included."""
    out = [forth(room, k, part, allowed) for k, part in enumerate(room.description.parts)]
    turned = out[: turned_parts(room.description)]
    return out + [back(section) for section in reversed(turned)]


def total_rows(room: StitchTable, allowed: int) -> int:
    """Rows of the whole shawl, counted without putting the bands out."""
    counts = [count_rows(room, part.bands, allowed) for part in room.description.parts]
    return sum(counts) + sum(counts[: turned_parts(room.description)])
