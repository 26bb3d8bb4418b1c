"""Bands put into rows: repeats opened, lists run through, the mirrored second half after them."""

from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import count_rows
from halfhank.model.design.design import AnyBand, Band, Design, Elongated, Part, Repeat
from halfhank.model.words.drawn_words import phrase

MAX_ROWS = 20_000


class Run(NamedTuple):
    """One expanded band: `rows` of a stitch, of drop stitch an elongated row of so many `wraps` and its release.

    `source`: the band of the design.
    """

    source: Band | Elongated
    stitch: str
    rows: int
    wraps: int = 1


class Section(NamedTuple):
    """One part as worked: `part` is its index in the design; `mirrored`: it is worked back, as in a second half."""

    part: int
    name: str
    runs: tuple[Run, ...]
    rows: int
    mirrored: bool = False


def runs_of(bands: tuple[AnyBand, ...], allowed: int, turn: int = 0) -> Iterator[Run]:
    """The runs of bands in working order; `turn` counts, from 0, the times through the innermost repeat around them."""
    for band in bands:
        if isinstance(band, Repeat):
            times = allowed if band.times is None else band.times
            if count_rows(band.bands, allowed):
                for k in range(times):
                    yield from runs_of(band.bands, allowed, k)
        elif isinstance(band, Elongated):
            yield Run(band, "drop", 2, band.wraps)
        else:
            rows = allowed * band.step_rows if band.as_yarn_allows else band.rows[turn % len(band.rows)]
            yield Run(band, band.stitch, rows)


def section_of(index: int, part: Part, allowed: int) -> Section:
    """A part as worked the first time."""
    runs = tuple(runs_of(part.bands, allowed))
    return Section(index, part.name, runs, sum(run.rows for run in runs))


def mirrored(section: Section) -> Section:
    """The same part in the mirrored second half: bands in reverse order, each worked forward."""
    return section._replace(name=phrase("part.mirrored", name=section.name), runs=section.runs[::-1], mirrored=True)


def shortened(section: Section, rows: int) -> Section:
    """The first rows of a section."""
    runs, left = list[Run](), rows
    for run in section.runs:
        if left > 0:
            runs.append(run._replace(rows=min(run.rows, left)))
        left -= run.rows
    return section._replace(runs=tuple(runs), rows=rows)


def sections(design: Design, allowed: int) -> list[Section]:
    """All parts in the order in which they are worked, the mirrored ones included."""
    out = [section_of(k, part, allowed) for k, part in enumerate(design.parts)]
    return out + [mirrored(section) for section in reversed(out[: design.turned_parts])]
