"""The start in words: what is cast on, and the way from a garter tab to row 1."""

from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, Value
from halfhank.model.words.catalogue import amount, said, say


def start_section(plan: Plan) -> ReportSection:
    """All that is worked before row 1, one step an item."""
    return ReportSection(said("start.heading"), (ListBlock(tuple(map(ListItem, _steps(plan)))),))


def stitches(count: int) -> Value:
    """A count of stitches."""
    return amount("count.stitches", count, "sts")


def _steps(plan: Plan) -> list[Content]:
    start = plan.design.start
    if not start.tab:
        return [say("start.cast-on", stitches=stitches(start.stitches)), say("start.next-row")]
    cast_on, rows = start.tab
    return [
        say("start.tab", stitches=stitches(cast_on), rows=rows),
        say("start.pick-up", ridges=rows // 2, along=stitches(cast_on), stitches=stitches(start.stitches)),
        say("start.set-up-row", stitches=stitches(start.stitches)),
        say("start.next-row"),
    ]
