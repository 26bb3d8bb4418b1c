"""The repeats after the first: where each begins and ends, the rows of its bands, and the stitches after it."""

from collections.abc import Iterator
from itertools import pairwise

from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.worked_blocks import BandBlock, PlacedRun
from halfhank.model.phrases import stitch_name
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    Content,
    ListBlock,
    ListItem,
    ReportBlock,
    Table,
    TableColumn,
    Value,
    content,
    figures_column,
    row_number,
)
from halfhank.model.stitches.fit import Needle, PatternRows, fitted, needle_of
from halfhank.model.stitches.pattern import Pattern, patterns_of
from halfhank.model.words.catalogue import said, say


def later_turns(plan: Plan, block: BandBlock, differing: bool) -> Iterator[ReportBlock]:
    """In a sentence where they are all alike, else as a table.

    `differing`: some of their rows have been told before, all others are worked in the same way.
    """
    how = say("part.others-same-way" if differing else "part.same-way")
    first, *later = block.turns
    live = plan.rows.stitches
    ends = [live[turn.last_row] for turn in block.turns]
    changes = {after - before for before, after in pairwise(ends)}
    lengths = {tuple(len(run.rows) for run in turn.runs) for turn in block.turns}
    rows = (row_number(later[0].first_row), row_number(later[-1].last_row))
    alike = len(changes) == 1 and len(lengths) == 1 and not _patterned(plan, block)
    if alike:
        each = len(range(first.first_row, first.last_row + 1))
        text = say("part.alike", how=how, count=len(later), rows=each, first=rows[0], last=rows[1])
        yield ListBlock((ListItem(content(text, _change(changes.pop(), ends[-1]))),))
        return
    told = say("part.later" if len(lengths) == 1 else "part.later-lengths", how=how, count=len(later))
    yield ListBlock((ListItem(told),))
    yield _table(plan, block, ends)


def _change(change: int, end: int) -> Content:
    if not change:
        return (".",)
    more = stitches(abs(change))
    if change > 0:
        return say("part.more-after-each", change=more, stitches=stitches(end))
    return say("part.fewer-after-each", change=more, stitches=stitches(end))


def _patterned(plan: Plan, block: BandBlock) -> bool:
    patterns = patterns_of(plan.table.measures)
    return (
        any(run.run.stitch in patterns for turn in block.turns for run in turn.runs)
        and len({plan.rows.stitches[turn.first_row - 1] for turn in block.turns}) > 1
    )


def _table(plan: Plan, block: BandBlock, ends: list[int]) -> Table:
    same = len({*ends, plan.rows.stitches[block.turns[0].first_row - 1]}) == 1
    last = [] if same else [figures_column(said("table.stitches-after"))]
    columns = [figures_column(said("table.repeat")), *_columns(plan, block), *last]
    rows = []
    for number, turn in enumerate(block.turns[1:], 2):
        cells = [(Value(f"{number:,}", number, "1"),), *(cell for run in turn.runs for cell in _cells(plan, run))]
        end = (Value(f"{ends[number - 1]:,}", ends[number - 1], "sts"),)
        rows.append(tuple(cells) if same else (*cells, end))
    return Table(tuple(columns), tuple(rows))


def _columns(plan: Plan, block: BandBlock) -> Iterator[TableColumn]:
    patterns = patterns_of(plan.table.measures)
    for run in block.turns[0].runs:
        name = run.run.source.label or stitch_name(run.run.stitch)
        yield figures_column(said("table.rows-of", name=name))
        if run.run.stitch in patterns:
            wings = plan.once(_needle).wings == 2
            yield figures_column(said("table.wing-repeats" if wings else "table.pattern-repeats", name=name))


def _cells(plan: Plan, run: PlacedRun) -> Iterator[Content]:
    """The rows of a band, and the repeats of its pattern in its first row."""
    first, last = row_number(run.first_row), row_number(run.last_row)
    yield (first,) if run.first_row == run.last_row else content(first, "-", last)
    pattern = patterns_of(plan.table.measures).get(run.run.stitch)
    if pattern:
        yield _repeats(plan, run, pattern)


def _needle(plan: Plan) -> Needle:
    return needle_of(plan.design, plan.rows)


def _repeats(plan: Plan, run: PlacedRun, pattern: Pattern) -> Content:
    stretch = PatternRows(run.run.stitch, run.first_row, run.last_row, None)
    fit = fitted(pattern, stretch, plan.once(_needle), plan.rows)
    right = fit.right[0].multiples
    left = fit.left[0].multiples if fit.left else right
    shown = (Value(f"{right:,}", right, "repeats"),)
    return shown if left == right else say("table.two-wings", first=shown, second=Value(f"{left:,}", left, "repeats"))
