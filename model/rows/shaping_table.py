"""Shaping as it is worked: for each part, line and place what is done, how, and in which rows of the shawl."""

from collections.abc import Iterator, Sequence

from halfhank.grammar.description import EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Gains
from halfhank.model.design.shaping_methods import method_of
from halfhank.model.rows.shaping import BIND_OFF, DECREASE, INCREASE, Act, WorkedPart, placed_gains

_PLACES = dict(zip(Gains._fields, (UPPER_EDGE, LOWER_EDGE, SPINE, EVENLY), strict=True))


class Shaped(NamedTuple):
    """One line at one place in one part: each time `stitches`, at the spine on each side of it, in these `rows`.

    `part` is the part's index among all that are worked, `action` what is really done there (`increase`, `decrease`,
    `bind off`; in a mirrored second half the opposite of what the line says), `method` as `method_of` has it. `rows`
    are those of the shawl, in order.
    """

    part: int
    action: str
    place: str
    method: str
    stitches: int
    rows: tuple[int, ...]


def shaped(parts: Sequence[WorkedPart]) -> tuple[Shaped, ...]:
    """All shaping: part by part, line by line in the order of the file."""
    return tuple(one for number, part in enumerate(parts) for one in _in_part(number, part))


def _in_part(number: int, part: WorkedPart) -> Iterator[Shaped]:
    for place, line in enumerate(part.active.lines):
        acts = [act for act in part.acts if act.line == place and act.change]
        if not acts:
            continue
        gains, action = placed_gains(line, acts[0].change), _action(line.action, acts[0])
        rows = tuple(part.first_row - 1 + act.row for act in acts)
        for name, gain in gains._asdict().items():
            if gain:
                where, named = _PLACES[name], getattr(line.methods, name)
                yield Shaped(number, action, where, method_of(action, where, abs(gain), named), abs(gain), rows)


def _action(said: str, act: Act) -> str:
    if said == BIND_OFF:
        return BIND_OFF
    return INCREASE if act.change > 0 else DECREASE
