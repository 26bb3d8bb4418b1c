"""What a technical editor would say of a pattern's rows, apart from any shawl. All of it is advice."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from halfhank.grammar.description import Across, Item, Work
from halfhank.grammar.problems.problem import Problem
from halfhank.model.problems import row_problems as known
from halfhank.model.stitch_counts.pairs import changes, unpaired
from halfhank.model.stitch_counts.tally import tally_of
from halfhank.model.stitches.pattern import Pattern, PatternRow
from halfhank.model.stitches.worked_rows import WorkedItem, WorkedRow, too_large, worked_rows

_ONE_LOOK = frozenset({"k", "p"})


def edit(pattern: Pattern) -> tuple[Problem, ...]:
    """The advice on a pattern that is free of mistakes; each thing is reported once for each line that has it."""
    found: dict[Problem, None] = {}
    for row in pattern.rows:
        found.update(dict.fromkeys(_yarn_overs_meet(row)))
        found.update(dict.fromkeys(_far_partner(row)))
    if too_large(pattern) is None:
        worked = worked_rows(pattern, pattern.least + 1)
        found.update(dict.fromkeys(_double_yarn_overs(worked)))
        found.update(dict.fromkeys(_astride(worked)))
    return tuple(found)


def _yarn_overs_meet(row: PatternRow) -> Iterator[Problem]:
    """Stars that begin and end with a yarn over: two of them meet at the line of the multiple."""
    across = row.across
    if across and _is_yarn_over(across.items[0]) and _is_yarn_over(across.items[-1]):
        yield known.YARN_OVERS_MEET.at(across.items[-1].span, row=row.number)


def _is_yarn_over(item: Item) -> bool:
    return isinstance(item, Work) and item.kind == "yo"


def _far_partner(row: PatternRow) -> Iterator[Problem]:
    """A yarn over or a decrease outside the stars, whose partner is at the other end of the row."""
    across = row.across
    if across is None or row.tally.before.made == row.tally.before.taken:
        return
    if row.tally.outside.made != row.tally.outside.taken or _shares_decrease(across):
        return
    before = row.items[: row.items.index(across)]
    alone = unpaired(changes(before))
    if alone:
        item = "yarn over" if alone[0].gain > 0 else "decrease"
        yield known.UNPAIRED_OUTSIDE.at(alone[0].span, row=row.number, item=item)


def _shares_decrease(across: Across) -> bool:
    """Whether the stars begin or end with a double decrease, of which the row's ends work the halves."""
    found = changes((across,))
    return bool(found) and (found[0].gain <= -2 or found[-1].gain <= -2)


def _double_yarn_overs(rows: Sequence[WorkedRow]) -> Iterator[Problem]:
    """A double yarn over that the next row works twice alike, or takes together: its two loops then fall into one."""
    for row, after in pairwise((*rows, rows[0])):
        takers = _takers(after.steps)
        for place, item in _doubles(row.steps):
            pair = takers[place : place + 2]
            if len(pair) == 2 and _falls_together(pair[0], pair[1]):
                yield known.DOUBLE_YARN_OVER.at(item.span, row=after.row.number, made_in=row.row.number)


def _doubles(steps: Sequence[WorkedItem]) -> Iterator[tuple[int, Item]]:
    """The first of two yarn overs side by side, by the stitch that it makes."""
    at = 0
    for step, following in pairwise(steps):
        if _is_yarn_over(step.item) and _is_yarn_over(following.item):
            yield at, step.item
        at += step.made


def _takers(steps: Sequence[WorkedItem]) -> list[tuple[int, WorkedItem]]:
    """For each stitch that a row finds, the step that takes it, with its number."""
    return [(number, step) for number, step in enumerate(steps) for _ in range(step.taken)]


def _falls_together(one: tuple[int, WorkedItem], other: tuple[int, WorkedItem]) -> bool:
    if one[0] == other[0]:
        return one[1].taken == 2
    kinds = [step.item.kind if isinstance(step.item, Work) and not step.item.tbl else "" for _, step in (one, other)]
    return kinds[0] == kinds[1] and kinds[0] in _ONE_LOOK


def _astride(rows: Sequence[WorkedRow]) -> Iterator[Problem]:
    """A step that takes stitches from both sides of the line of the multiple, as the row below has it."""
    for below, row in pairwise(rows):
        if row.row.is_whole or below.box_out[1] == below.box_out[0]:
            continue
        for line in below.box_out:
            step = _over_line(row.steps, line)
            if step:
                yield _astride_advice(row, step)
                break


def _over_line(steps: Sequence[WorkedItem], line: int) -> WorkedItem | None:
    at = 0
    for step in steps:
        if at < line < at + step.taken:
            return step
        at += step.taken
    return None


def _astride_advice(row: WorkedRow, step: WorkedItem) -> Problem:
    tally = tally_of((step.item,))
    item = "double decrease" if tally.taken - tally.made == 2 else "decrease" if tally.made < tally.taken else "cable"
    return known.ASTRIDE_THE_LINE.at(step.item.span, row=row.row.number, item=item)
