"""The bind-off step by step."""

from halfhank.model.design.design import BindOff
from halfhank.model.instructions.counts import stitches
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, Value
from halfhank.model.start_and_bind_off.bind_offs import (
    CORD_STITCHES,
    DRAWN,
    MEASURED,
    MEASURED_EACH,
    PICOT,
    picots,
)
from halfhank.model.words.catalogue import said, say, say_one_of

_NAMED = ("standard", "elastic", PICOT, "i-cord")


def bind_off_section(plan: Plan) -> ReportSection:
    """How the last stitches are worked off, and where the yarn is cut."""
    steps = _steps(plan, plan.rows.stitches[-1])
    drawn = plan.design.bind_off.method == DRAWN
    return ReportSection(
        said("bind-off.finish" if drawn else "bind-off.heading"), (ListBlock(tuple(map(ListItem, steps))),)
    )


def _steps(plan: Plan, live: int) -> list[Content]:
    method, count = plan.design.bind_off.method, stitches(live)
    if method == DRAWN:
        return [say("bind-off.draw-through", stitches=count)]
    if live == 1:
        return [say("bind-off.cut-last")]
    name = say_one_of("bind-off-name", method if method in _NAMED else "own")
    on_right_side = plan.rows.count % 2 == 0
    lead = say("bind-off.right-side" if on_right_side else "bind-off.wrong-side", method=name, stitches=count)
    if method == "i-cord":
        cord = stitches(CORD_STITCHES)
        return [lead, say("bind-off.i-cord", cord=cord), say("bind-off.cut", stitches=cord)]
    return [lead, *_row(plan, live), say("bind-off.cut-last")]


def _row(plan: Plan, live: int) -> list[Content]:
    off = plan.design.bind_off
    if off.method == PICOT:
        return _picots(off, live)
    if off.method == "elastic":
        return [say("bind-off.elastic")]
    if off.method in (MEASURED, MEASURED_EACH):
        takes = Value(f"{off.takes:g}", off.takes or 0.0, "1")
        measured = say("bind-off.by-width" if off.method == MEASURED else "bind-off.by-stitch", takes=takes)
        return [measured, say("bind-off.standard")]
    return [say("bind-off.standard")]


def _picots(off: BindOff, live: int) -> list[Content]:
    """Each picot works off so many of the live stitches; at least one is kept for the end."""
    count, over = picots(off, live)
    row = [
        say("bind-off.picot-on", cast_on=stitches(off.cast_on)),
        say("bind-off.picot-off", off=off.bind_off),
        say("bind-off.picot-back"),
        say("bind-off.picot-times", count=count),
    ]
    last = say("bind-off.last", count=over) if over > 1 else say("bind-off.last-one")
    return [*row, last] if count else [last]
