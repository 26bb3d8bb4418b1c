"""A knitted piece held against its plan: the count after each row, and the loops of each band.

What the plan says of yarn is taken in loops: a plain stitch is one, a stitch of a pattern what its rows draw for each
stitch that they make.
"""

import itertools
from collections.abc import Iterator
from typing import NamedTuple

from halfhank.model.plan import Plan
from halfhank.model.stitch_counts.loops import PLAIN, draw
from halfhank.model.stitches.pattern import Pattern, patterns_of
from halfhank.model.stitches.worked_rows import levels_of
from halfhank.model.yarn.row_yarn import RowYarn

from tests.knitter.machine import Knit, KnittedRow

CROSSED = 0.1
"""A crossed stitch takes a tenth more yarn."""


class Band(NamedTuple):
    """Rows in one stitch; of drop stitch the first is elongated. `pattern` is None where the rows are plain."""

    stitch: str
    first: int
    last: int
    wraps: int
    pattern: Pattern | None


def bands(plan: Plan) -> Iterator[Band]:
    """Every band in working order."""
    patterns = patterns_of(plan.table.measures)
    row = 1
    for part in plan.parts:
        for run in part.section.runs:
            pattern = patterns.get(run.stitch)
            starred = pattern if pattern and not all(one.is_whole for one in pattern.rows) else None
            yield Band(run.stitch, row, row + run.rows - 1, run.wraps, None if run.stitch == "drop" else starred)
            row += run.rows


def check_counts(knitted: Knit, plan: Plan) -> None:
    """Every row of the plan, each with its count; inside a repeat that changes its count it may be another."""
    counts = plan.rows.stitches
    assert [row.number for row in knitted.rows] == list(range(1, plan.rows.count + 1))
    assert knitted.start_stitches == counts[0] and knitted.stitches_left == 0
    assert [part.name for part in knitted.pattern.parts] == [part.section.name.strip() for part in plan.parts]
    free = set(inside_repeats(plan))
    wrong = [row for row in knitted.rows if row.number not in free and row.stitches != counts[row.number]]
    assert not wrong, f"row {wrong[0].number}: {wrong[0].stitches} sts, by the plan {counts[wrong[0].number]}"


def inside_repeats(plan: Plan) -> Iterator[int]:
    """Rows after which a pattern's count is not that of its first row."""
    for band in bands(plan):
        if band.pattern is None:
            continue
        levels = levels_of(band.pattern)
        for row in range(band.first, band.last):
            place = (row - band.first) % len(band.pattern.rows) + 1
            if levels[place] != levels[0]:
                yield row


def check_loops(knitted: Knit, plan: Plan) -> None:
    """Loops and extra wraps: of plain bands row by row, of patterns over each whole repeat."""
    if plan.design.edge.stitches and draw(plan.table.measures.rows(plan.design.edge.stitch)) != PLAIN:
        return
    yarn = RowYarn(plan.table)
    for band in bands(plan):
        rows = knitted.rows[band.first - 1 : band.last]
        if band.pattern is None:
            check_plain(band, rows, plan.rows.stitches[band.first - 1])
        elif not band.pattern.is_panel and levels_of(band.pattern)[0] == levels_of(band.pattern)[-1]:
            check_repeats(band, band.pattern, rows, plan, yarn)


def check_plain(band: Band, rows: tuple[KnittedRow, ...], before: int) -> None:
    """A stitch, a loop; what is bound off was worked as well. Where an elongated row is shaped some may be plain."""
    for place, row in enumerate(rows):
        wraps = band.wraps - 1 if place % 2 == 0 else 0
        least = min(before, row.stitches) - abs(row.stitches - before) - row.shaping.total()
        assert row.loops == row.stitches + row.shaping["bind off"], f"row {row.number}: {row.loops} loops"
        assert wraps * least <= row.extra_wraps <= wraps * row.stitches, f"row {row.number}: {row.extra_wraps} wraps"
        before = row.stitches


def check_repeats(band: Band, pattern: Pattern, rows: tuple[KnittedRow, ...], plan: Plan, yarn: RowYarn) -> None:
    """The plan's loops of each whole repeat, and its extra wraps, but for the stitches at the panel's two ends.

    There the plan counts whole multiples row by row, while on the needles they stay as they are to the repeat's end.
    """
    size, each = len(pattern.rows), draw(plan.table.measures.rows(band.stitch))
    counts = plan.rows.stitches
    for first in range(0, len(rows) - size + 1, size):
        worked = rows[first : first + size]
        if any(may_be_plain(row, plan) for row in worked):
            continue
        splits = [yarn.split(band.stitch, 1, counts[row.number]) for row in worked]
        at_ends = size * ends(pattern, plan, [counts[worked[0].number - 1], *(counts[row.number] for row in worked)])
        plain = sum(split.edge + split.fill for split in splits)
        own = sum(split.own for split in splits)
        loops = sum(row.loops + CROSSED * row.crossed - row.shaping["bind off"] for row in worked)
        wraps = sum(row.extra_wraps for row in worked)
        where = f"rows {worked[0].number} to {worked[-1].number} ({band.stitch})"
        off = abs(loops - plain - own * each.loops)
        assert off <= at_ends * abs(each.loops - 1) + 1e-6, f"{where}: {loops} loops, {plain + own * each.loops}"
        assert abs(wraps - own * each.wraps) <= at_ends * each.wraps + 1e-6, f"{where}: {wraps} extra wraps"


def may_be_plain(row: KnittedRow, plan: Plan) -> bool:
    """Whether the row's shaping may break its pattern: stitches increased or decreased across it."""
    return plan.rows.evenly[row.number] != 0


def ends(pattern: Pattern, plan: Plan, counts: list[int]) -> int:
    """The most stitches of a row that may be in the pattern by the plan and filled on the needles, or the reverse."""
    gained = sum(abs(after - before) for before, after in itertools.pairwise(counts))
    return 2 * (2 * pattern.multiple.each + pattern.multiple.extra) + gained + plan.design.spine.stitches
