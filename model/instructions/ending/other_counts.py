"""What changes where another number of repeats is worked than planned: rows, stitches and picots."""

from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.further_rows import further_plan
from halfhank.model.instructions.parts.row_phrases import REPEATS, row_words
from halfhank.model.instructions.rows.every_row import every_row
from halfhank.model.marks_and_stops.variants import with_more
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, content, row_number
from halfhank.model.rows.row_table import Rows
from halfhank.model.shawl import PartPlan
from halfhank.model.start_and_bind_off.bind_offs import PICOT, picots
from halfhank.model.words.catalogue import say

_MORE = (-2, -1, 0, 1)


class OtherCount(NamedTuple):
    """So many repeats: the last row of them, the stitches after it and at the very end, all rows of the shawl."""

    repeats: int
    last_row: int
    live: int
    at_end: int
    rows: int


def other_counts(plan: Plan, ends: list[int]) -> list[OtherCount]:
    """From two repeats fewer than planned to one more; `ends`: the last row of each repeat of the first half."""
    found = []
    for more in _MORE:
        rows, count = _rows(plan, more), len(ends) + more
        if rows is None or count < 1:
            continue
        longer = (rows.count - plan.rows.count) // (2 if plan.design.turns_back else 1)
        last = ends[count - 1] if more <= 0 else ends[-1] + longer
        found.append(OtherCount(count, last, rows.stitches[last], rows.stitches[-1], rows.count))
    return found


def _rows(plan: Plan, more: int) -> Rows | None:
    variant = with_more(plan, more) if more else None
    return plan.rows if not more else variant.rows if variant else None


def count_lines(plan: Plan, ends: list[int]) -> Iterator[Content]:
    """One line for each of them."""
    for one in other_counts(plan, ends):
        last_row = row_number(one.last_row)
        line = say("weigh.with-repeats", count=one.repeats, row=last_row, live=stitches(one.live))
        others = _rewritten(plan) if one.repeats > len(ends) else []
        if one.last_row == one.rows:
            yield content(line, *_picots(plan, one.at_end), ".")
        else:
            last = say("weigh.at-the-end", row=row_number(one.rows), stitches=stitches(one.at_end))
            yield content(line, last, *_picots(plan, one.at_end), ".", *others)


def _picots(plan: Plan, live: int) -> list[Content]:
    off = plan.design.bind_off
    if off.method != PICOT:
        return []
    return [say("weigh.picots", count=picots(off, live)[0])]


def _rewritten(plan: Plan) -> list[Content]:
    """The later parts that are worked in other words after one more repeat, but for a mirrored half."""
    longer = further_plan(plan)
    if longer is None:
        return []
    found = list[Content]()
    for place, (part, other) in enumerate(zip(plan.shawl.parts, longer.shawl.parts, strict=True)):
        moved = other.first_row - part.first_row
        if moved and not part.mirrored and _words(plan, part, 0) != _words(longer, part, moved):
            found.append(say("weigh.rewritten", number=place + 1, name=part.name))
    return found


def _words(plan: Plan, part: PartPlan, moved: int) -> list[object]:
    """What is said of a part's rows but for counts, its rows so many later than in the plan."""
    rows = every_row(plan)[part.first_row - 1 + moved : part.last_row + moved]
    words = [row_words(row) for row in rows]
    return [(one.wording, [value.number for value in one.numbers if value.unit != REPEATS]) for one in words]
