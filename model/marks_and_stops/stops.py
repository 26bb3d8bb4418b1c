"""Where a shawl may end: after which bands it can be bound off, what that leaves, and how it would look."""

from collections.abc import Iterator
from itertools import accumulate

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import leaves
from halfhank.model.design.design import Band, Repeat
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.marks_and_stops.finish import (
    LONG_ROWS,
    EndPlace,
    Finish,
    exit_rows,
    finish_of,
    repeat_around,
)
from halfhank.model.marks_and_stops.variants import (
    Variant,
    as_planned,
    counted_piece,
    goes_on_after,
    planned_count,
    size_with,
    with_more,
)
from halfhank.model.outline.laying import outline_of
from halfhank.model.outline.outline import Size
from halfhank.model.plan import Plan
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import runs_of
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.weighings.posterior import Estimate, LinearSum
from halfhank.model.yarn.ledger import bind_off_amounts

NEAR_SHARE = 0.6
"""A stop is near the yarn's end when so much of the skein is used by it."""
MOST_STOPS = 12
MOST_REPEATS_MORE = 64
MOST_WHOLE = 3
"""So many counts fewer, and so many more, are offered with all that follows them."""


class Candidate(NamedTuple):
    """A place where the work might end: grams `left` after its bind-off, before it (`reading`), and what that takes.

    `planned`: it is the planned end; `beyond`: it takes more repeats than planned. `more`: so many more repeats than
    planned (fewer, where negative), with all that follows them.
    """

    variant: Variant
    place: EndPlace
    reading: Estimate
    left: Estimate
    bind_off_g: float
    planned: bool = False
    beyond: bool = False
    more: int = 0

    @property
    def part(self) -> str:
        """The part that the shawl then ends in."""
        return self.variant.parts[self.place.part].section.name

    @property
    def left_out(self) -> tuple[str, ...]:
        """The parts that are then not worked."""
        return tuple(part.section.name for part in self.variant.parts[self.place.part + 1 :])


class Stop(NamedTuple):
    """After `row`, in a band of `stitch` in `part`, the shawl may be bound off.

    `reading_g` is on the scale before the bind-off, `left` after it. `left_out` are the parts of the plan that are then
    not worked. `repeat`: the stop lies in that repeat, counted from 1, 0 outside repeats. `planned`: the planned end
    itself; `beyond`: it takes more repeats than planned. `repeats`: it is a whole shawl with so many of them, 0
    elsewhere. `finish`: how it looks.
    """

    row: int
    part: str
    repeat: int
    stitch: str
    label: str | None
    stitches: int
    reading_g: float
    bind_off_g: float
    left: Estimate
    size: Size
    left_out: tuple[str, ...]
    planned: bool
    beyond: bool
    repeats: int
    finish: Finish


def stops(plan: Plan) -> list[Stop]:
    """The planned end, and the stops near the yarn's end with enough yarn; none in rows already knitted. By row."""
    found = sorted([*candidates(plan), *_whole(plan)], key=lambda one: one.place.row)
    paid = [one for one in found if one.planned or (one.left.mean >= 0 and near_end(plan, one))]
    return [stop for one in _most_useful(paid) if (stop := _stop(plan, one)) is not None]


def near_end(plan: Plan, one: Candidate) -> bool:
    """Whether a stop is near the yarn's end, or the planned end: earlier ones are not worth a word."""
    return one.planned or one.left.mean <= (1 - NEAR_SHARE) * plan.shawl.yarn.skein_g


def _most_useful(paid: list[Candidate]) -> list[Candidate]:
    """The planned end, then the last ends of bands, then the last places inside bands: `MOST_STOPS` of them, by row."""
    first = sorted(paid, key=lambda one: (not one.planned, one.place.inside, -one.place.row))[:MOST_STOPS]
    return sorted(first, key=lambda one: one.place.row)


def candidates(plan: Plan) -> list[Candidate]:
    """Every place to bind off after the last weighed row, by row; those past the plan included.

    They are the ends of bands, places inside the bands of a stitch pattern where it may be left, and the row to bind
    off by.
    """
    return plan.once(_candidates)


