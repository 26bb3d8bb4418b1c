"""A shawl worked from the first row to the last: its parts with their live stitches, and the table of all rows."""

from itertools import pairwise

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.rows.row_table import NO_RATES, Rates, Rows
from halfhank.model.rows.sections import Section, sections
from halfhank.model.rows.shaping import (
    BIND_OFF,
    INCREASE,
    WorkedPart,
    WorkState,
    active_lines,
    change_of,
    placed_gains,
    state_after,
    work_mirrored,
    work_part,
)

JUMP_STITCHES, JUMP_ROWS = 5, 6
"""Increases of so many stitches at one edge, at most every so many rows, are drawn as a step."""


def start_state(design: Design) -> WorkState:
    """Before row 1."""
    return WorkState(0, design.start.stitches, frozenset())


def work_sections(
    design: Design, todo: list[Section], state: WorkState, before: list[WorkedPart]
) -> tuple[list[WorkedPart], Problem | None]:
    """The sections worked one after the other; `before`: what was worked in the first half before them."""
    worked, done = [], {part.section.part: part for part in before}
    for section in todo:
        if section.mirrored:
            part, problem = work_mirrored(done[section.part], section, state)
        else:
            active = active_lines(design, design.parts[section.part])
            part, problem = work_part(active, section, state)
            done[section.part] = part
        worked.append(part)
        if problem:
            return worked, problem
        state = state_after(part, state)
    return worked, None


def work(design: Design, allowed: int) -> tuple[list[WorkedPart], Problem | None]:
    """The whole shawl, with that count for `as yarn allows`; with a problem, up to where it cannot be worked."""
    return work_sections(design, sections(design, allowed), start_state(design), [])


# The table of rows.


class Columns(NamedTuple):
    """The growing columns of `Rows`, index 0 the start."""

    stitches: list[int]
    width_cm: list[float]
    height_cm: list[float]
    gains: tuple[list[int], list[int], list[int], list[int]]
    jumps: tuple[list[int], list[int]]
    rates: list[Rates]
    band: list[int]


def row_table(measures: StitchMeasures, parts: list[WorkedPart]) -> Rows:
    """All rows of the worked parts, with the measures of their bands."""
    total = sum(len(part.counts) for part in parts) + 1
    gains = tuple([0] * total for _ in range(4))
    jumps = tuple([0] * total for _ in range(2))
    columns = Columns([parts[0].begin], [0.0], [0.0], gains, jumps, [NO_RATES], [-1])  # type: ignore[arg-type]
    for part in parts:
        columns.stitches.extend(part.counts)
        _measure(measures, part, columns)
        _place(part, columns)
        columns.rates.extend(_rates(part))
    columns.width_cm[0] = columns.width_cm[1]
    lists = [columns.stitches, columns.width_cm, columns.height_cm, *gains, *jumps, columns.rates, columns.band]
    return Rows(*(tuple(column) for column in lists))  # type: ignore[arg-type]


def _measure(measures: StitchMeasures, part: WorkedPart, columns: Columns) -> None:
    for run in part.section.runs:
        columns.width_cm.extend([measures.measure(run.stitch).stitch_cm] * run.rows)
        columns.height_cm.extend(measures.heights_cm(run.stitch, run.rows, run.wraps))
        columns.band.extend([columns.band[-1] + 1] * run.rows)


def _place(part: WorkedPart, columns: Columns) -> None:
    for act in part.acts:
        line, row = part.active.lines[act.line], part.first_row + act.row - 1
        for column, gain in zip(columns.gains, placed_gains(line, act.change), strict=True):
            column[row] += gain
        if row > 1 and not part.section.mirrored:
            _jump(line_jumps(part, act.line, act.change), row, columns)


def _jump(steps: tuple[int, int], row: int, columns: Columns) -> None:
    for column, step in zip(columns.jumps, steps, strict=True):
        column[row] += step


def line_jumps(part: WorkedPart, index: int, change: int) -> tuple[int, int]:
    """The part of an act's gains at the upper and the lower edge that is drawn as a step."""
    line = part.active.lines[index]
    upper, lower, _, _ = placed_gains(line, change)
    if line.action == BIND_OFF:
        return upper, lower
    if line.action != INCREASE or (line.every is not None and line.every < JUMP_ROWS):
        return 0, 0
    return (upper if upper >= JUMP_STITCHES else 0), (lower if lower >= JUMP_STITCHES else 0)


def _rates(part: WorkedPart) -> list[Rates]:
    """The rates in force on each row of a part, the same record as long as nothing changes."""
    rows = len(part.counts)
    spans = [(*span, k) for k in range(len(part.active.lines)) if (span := _in_force(part, k))]
    cuts = sorted({0, rows, *(first - 1 for first, _, _ in spans), *(last for _, last, _ in spans)})
    rates: list[Rates] = []
    for begin, end in pairwise(cuts):
        lines = [k for first, last, k in spans if first <= begin + 1 and end <= last]
        rates.extend([_sum_rates(part, lines)] * (end - begin))
    return rates


def _in_force(part: WorkedPart, index: int) -> tuple[int, int] | None:
    """First and last row of a part in which a repeating line is in force, None where it never is."""
    line, rows = part.active.lines[index], len(part.counts)
    if line.every is None or line.action == BIND_OFF:
        return None
    if part.section.mirrored:
        if index not in part.starts:
            return None
        first, times = part.starts[index], sum(act.line == index for act in part.acts)
        last = min(rows, first + times * line.every - 1)
    else:
        first = max(1, line.from_row - (0 if part.active.own else part.first_row - 1))
        last = min(rows, part.stops.get(index, rows + 1) - 1)
    return (first, last) if first <= last else None


def _sum_rates(part: WorkedPart, lines: list[int]) -> Rates:
    sums = [0.0, 0.0, 0.0, 0.0]
    for k in lines:
        line = part.active.lines[k]
        change = change_of(line, 0) * (-1 if part.section.mirrored else 1)
        for place, gain in enumerate(placed_gains(line, change)):
            sums[place] += gain / (line.every or 1)
    return Rates(*sums) if lines else NO_RATES
