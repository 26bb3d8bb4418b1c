"""What shapes a shawl, row by row: each act of a shaping line at each of its places."""

from halfhank.grammar.description import SPINE
from halfhank.grammar.record import NamedTuple
from halfhank.model.plan import Plan
from halfhank.model.rows.shaping import INCREASE
from halfhank.model.rows.shaping_table import shaped


class Event(NamedTuple):
    """`stitches` increased, decreased or bound off (`action`) in one row of the shawl at one place.

    `place` is the upper or lower edge, the spine (so many on each side of it) or evenly; `method` how, as
    `halfhank.model.design.shaping_methods.method_of` gives it.
    """

    row: int
    action: str
    place: str
    method: str
    stitches: int

    @property
    def gain(self) -> int:
        """What the row gains by it, negative where it loses."""
        both = 2 * self.stitches if self.place == SPINE else self.stitches
        return both if self.action == INCREASE else -both


def events(plan: Plan) -> tuple[Event, ...]:
    """All of a plan, by row; those of one row in the order of the file."""
    found = [
        Event(row, one.action, one.place, one.method, one.stitches) for one in shaped(plan.parts) for row in one.rows
    ]
    return tuple(sorted(found, key=lambda event: event.row))
