"""Shaping put into a row: increases between its stitches, decreases over them, at the places where they belong.

Where stitches are wanted between two increases, or for a decrease, those of the wing beside the place are used first,
then those of the edge or the spine. How increases and decreases lean and pair is common practice.
"""

from collections.abc import Sequence

from halfhank.grammar.description import EVENLY, LOWER_EDGE, SPINE, InOne, Item, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.shaping_methods import BIND_OFF, CAST_ON
from halfhank.model.instructions.rows.evenly import decrease_evenly, grouped, increase_evenly
from halfhank.model.instructions.rows.events import Event
from halfhank.model.instructions.rows.forms import (
    INCREASES,
    as_worked,
    has_double_yarn_over,
    increased,
    leaning,
    of_three,
    stitches_gone,
    uses_strand,
)
from halfhank.model.instructions.rows.segments import (
    AFTER_SPINE,
    BEFORE_SPINE,
    EDGE,
    FIRST_EDGE,
    LAST_EDGE,
    SHAPING,
    Line,
    Segment,
    makes,
    stitch_item,
    takes,
)
from halfhank.model.rows.shaping import DECREASE, INCREASE
from halfhank.model.stitch_counts.bare_items import NOWHERE

_TOWARDS_WING = {FIRST_EDGE: 1, BEFORE_SPINE: -1, AFTER_SPINE: 1, LAST_EDGE: -1}
_SEEN_FROM_BEHIND = {FIRST_EDGE: LAST_EDGE, BEFORE_SPINE: AFTER_SPINE, AFTER_SPINE: BEFORE_SPINE, LAST_EDGE: FIRST_EDGE}


class NoRoomError(ValueError):
    """The row has no room for its shaping at the place where it belongs, or none that leaves both edges the same."""


def shape(line: Line, events: list[Event], wrong_side: bool, before: tuple[Item, ...] = ()) -> None:
    """Puts all of a row's events into it; `before` are the items of the row before. Raises `NoRoomError`."""
    strands = Strands(bool(before) and _bound_off(before[-1]), has_double_yarn_over(before))
    events = _together(events)
    for step in (_outside, _at_spine, _inside_edges, _evenly):
        for event in events:
            step(line, event, wrong_side, strands)


class Strands(NamedTuple):
    """Where the row before has left no strand to lift between two stitches: beside its last one, which it worked in
    binding off, and between the loops of double yarn overs."""

    bound_off: bool
    double: bool


def _bound_off(item: Item) -> bool:
    return isinstance(item, Work) and item.kind == BIND_OFF


def _together(events: list[Event]) -> list[Event]:
    """What comes to happen at each place: events of one method as one, and what is both made and decreased there as
    what remains of it. Saw teeth stay apart."""
    found: dict[tuple[str, str, str], Event] = {}
    for event in events:
        key = (event.place, event.action, "" if event.place == EVENLY else event.method)
        other = found.get(key)
        found[key] = event if other is None else event._replace(stitches=event.stitches + other.stitches)
    for key in [key for key in found if key[1] == DECREASE]:
        for other_key in [one for one in found if one[:2] == (key[0], INCREASE)]:
            both = min(found[key].stitches, found[other_key].stitches)
            for one in (key, other_key):
                found[one] = found[one]._replace(stitches=found[one].stitches - both)
    return [event for event in found.values() if event.stitches]


def _outside(line: Line, event: Event, wrong_side: bool, strands: Strands) -> None:
    """What is cast on or bound off at the very edge."""
    if event.place in (SPINE, EVENLY) or event.method not in (CAST_ON, BIND_OFF):
        return
    at_start = (event.place == LOWER_EDGE) != wrong_side
    if event.method == BIND_OFF:
        _take_for_bind_off(line, event.stitches, at_start)
    line.insert(0 if at_start else len(line.segments), [stitch_item(event.method, event.stitches)])


def _take_for_bind_off(line: Line, count: int, at_start: bool) -> None:
    """The stitches to bind off; those that are left are the edge's."""
    step = 1 if at_start else -1
    wing = line.find(FIRST_EDGE if at_start else LAST_EDGE)
    inside = min(count, line.plain(wing, step))
    line.take(wing, inside, step)
    end = 0 if at_start else len(line.segments)
    if line.plain(end, step) < count - inside or line.stitches <= count - inside:
        raise NoRoomError
    line.take(end, count - inside, step)
    if not line.plain(end, step):
        raise NoRoomError


