"""Whether a shawl that ends after some row would look finished or unfinished: the one rule that stops and advice share.

First the fabric is judged at whose last row is bound off: stockinette curls there, a released elongated row gapes.
Then the sequence of bands: one that repeats one and the same pattern shows where it was broken off, one whose bands
differ in height from time to time does not (common practice, no source).
"""

from collections.abc import Iterator

from halfhank.grammar.description import Across, Item, Times, WholeRow, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import leaves, walked
from halfhank.model.design.design import Band, Design, Elongated, Repeat
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.rows.sections import Run

LONG_ROWS = 12
"""A stitch pattern of so many rows may be left at its half too."""

_ROWS_LOOKED_AT = 64


class Finish(NamedTuple):
    """`finished`: the end would look meant. `why` says it in words; `by_sequence`: the sequence is broken off."""

    finished: bool
    why: str
    by_sequence: bool = False


class EndPlace(NamedTuple):
    """A place in the work: after `row`, with `done` rows of `run` worked; `inside` where its band goes on.

    `following` is the next run of the same part, None after the last; `live` the stitches on the needle.
    """

    row: int
    part: int
    run: Run
    following: Run | None
    live: int
    inside: bool
    done: int


def finish_of(measures: StitchMeasures, place: EndPlace, whole: bool = False) -> Finish:
    """How an end there would look; `whole`: with all parts worked."""
    design = measures.design
    fabric = fabric_fault(measures, place)
    if fabric:
        return Finish(False, fabric)
    if whole:
        return Finish(True, "all parts worked")
    if design.turns_back:
        where = "before" if place.part < len(design.parts) else "inside"
        return Finish(False, f"{where} the mirrored second half")
    repeat = repeat_around(design, place.run.source)
    if repeat is not None and is_even(repeat):
        if place.inside:
            return Finish(False, "inside a band", by_sequence=True)
        if not _ends_repeat(repeat, place):
            return Finish(False, "inside a repeat", by_sequence=True)
        return Finish(True, "between two repeats")
    if place.inside and not _leaves_pattern(measures, place.run.stitch, place.done):
        return Finish(False, f"inside the rows of {place.run.stitch}")
    if repeat is not None and len(fabrics_in(repeat)) > 1:
        return Finish(True, "uneven bands")
    return Finish(True, "plain rows") if place.inside else Finish(True, "at a band's end")


# The fabric.


def fabric_fault(measures: StitchMeasures, place: EndPlace) -> str | None:
    """What the fabric does wrong at a bound-off edge, if it does. Stitches of the edges alone do nothing wrong."""
    stitch = place.run.stitch
    if _is_released(measures, stitch, place.done):
        return "the elongated row gapes"
    if curls(measures, stitch) and place.live > 2 * measures.design.edge.stitches:
        return f"{stitch} curls"
    return None


def curls(measures: StitchMeasures, stitch: str) -> bool:
    """Whether a stitch is stockinette by its name, by what it is `as`, or by its rows: one side all knit, the other
    all purl."""
    rows = measures.rows(stitch)
    if not rows:
        return measures.root(stitch) == "stockinette"
    looks = {look for row in rows for number in row.numbers for look in _looks(row.items, number % 2 == 0)}
    return looks in ({"k"}, {"p"})


def _looks(items: tuple[Item, ...], wrong_side: bool) -> Iterator[str]:
    """How the stitches of a row look from the right side: `k`, `p`, or anything else as nothing."""
    for item in items:
        if isinstance(item, Across | Times):
            yield from _looks(item.items, wrong_side)
        elif isinstance(item, WholeRow):
            yield "p" if (item.kind == "purl") != wrong_side else "k"
        elif isinstance(item, Work) and item.kind in ("k", "p") and item.wraps == 1:
            yield "p" if (item.kind == "p") != wrong_side else "k"
        else:
            yield ""


def _is_released(measures: StitchMeasures, stitch: str, done: int) -> bool:
    """Whether the last row, or the one before it, is elongated."""
    if stitch == "drop":
        return True
    rows = measures.rows(stitch)
    if not any(_wraps(row.items) for row in rows):
        return False
    by_number = {number: row for row in rows for number in row.numbers}
    last = [(done - 1 - back) % len(by_number) + 1 for back in range(min(2, done))]
    return any(_wraps(by_number[number].items) for number in last)


def _wraps(items: tuple[Item, ...]) -> bool:
    return any(
        item.wraps > 1 if isinstance(item, Work) else isinstance(item, Across | Times) and _wraps(item.items)
        for item in items
    )


# The rows of a pattern.


def exit_rows(measures: StitchMeasures, stitch: str) -> tuple[int, ...]:
    """After which rows of its repeat a stitch pattern may be left, 0 for the whole repeat; none where none are written.

    A repeat of `LONG_ROWS` or more may be left at its half too: after the first wrong-side row from there on, if that
    row is only knit and purl.
    """
    by_number = {number: row for row in measures.rows(stitch) for number in row.numbers}
    half = (len(by_number) + 1) // 2
    half += half % 2
    if len(by_number) < LONG_ROWS or "" in _looks(by_number[half].items, True):
        return (0,) if by_number else ()
    return (0, half)


def _leaves_pattern(measures: StitchMeasures, stitch: str, done: int) -> bool:
    """Whether a stitch's rows may be left after so many of them."""
    exits = exit_rows(measures, stitch)
    return not exits or done % measures.repeat_rows(stitch) in exits


# The sequence.


def is_even(repeat: Repeat) -> bool:
    """Whether a repeat is the same each time and made of more than one fabric, so that its repeats can be seen."""
    bands = [piece for piece in walked(repeat.bands) if isinstance(piece, Band)]
    return len(fabrics_in(repeat)) > 1 and not any(len(set(band.rows)) > 1 for band in bands)


def fabrics_in(repeat: Repeat) -> set[tuple[str, int]]:
    """The fabrics of a repeat's bands: stitch and wraps."""
    bands = [piece for piece in walked(repeat.bands) if not isinstance(piece, Repeat)]
    return {(band.stitch, 1) if isinstance(band, Band) else ("drop", band.wraps) for band in bands}


def repeat_around(design: Design, band: Band | Elongated) -> Repeat | None:
    """The outermost repeat around a band."""
    repeats = [piece for part in design.parts for piece in part.bands if isinstance(piece, Repeat)]
    return next(
        (repeat for repeat in repeats if any(leaf.number == band.number for leaf in leaves(repeat.bands))), None
    )


def _ends_repeat(repeat: Repeat, place: EndPlace) -> bool:
    """Whether what follows opens the next time through the repeat, or lies outside it."""
    numbers = [leaf.number for leaf in leaves(repeat.bands)]
    following = place.following
    if following is None or following.source.number not in numbers:
        return True
    return place.run.source.number == numbers[-1] and following.source.number == numbers[0]


def places_in(repeat: Repeat, live: int) -> Iterator[EndPlace]:
    """Places in one time through a repeat: the first rows of each band, and its last; their rows are left at 0."""
    bands = list(leaves(repeat.bands))
    runs = [Run(one, one.stitch, one.rows[0]) if isinstance(one, Band) else _released(one) for one in bands]
    for run, following in zip(runs, [*runs[1:], runs[0]], strict=True):
        for done in (*range(1, min(run.rows, _ROWS_LOOKED_AT)), run.rows):
            yield EndPlace(0, 0, run, following, live, done < run.rows, done)


def _released(band: Elongated) -> Run:
    return Run(band, "drop", 2, band.wraps)
