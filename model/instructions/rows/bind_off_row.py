"""The bind-off as one row of notation. How each is worked is common practice."""

from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import BindOff
from halfhank.model.instructions.rows.every_row import every_row
from halfhank.model.instructions.rows.fabrics import DROP_WRAPS
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content
from halfhank.model.start_and_bind_off.bind_offs import (
    CORD_STITCHES,
    DRAWN,
    MEASURED,
    MEASURED_EACH,
    PICOT,
    picots,
)
from halfhank.model.stitch_counts.loops import is_elongated
from halfhank.model.words.catalogue import say_one_of


class BindOffRow(NamedTuple):
    """`notation` is empty where nothing is worked; the yarn is drawn through the `stitches` that it leaves.

    `terms`: how each of its terms is worked. `any_method`: the description does not say how to bind off.
    """

    notation: str
    stitches: int
    terms: dict[str, Content]
    any_method: bool


def bind_off_row(plan: Plan) -> BindOffRow:
    """The bind-off of all live stitches, with the extra wraps of the last row dropped."""
    off = _bind_off(plan)
    if not (off.notation and is_elongated(every_row(plan)[-1].items)):
        return off
    return off._replace(notation=f"{DROP_WRAPS}, {off.notation}", terms=off.terms | _terms(DROP_WRAPS))


def _bind_off(plan: Plan) -> BindOffRow:
    off, live = plan.design.bind_off, every_row(plan)[-1].stitches
    if off.method == DRAWN or live == 1:
        return BindOffRow("", live, {}, False)
    if off.method == PICOT:
        return _picot(off, live)
    if off.method == "i-cord":
        cord = f"cast on {CORD_STITCHES} to the left needle, "
        cord += f"[k{CORD_STITCHES - 1}, k2tog tbl, sl{CORD_STITCHES} back] {_times(live)}"
        names = ("cast on left", "times", "k", "k2tog", "tbl", "sl back")
        return BindOffRow(cord, CORD_STITCHES, _terms(*names), False)
    if off.method == "elastic":
        return BindOffRow(
            _knitted("k1, sl2 back, k2tog tbl", live), 1, _of(live, "times", "sl back", "k2tog", "tbl"), False
        )
    any_method = off.method in (MEASURED, MEASURED_EACH)
    return BindOffRow(_knitted("k1, pass over", live), 1, _of(live, "times", "pass over"), any_method)


def _picot(off: BindOff, live: int) -> BindOffRow:
    count, left = picots(off, live)
    one = f"[cast on {off.cast_on} to the left needle, k1, [k1, pass over] {_times(off.bind_off)}, sl1 back]"
    names = ("cast on left", "k", "times", "pass over", "sl back") if count else ()
    return BindOffRow(
        (f"{one} {_times(count)}, " if count else "") + _knitted("k1, pass over", left),
        1,
        _terms(*names) | _of(left, "times", "pass over"),
        False,
    )


def _knitted(items: str, live: int) -> str:
    """The first stitch, then the items for each of the others."""
    return f"k1, [{items}] {_times(live - 1)}" if live > 1 else "k1"


def _of(live: int, *names: str) -> dict[str, Content]:
    return _terms("k", *(names if live > 1 else ()))


def _times(count: int) -> str:
    return f"{count} {'time' if count == 1 else 'times'}"


_SHOWN = {"cast on left": "cast on N to the left needle", "times": "[ ] N times", "sl back": "slN back"}


def _terms(*names: str) -> dict[str, Content]:
    return {_SHOWN.get(name, name): say_one_of("item", name) for name in names}
