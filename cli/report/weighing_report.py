"""What a weighing says of the plan, as a report: `halfhank weigh`."""

from collections.abc import Iterator

from halfhank.cli.report.figures import chance, gram_range, grams, grams_left, masses_in, range_left, stitches
from halfhank.cli.report.plan_tables.spare_yarn import ends_itself
from halfhank.model.design.design import Weighing
from halfhank.model.marks_and_stops.allowance_words import unit_words
from halfhank.model.marks_and_stops.stops import (
    Candidate,
    candidates,
    finish_in,
    last_safe,
    near_end,
    one_more,
    repeat_number,
)
from halfhank.model.number_words import mass_words
from halfhank.model.phrases import going_on, stitch_name, turns_as_planned, without_words
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, Report, Value, content, row_number
from halfhank.model.shawl import Mark
from halfhank.model.weighings.forecast import Forecast, forecast
from halfhank.model.weighings.log import SURPRISE_SDS, LoggedWeighing
from halfhank.model.weighings.posterior import BAND_SDS, Estimate
from halfhank.model.weighings.slips import Slip, likely_slip
from halfhank.model.yarn.uncertainty import LABEL_SD

SAFE_CHANCE = 0.95
"""A stop is called safe when there is enough yarn for it with this chance."""


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
    wanted = f"{mass_words(low, unit)} to {mass_words(high, unit)} {'used' if used else 'on the scale'} (90 % range)"
    refused = f"Expected after row {logged.row:,}: {wanted}, not {mass}. Nothing was written.\n"
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
        kind = "" if row == 0 else " used" if old.used else " on the scale"
        written = old.written.value.mass
        mass = Value(f"{written.value:g} {written.unit}", written.value, written.unit)
        yield content("Replaces the earlier weighing: ", mass, f"{kind}.")


def _start_weighed(after: Plan) -> Iterator[Content]:
    label_g, mass_g = after.design.yarn.skein_g, _weighing(after, 0).mass_g
    yield content("The skein weighs ", grams(mass_g), "; its label says ", grams(label_g), ".")


def _row_weighed(after: Plan, expected: Forecast, row: int) -> Iterator[Content]:
    logged, weighing = next(one for one in expected.weighings if one.row == row), _weighing(after, row)
    mass = content(grams(weighing.mass_g), " used. " if weighing.used else " on the scale. ")
    yield content("After row ", row_number(row), ": ", mass, _against_forecast(logged, weighing))
    yield from _more_than_before(expected, logged)
    if abs(logged.surprise_sds) > 1 and all(one.row for one in after.design.log):
        yield ("The skein was not weighed before the cast-on: part of the difference may be an error of its label.",)


def _weighing(plan: Plan, row: int) -> Weighing:
    return next(one for one in plan.design.log if one.row == row)


def _against_forecast(logged: LoggedWeighing, weighing: Weighing) -> Content:
    """How the weighing stands to the forecast, both as what is left or both as what is used."""
    less_g, surprise = logged.expected.mean - logged.left_g, abs(logged.surprise_sds)
    expected_g = weighing.mass_g + (-less_g if weighing.used else less_g)
    off_g = BAND_SDS * logged.expected.sd
    spread = content(" (90 % range ", gram_range(max(expected_g - off_g, 0.0), max(expected_g + off_g, 0.0)), ")")
    plan = (
        "In doubt: "
        if logged.disputed
        else "On plan: "
        if surprise <= 1
        else "Nearly on plan: "
        if surprise <= SURPRISE_SDS
        else "Not on plan: "
    )
    verdict = content(plan, "expected ", grams(max(expected_g, 0.0)), spread)
    if surprise <= 1:
        return content(verdict, ".")
    more = "more" if (less_g > 0) == weighing.used else "less"
    shows = content(grams(abs(less_g)), f" {more}.")
    return content(verdict, "; " if weighing.used else "; the scale shows ", shows)


def _more_than_before(expected: Forecast, logged: LoggedWeighing) -> Iterator[Content]:
    """Yarn does not come back: a scale that shows more than before was read wrong once."""
    earlier = [one for one in expected.weighings if one.row < logged.row and one.left_g < logged.left_g]
    if earlier:
        least = min(earlier, key=lambda one: one.left_g)
        before = content("row ", row_number(least.row), " (", grams(least.left_g), ")")
        yield content("That is more than on the scale after ", before, ": one of the two is wrong.")


