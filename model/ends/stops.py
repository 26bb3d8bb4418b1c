"""Where a shawl may end: after which bands it can be bound off, what that leaves, and how it would look."""

from typing import NamedTuple

from halfhank.grammar.description import Count, Description, Repeat
from halfhank.grammar.problems import Problem
from halfhank.model.advice.plan_checks import check_rows
from halfhank.model.ends.finish import EndPlace, Finish, finish_of
from halfhank.model.outline.outline import Size
from halfhank.model.planning import outline_of
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.sections import growing_part
from halfhank.model.rows.shaping import Worked
from halfhank.model.rows.worked import row_table, work
from halfhank.model.scale.forecast import listen, used_in_all
from halfhank.model.scale.posterior import Estimate, Posterior
from halfhank.model.scale.yarn_model import Accounts, accounts_of, bind_off_after
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable

NEAR_SHARE = 0.6
"""A stop is near the yarn's end when so much of the skein is used by it."""
MOST_STOPS, LEAST_STOPS = 12, 3
MOST_PASSES_MORE = 64


class Way(NamedTuple):
    """One way to work the shawl, with what is known of its yarn; `room` has learned nothing, the `belief` has."""

    room: StitchTable
    parts: list[Worked]
    accounts: Accounts
    belief: Posterior


class Candidate(NamedTuple):
    """A place where the work might end: grams `left` after its bind-off, and before it (`reading`).

    `planned`: it is the planned end; `beyond`: it takes more passes than planned.
    """

    way: Way
    place: EndPlace
    reading: Estimate
    left: Estimate
    planned: bool
    beyond: bool


class Stop(NamedTuple):
    """After `row`, in a band of `stitch` in `part`, the shawl may be bound off.

    `reading_g` is on the scale before the bind-off, `left` after it. `left_out` are the parts of the plan that are then
    not worked. `planned`: the planned end itself; `beyond`: it takes more passes than planned. `finish`: how it looks.
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


def stops(shawl: Shawl) -> list[Stop]:
    """The stops near the yarn's end that it pays for, the planned end among them; none in rows already knitted."""
    found = [one for one in candidates(shawl) if one.left.mean >= 0 or one.planned]
    skein_g = shawl.yarn.skein_g
    near = [one for one in found if skein_g - one.left.mean >= NEAR_SHARE * skein_g]
    chosen = (near if len(near) >= LEAST_STOPS else found[-LEAST_STOPS:])[-MOST_STOPS:]
    return [stop for one in chosen if (stop := _stop(shawl, one)) is not None]


def candidates(shawl: Shawl) -> list[Candidate]:
    """Every band's end after the last weighed row, and the row to bind off by; those past the plan included. By row."""
    planned = _way(shawl.description, shawl.allowed or 0)
    if isinstance(planned, Problem):
        return []
    places = _places(planned.parts)
    inside = _last_paid(shawl, planned.parts)
    found = [_reckoned(planned, place) for place in [*places, *inside]]
    found[len(places) - 1] = found[len(places) - 1]._replace(planned=True)
    more = _more(shawl, planned)
    if more is not None:
        further = _places(more.parts)
        shared = _shared(places, further)
        added = further[shared : len(further) - len(places) + shared]
        found += [_reckoned(more, place)._replace(beyond=True) for place in added]
    knitted = max((weighing.row for weighing in shawl.description.log), default=0)
    return sorted([one for one in found if one.place.row >= knitted], key=lambda one: one.place.row)


def one_more(shawl: Shawl) -> Estimate | None:
    """What would be left with one more pass of the growing (or the last) repeat; None where nothing repeats."""
    longer = _longer(shawl, 1)
    way = _way(*longer) if longer else None
    if way is None or isinstance(way, Problem):
        return None
    return used_in_all(way.accounts, way.belief)[1]


def _way(description: Description, allowed: int) -> Way | Problem:
    room = StitchTable(description)
    wrong = check_rows(room, allowed)
    parts, problem = work(room, allowed) if not wrong else ([], wrong[0])
    if problem:
        return problem
    accounts = accounts_of(room, RowYarn(room), parts)
    return Way(room, parts, accounts, listen(accounts, description.log).belief)


def _longer(shawl: Shawl, more: int) -> tuple[Description, int] | None:
    """The description and count with so many more passes of the growing repeat, or else of the last one."""
    description = shawl.description
    if growing_part(description) is not None:
        return description, (shawl.allowed or 0) + more
    for k, part in reversed(list(enumerate(description.parts))):
        for j, band in reversed(list(enumerate(part.bands))):
            if isinstance(band, Repeat) and band.times is not None:
                repeat = band._replace(times=Count(band.times.value + more, band.times.span))
                grown = part._replace(bands=(*part.bands[:j], repeat, *part.bands[j + 1 :]))
                return description._replace(parts=(*description.parts[:k], grown, *description.parts[k + 1 :])), 0
    return None


def _more(shawl: Shawl, planned: Way) -> Way | None:
    """A way with so many more passes that the skein is used up, as far as they can be worked; none with `turn back`."""
    if shawl.description.turn_back is not None:
        return None
    found, more = None, 1
    while more <= MOST_PASSES_MORE:
        longer = _longer(shawl, more)
        way = _way(*longer) if longer else None
        if way is None or isinstance(way, Problem):
            break
        found = way
        if used_in_all(way.accounts, way.belief)[1].mean < 0:
            break
        more *= 2
    return found


def _places(parts: list[Worked]) -> list[EndPlace]:
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
    """How many bands two ways have in common from the start."""
    pairs = zip(one, other, strict=False)
    return next((k for k, (a, b) in enumerate(pairs) if (a.part, a.run) != (b.part, b.run)), min(len(one), len(other)))


def _last_paid(shawl: Shawl, parts: list[Worked]) -> list[EndPlace]:
    """The row to bind off by, where it lies inside a band of the plan."""
    mark = shawl.marks.bind_off_by
    if mark is None or mark.beyond:
        return []
    place = next(place for place in _places(parts) if place.row >= mark.row)
    live = parts[place.part].counts[mark.row - parts[place.part].first_row]
    return [] if place.row == mark.row else [place._replace(row=mark.row, live=live, inside=True)]


def _reckoned(way: Way, place: EndPlace) -> Candidate:
    before = way.accounts.left([place.row])[place.row]
    after = before.moved(bind_off_after(way.room, way.accounts, place.run.stitch, place.live))
    return Candidate(way, place, way.belief.estimate(before), way.belief.estimate(after), False, False)


def _stop(shawl: Shawl, one: Candidate) -> Stop | None:
    place, parts = one.place, one.way.parts
    rows = row_table(one.way.room, parts)
    outline = outline_of(one.way.room, parts, Rows(*(column[: place.row + 1] for column in rows)))  # type: ignore[arg-type]
    if isinstance(outline, Problem):
        return None
    label = place.run.source.label
    names = [part.section.name for part in parts]
    return Stop(
        row=place.row,
        part=names[place.part],
        stitch=place.run.stitch,
        label=label.value if label else None,
        stitches=place.live,
        reading_g=one.reading.mean,
        bind_off_g=one.reading.mean - one.left.mean,
        left=one.left,
        size=outline.size,
        left_out=tuple(names[place.part + 1 :]),
        planned=one.planned,
        beyond=one.beyond,
        finish=finish_of(shawl.description, place, one.planned),
    )
