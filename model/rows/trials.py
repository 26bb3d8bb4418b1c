"""One count of `as yarn allows` after the other, each reckoned exactly."""

from bisect import bisect_right
from typing import NamedTuple

from halfhank.grammar.description import Band, Drop, Repeat, ShapingLine
from halfhank.grammar.problems import Problem
from halfhank.model.rows.sections import (
    MAX_ROWS,
    Section,
    back,
    count_rows,
    forth,
    growing_part,
    has_allowance,
    turned_parts,
)
from halfhank.model.rows.shaping import INCREASE, Act, Worked, force_of, state_after, work_forth
from halfhank.model.rows.worked import last_stitch, start_state, work_sections
from halfhank.model.yarn.row_yarn import RowYarn, bind_off_m, part_total_m, start_m
from halfhank.model.yarn.stitch_table import Material, StitchTable, bands_of

ROOMY = 1 << 40


class Reckoned(NamedTuple):
    """One count worked out: yarn of the whole shawl and its rows.

    `rows_after` of them come after the growing part. `least`: live stitches after the growing part, `most` from it on,
    `most_grown` in it. `above`, `below`: how many stitches more, or fewer, every `increase evenly to`, or `decrease
    evenly to`, of a later part could find.
    """

    total_m: float
    rows: int
    rows_after: int
    least: int
    most: int
    most_grown: int
    above: int
    below: int


class Trials:
    """Reckons the shawl for one count after the other, keeping what they share."""

    def __init__(self, room: StitchTable, yarn: RowYarn) -> None:
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
        self.before_m = start_m(room)
        if not self.problem:
            self.before_m += sum(part_total_m(yarn, part) for part in self.before)
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

    def still_rows(self, count: int) -> int:
        """Rows at the beginning of the growing part that stay where they are with every larger count."""
        bands, still = self.part.bands, 0
        while True:
            first = next(k for k, band in enumerate(bands) if has_allowance((band,)))
            grows = bands[first]
            if not isinstance(grows, Repeat) or grows.as_yarn_allows:
                return still + count_rows(self.room, bands[: first + 1], count)
            still += count_rows(self.room, bands[:first], count)
            bands = grows.bands

    def stopped_lines(self, count: int) -> set[ShapingLine]:
        """Lines of the growing part that `until` has stopped within the rows that stay."""
        table, _ = self._shaped(1)
        still = self.still_rows(count)
        return {table.force.lines[k] for k, row in table.stops.items() if row <= still}

    def reckon(self, count: int) -> Reckoned | Problem:
        """The whole shawl with that count, or what keeps it from being worked."""
        if self.problem:
            return self.problem
        grown, problem = self.grown(count)
        if problem:
            return problem
        rest, problem = self._rest(grown)
        if problem:
            return problem
        parts = [grown, *rest]
        total_m = self.before_m + sum(part_total_m(self.yarn, part) for part in parts)
        total_m += bind_off_m(self.room, last_stitch(parts)) * parts[-1].end
        rows_after = sum(len(part.counts) for part in rest)
        rows = self.state.rows + len(grown.counts) + rows_after
        least = min((min(part.counts) for part in rest if part.counts), default=ROOMY)
        most = max((max(part.counts) for part in parts if part.counts), default=1)
        return Reckoned(total_m, rows, rows_after, least, most, max(grown.counts, default=1), *_evenly_room(rest))

    def _rest(self, grown: Worked) -> tuple[list[Worked], Problem | None]:
        """All that follows the growing part."""
        out = [*(part.section for part in self.before), grown.section, *self.after]
        todo = self.after + [back(section) for section in reversed(out[: turned_parts(self.room.description)])]
        state = state_after(grown, self.state)
        return work_sections(self.room.description, todo, state, [*self.before, grown])

    def dearest(self) -> tuple[float, float, float]:
        """The most yarn of one stitch, what filling can change in one row, and the bind-off of one stitch, in m."""
        if self._dearest is None:
            bands = list(bands_of(self.room.description.parts, Band))
            names = {band.stitch.value for band in bands} | {self.yarn.edge_stitch, "drop"}
            fills = [(self.room[name], self.room[self.room[name].fill]) for name in names if self.room[name].multiple]
            names |= {fill.fabric.name for _, fill in fills}
            each_m = max(self.room[name].fabric.yarn_m for name in names)
            wraps = max((drop.wraps for drop in bands_of(self.room.description.parts, Drop)), default=1)
            filled_m = max((_fill_change_m(own, fill) for own, fill in fills), default=0.0)
            last_m = max(bind_off_m(self.room, name) for name in names)
            self._dearest = each_m + (wraps - 1) * self.room.extra_wrap_m("drop"), filled_m, last_m
        return self._dearest


def _evenly_room(parts: list[Worked]) -> tuple[int, int]:
    """The least change of any `increase evenly to`, and of any `decrease evenly to`, on the way out."""
    above = below = ROOMY
    for part in parts:
        if part.section.back or all(line.evenly_to is None for line in part.force.lines):
            continue
        for act in part.acts:
            line = part.force.lines[act.line]
            if line.evenly_to is not None and line.action == INCREASE:
                above = min(above, act.change)
            elif line.evenly_to is not None:
                below = min(below, -act.change)
    return above, below


def _fill_change_m(own: Material, fill: Material) -> float:
    """The most that filling can change in one row: two wings, each short of one repeat at most."""
    multiple = own.multiple
    width = multiple.stitches + multiple.extra if multiple else 0
    return 2 * width * abs(fill.fabric.yarn_m - own.fabric.yarn_m)
