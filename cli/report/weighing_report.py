"""What a weighing says of the plan, as a report: `halfhank weigh`."""

from collections.abc import Iterator

from halfhank.cli.report.figures import chance, grams, masses_in, range_left, stitches
from halfhank.model.design.design import Weighing
from halfhank.model.marks_and_stops.sequences import open_repeat
from halfhank.model.marks_and_stops.stops import Candidate, candidates, finish_in, last_safe, one_more
from halfhank.model.number_words import mass_words
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, Report, Value, content, row_number
from halfhank.model.shawl import Mark
from halfhank.model.weighings.forecast import Forecast, forecast
from halfhank.model.weighings.log import SURPRISE_SDS, LoggedWeighing
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.weighings.slips import Slip, likely_slip
from halfhank.model.yarn.uncertainty import LABEL_SD

SAFE_CHANCE = 0.95
"""A stop is called safe when the yarn lasts to it with this chance."""


def weighing_report(before: Plan, after: Plan, row: int, dry_run: bool) -> Report:
    """The plan before and after a weighing of `row`, one line for each thing that it says."""
    expected = forecast(after)
    lines = [*_replaced(before, row), *(_start_weighed(after) if row == 0 else _row_weighed(after, expected, row))]
    lines += [*_enough_yarn(after, expected), *_marks(after, row), *_stops(after, row), *_repeats(before, after)]
    if dry_run:
        lines.append(("Nothing was written.",))
    return masses_in(after.shawl.skein.unit, Report(None, (ListBlock(tuple(map(ListItem, lines))),)))


def refusal_of(after: Plan, logged: LoggedWeighing, mass: str, used: bool) -> str:
    """Why a weighing of so much is not taken: what was expected of it, and the slip that may be behind it."""
    skein_g = after.shawl.yarn.skein_g
    expected = _mirrored(skein_g, logged.others) if used else logged.others
    low, high = max(expected.low, 0.0), max(min(expected.high, skein_g), 0.0)
    unit = after.shawl.skein.unit
    was_to = f"{mass_words(low, unit)} to {mass_words(high, unit)} {'used' if used else 'left'} (90 % range)"
    refused = f"After row {logged.row:,} there were to be {was_to}, not {mass}. Nothing was written.\n"
    return f"{refused}{slip_question(skein_g, logged.others, mass, used)}If {mass} is right, add --sure.\n"


def slip_question(skein_g: float, left: Estimate, mass: str, used: bool) -> str:
    """A line that asks for the likely slip, where so much was to be left; empty where none fits."""
    figure, unit = mass.split(" ")
    expected, other = (_mirrored(skein_g, left), left) if used else (left, _mirrored(skein_g, left))
    slip = likely_slip(figure, unit, expected, other)
    return f"{_slip_words(slip, used)}\n" if slip else ""


def start_question(label_g: float, mass: str) -> str:
    """A line that asks for the likely slip behind the mass of a whole skein whose label says so much; or empty.

    A part skein may weigh anything, so that only a figure is asked about.
    """
    figure, unit = mass.split(" ")
    slip = likely_slip(figure, unit, Estimate(label_g, label_g * LABEL_SD), None)
    return f"{_slip_words(slip, False)}\n" if slip and slip.meant else ""


def _mirrored(skein_g: float, expected: Estimate) -> Estimate:
    """What is left as what is used, or the other way round."""
    return Estimate(skein_g - expected.mean, expected.sd)


def _slip_words(slip: Slip, used: bool) -> str:
    if slip.meant:
        return f"Is it {slip.meant}?"
    if slip.used:
        return "Is that what is left? Then leave out --used." if used else "Is that what is used? Then add --used."
    return "Is a tag, the ball band or something else on the scale?"


def _replaced(before: Plan, row: int) -> Iterator[Content]:
    old = next((one for one in before.design.log if one.row == row), None)
    if old is not None:
        kind = "" if row == 0 else " used" if old.used else " left"
        written = old.written.value.mass
        mass = Value(f"{written.value:g} {written.unit}", written.value, written.unit)
        yield content("In place of the weighing that the log had here: ", mass, f"{kind}.")


def _start_weighed(after: Plan) -> Iterator[Content]:
    label_g, mass_g = after.design.yarn.skein_g, _weighing(after, 0).mass_g
    yield content("The skein weighs ", grams(mass_g), "; its label says ", grams(label_g), ".")


def _row_weighed(after: Plan, expected: Forecast, row: int) -> Iterator[Content]:
    logged, weighing = next(one for one in expected.weighings if one.row == row), _weighing(after, row)
    mass = content(grams(weighing.mass_g), " used. " if weighing.used else " left. ")
    yield content("After row ", row_number(row), ": ", mass, _against_forecast(logged, weighing))
    yield from _more_than_before(expected, logged)
    if abs(logged.surprise_sds) > 1 and all(one.row for one in after.design.log):
        yield ("The skein was not weighed before the cast-on: part of the difference is put down to its label.",)


def _weighing(plan: Plan, row: int) -> Weighing:
    return next(one for one in plan.design.log if one.row == row)


