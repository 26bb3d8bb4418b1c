"""`as yarn allows`: the largest count that the skein pays for, every smaller one workable and paid for too.

Each count is reckoned exactly, but most are passed over: from one count to the next the live stitches of a row, seen from
the same place of the work, change by no more than the lines can give in the rows added. While what that can add stays
within what is left of the skein, the counts between need not be looked at. Where the lines give no such bound (`until` in a part
that comes later, `increase evenly to`), every count is looked at.
"""

from bisect import bisect_right
from typing import NamedTuple

from halfhank.grammar.problems import Problem, Span, advice, mistake
from halfhank.grammar.syntax import Band, Drop, Repeat, ShapingLine
from halfhank.model.bands import (
    MAX_ROWS,
    AnyBand,
    Section,
    back,
    count_rows,
    forth,
    growing_part,
    has_allowance,
    max_wraps,
    total_rows,
    turned_parts,
    unit_rows,
)
from halfhank.model.fabrics import Material, Workroom, bands_of
from halfhank.model.shaping import (
    BIND_OFF,
    INCREASE,
    MAX_STITCHES,
    Act,
    Force,
    Worked,
    change_of,
    force_of,
    state_after,
    work_forth,
)
from halfhank.model.work import last_stitch, start_state, work_sections
from halfhank.model.yarn import BIND_OFF_STITCH, PLAIN, RowYarn, Skein, bind_off_m, part_total_m, start_m

BACK_ACTS = 3
"""By how many acts of a line a row of the way back may differ from one count to another, seen from the part's end."""


class Reckoned(NamedTuple):
    """One count worked out: yarn of the whole shawl, its rows, and the least and most live stitches after the growing part's start."""

    total_m: float
    rows: int
    least: int
    most: int


class Step(NamedTuple):
    """What one more count can change at most.

    `rows`: rows added. `up`, `down`: live stitches of any row. `jitter_up`, `jitter_down`: whatever the number of counts.
    `off`: stitches bound off on the way. `swing`: stitches that all lines on one row move. `sure`: whether these hold.
    """

    rows: int
    up: int
    down: int
    jitter_up: int
    jitter_down: int
    off: int
    swing: int
    sure: bool


class Trials:
    """Reckons the shawl for one count after the other, keeping what they share."""

    def __init__(self, room: Workroom, yarn: RowYarn) -> None:
        description = room.description
        index = growing_part(description)
        assert index is not None
        self.room, self.yarn, self.index = room, yarn, index
        self.part = description.parts[index]
        sections = [forth(room, k, part, 0) for k, part in enumerate(description.parts[:index])]
        self.before, self.problem = work_sections(description, sections, start_state(description), [])
        self.state = start_state(description)
        for part in self.before:
            self.state = state_after(part, self.state)
        self.before_m = start_m(room) + sum(part_total_m(yarn, part) for part in self.before)
        self.after = [forth(room, k, part, 0) for k, part in enumerate(description.parts) if k > index]
        self._table: Worked | None = None
        self._stuck: Problem | None = None
        self._dearest: tuple[float, float, float] | None = None

    def grown(self, count: int) -> tuple[Worked, Problem | None]:
        """The growing part with that count. Its shaping does not depend on the count, so one long table serves all."""
        section = forth(self.room, self.index, self.part, count)
        table, problem = self._shaped(section.rows)
        if problem:
            return table, problem
        acts = table.acts[: bisect_right(table.acts, Act(section.rows, len(table.force.lines), 0))]
        stops = {line: row for line, row in table.stops.items() if row <= section.rows}
        return table._replace(section=section, acts=acts, counts=table.counts[: section.rows], stops=stops), None

    def _shaped(self, rows: int) -> tuple[Worked, Problem | None]:
        """The shaping of at least so many rows, with the problem if they cannot all be worked."""
        if self._table is None or (len(self._table.counts) < rows and not self._stuck):
            section = Section(self.index, self.part.name.value, (), min(2 * rows, MAX_ROWS))
            force = force_of(self.room.description, self.part)
            self._table, self._stuck = work_forth(force, section, self.state)
        return self._table, self._stuck if len(self._table.counts) < rows else None

    def reckon(self, count: int) -> Reckoned | Problem:
        """The whole shawl with that count, or what keeps it from being worked."""
        grown, problem = (None, self.problem) if self.problem else self.grown(count)
        if problem or grown is None:
            assert problem
            return problem
        parts, problem = self._rest(grown)
        if problem:
            return problem
        total = self.before_m + sum(part_total_m(self.yarn, part) for part in parts)
        total += bind_off_m(self.room, last_stitch(parts)) * parts[-1].end
        counts = [part.counts for part in parts if part.counts]
        rows = self.state.rows + sum(len(part.counts) for part in parts)
        least, most = min(map(min, counts), default=1), max(map(max, counts), default=1)
        return Reckoned(total, rows, least, most)

    def _rest(self, grown: Worked) -> tuple[list[Worked], Problem | None]:
        """The growing part and all that follows it."""
        out = [*(part.section for part in self.before), grown.section, *self.after]
        todo = self.after + [back(section) for section in reversed(out[: turned_parts(self.room.description)])]
        state = state_after(grown, self.state)
        rest, problem = work_sections(self.room.description, todo, state, [*self.before, grown])
        return [grown, *rest], problem

    def dearest(self) -> tuple[float, float, float]:
        """The most yarn of one stitch, what filling can change in one row, and the bind-off of one stitch, in m."""
        if self._dearest is None:
            bands = list(bands_of(self.room.description.parts))
            names = {band.stitch.value for band in bands} | {self.yarn.edge_stitch, "drop"}
            fills = [(self.room[name], self.room[self.room[name].fill]) for name in names if self.room[name].multiple]
            names |= {fill.fabric.name for _, fill in fills}
            each_m = max(self.room[name].fabric.yarn_m for name in names)
            wraps = max_wraps(self.room.description.parts)
            filled_m = max((_fill_change_m(own, fill) for own, fill in fills), default=0.0)
            last_m = max(bind_off_m(self.room, name) for name in names)
            self._dearest = each_m + (wraps - 1) * self.room.wrap_m, filled_m, last_m
        return self._dearest


