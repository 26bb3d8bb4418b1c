"""What a weighing means, in knitting words."""

from collections.abc import Iterator

from halfhank.cli.report.figures import chance, count, grams, tenths
from halfhank.cli.report.text_table import paragraph
from halfhank.cli.terminal import safe
from halfhank.grammar.description import Weighing
from halfhank.model.ends.allowance_words import allowed_words
from halfhank.model.ends.finish import finish_of
from halfhank.model.ends.sequences import open_repeat
from halfhank.model.ends.stops import Candidate, candidates, one_more
from halfhank.model.scale.forecast import SURPRISE_SDS, Forecast, Reading, forecast
from halfhank.model.shawl import Mark, Shawl

SAFE_CHANCE = 0.95
"""A stop is called safe when the yarn lasts to it with this chance."""
_WIDEST = 100


def meaning(before: Shawl, after: Shawl, row: int, room: int | None, dry_run: bool) -> str:
    """The plan before and after a weighing of `row`, as a few lines of at most `room` columns."""
    foretold = forecast(after)
    said = [*_weighed(before, after, foretold, row), *_lasts(after, foretold), *_marks(after, row)]
    said += [*_stops(after, row), *_repeats(before, after)]
    if dry_run:
        said.append("Nothing was written.")
    width = max(24, min(room or _WIDEST, _WIDEST))
    return "".join(line + "\n" for text in said for line in paragraph("", safe(text), 0, width))


def _weighed(before: Shawl, after: Shawl, foretold: Forecast, row: int) -> Iterator[str]:
    yield from _replaced(before, row)
    if row == 0:
        label_g = after.description.yarn.skein.mass.g
        mass_g = next(one.mass.g for one in after.description.log if one.row == 0)
        yield f"The skein weighs {grams(mass_g)}; its label says {grams(label_g)}."
        return
    reading = next(one for one in foretold.readings if one.row == row)
    weighing = next(one for one in after.description.log if one.row == row)
    of_what = "used" if weighing.used else "left"
    yield f"After row {count(row)}: {grams(weighing.mass.g)} {of_what}. {_verdict(reading, weighing)}"
    yield from _went_up(foretold, reading)
    if abs(reading.surprise_sds) > 1 and all(one.row for one in after.description.log):
        yield "The skein was not weighed before the cast-on: part of the difference is put down to its label."


def _replaced(before: Shawl, row: int) -> Iterator[str]:
    old = next((one for one in before.description.log if one.row == row), None)
    if old is not None:
        kind = "" if row == 0 else " used" if old.used else " left"
        yield f"In place of the weighing that the log had here: {old.mass.value:g} {old.mass.unit}{kind}."


def _verdict(reading: Reading, weighing: Weighing) -> str:
    """How the weighing stands to the forecast, both as what is left or both as what is used."""
    less = reading.foretold.mean - reading.left_g
    told_g = weighing.mass.g + (-less if weighing.used else less)
    told = f"{grams(told_g)} were foretold, give or take {grams(reading.foretold.sd)}"
    by = f"{grams(abs(less))} {'less' if less > 0 else 'more'} than that is left"
    if weighing.used:
        by = f"{grams(abs(less))} {'more' if less > 0 else 'less'} than that is used"
    surprise = abs(reading.surprise_sds)
    if surprise <= 1:
        return f"On plan: {told}."
    if surprise <= SURPRISE_SDS:
        return f"Nearly on plan: {told}; {by}."
    return f"Not on plan: {told}; {by}."


def _went_up(foretold: Forecast, reading: Reading) -> Iterator[str]:
    """Yarn does not come back: a scale that shows more than before was read wrong once."""
    earlier = [one for one in foretold.readings if one.row < reading.row and one.left_g < reading.left_g]
    if earlier:
        least = min(earlier, key=lambda one: one.left_g)
        before = f"row {count(least.row)} ({grams(least.left_g)})"
        yield f"That is more than was left after {before}: one of the two is wrong."


def _lasts(after: Shawl, foretold: Forecast) -> Iterator[str]:
    end = foretold.end
    left = f"{grams(end.mean)} would be left" if end.mean >= 0 else f"{grams(-end.mean)} would be missing"
    band = f"{tenths(end.low)} to {grams(end.high)} nine times in ten"
    likely = chance(after.yarn.chance_enough)
    yield f"The yarn lasts to the end of the bind-off with a chance of {likely}: {left} ({band})."


def _marks(after: Shawl, row: int) -> Iterator[str]:
    named: list[tuple[str, Mark | None]] = [
        ("Half the yarn is used", after.marks.halfway),
        ("Turn back by", after.marks.turn_back),
        ("Bind off by", after.marks.bind_off_by),
    ]
    for words, mark in named:
        if mark is not None and mark.row > row:
            place = "after row" if words.startswith("Half") else "row"
            yield f"{words} {place} {count(mark.row)}, with {grams(mark.left_g)} on the scale."


def _stops(after: Shawl, row: int) -> Iterator[str]:
    ahead = [one for one in candidates(after) if one.place.row > row and one.left.chance_positive >= SAFE_CHANCE]
    good = [one for one in ahead if finish_of(after.description, one.place, one.planned).finished]
    if not good:
        yield "No safe stop lies ahead: bind off now, or go on at a risk."
        return
    yield f"Next safe stop: {_stop_words(after, good[0])}."
    if good[-1].place.row > good[0].place.row:
        yield f"Last safe stop: {_stop_words(after, good[-1])}."


def _stop_words(after: Shawl, one: Candidate) -> str:
    place = one.place
    label = f", {place.run.source.label.value}" if place.run.source.label else ""
    off = one.reading.mean - one.left.mean
    end = " (the planned end)" if one.planned else ""
    return (
        f"row {count(place.row)}, after {place.run.stitch}{label}{end}: {count(place.live)} sts, "
        f"{grams(off)} to bind off, {grams(one.left.mean)} left over"
    )


def _repeats(before: Shawl, after: Shawl) -> Iterator[str]:
    """How many repeats the yarn allows, and whether one more than planned fits."""
    if after.allowed is not None:
        was = "" if before.allowed == after.allowed else f"; before this weighing {allowed_words(before)}"
        yield f"As yarn allows comes to {allowed_words(after)}{was}."
    more = one_more(after)
    if more is None:
        return
    band = after.allowed is not None and open_repeat(after.description) is None
    noun = "One more" if band else "One more repeat"
    if more.mean >= after.yarn.keep_g:
        yield f"{noun} than planned fits: {grams(more.mean)} would be left."
    elif more.mean >= 0:
        yield f"{noun} than planned would go into the margin: {grams(more.mean)} would be left."
    else:
        yield f"{noun} than planned does not fit: {grams(-more.mean)} would be missing."
