"""Where a shawl may end: after which bands it can be bound off, what that leaves, and how it would look."""

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import growing_part, total_rows
from halfhank.model.design.design import Design, Repeat
from halfhank.model.marks_and_stops.finish import EndPlace, Finish, finish_of
from halfhank.model.outline.laying import outline_of
from halfhank.model.outline.outline import Size
from halfhank.model.plan import Plan
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.rows.worked import row_table, work
from halfhank.model.weighings.log import LogPosterior, log_of, log_posterior, model_of, total_and_left
from halfhank.model.weighings.posterior import Estimate, LinearSum
from halfhank.model.weighings.weighing_model import WeighingModel, weighing_model
from halfhank.model.yarn.ledger import bind_off_amounts, ledger_of
from halfhank.model.yarn.row_yarn import RowYarn

NEAR_SHARE = 0.6
"""A stop is near the yarn's end when so much of the skein is used by it."""
MOST_STOPS, LEAST_STOPS = 12, 3
MOST_REPEATS_MORE = 64


class Variant(NamedTuple):
    """The shawl as planned or with more repeats: its parts, its weighing model, and what its log says of the yarn."""

    parts: list[WorkedPart]
    rows: Rows
    model: WeighingModel
    log: LogPosterior

    @property
    def left(self) -> Estimate:
        """What is left at its end, were the scale always right."""
        return total_and_left(self.model, self.log.posterior)[1]


class Candidate(NamedTuple):
    """A place where the work might end: grams `left` after its bind-off, before it (`reading`), and what that takes.

    `planned`: it is the planned end; `beyond`: it takes more repeats than planned.
    """

    variant: Variant
    place: EndPlace
    reading: Estimate
    left: Estimate
    bind_off_g: float
    planned: bool
    beyond: bool


class Stop(NamedTuple):
    """After `row`, in a band of `stitch` in `part`, the shawl may be bound off.

    `reading_g` is on the scale before the bind-off, `left` after it. `left_out` are the parts of the plan that are then
    not worked. `planned`: the planned end itself; `beyond`: it takes more repeats than planned. `finish`: how it looks.
    """

    row: int
    part: str
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
    finish: Finish


def stops(plan: Plan) -> list[Stop]:
    """The stops near the yarn's end that it pays for, the planned end among them; none in rows already knitted."""
    found = [one for one in candidates(plan) if one.left.mean >= 0 or one.planned]
    skein_g = plan.shawl.yarn.skein_g
    near = [one for one in found if skein_g - one.left.mean >= NEAR_SHARE * skein_g]
    chosen = (near if len(near) >= LEAST_STOPS else found[-LEAST_STOPS:])[-MOST_STOPS:]
    return [stop for one in chosen if (stop := _stop(plan, one)) is not None]


def candidates(plan: Plan) -> list[Candidate]:
    """Every band's end after the last weighed row, and the row to bind off by; those past the plan included. By row."""
    return plan.once(_candidates)


def _candidates(plan: Plan) -> list[Candidate]:
    planned = _as_planned(plan)
    places = _places(planned.parts)
    inside = _last_paid(plan, planned.parts, places)
    found = _at(planned, [*places, *inside])
    found[len(places) - 1] = found[len(places) - 1]._replace(planned=True)
    more = _more(plan)
    if more is not None:
        further = _places(more.parts)
        shared = _shared(places, further)
        added = further[shared : len(further) - len(places) + shared]
        found += [one._replace(beyond=True) for one in _at(more, added)]
    knitted = max((weighing.row for weighing in plan.design.log), default=0)
    return sorted([one for one in found if one.place.row >= knitted], key=lambda one: one.place.row)


class OneMore(NamedTuple):
    """One more time through the growing (or the last) repeat: what is `left` with it, and the grams that it `takes`."""

    left: Estimate
    takes_g: float


def one_more(plan: Plan) -> OneMore | None:
    """What one more repeat means; None where nothing repeats."""
    return plan.once(_one_more)


def _one_more(plan: Plan) -> OneMore | None:
    variant = longer(plan, 1)
    if variant is None:
        return None
    takes_g = _as_planned(plan).left.mean - variant.left.mean
    return OneMore(variant.log.left(MAX_ROWS, variant.left), max(takes_g, 0.0))


def _as_planned(plan: Plan) -> Variant:
    return Variant(plan.parts, plan.rows, model_of(plan), log_of(plan))