def _fill_change_m(own: Material, fill: Material) -> float:
    """The most that filling can change in one row: two wings, each short of one repeat at most."""
    multiple = own.multiple
    width = multiple.stitches + multiple.extra if multiple else 0
    return 2 * width * abs(fill.fabric.yarn_m - own.fabric.yarn_m)


def allowance(room: Workroom, yarn: RowYarn, skein: Skein) -> tuple[int, list[Problem]]:
    """The count of `as yarn allows`, and what is to be told: a mistake where it is 0, advice where not the yarn ends it."""
    trials, cap = Trials(room, yarn), _most_within_rows(room)
    step = step_of(trials)
    count, span = 0, allowance_span(trials.part.bands)
    while count < cap:
        reckoned = trials.reckon(count + 1)
        if isinstance(reckoned, Problem):
            return count, [_not_by_yarn(reckoned, count, span)]
        if not skein.pays(reckoned.total_m):
            return count, [] if count else [_too_dear(reckoned, skein, span)]
        count += 1
        count += _stride(trials, step, reckoned, skein, count, cap)
    message = f"A shawl has at most {MAX_ROWS:,} rows."
    return count, [_not_by_yarn(mistake("too-many-rows", span, message), count, span)]


def _too_dear(reckoned: Reckoned, skein: Skein, span: Span) -> Problem:
    needed_g = reckoned.total_m / skein.metres_per_gram
    there_g = skein.skein_g - skein.keep_g
    message = f"Even once takes {needed_g:,.1f} g in all; there are {there_g:,.1f} g without the margin."
    return mistake("yarn-too-short", span, message)


def _not_by_yarn(problem: Problem, count: int, span: Span) -> Problem:
    """The problem itself where not even one can be worked, else advice that it sets the count."""
    if count == 0:
        return problem
    return advice("not-by-yarn", span, f"The yarn allows more than {count:,}. {problem.message}")


def _most_within_rows(room: Workroom) -> int:
    """The largest count within the row cap."""
    low, high = 0, MAX_ROWS
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if total_rows(room, middle) <= MAX_ROWS else (low, middle - 1)
    return low


def allowance_span(bands: tuple[AnyBand, ...]) -> Span:
    """Where `as yarn allows` stands."""
    band = next(band for band in bands if has_allowance((band,)))
    if isinstance(band, Repeat) and not band.as_yarn_allows:
        return allowance_span(band.bands)
    return band.span


