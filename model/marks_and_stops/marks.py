"""The rows that a drawing marks: halfway, turn back by, bind off by."""

from bisect import bisect_left

from halfhank.grammar.problems.problem import Problem
from halfhank.model.rows.sections import MAX_ROWS, Run, mirrored, shortened
from halfhank.model.rows.shaping import WorkedPart, WorkState, last_stitch, state_after, work_part
from halfhank.model.rows.worked import start_state, work_sections
from halfhank.model.shawl import Mark, Marks
from halfhank.model.yarn.row_yarn import before_rows_m, bind_off_m
from halfhank.model.yarn.working import Working


def marks(working: Working) -> Marks:
    """All marks of a plan."""
    turned = working.design.turns_back
    turn_back = _turn_back(working) if turned else None
    return Marks(_halfway(working), turn_back, None if turned else _bind_off_by(working))


def _mark(working: Working, row: int, used_m: float, beyond: bool = False) -> Mark:
    used_g = used_m / working.supply.metres_per_gram
    return Mark(row, used_g, working.left_after_g(row, used_m), beyond)


def _halfway(working: Working) -> Mark | None:
    """The first row after which half of the shawl's own yarn is used; none where only the bind-off gets there."""
    row = max(1, bisect_left(working.used_m, working.total_m / 2))
    return _mark(working, row, working.used_m[row]) if row < len(working.used_m) else None


# Turn back by.


def _turn_back(working: Working) -> Mark | None:
    """The last even row of the first half after which there is enough yarn to turn, with all that then follows.

    Yarn grows with the row at which the work turns; the row is bracketed first and then moved on while there is enough
    for the next.
    """
    half = working.parts[: working.design.turned_parts]
    rows = sum(len(part.counts) for part in half)
    low, high = 0, rows // 2
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if _turns_at(working, half, 2 * middle) else (low, middle - 1)
    while 2 * low + 2 <= rows and _turns_at(working, half, 2 * low + 2):
        low += 1
    return _mark(working, 2 * low, working.used_m[2 * low]) if low else None


def _turns_at(working: Working, half: list[WorkedPart], row: int) -> bool:
    """Whether there is enough yarn for a shawl whose first half ends with that row."""
    out, state = _cut_short(working, half, row)
    turned = working.design.turned_parts
    centre = [part.section for part in working.parts[turned : len(working.design.parts)]]
    todo = centre + [mirrored(part.section) for part in reversed(out)]
    rest, problem = work_sections(working.design, todo, state, out)
    if problem:
        return False
    parts = out + rest
    total = before_rows_m(working.table) + sum(working.yarn.total_m(part) for part in parts)
    return working.supply.pays(total + bind_off_m(working.table, last_stitch(parts)) * parts[-1].end)


def _cut_short(working: Working, half: list[WorkedPart], row: int) -> tuple[list[WorkedPart], WorkState]:
    """The parts of the first half up to that row, and the state of the work after it."""
    state, out = start_state(working.design), []
    for part in half:
        rows = min(len(part.counts), row - state.rows)
        if rows < len(part.counts):
            part, _ = work_part(part.active, shortened(part.section, rows), state)
        state = state_after(part, state)
        out.append(part)
    return [part for part in out if part.counts], state


# Bind off by.


def _bind_off_by(working: Working) -> Mark | None:
    """The latest even row whose stitches can be bound off with the margin left."""
    beyond, endless = _beyond(working)
    if beyond is not None or endless:
        return beyond
    rows = [(part, k, run.stitch) for part in working.parts for k, run in _runs_by_row(part)]
    for row in range(len(rows) - len(rows) % 2, 0, -2):
        part, k, stitch = rows[row - 1]
        if working.supply.pays(working.used_m[row] + bind_off_m(working.table, stitch) * part.counts[k]):
            return _mark(working, row, working.used_m[row])
    return None


def _runs_by_row(part: WorkedPart) -> list[tuple[int, Run]]:
    runs = [run for run in part.section.runs for _ in range(run.rows)]
    return list(enumerate(runs))


def _beyond(working: Working) -> tuple[Mark | None, bool]:
    """The mark after the planned end, with the last band's stitch and shaping continued; None without the yarn for it.

    A last part that ends with fewer stitches than it began with is taken to be at its end. With it: whether the yarn
    is enough for the largest number of rows that a shawl may have, so that no row is the last.
    """
    last = working.parts[-1]
    if last.end < last.begin:
        return None, False
    planned = len(working.used_m) - 1
    run, rows = last.section.runs[-1], len(last.counts)
    found, ahead = None, 64
    while ahead:
        ahead = min(ahead, MAX_ROWS - planned)
        longer, problem = _longer(working, rows + ahead)
        found, done = _last_paid(working, longer, run, found)
        if not done and not problem and planned + ahead >= MAX_ROWS:
            return None, True
        ahead = 0 if done or problem else 2 * ahead
    return found, False


def _longer(working: Working, rows: int) -> tuple[WorkedPart, Problem | None]:
    """The last part with so many rows, the last band going on."""
    last = working.parts[-1]
    stopped = frozenset(line for line, row in last.stops.items() if row == 0)
    state = WorkState(last.first_row - 1, last.begin, stopped)
    runs = last.section.runs
    runs = (*runs[:-1], runs[-1]._replace(rows=runs[-1].rows + rows - len(last.counts)))
    section = last.section._replace(runs=runs, rows=rows)
    return work_part(last.active, section, state)


def _last_paid(working: Working, longer: WorkedPart, run: Run, found: Mark | None) -> tuple[Mark | None, bool]:
    """The last even row after the planned end with enough yarn, and whether there can be none after these rows."""
    planned, first = len(working.used_m) - 1, len(working.parts[-1].counts)
    off_m = bind_off_m(working.table, run.stitch)
    used_m = working.used_m[-1]
    rows_m = working.yarn.rows_m(_clipped(longer))
    for k in range(first, len(longer.counts)):
        used_m += rows_m[k]
        row = planned + k - first + 1
        if row % 2 == 0 and working.supply.pays(used_m + off_m * longer.counts[k]):
            found = _mark(working, row, used_m, beyond=True)
        if not working.supply.pays(used_m):
            return found, True
    return found, False


def _clipped(part: WorkedPart) -> WorkedPart:
    """A part whose bands end where its rows do."""
    return part._replace(section=shortened(part.section, len(part.counts)))