def _candidates(plan: Plan) -> list[Candidate]:
    planned, measures = as_planned(plan), plan.table.measures
    places = _places(planned.parts)
    inside = [*_inside_patterns(measures, places, planned.parts), *_last_paid(plan, planned.parts, places)]
    end = places[-1]
    inside = list({place.row: place for place in inside}.values())
    found = [one._replace(planned=one.place == end) for one in _weighed(planned, [*places, *inside])]
    more = _more(plan)
    if more is not None:
        further = _places(more.parts)
        shared = _shared(places, further)
        added = further[shared : len(further) - len(places) + shared]
        added += _inside_patterns(measures, added, more.parts)
        found += [one._replace(beyond=True) for one in _weighed(more, added)]
    knitted = max((weighing.row for weighing in plan.design.log), default=0)
    return sorted([one for one in found if one.place.row >= knitted], key=lambda one: one.place.row)


def _whole(plan: Plan) -> Iterator[Candidate]:
    """The shawl with a few more or fewer repeats than planned, all that follows them worked too."""
    piece = counted_piece(plan.design)
    if piece is None or not goes_on_after(plan) or _counts_rows(plan.table.measures, piece):
        return
    for more in (*range(-MOST_WHOLE, 0), *range(1, MOST_WHOLE + 1)):
        variant = with_more(plan, more)
        if variant is not None:
            (last,) = _weighed(variant, _places(variant.parts)[-1:])
            yield last._replace(beyond=more > 0, more=more)


def _counts_rows(measures: StitchMeasures, piece: Band | Repeat) -> bool:
    """Whether what is counted are rows, not repeats."""
    return isinstance(piece, Band) and not measures.repeat_rows(piece.stitch)


class OneMore(NamedTuple):
    """One more time through the growing (or the last) repeat: what is `left` with it, and the grams that it `takes`."""

    left: Estimate
    takes_g: float


def one_more(plan: Plan) -> OneMore | None:
    """What one more repeat means; None where nothing repeats."""
    return plan.once(_one_more)


def _one_more(plan: Plan) -> OneMore | None:
    variant = with_more(plan, 1)
    if variant is None:
        return None
    takes_g = as_planned(plan).left.mean - variant.left.mean
    return OneMore(variant.left, max(takes_g, 0.0))


def _more(plan: Plan) -> Variant | None:
    """As many more repeats as use up the skein, as far as they can be worked; none with `turn back`."""
    if plan.design.turns_back:
        return None
    found, more = None, 1
    while more <= MOST_REPEATS_MORE:
        variant = with_more(plan, more)
        if variant is None:
            break
        found = variant
        if variant.left.mean < 0:
            break
        more *= 2
    return found


def _places(parts: list[WorkedPart]) -> list[EndPlace]:
    """The ends of all bands."""
    places, row = [], 0
    for number, part in enumerate(parts):
        done = 0
        runs = part.section.runs
        for k, run in enumerate(runs):
            row, done = row + run.rows, done + run.rows
            following = runs[k + 1] if k + 1 < len(runs) else None
            places.append(EndPlace(row, number, run, following, part.counts[done - 1], False, run.rows))
    return places


def _inside_patterns(measures: StitchMeasures, places: list[EndPlace], parts: list[WorkedPart]) -> list[EndPlace]:
    """Places inside the bands of stitches with written rows where these may be left.

    Those of repeats of fewer than `LONG_ROWS` are places only where an end looks finished there.
    """
    found = []
    for place in places:
        every, part = measures.repeat_rows(place.run.stitch), parts[place.part]
        exits = exit_rows(measures, place.run.stitch) if every and place.run.rows > 1 else ()
        for done in range(1, place.run.rows) if exits else ():
            if done % every in exits:
                row = place.row - place.run.rows + done
                live = part.counts[row - part.first_row]
                one = place._replace(row=row, live=live, inside=True, done=done)
                found += [one] if every >= LONG_ROWS or finish_of(measures, one).finished else []
    return found


def _shared(one: list[EndPlace], other: list[EndPlace]) -> int:
    """How many bands two variants have in common from the start."""
    pairs = zip(one, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if (a.part, a.run) != (b.part, b.run)), min(len(one), len(other)))