# Passing counts over.


def _stride(trials: Trials, step: Step, at: Reckoned, skein: Skein, count: int, cap: int) -> int:
    """How many counts after this one are certainly workable and paid for."""
    if not step.sure:
        return 0
    left_m = skein.budget_m - at.total_m
    low, high = 0, cap - count
    while low < high:
        middle = (low + high + 1) // 2
        safe = _most_added_m(trials, step, at, middle) <= left_m and _stays_workable(step, at, middle)
        low, high = (middle, high) if safe else (low, middle - 1)
    while low and trials.grown(count + low)[1]:
        low //= 2
    return low


def _most_added_m(trials: Trials, step: Step, at: Reckoned, more: int) -> float:
    """The most yarn that so many more counts can add."""
    dearest_m, filled_m, last_m = trials.dearest()
    rise = step.up * more + step.jitter_up
    worked_m = at.rows * (rise * dearest_m + filled_m) + more * step.rows * (at.most + rise) * dearest_m
    off_m = more * step.off * BIND_OFF_STITCH * trials.room[PLAIN].fabric.yarn_m
    return worked_m + off_m + rise * last_m


def _stays_workable(step: Step, at: Reckoned, more: int) -> bool:
    """Whether no row can leave the bounds, even between two lines that act on it."""
    rise, fall = step.up * more + step.jitter_up, step.down * more + step.jitter_down
    fits = at.most + rise + step.swing <= MAX_STITCHES
    return fits and (fall == 0 or at.least - fall - step.swing >= 1)


def step_of(trials: Trials) -> Step:
    """What one more count can change at most.

    Rows are compared at the same place of the work, on the way back counted from the end of the part. Lines that run
    on act at most once more for every K rows added; where shape lines take up again after a part with its own, a part's window may
    hold one act more or less; on the way back a line's acts shift by up to K + 1 rows.
    """
    description, index = trials.room.description, trials.index
    rows = _rows_added(trials.room, trials.part.bands)
    turned = index < turned_parts(description)
    forces = [force_of(description, part) for part in description.parts[index:]]
    again = sum(not b.own and any(a.own for a in forces[:k]) for k, b in enumerate(forces))
    up = down = off = swing = 0
    for line in {line: None for force in forces for line in force.lines}:
        size = abs(change_of(line, 0))
        acts = -(-rows // line.every) if line.every else 1
        gain = size * acts if line in forces[0].lines else 0
        loose = size * (acts + 1) * again if not _is_own(forces, line) else 0
        up += loose + (gain if line.action == INCREASE else 0)
        down += loose + (gain if line.action != INCREASE else 0)
        off += loose + gain if line.action == BIND_OFF else 0
        swing += size
    lines = [line for part in description.parts for line in force_of(description, part).lines]
    jitter = BACK_ACTS * sum(abs(change_of(line, 0)) for line in lines) if description.turn_back else 0
    falls = any(line.action != INCREASE for line in lines)
    sure = not any(_unbounded(force, line, k, again) for k, force in enumerate(forces) for line in force.lines)
    return Step(rows * (2 if turned else 1), up, down, jitter, jitter if falls else 0, off, swing, sure)


def _is_own(forces: list[Force], line: ShapingLine) -> bool:
    return any(force.own and line in force.lines for force in forces)


def _unbounded(force: Force, line: ShapingLine, later: int, again: int) -> bool:
    """Whether a line may act very differently from one count to the next."""
    if line.evenly_to is not None:
        return True
    return line.until is not None and (later > 0 if force.own else again > 0)


def _rows_added(room: Workroom, bands: tuple[AnyBand, ...]) -> int:
    """The most rows that one more count adds to its part."""
    total = 0
    for band in bands:
        if isinstance(band, Drop) or not has_allowance((band,)):
            continue
        if isinstance(band, Band):
            total += unit_rows(room, band)
        elif band.times is None:
            total += _most_rows(room, band.bands)
        else:
            total += band.times.value * _rows_added(room, band.bands)
    return total


def _most_rows(room: Workroom, bands: tuple[AnyBand, ...]) -> int:
    """The most rows of one pass through bands, lists at their largest value."""
    return sum(
        max(count.value for count in band.counts) * unit_rows(room, band)
        if isinstance(band, Band)
        else count_rows(room, (band,), 0)
        for band in bands
    )
