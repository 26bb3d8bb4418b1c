"""Shaping in time: which line acts on which row, and the live stitches that leaves.

Lines of the shape are counted from the shawl's row 1, a part's own from its first row. Several due on one row act in
the order of the file, each whole or not at all.
"""

from itertools import accumulate

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Design, Gains, Part, ShapingLine
from halfhank.model.number_words import counted
from halfhank.model.problems import plan_problems as known
from halfhank.model.rows.sections import Section

MAX_STITCHES = 20_000
BIND_OFF, INCREASE, DECREASE = "bind off", "increase", "decrease"


class Act(NamedTuple):
    """A line (its index among those in force) acting on a row of the part, and what the live count gains by it."""

    row: int
    line: int
    change: int


class ActiveLines(NamedTuple):
    """The lines in force in a part; `own`: they are the part's own and counted from its first row."""

    lines: tuple[ShapingLine, ...]
    own: bool


class WorkedPart(NamedTuple):
    """A part with its shaping calculated.

    `first_row` is its first row in the shawl, `begin` the live stitches before it, `counts` those after each of its
    rows. `stops`: for lines stopped by `until`, the first row of the part on which they were not used (0: before the
    part). `starts`: in the mirrored second half, the first row on which each line is used.
    """

    section: Section
    active: ActiveLines
    first_row: int
    begin: int
    acts: list[Act]
    counts: list[int]
    stops: dict[int, int]
    starts: dict[int, int]

    @property
    def end(self) -> int:
        return self.counts[-1] if self.counts else self.begin

    @property
    def sums(self) -> list[int]:
        """Stitches of the first 0, 1, 2 … rows together."""
        return [0, *accumulate(self.counts)]

    @property
    def bound_off(self) -> int:
        """Stitches bound off on the way."""
        if not any(line.action == BIND_OFF for line in self.active.lines):
            return 0
        return sum(-act.change for act in self.acts if self.active.lines[act.line].action == BIND_OFF)

    @property
    def last_row(self) -> int:
        return self.first_row + len(self.counts) - 1


class WorkState(NamedTuple):
    """The state of the work: rows done, live stitches, and the shape's lines that have stopped for good."""

    rows: int
    live: int
    stopped: frozenset[int]


def active_lines(design: Design, part: Part) -> ActiveLines:
    """The part's own lines if it has any (or none, where it is even), else the shape's."""
    return ActiveLines(design.lines_in(part), part.lines is not None)


def change_of(line: ShapingLine, live: int) -> int:
    """What a line adds to the live count when it acts."""
    if line.evenly_to is not None:
        return line.evenly_to - live
    total = line.amounts.total
    return total if line.action == INCREASE else -total