def _at_spine(line: Line, event: Event, wrong_side: bool, strands: Strands) -> None:
    if event.place != SPINE:
        return
    if event.action != INCREASE and _centred(line, event):
        return
    for place in (BEFORE_SPINE, AFTER_SPINE):
        _change(line, place, event, wrong_side, strands)


def _centred(line: Line, event: Event) -> bool:
    """One decrease over the spine stitch and its neighbours, where it is asked for or there is no room for two."""
    before, after = line.find(BEFORE_SPINE), line.find(AFTER_SPINE)
    spine = line.segments[before + 1 : after]
    if event.stitches != 1 or sum(one.plain for one in spine) != 1 or len(spine) != 1:
        return False
    asked = stitches_gone(event.method) == 2
    room = min(line.plain(before, -1), line.plain(after, 1))
    if not room or not (asked or room < 2):
        return False
    kind = spine[0].kind
    line.take(after, 1, 1)
    line.take(before, 1, 1)
    line.take(before, 1, -1)
    line.insert(line.find(AFTER_SPINE), [as_worked(event.method if asked else "s2kp", kind)])
    return True


def _inside_edges(line: Line, event: Event, wrong_side: bool, strands: Strands) -> None:
    if event.place in (SPINE, EVENLY) or event.method in (CAST_ON, BIND_OFF):
        return
    first = (event.place == LOWER_EDGE) != wrong_side
    _change(line, FIRST_EDGE if first else LAST_EDGE, event, wrong_side, strands)


def _change(line: Line, place: str, event: Event, wrong_side: bool, strands: Strands) -> None:
    method = leaning(event.method, _SEEN_FROM_BEHIND[place] if wrong_side else place)
    if event.action == INCREASE:
        _increase(line, place, method, event.stitches, strands.bound_off and place == FIRST_EDGE)
    else:
        _decrease(line, place, method, event.stitches)


def _increase(line: Line, place: str, method: str, count: int, after_bind_off: bool) -> None:
    """`after_bind_off`: no strand lies beside the first stitch of the row."""
    at, inward = line.find(place), _TOWARDS_WING[place]
    if method in INCREASES.takes_stitch:
        _increase_in_stitches(line, at, inward, method, count)
        return
    method = _free_strand(line, at, inward, method)
    lead = int(not line.has_stitch(at, -inward) or _is_increased(line, at, -inward))
    if after_bind_off and method != "yo":
        lead = max(lead, 2 - line.stitches_before(at))
    needed = count - 1 + lead
    from_wing = min(needed, _room(line, at, inward))
    from_edge = needed - from_wing
    if from_edge > _room(line, at, -inward) or not (needed or line.has_stitch(at, inward)):
        _increase_in_one(line, at, inward, count)
        return
    look = line.look(at, inward)
    between = [stitch_item(look[0], 1, look[1])] * needed
    line.take(at, from_wing, inward)
    line.take(at, from_edge, -inward)
    made = as_worked(method, look[0])
    items: list[Item] = [*between[:lead], *_alternating(made, between[lead:])]
    line.insert(line.find(place) + (inward < 0), items if inward > 0 else items[::-1])


def _room(line: Line, at: int, step: int) -> int:
    """Plain stitches on that side that may be worked between increases: what is made next needs one beside it."""
    plain = line.plain(at, step)
    return plain if _held(line, at, step, plain) else max(0, plain - 1)


def _held(line: Line, at: int, step: int, plain: int) -> bool:
    """Whether a stitch lies beyond the plain ones of that side."""
    segments = line.segments[at:] if step > 0 else line.segments[:at][::-1]
    for segment in segments:
        if not segment.empty and plain <= 0:
            return not _increases(segment)
        plain -= segment.plain
    return False


def _alternating(made: Item, between: Sequence[Item]) -> list[Item]:
    items: list[Item] = [made]
    for one in between:
        items += [one, made]
    return items


def _is_increased(line: Line, at: int, step: int) -> bool:
    found = line.nearest(at, step)
    return found is not None and _increases(found)


def _increases(segment: Segment) -> bool:
    return segment.place == SHAPING and makes(segment.items) > takes(segment.items)


def _free_strand(line: Line, at: int, inward: int, method: str) -> str:
    """A yarn over where the strand between two stitches is used already."""
    for step in (inward, -inward):
        found = line.nearest(at, step)
        if found and found.place == SHAPING and uses_strand(found.items[0 if step > 0 else -1]):
            return "yo"
    return method