def _against_forecast(logged: LoggedWeighing, weighing: Weighing) -> Content:
    """How the weighing stands to the forecast, both as what is left or both as what is used."""
    less_g, surprise = logged.expected.mean - logged.left_g, abs(logged.surprise_sds)
    expected_g = weighing.mass_g + (-less_g if weighing.used else less_g)
    spread = content(" were foretold, give or take ", grams(logged.expected.sd))
    plan = (
        "In doubt: "
        if logged.disputed
        else "On plan: "
        if surprise <= 1
        else "Nearly on plan: "
        if surprise <= SURPRISE_SDS
        else "Not on plan: "
    )
    verdict = content(plan, grams(max(expected_g, 0.0)), spread)
    if surprise <= 1:
        return content(verdict, ".")
    more = (less_g > 0) == weighing.used
    by = f" {'more' if more else 'less'} than that is {'used' if weighing.used else 'left'}."
    return content(verdict, "; ", grams(abs(less_g)), by)


def _more_than_before(expected: Forecast, logged: LoggedWeighing) -> Iterator[Content]:
    """Yarn does not come back: a scale that shows more than before was read wrong once."""
    earlier = [one for one in expected.weighings if one.row < logged.row and one.left_g < logged.left_g]
    if earlier:
        least = min(earlier, key=lambda one: one.left_g)
        before = content("row ", row_number(least.row), " (", grams(least.left_g), ")")
        yield content("That is more than was left after ", before, ": one of the two is wrong.")


def _enough_yarn(after: Plan, expected: Forecast) -> Iterator[Content]:
    end = expected.end
    left = content(grams(abs(end.mean)), " would be left" if end.mean >= 0 else " would be missing")
    likely = content(
        "The yarn lasts to the end of the bind-off with a chance of ", chance(after.shawl.yarn.chance_enough)
    )
    yield content(likely, ": ", left, " (", range_left(end.low, end.high), " nine times in ten).")


def _marks(after: Plan, row: int) -> Iterator[Content]:
    named: list[tuple[str, Mark | None]] = [
        ("Half the yarn is used after row ", after.shawl.marks.halfway),
        ("Turn back by row ", after.shawl.marks.turn_back),
        ("Bind off by row ", after.shawl.marks.bind_off_by),
    ]
    for words, mark in named:
        if mark is not None and mark.row > row:
            yield content(words, row_number(mark.row), ", with ", grams(max(mark.left_g, 0.0)), " on the scale.")


def _stops(after: Plan, row: int) -> Iterator[Content]:
    """The safe stops ahead: those that look finished and the planned end, or else the last safe row."""
    if row == after.rows.count:
        yield ("The shawl is done: bind off.",)
        return
    ahead = [one for one in candidates(after) if one.place.row > row and one.left.chance_positive >= SAFE_CHANCE]
    good = [one for one in ahead if one.planned or finish_in(after, one).finished]
    if not good:
        yield _no_stop(after, row)
        return
    yield content("Next safe stop: ", _stop(good[0]), ".")
    if good[-1].place.row > good[0].place.row:
        yield content("Last safe stop: ", _stop(good[-1]), ".")


def _no_stop(after: Plan, row: int) -> Content:
    """What is left to do where no safe stop lies ahead."""
    last = last_safe(after, row, SAFE_CHANCE)
    if last is not None:
        amounts = content(grams(last.bind_off_g), " to bind off, ", grams(last.left.mean), " left over.")
        return content("The last safe row is ", row_number(last.place.row), ": ", amounts)
    return ("No safe stop lies ahead" + (": bind off now, or go on at a risk." if row else "."),)


def _stop(one: Candidate) -> Content:
    place = one.place
    label = f", {place.run.source.label}" if place.run.source.label else ""
    end = " (the planned end)" if one.planned else ""
    where = content("row ", row_number(place.row), f", after {place.run.stitch}{label}{end}: ", stitches(place.live))
    return content(where, ", ", grams(one.bind_off_g), " to bind off, ", grams(one.left.mean), " left over")


def _repeats(before: Plan, after: Plan) -> Iterator[Content]:
    """How many repeats the yarn allows, and whether one more than planned fits."""
    if after.shawl.allowed is not None:
        was = (
            ""
            if before.shawl.allowed == after.shawl.allowed
            else f"; before this weighing {before.shawl.allowance_words}"
        )
        yield (f"As yarn allows comes to {after.shawl.allowance_words}{was}.",)
    more = one_more(after)
    if more is None:
        return
    band = after.shawl.allowed is not None and open_repeat(after.design) is None
    than_planned = f"{'One more' if band else 'One more repeat'} than planned "
    left_g = more.left.mean
    if left_g >= after.shawl.yarn.keep_g:
        yield content(than_planned, "fits: ", grams(left_g), " would be left.")
    elif left_g >= 0:
        yield content(than_planned, "would go into the margin: ", grams(left_g), " would be left.")
    else:
        yield content(than_planned, "does not fit: ", grams(-left_g), " would be missing.")
