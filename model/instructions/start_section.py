"""The start in words: what is cast on, and the way from a garter tab to row 1."""

from halfhank.model.instructions.counts import stitches
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, Value, row_number
from halfhank.model.stitches.fit import needle_of
from halfhank.model.words.catalogue import said, say


def start_section(plan: Plan) -> ReportSection:
    """All that is worked before row 1, one step an item."""
    return ReportSection(said("start.heading"), (ListBlock(tuple(map(ListItem, _steps(plan)))),))


def _steps(plan: Plan) -> list[Content]:
    start = plan.design.start
    live = stitches(start.stitches)
    markers = _markers(plan)
    if not start.tab:
        return [say("start.cast-on", stitches=live), *markers, say("start.next-row")]
    cast_on, rows = start.tab
    return [
        say("start.tab", stitches=stitches(cast_on), rows=rows),
        say(
            "start.pick-up-counted",
            ridges=rows // 2,
            along=stitches(cast_on),
            kept=cast_on,
            picked=cast_on,
            stitches=live,
        ),
        *_set_up(plan, live, markers),
        say("start.next-row"),
    ]


def _set_up(plan: Plan, live: Value, later: list[Content]) -> list[Content]:
    """The row after the tab; its markers are placed as it is worked, or later where there is no room for them yet."""
    needle, count = needle_of(plan.design, plan.rows), plan.design.start.stitches
    if not needle.left or count < 2 * needle.edge + needle.spine:
        return [say("start.set-up-row", stitches=live), *later]
    before = needle.edge + needle.left[0]
    after = count - before - needle.spine
    if not needle.spine:
        return [say("start.set-up-marker", before=before, after=after, stitches=live)]
    return [say("start.set-up-markers", before=before, spine=needle.spine, after=after, stitches=live)]


def _markers(plan: Plan) -> list[Content]:
    """Where the markers of the spine stand: after the start, or after the first row that has room for it."""
    needle, live = needle_of(plan.design, plan.rows), plan.rows.stitches
    if not needle.left:
        return []
    row = next((row for row, count in enumerate(live) if count >= 2 * needle.edge + needle.spine), None)
    if row is None:
        return []
    on_wrong_side = row % 2 == 1 or (row == 0 and plan.design.start.tab is not None)
    first = needle.edge + (needle.left if on_wrong_side else needle.right)[row]
    before, after = stitches(first), stitches(first + needle.spine)
    if row:
        return [say("start.markers-later", row=row_number(row), before=before, after=after)]
    if not needle.spine:
        return [say("start.one-marker", before=before)]
    return [say("start.markers", before=before, after=after)]
