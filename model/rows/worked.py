"""A shawl worked from the first row to the last: its parts with their live stitches, and the table of all rows."""

from itertools import pairwise
from typing import NamedTuple

from halfhank.grammar.description import Description
from halfhank.grammar.problems import Problem
from halfhank.model.rows.row_table import NO_RATES, Rates, Rows
from halfhank.model.rows.sections import Section, sections
from halfhank.model.rows.shaping import (
    BIND_OFF,
    INCREASE,
    State,
    Worked,
    change_of,
    force_of,
    placed_gains,
    state_after,
    work_back,
    work_forth,
)
from halfhank.model.yarn.stitch_table import StitchTable

JUMP_STITCHES, JUMP_ROWS = 5, 6
"""Increases of so many stitches at one edge, at most every so many rows, are drawn as a step."""


def start_state(description: Description) -> State:
    """Before row 1."""
    return State(0, description.shape.start.stitches, frozenset())


def work_sections(
    description: Description, todo: list[Section], state: State, before: list[Worked]
) -> tuple[list[Worked], Problem | None]:
    """The sections worked one after the other; `before`: what was worked on the way out before them."""
    worked, done = [], {part.section.part: part for part in before}
    for section in todo:
        if section.back:
            part, problem = work_back(done[section.part], section, state)
        else:
            force = force_of(description, description.parts[section.part])
            part, problem = work_forth(force, section, state)
            done[section.part] = part
        worked.append(part)
        if problem:
            return worked, problem
        state = state_after(part, state)
    return worked, None


def work(room: StitchTable, allowed: int) -> tuple[list[Worked], Problem | None]:
    """The whole shawl, with that count for `as yarn allows`; with a problem, up to where it cannot be worked."""
    return work_sections(room.description, sections(room, allowed), start_state(room.description), [])


def last_stitch(parts: list[Worked]) -> str:
    """The stitch of the last row."""
    return next(part.section.runs[-1].stitch for part in reversed(parts) if part.section.runs)


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


def row_table(room: StitchTable, parts: list[Worked]) -> Rows:
    """All rows of the worked parts, with the measures of the bands that they stand in."""
    total = sum(len(part.counts) for part in parts) + 1
    gains = tuple([0] * total for _ in range(4))
    jumps = tuple([0] * total for _ in range(2))
    columns = Columns([parts[0].begin], [0.0], [0.0], gains, jumps, [NO_RATES], [-1])  # type: ignore[arg-type]
    for part in parts:
        columns.stitches.extend(part.counts)
        _measure(room, part, columns)
        _place(part, columns)
        columns.rates.extend(_rates(part))
    columns.width_cm[0] = columns.width_cm[1]
    lists = [columns.stitches, columns.width_cm, columns.height_cm, *gains, *jumps, columns.rates, columns.band]
    return Rows(*(tuple(column) for column in lists))  # type: ignore[arg-type]


def _measure(room: StitchTable, part: Worked, columns: Columns) -> None:
    for run in part.section.runs:
        columns.width_cm.extend([room[run.stitch].fabric.stitch_cm] * run.rows)
        columns.height_cm.extend(room.heights_cm(run.stitch, run.rows, run.wraps))
        columns.band.extend([columns.band[-1] + 1] * run.rows)


def _place(part: Worked, columns: Columns) -> None:
    for act in part.acts:
        line, row = part.force.lines[act.line], part.first_row + act.row - 1
        for column, gain in zip(columns.gains, placed_gains(line, act.change), strict=True):
            column[row] += gain
        if row > 1 and not part.section.back:
            _jump(line_jumps(part, act.line, act.change), row, columns)


def _jump(steps: tuple[int, int], row: int, columns: Columns) -> None:
    for column, step in zip(columns.jumps, steps, strict=True):
        column[row] += step


def line_jumps(part: Worked, index: int, change: int) -> tuple[int, int]:
    """The part of an act's gains at the upper and the lower edge that is drawn as a step."""
    line = part.force.lines[index]
    upper, lower, _, _ = placed_gains(line, change)
    if line.action == BIND_OFF:
        return upper, lower
    if line.action != INCREASE or (line.every is not None and line.every < JUMP_ROWS):
        return 0, 0
    return (upper if upper >= JUMP_STITCHES else 0), (lower if lower >= JUMP_STITCHES else 0)


def _rates(part: Worked) -> list[Rates]:
    """The rates in force on each row of a part, the same record as long as nothing changes."""
    rows = len(part.counts)
    spans = [(*span, k) for k in range(len(part.force.lines)) if (span := _in_force(part, k))]
    cuts = sorted({0, rows, *(first - 1 for first, _, _ in spans), *(last for _, last, _ in spans)})
    rates: list[Rates] = []
    for begin, end in pairwise(cuts):
        lines = [k for first, last, k in spans if first <= begin + 1 and end <= last]
        rates.extend([_sum_rates(part, lines)] * (end - begin))
    return rates


def _in_force(part: Worked, index: int) -> tuple[int, int] | None:
    """First and last row of a part in which a repeating line is in force, None where it never is."""
    line, rows = part.force.lines[index], len(part.counts)
    if line.every is None or line.action == BIND_OFF:
        return None
    if part.section.back:
        if index not in part.starts:
            return None
        first, times = part.starts[index], sum(act.line == index for act in part.acts)
        last = min(rows, first + times * line.every - 1)
    else:
        first = max(1, line.from_row - (0 if part.force.own else part.first_row - 1))
        last = min(rows, part.stops.get(index, rows + 1) - 1)
    return (first, last) if first <= last else None


def _sum_rates(part: Worked, lines: list[int]) -> Rates:
    sums = [0.0, 0.0, 0.0, 0.0]
    for k in lines:
        line = part.force.lines[k]
        change = change_of(line, 0) * (-1 if part.section.back else 1)
        for place, gain in enumerate(placed_gains(line, change)):
            sums[place] += gain / (line.every or 1)
    return Rates(*sums) if lines else NO_RATES
