"""The rows that a drawing marks: halfway, turn back by, bind off by."""

from bisect import bisect_left
from typing import NamedTuple

from halfhank.grammar.problems import Problem
from halfhank.model.rows.sections import MAX_ROWS, Run, Section, back, turned_parts
from halfhank.model.rows.shaping import Force, State, Worked, state_after, work_forth
from halfhank.model.rows.worked import last_stitch, start_state, work_sections
from halfhank.model.shawl import Mark, Marks
from halfhank.model.yarn.row_yarn import RowYarn, YarnSupply, bind_off_m, part_rows_m, part_total_m, start_m
from halfhank.model.yarn.stitch_table import StitchTable


class Progress(NamedTuple):
    """A shawl worked out, with the yarn used after each row from 0, in m, and that of the whole."""

    room: StitchTable
    yarn: RowYarn
    skein: YarnSupply
    parts: list[Worked]
    used_m: list[float]
    total_m: float


def marks(at: Progress) -> Marks:
    """All marks of a plan."""
    turned = at.room.description.turn_back is not None
    return Marks(_halfway(at), _turn_back(at) if turned else None, None if turned else _bind_off_by(at))


def _mark(at: Progress, row: int, used_m: float, beyond: bool = False) -> Mark:
    used_g = used_m / at.skein.metres_per_gram
    return Mark(row, used_g, at.skein.skein_g - used_g, beyond)


def _halfway(at: Progress) -> Mark | None:
    """The first row after which half of the shawl's own yarn is used; none where only the bind-off gets there."""
    row = max(1, bisect_left(at.used_m, at.total_m / 2))
    return _mark(at, row, at.used_m[row]) if row < len(at.used_m) else None


# Turn back by.


def _turn_back(at: Progress) -> Mark | None:
    """The latest even row of the way out after which turning is paid for, with all that then follows.

    Yarn grows with the row at which the work turns; the row is bracketed first and then moved on while the next is
    paid for.
    """
    half = at.parts[: turned_parts(at.room.description)]
    rows = sum(len(part.counts) for part in half)
    low, high = 0, rows // 2
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if _turns_at(at, half, 2 * middle) else (low, middle - 1)
    while 2 * low + 2 <= rows and _turns_at(at, half, 2 * low + 2):
        low += 1
    return _mark(at, 2 * low, at.used_m[2 * low]) if low else None


def _turns_at(at: Progress, half: list[Worked], row: int) -> bool:
    """Whether the skein pays for a shawl whose growing half ends with that row."""
    out, state = _cut_short(at, half, row)
    turned = turned_parts(at.room.description)
    centre = [part.section for part in at.parts[turned : len(at.room.description.parts)]]
    todo = centre + [back(part.section) for part in reversed(out)]
    rest, problem = work_sections(at.room.description, todo, state, out)
    if problem:
        return False
    parts = out + rest
    total = start_m(at.room) + sum(part_total_m(at.yarn, part) for part in parts)
    return at.skein.pays(total + bind_off_m(at.room, last_stitch(parts)) * parts[-1].end)


def _cut_short(at: Progress, half: list[Worked], row: int) -> tuple[list[Worked], State]:
    """The parts of the growing half up to that row, and where the work then stands."""
    state, out = start_state(at.room.description), []
    for part in half:
        rows = min(len(part.counts), row - state.rows)
        if rows < len(part.counts):
            part, _ = work_forth(part.force, _shortened(part.section, rows), state)
        state = state_after(part, state)
        out.append(part)
    return [part for part in out if part.counts], state


def _shortened(section: Section, rows: int) -> Section:
    runs, left = list[Run](), rows
    for run in section.runs:
        if left > 0:
            runs.append(run._replace(rows=min(run.rows, left)))
        left -= run.rows
    return section._replace(runs=tuple(runs), rows=rows)


# Bind off by.


def _bind_off_by(at: Progress) -> Mark | None:
    """The latest even row whose stitches can be bound off with the margin left."""
    beyond, endless = _beyond(at)
    if beyond is not None or endless:
        return beyond
    rows = [(part, k, run.stitch) for part in at.parts for k, run in _runs_by_row(part)]
    for row in range(len(rows) - len(rows) % 2, 0, -2):
        part, k, stitch = rows[row - 1]
        if at.skein.pays(at.used_m[row] + bind_off_m(at.room, stitch) * part.counts[k]):
            return _mark(at, row, at.used_m[row])
    return None


def _runs_by_row(part: Worked) -> list[tuple[int, Run]]:
    runs = [run for run in part.section.runs for _ in range(run.rows)]
    return list(enumerate(runs))


def _beyond(at: Progress) -> tuple[Mark | None, bool]:
    """The mark past the planned end, the last band's stitch and the shaping going on; None where none is paid for.

    A last part that ends with fewer stitches than it began with is taken to be at its end. With it: whether the yarn
    outlasts the most rows that a shawl may have, so that no row is the last.
    """
    last = at.parts[-1]
    if last.end < last.begin:
        return None, False
    planned = len(at.used_m) - 1
    run, rows = last.section.runs[-1], len(last.counts)
    found, ahead = None, 64
    while ahead:
        ahead = min(ahead, MAX_ROWS - planned)
        longer, problem = _longer(at, rows + ahead)
        found, done = _last_paid(at, longer, run, found)
        if not done and not problem and planned + ahead >= MAX_ROWS:
            return None, True
        ahead = 0 if done or problem else 2 * ahead
    return found, False


def _longer(at: Progress, rows: int) -> tuple[Worked, Problem | None]:
    """The last part with so many rows, the last band going on."""
    last = at.parts[-1]
    stopped = frozenset(line for line, row in last.stops.items() if row == 0)
    state = State(last.first_row - 1, last.begin, stopped)
    runs = last.section.runs
    runs = (*runs[:-1], runs[-1]._replace(rows=runs[-1].rows + rows - len(last.counts)))
    section = last.section._replace(runs=runs, rows=rows)
    return work_forth(Force(last.force.lines, last.force.own), section, state)


def _last_paid(at: Progress, longer: Worked, run: Run, found: Mark | None) -> tuple[Mark | None, bool]:
    """The last even row past the planned end that is paid for, and whether none after these rows can be."""
    planned, first = len(at.used_m) - 1, len(at.parts[-1].counts)
    off_m = bind_off_m(at.room, run.stitch)
    used_m = at.used_m[-1]
    rows_m = part_rows_m(at.yarn, _clipped(longer))
    for k in range(first, len(longer.counts)):
        used_m += rows_m[k]
        row = planned + k - first + 1
        if row % 2 == 0 and at.skein.pays(used_m + off_m * longer.counts[k]):
            found = _mark(at, row, used_m, beyond=True)
        if not at.skein.pays(used_m):
            return found, True
    return found, False


def _clipped(part: Worked) -> Worked:
    """A part whose bands end where its rows do."""
    return part._replace(section=_shortened(part.section, len(part.counts)))