def longer(plan: Plan, more: int) -> Variant | None:
    """The shawl with so many more repeats, worked out once; None where nothing repeats, or it cannot be worked."""
    return plan.once(_variants).with_more(more)


def _variants(plan: Plan) -> "Variants":
    return Variants(plan)


class Variants:
    """A plan with more repeats, one, two, four … more, each worked out once."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._found: dict[int, Variant | None] = {}

    def with_more(self, more: int) -> Variant | None:
        """The shawl with so many more repeats."""
        if more not in self._found:
            grown = grown_by(self._plan.design, self._plan.shawl.allowed or 0, more)
            self._found[more] = _variant(self._plan, *grown) if grown else None
        return self._found[more]


def _variant(plan: Plan, design: Design, allowed: int) -> Variant | None:
    table = plan.table
    if total_rows(design, allowed) > MAX_ROWS:
        return None
    parts, problem = work(design, allowed)
    if problem:
        return None
    model = weighing_model(table, ledger_of(RowYarn(table), parts), model_of(plan))
    return Variant(parts, row_table(table.measures, parts), model, log_posterior(model, design.log))


def grown_by(design: Design, allowed: int, more: int) -> tuple[Design, int] | None:
    """The design and count with so many more times through the growing repeat, or else through the last one."""
    if growing_part(design) is not None:
        return design, allowed + more
    for k, part in reversed(list(enumerate(design.parts))):
        for j, band in reversed(list(enumerate(part.bands))):
            if isinstance(band, Repeat) and band.times is not None:
                repeat = band._replace(times=band.times + more)
                grown = part._replace(bands=(*part.bands[:j], repeat, *part.bands[j + 1 :]))
                return design._replace(parts=(*design.parts[:k], grown, *design.parts[k + 1 :])), 0
    return None


def _more(plan: Plan) -> Variant | None:
    """As many more repeats as use up the skein, as far as they can be worked; none with `turn back`."""
    if plan.design.turns_back:
        return None
    found, more = None, 1
    while more <= MOST_REPEATS_MORE:
        variant = longer(plan, more)
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
            places.append(EndPlace(row, number, run, following, part.counts[done - 1], False))
    return places


def _shared(one: list[EndPlace], other: list[EndPlace]) -> int:
    """How many bands two variants have in common from the start."""
    pairs = zip(one, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if (a.part, a.run) != (b.part, b.run)), min(len(one), len(other)))


def _last_paid(plan: Plan, parts: list[WorkedPart], places: list[EndPlace]) -> list[EndPlace]:
    """The row to bind off by, where it lies inside a band of the plan."""
    mark = plan.shawl.marks.bind_off_by
    if mark is None or mark.beyond:
        return []
    place = next(place for place in places if place.row >= mark.row)
    live = parts[place.part].counts[mark.row - parts[place.part].first_row]
    return [] if place.row == mark.row else [place._replace(row=mark.row, live=live, inside=True)]


def _at(variant: Variant, places: list[EndPlace]) -> list[Candidate]:
    sums = variant.model.left([place.row for place in places])
    return [_candidate(variant, place, sums[place.row]) for place in places]


def _candidate(variant: Variant, place: EndPlace, before: LinearSum) -> Candidate:
    model, log = variant.model, variant.log
    after = model.moved(before, bind_off_amounts(model.table, place.run.stitch, place.live))
    reading, left = log.posterior.estimate(before), log.posterior.estimate(after)
    bind_off_g, row = max(reading.mean - left.mean, 0.0), place.row
    return Candidate(variant, place, log.left(row, reading), log.left(row, left), bind_off_g, False, False)


def _stop(plan: Plan, one: Candidate) -> Stop | None:
    place, parts = one.place, one.variant.parts
    rows = Rows(*(column[: place.row + 1] for column in one.variant.rows))  # type: ignore[arg-type]
    outline = outline_of(plan.table, parts, rows)
    if isinstance(outline, Problem):
        return None
    names = [part.section.name for part in parts]
    return Stop(
        row=place.row,
        part=names[place.part],
        stitch=place.run.stitch,
        label=place.run.source.label,
        stitches=place.live,
        reading_g=max(one.reading.mean, 0.0),
        bind_off_g=one.bind_off_g,
        left=one.left,
        size=outline.size,
        left_out=tuple(names[place.part + 1 :]),
        planned=one.planned,
        beyond=one.beyond,
        finish=finish_of(plan.design, place, one.planned),
    )
