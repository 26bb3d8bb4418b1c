"""A band in words: how many rows or ridges it has each time, and a repeat of one stitch as the one band that it is."""

from halfhank.model.design.design import Band, Elongated, Repeat
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.phrases import stitch_name
from halfhank.model.report_tree import Content, Value, content

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def named(band: Band | Elongated) -> str:
    """The stitch of a band, and the label that the description gives it."""
    name = stitch_name(band.stitch if isinstance(band, Band) else "drop")
    return f"{name} ({band.label})" if band.label else name


def band_words(band: Band | Elongated, times: int) -> str:
    """What is worked, where the band is worked so many times."""
    if isinstance(band, Elongated):
        return f"knit, wrapping the yarn {band.wraps} times for every st. Next row: knit, dropping the extra wraps"
    counts = _counts(band)
    worked = counts[:times]
    if len(set(worked)) == 1:
        return _with_unit(band, worked[0])
    first, *others = worked
    again = ", then start again" if times > len(counts) else ""
    turns = [
        f"{_with_unit(band, first)} the first time",
        *(f"{n:,} the {_ordinal(k)}" for k, n in enumerate(others, 2)),
    ]
    return ", ".join(turns) + again


def _counts(band: Band) -> list[int]:
    return [count.value for count in band.written.value.counts]


def _with_unit(band: Band, count: int) -> str:
    unit = band.written.value.unit or "rows"
    return f"{count:,} {unit.removesuffix('s') if count == 1 else unit}"


def _ordinal(number: int) -> str:
    if number <= len(_ORDINALS):
        return _ORDINALS[number - 1]
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number:,}{ending}"


def whole_band(measures: StitchMeasures, repeat: Repeat, times: int) -> Content:
    """A repeat of one band of always as many rows, said as one band; empty for other repeats.

    A stitch with rows of its own begins them anew with every band, so its bands are one only if they end its repeat.
    """
    band = repeat.bands[0]
    if len(repeat.bands) > 1 or not isinstance(band, Band) or band.as_yarn_allows or len(band.rows) != 1:
        return ()
    if band.rows[0] % (measures.repeat_rows(band.stitch) or 1):
        return ()
    (count,) = _counts(band)
    repeats = content(" (", Value(f"{times:,} repeats", times, "repeats"), f" of {count:,})")
    repeats = repeats if count > 1 and times > 1 else ()
    return content(f"{named(band)}: {_with_unit(band, count * times)}", repeats, ".")