def _increase_in_stitches(line: Line, at: int, inward: int, method: str, count: int) -> None:
    """Each in a stitch of its own: the wing's, if it has enough that are plain."""
    lead = _first_stitch(line, at, inward)
    step = inward if line.plain(at, inward) >= count + lead else -inward
    if line.plain(at, step) < count + (lead if step == inward else _after_bind_off(line, at)):
        _increase_in_one(line, at, inward, count)
        return
    kind, wraps = line.look(at, step)
    first = [stitch_item(kind, 1, wraps)] * (lead if step == inward else 0)
    line.take(at, count + len(first), step)
    made = as_worked(method, kind)
    line.insert(at + (inward < 0), [*first, *grouped([made._replace(wraps=wraps)] * count)])


def _increase_in_one(line: Line, at: int, inward: int, count: int) -> None:
    """All in one stitch, or cast on where none is plain: there is no room for anything else."""
    if line.is_halved:
        raise NoRoomError
    lead = _first_stitch(line, at, inward)
    for step in (inward, -inward):
        kept = lead if step == inward else 0
        if line.plain(at, step) > (kept or _after_bind_off(line, at) * (step != inward)):
            kind, wraps = line.look(at, step)
            line.take(at, 1 + kept, step)
            line.insert(at + (inward < 0), [*[stitch_item(kind, 1, wraps)] * kept, increased(count + 1)])
            return
    line.insert(at + (inward < 0), [stitch_item(CAST_ON, count)])


def _after_bind_off(line: Line, at: int) -> int:
    """1 where the row begins with a bind-off, and nothing but plain stitches lies between it and a place."""
    before = [segment for segment in line.segments[:at] if not segment.empty]
    begins = bool(before and before[0].items) and _bound_off(before[0].items[-1])
    return int(begins and all(segment.plain for segment in before[1:]))


def _first_stitch(line: Line, at: int, inward: int) -> int:
    """1 where a plain stitch must come first: what is worked in binding off before it is the first stitch there."""
    found = line.nearest(at, -inward)
    return int(inward > 0 and found is not None and found.place == SHAPING and _bound_off(found.items[-1]))


def _decrease(line: Line, place: str, method: str, count: int) -> None:
    at, inward = line.find(place), _TOWARDS_WING[place]
    kind, wraps = line.look(at, inward)
    lead = _first_stitch(line, at, inward)
    room = line.plain(at, inward) + line.plain(at, -inward) - lead
    for items in _decreases(method, count, kind, wraps):
        needed = sum(item.stitches if isinstance(item, InOne) else stitches_gone(item.kind) + 1 for item in items)
        if needed <= room:
            needed += lead
            from_wing = min(needed, line.plain(at, inward))
            line.take(at, from_wing, inward)
            line.take(at, needed - from_wing, -inward)
            line.insert(at + (inward < 0), [*[stitch_item(kind, 1, wraps)] * lead, *grouped(items)])
            return
    raise NoRoomError


def _decreases(method: str, count: int, kind: str, wraps: int) -> list[list[Work | InOne]]:
    """The decreases as named, then closer and closer ones for where there is no room for them."""
    each, two = stitches_gone(method), as_worked("k2tog", kind)
    one, three = as_worked(method, kind)._replace(wraps=wraps), as_worked(of_three(method), kind)
    return [
        [*[one] * (count // each), *[two] * (count % each)],
        [*[three] * (count // 2), *[two] * (count % 2)],
        [InOne((stitch_item(kind),), count + 1, NOWHERE)],
    ]


def _evenly(line: Line, event: Event, wrong_side: bool, strands: Strands) -> None:
    if event.place != EVENLY:
        return
    _keep_first_stitch(line)
    change = increase_evenly if event.action == INCREASE else decrease_evenly
    method = "yo" if strands.double and event.method == "m1" else event.method
    if not change(line, method, event.stitches):
        raise NoRoomError


def _keep_first_stitch(line: Line) -> None:
    """Leaves the stitch that binding off has worked out of what is spread over the row."""
    at = line.find(FIRST_EDGE)
    if _first_stitch(line, at, 1) and line.plain(at, 1):
        kind, wraps = line.look(at, 1)
        line.take(at, 1, 1)
        line.segments.insert(at, Segment(EDGE, 1, kind, wraps))