def _last_paid(plan: Plan, parts: list[WorkedPart], places: list[EndPlace]) -> list[EndPlace]:
    """The row to bind off by, where it lies inside a band of the plan."""
    mark = plan.shawl.marks.bind_off_by
    if mark is None or mark.beyond:
        return []
    place = _place_at(parts, places, mark.row)
    return [place] if place.inside else []


def _place_at(parts: list[WorkedPart], places: list[EndPlace], row: int) -> EndPlace:
    """The place after a row, of the ends of bands or inside one."""
    end = next(place for place in places if place.row >= row)
    live = parts[end.part].counts[row - parts[end.part].first_row]
    return end._replace(row=row, live=live, inside=end.row > row, done=end.run.rows - (end.row - row))


def last_safe(plan: Plan, after: int, least_chance: float) -> Candidate | None:
    """The last even row past `after` from which the yarn lasts for the bind-off with that chance, however it looks.

    None is later than the row to bind off by, where that lies ahead, or than the planned end.
    """
    planned, mark = as_planned(plan), plan.shawl.marks.bind_off_by
    last = plan.rows.count if mark is None or mark.row <= after else min(mark.row, plan.rows.count)
    places = _places(planned.parts)
    rows = range(after + 2 - after % 2, last + 1, 2)
    found = _weighed(planned, [_place_at(planned.parts, places, row) for row in rows])
    return next((one for one in reversed(found) if one.left.chance_positive >= least_chance), None)


def _weighed(variant: Variant, places: list[EndPlace]) -> list[Candidate]:
    """Places of a variant with what the scale then shows."""
    sums = variant.model.left([place.row for place in places])
    return [_candidate(variant, place, sums[place.row]) for place in places]


def _candidate(variant: Variant, place: EndPlace, before: LinearSum) -> Candidate:
    model, log = variant.model, variant.log
    after = model.moved(before, bind_off_amounts(model.table, place.run.stitch, place.live))
    reading, left = log.posterior.estimate(before), log.posterior.estimate(after)
    bind_off_g, row = max(reading.mean - left.mean, 0.0), place.row
    return Candidate(variant, place, log.left(row, reading), log.left(row, left, bind_off_g), bind_off_g)


def repeat_number(plan: Plan, one: Candidate) -> int:
    """In which repeat, counted from 1, of the outermost repeat around it a place lies.

    0 outside repeats, and in a mirrored second half, whose repeats are counted backwards.
    """
    part = one.variant.parts[one.place.part]
    repeat = None if part.section.mirrored else repeat_around(plan.design, one.place.run.source)
    if repeat is None:
        return 0
    runs, numbers = part.section.runs, {leaf.number for leaf in leaves(repeat.bands)}
    before = accumulate((run.rows for run in runs), initial=part.first_row - 1)
    begun = (run.source.number for run, row in zip(runs, before, strict=False) if row < one.place.row)
    each = sum(1 for _ in runs_of(repeat.bands, plan.shawl.allowed or 1))
    return -(-sum(number in numbers for number in begun) // each)


def finish_in(plan: Plan, one: Candidate) -> Finish:
    """How the shawl would look that ends there."""
    return finish_of(plan.table.measures, one.place, whole=one.planned or one.more != 0)


def _stop(plan: Plan, one: Candidate) -> Stop | None:
    place = one.place
    size = size_with(plan, one.more) if one.more else _size_at(plan, one)
    if size is None:
        return None
    return Stop(
        row=place.row,
        part=one.part,
        repeat=repeat_number(plan, one),
        stitch=place.run.stitch,
        label=place.run.source.label,
        stitches=place.live,
        reading_g=max(one.reading.mean, 0.0),
        bind_off_g=one.bind_off_g,
        left=one.left,
        size=size,
        left_out=one.left_out,
        planned=one.planned,
        beyond=one.beyond,
        repeats=planned_count(plan) + one.more if one.more else 0,
        finish=finish_in(plan, one),
    )


def _size_at(plan: Plan, one: Candidate) -> Size | None:
    """The size of the shawl that ends there."""
    if one.planned:
        return plan.shawl.outline.size
    rows = Rows(*(column[: one.place.row + 1] for column in one.variant.rows))  # type: ignore[arg-type]
    outline = outline_of(plan.table, one.variant.parts, rows)
    return None if isinstance(outline, Problem) else outline.size