def due(line: ShapingLine, offset: int, rows: int) -> range:
    """The rows 1…rows of a part on which a line is due, counted from `offset` rows before the part."""
    first = line.from_row - offset
    if line.every is None:
        return range(first, first + 1) if 1 <= first <= rows else range(0)
    if first < 1:
        first += -((first - 1) // line.every) * line.every
    return range(first, rows + 1, line.every)


def passes_until(line: ShapingLine, live: int) -> bool:
    """Whether this live count lies past the line's `until`."""
    if line.until is None:
        return False
    return live > line.until if line.action == INCREASE else live < line.until


def _fault(line: ShapingLine, row: int, live: int, after: int) -> Problem | None:
    """What keeps a line from acting on this row of the shawl, if anything does."""
    if line.evenly_to is not None and (after < live) == (line.action == INCREASE) and after != live:
        kind = known.WRONG_WAY_UP if line.action == INCREASE else known.WRONG_WAY_DOWN
        return kind.at(line.span, row=row, stitches=live, total=after)
    if after < 1:
        stitches = counted(live, "stitch", "stitches")
        at_once = line.every is None and not line.written.value.from_written
        too_few = known.TOO_FEW_STITCHES_AT_ONCE if at_once else known.TOO_FEW_STITCHES
        return too_few.at(line.span, row=row, stitches=stitches, taken=live - after)
    if after > MAX_STITCHES:
        return known.TOO_MANY_STITCHES.at(line.span, row=row, stitches=after, most=MAX_STITCHES)
    return None


def work_part(active: ActiveLines, section: Section, state: WorkState) -> tuple[WorkedPart, Problem | None]:
    """A part of the first half. With a problem, the rows before the one that cannot be worked."""
    offset = 0 if active.own else state.rows
    stopped = set() if active.own else set(state.stopped)
    stops = dict.fromkeys(stopped, 0)
    events = sorted((row, k) for k, line in enumerate(active.lines) for row in due(line, offset, section.rows))
    live = state.live
    acts: list[Act] = []
    for row, k in events:
        if k in stopped:
            continue
        line = active.lines[k]
        change = change_of(line, live)
        if passes_until(line, live + change):
            stopped.add(k)
            stops[k] = row
            continue
        problem = _fault(line, state.rows + row, live, live + change)
        if problem:
            acts = [act for act in acts if act.row < row]
            return _worked(section._replace(rows=row - 1), active, state, acts, stops), problem
        live += change
        acts.append(Act(row, k, change))
    return _worked(section, active, state, acts, stops), None


def _worked(
    section: Section, active: ActiveLines, state: WorkState, acts: list[Act], stops: dict[int, int]
) -> WorkedPart:
    counts = live_counts(state.live, acts, section.rows)
    return WorkedPart(section, active, state.rows + 1, state.live, acts, counts, stops, {})


def live_counts(begin: int, acts: list[Act], rows: int) -> list[int]:
    """Live stitches after each row."""
    gains = [0] * (rows + 1)
    gains[0] = begin
    for act in acts:
        gains[act.row] += act.change
    return list(accumulate(gains))[1:]


def state_after(worked: WorkedPart, state: WorkState) -> WorkState:
    """The state of the work after a part."""
    stopped = state.stopped if worked.active.own else frozenset(worked.stops)
    return WorkState(state.rows + len(worked.counts), worked.end, stopped)


def work_mirrored(out: WorkedPart, section: Section, state: WorkState) -> tuple[WorkedPart, Problem | None]:
    """A part in the mirrored second half: each line undoes as often as it acted, so that the part ends as it began."""
    by_line: dict[int, list[Act]] = {}
    for act in out.acts:
        by_line.setdefault(act.line, []).append(act)
    acts, starts = [], {}
    for k, done in by_line.items():
        every = out.active.lines[k].every or 1
        starts[k] = first = _first_mirrored(done, every, section.rows, state.rows)
        acts += [Act(first + m * every, k, -act.change) for m, act in enumerate(done)]
    acts.sort()
    worked = _worked(section, out.active, state, acts, {})._replace(starts=starts)
    if min(worked.counts, default=1) >= 1 and max(worked.counts, default=1) <= MAX_STITCHES:
        return worked, None
    act = next(act for act in acts if not 1 <= worked.counts[act.row - 1] <= MAX_STITCHES)
    return worked, _mirrored_fault(out, act, state.rows + act.row, worked.counts[act.row - 1])


def _first_mirrored(done: list[Act], every: int, rows: int, before: int) -> int:
    """The first row on which a line is used in the mirrored half: a right-side row, if all its rows have room then."""
    first = 1 + max(0, rows - done[-1].row - every + 1)
    if (before + first) % 2 == 0:
        if first + 1 + (len(done) - 1) * every <= rows:
            return first + 1
        if first > 1:
            return first - 1
    return first


def _mirrored_fault(out: WorkedPart, act: Act, row: int, live: int) -> Problem:
    kind = known.TOO_FEW_STITCHES_ON_WAY_BACK if live < 1 else known.TOO_MANY_STITCHES_ON_WAY_BACK
    return kind.at(out.active.lines[act.line].span, row=row, stitches=live)


def last_stitch(parts: list[WorkedPart]) -> str:
    """The stitch of the last row."""
    return next(part.section.runs[-1].stitch for part in reversed(parts) if part.section.runs)


def placed_gains(line: ShapingLine, change: int) -> Gains:
    """One act's gain by place, negative where it takes away."""
    if line.evenly_to is not None:
        return Gains(evenly=change)
    return line.amounts if change > 0 else Gains(*(-amount for amount in line.amounts))