def _enough_yarn(after: Plan, expected: Forecast) -> Iterator[Content]:
    end = expected.end
    likely = content("Chance of enough yarn: ", chance(after.shawl.yarn.chance_enough), "; ")
    left = (
        content(grams(end.mean), " left over") if end.mean >= 0 else content("not enough yarn: ", *grams_left(end.mean))
    )
    yield content(likely, left, " (90 % range ", range_left(end.low, end.high), ").")


def _marks(after: Plan, row: int) -> Iterator[Content]:
    marks, latest, by = after.shawl.marks, " at the latest", after.shawl.marks.bind_off_by
    end = ("The shawl ends after row ", "") if ends_itself(after.shawl) else ("Bind off after row ", latest)
    if by is not None and by.beyond:
        end = (f"If you go on in {going_on(after.shawl)} after the end: bind off after row ", latest)
    named: list[tuple[str, str, Mark | None]] = [
        ("Half of this shawl's yarn: after row ", "", marks.halfway),
        ("Turn back after row ", "" if turns_as_planned(after.shawl) else latest, marks.turn_back),
        (*end, by),
    ]
    for words, later, mark in named:
        if mark is not None and mark.row > row:
            yield content(words, row_number(mark.row), later, ", ", grams(max(mark.left_g, 0.0)), " on the scale.")


def _stops(after: Plan, row: int) -> Iterator[Content]:
    """The safe stops ahead near the yarn's end: those that look finished and the planned end, or else the last safe
    row."""
    if row == after.rows.count:
        yield ("All rows are worked: bind off.",)
        return
    ahead = [one for one in candidates(after) if one.place.row > row and near_end(after, one)]
    safe = [one for one in ahead if one.left.chance_positive >= SAFE_CHANCE]
    good = [one for one in safe if one.planned or finish_in(after, one).finished]
    if not good:
        yield _no_stop(after, row)
        return
    yield content("Next safe stop: ", _stop(after, good[0]), ".")
    if good[-1].place.row > good[0].place.row:
        yield content("Last safe stop: ", _stop(after, good[-1]), ".")
    yield (f"Safe: the chance of enough yarn is at least {100 * SAFE_CHANCE:.0f} %.",)


def _no_stop(after: Plan, row: int) -> Content:
    """What is left to do where no safe stop lies ahead."""
    last = last_safe(after, row, SAFE_CHANCE)
    if last is not None:
        amounts = content(grams(last.bind_off_g), " to bind off, ", grams(last.left.mean), " left over.")
        return content("The last safe row is ", row_number(last.place.row), f"{_where(after, last)}: ", amounts)
    return ("No safe stop lies ahead" + (": bind off now, or go on at a risk." if row else "."),)


def _stop(after: Plan, one: Candidate) -> Content:
    place = one.place
    label = f", {place.run.source.label}" if place.run.source.label else ""
    end = " (the planned end)" if one.planned else ""
    words = f", after {stitch_name(place.run.stitch)}{label}{end or _where(after, one)}: "
    where = content("row ", row_number(place.row), words, stitches(place.live))
    return content(where, ", ", grams(one.bind_off_g), " to bind off, ", grams(one.left.mean), " left over")


def _where(after: Plan, one: Candidate) -> str:
    """The part and the repeat that a stop lies in, and the parts that are then not worked."""
    number = repeat_number(after, one)
    where = [f"in {one.part}", *([f"repeat {number:,}"] if number else [])]
    return "".join(f", {words}" for words in (*where, without_words(one.left_out)) if words)


def _repeats(before: Plan, after: Plan) -> Iterator[Content]:
    """How many repeats the yarn allows, and whether one more than planned fits."""
    if after.shawl.allowed is not None:
        was = (
            ""
            if before.shawl.allowed == after.shawl.allowed
            else f"; before this weighing {before.shawl.allowance_words}"
        )
        yield (f"The yarn allows {after.shawl.allowance_words}{was}.",)
    more = one_more(after)
    if more is None:
        return
    left_g, than_planned = more.left.mean, f"for {unit_words(after.table.measures)} than planned: "
    if left_g < 0:
        yield content("Not enough yarn ", than_planned, grams(-left_g), " short.")
        return
    margin = "" if left_g >= after.shawl.yarn.keep_g else ", less than the margin"
    yield content("Enough yarn ", than_planned, grams(left_g), f" left over{margin}.")
