"""What the scale has to show on the way: half of the yarn, before another repeat, when to turn back, when to stop."""

from collections.abc import Iterator

from halfhank.model.design.band_walk import open_piece
from halfhank.model.design.design import Band
from halfhank.model.instructions.counts import grams
from halfhank.model.instructions.ending.other_counts import count_lines
from halfhank.model.instructions.parts.worked_blocks import blocks_of
from halfhank.model.marks_and_stops.variants import with_more
from halfhank.model.phrases import turns_as_planned
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection, row_number
from halfhank.model.words.catalogue import ordinal, said, say


def weighing_section(plan: Plan) -> ReportSection:
    """The rows after which to weigh, with the grams."""
    by_row = [ListItem(line) for _, line in sorted(_by_row(plan), key=lambda one: one[0])]
    lines = [ListItem(say("weigh.how")), *by_row, *map(ListItem, _stop(plan)), *_other_counts(plan)]
    return ReportSection(said("weigh.heading"), (ListBlock(tuple(lines)),))


def _other_counts(plan: Plan) -> Iterator[ListItem]:
    """What another number of repeats changes, where the yarn sets it."""
    ends = _ends(plan)
    if ends and not isinstance(open_piece(plan.design), Band):
        yield ListItem(say("weigh.other-counts"), tuple(map(ListItem, count_lines(plan, ends))))


def deciding_rows(plan: Plan) -> frozenset[int]:
    """The rows after which the weight decides how to go on."""
    return frozenset(row for row, _ in (*_turn_back(plan), *_repeats(plan)))


def _by_row(plan: Plan) -> Iterator[tuple[int, Content]]:
    """The weighings, each with its row."""
    half = plan.shawl.marks.halfway
    if half:
        used = grams(plan.shawl.yarn.total_g / 2)
        yield half.row, say("weigh.half", used=used, row=row_number(half.row), mass=grams(half.left_g))
    yield from _turn_back(plan)
    yield from _repeats(plan)


def _turn_back(plan: Plan) -> Iterator[tuple[int, Content]]:
    mark = plan.shawl.marks.turn_back
    if mark is None:
        return
    if turns_as_planned(plan.shawl):
        row, mass = row_number(mark.row), grams(_needed(plan, mark.row))
        if _ends(plan) and not isinstance(open_piece(plan.design), Band):
            yield mark.row, say("weigh.turn", row=row, mass=mass, next=_next(plan))
        else:
            yield mark.row, say("weigh.turn-bare", row=row, mass=mass)
    else:
        yield mark.row, say("weigh.turn-latest", row=row_number(mark.row), mass=grams(mark.left_g))


def _needed(plan: Plan, row: int) -> float:
    """What has to be on the scale after a row for the rest of the shawl as planned, and the margin."""
    return _with(plan, row, plan.shawl.yarn.left_g)


def _with(plan: Plan, row: int, left_g: float) -> float:
    """The same where so much would be left over after the bind-off."""
    return plan.working.left_g[row] - left_g + plan.shawl.yarn.keep_g


def _stop(plan: Plan) -> Iterator[Content]:
    shawl = plan.shawl
    if shawl.bind_off.method == "draw through" or plan.design.turns_back or any(_before_more(plan)):
        return
    least, off, margin = shawl.yarn.bind_off_g + shawl.yarn.keep_g, shawl.yarn.bind_off_g, shawl.yarn.keep_g
    if margin:
        yield say("weigh.stop", mass=grams(least), off=grams(off), margin=grams(margin))
    else:
        yield say("weigh.stop-bare", mass=grams(least))


def _repeats(plan: Plan) -> Iterator[tuple[int, Content]]:
    """What has to be on the scale before each of the last repeats that the yarn may be enough for."""
    piece, needed = open_piece(plan.design), list(_before_more(plan))
    if isinstance(piece, Band):
        if needed:
            row, most = needed[0][1], max(mass for _, _, mass in needed)
            yield row, say("weigh.rows", count=piece.step_rows, row=row_number(row), mass=grams(most), next=_next(plan))
        return
    for done, row, mass in needed:
        number, after = ordinal(done + 1), row_number(row)
        yield row, say("weigh.repeat", number=number, row=after, mass=grams(mass), next=_next(plan))


def _next(plan: Plan) -> Content:
    """What follows what the yarn counts."""
    last = _ends(plan)[-1]
    place = next(place for place, part in enumerate(plan.shawl.parts) if part.first_row <= last <= part.last_row)
    if plan.shawl.parts[place].last_row > last:
        return say("weigh.next-rows" if isinstance(open_piece(plan.design), Band) else "weigh.next-band")
    if place + 1 == len(plan.shawl.parts):
        return say("weigh.next-finish" if plan.design.bind_off.method == "draw through" else "weigh.next-bind-off")
    part = plan.shawl.parts[place + 1]
    return say("weigh.next-turn" if part.mirrored else "weigh.next-part", number=place + 2, name=part.name)


def _before_more(plan: Plan) -> Iterator[tuple[int, int, float]]:
    """For the last repeats how many are done, the last row of these, and what has to be on the scale for one more."""
    ends = _ends(plan)
    for more in (-1, 0, 1):
        done = (plan.shawl.allowed or 0) + more - 1
        left_g = _left_with(plan, more) if 1 <= done <= len(ends) else None
        if left_g is not None:
            yield done, ends[done - 1], _with(plan, ends[done - 1], left_g)


def _left_with(plan: Plan, more: int) -> float | None:
    """What would be left over after the bind-off with so many more repeats."""
    if not more:
        return plan.shawl.yarn.left_g
    variant = with_more(plan, more)
    return None if variant is None else variant.left.mean


def _ends(plan: Plan) -> list[int]:
    """The last row of each repeat that the yarn counts, in the first half; none where it is inside another repeat."""
    piece = open_piece(plan.design)
    blocks = [block for part in plan.parts if not part.section.mirrored for block in blocks_of(plan, part)]
    counted = next((block for block in blocks if piece is not None and block.number == piece.number), None)
    if counted is None:
        return []
    if isinstance(piece, Band):
        turn = counted.turns[0]
        return list(range(turn.first_row + piece.step_rows - 1, turn.last_row + 1, piece.step_rows))
    return [turn.last_row for turn in counted.turns]
