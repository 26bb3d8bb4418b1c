"""One count of `as yarn allows` after the other, each worked out exactly."""

from bisect import bisect_right

from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.band_walk import bands_of, count_rows, elongated_of, growing_part, has_allowance
from halfhank.model.design.design import Repeat, ShapingLine
from halfhank.model.rows.sections import MAX_ROWS, Section, mirrored, section_of
from halfhank.model.rows.shaping import (
    INCREASE,
    Act,
    WorkedPart,
    active_lines,
    last_stitch,
    state_after,
    work_part,
)
from halfhank.model.rows.worked import start_state, work_sections
from halfhank.model.yarn.row_yarn import RowYarn, before_rows_m, bind_off_m
from halfhank.model.yarn.stitch_table import Material

ROOMY = 1 << 40


class Trial(NamedTuple):
    """One count worked out: yarn of the whole shawl and its rows.

    `rows_after` of them come after the growing part. `least`: live stitches from the growing part's last row on, `most`
    from its first row on, `most_grown` in it. `above`, `below`: how many stitches more, or fewer, every `increase
    evenly to`, or `decrease evenly to`, of a later part could find.
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
    """The shawl worked out for one count after the other, keeping what they share."""

    def __init__(self, yarn: RowYarn) -> None:
        table, design = yarn.table, yarn.table.design
        index = growing_part(design)
        assert index is not None
        self.table, self.yarn, self.index, self.design = table, yarn, index, design
        self.part = design.parts[index]
        sections = [section_of(k, part, 0) for k, part in enumerate(design.parts[:index])]
        self.before, self.problem = work_sections(design, sections, start_state(design), [])
        self.state = start_state(design)
        for part in self.before:
            self.state = state_after(part, self.state)
        self.before_m = before_rows_m(table)
        if not self.problem:
            self.before_m += sum(yarn.total_m(part) for part in self.before)
        self.after = [section_of(k, part, 0) for k, part in enumerate(design.parts) if k > index]
        self._table: WorkedPart | None = None
        self._stuck: Problem | None = None
        self._dearest: tuple[float, float, float] | None = None

    def grown(self, count: int) -> tuple[WorkedPart, Problem | None]:
        """The growing part with that count. Its shaping does not depend on the count, so one long table serves all."""
        section = section_of(self.index, self.part, count)
        table, problem = self._shaped(section.rows)
        if problem:
            return table, problem
        acts = table.acts[: bisect_right(table.acts, Act(section.rows, len(table.active.lines), 0))]
        stops = {line: row for line, row in table.stops.items() if row <= section.rows}
        return table._replace(section=section, acts=acts, counts=table.counts[: section.rows], stops=stops), None

    def _shaped(self, rows: int) -> tuple[WorkedPart, Problem | None]:
        """The shaping of at least so many rows, with the problem if they cannot all be worked."""
        if self._table is None or (len(self._table.counts) < rows and not self._stuck):
            section = Section(self.index, self.part.name, (), min(2 * rows, MAX_ROWS))
            active = active_lines(self.design, self.part)
            self._table, self._stuck = work_part(active, section, self.state)
        return self._table, self._stuck if len(self._table.counts) < rows else None

    def still_rows(self, count: int) -> int:
        """Rows at the beginning of the growing part that stay where they are with every larger count."""
        bands, still = self.part.bands, 0
        while True:
            first = next(k for k, band in enumerate(bands) if has_allowance((band,)))
            grows = bands[first]
            if not isinstance(grows, Repeat) or grows.as_yarn_allows:
                return still + count_rows(bands[: first + 1], count)
            still += count_rows(bands[:first], count)
            bands = grows.bands

    def stopped_lines(self, count: int) -> set[ShapingLine]:
        """Lines of the growing part that `until` has stopped within the rows that stay."""
        table, _ = self._shaped(1)
        still = self.still_rows(count)
        return {table.active.lines[k] for k, row in table.stops.items() if row <= still}

    def try_count(self, count: int) -> Trial | Problem:
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
        total_m = self.before_m + sum(self.yarn.total_m(part) for part in parts)
        total_m += bind_off_m(self.table, last_stitch(parts)) * parts[-1].end
        rows_after = sum(len(part.counts) for part in rest)
        rows = self.state.rows + len(grown.counts) + rows_after
        least = min((min(part.begin, min(part.counts)) for part in rest if part.counts), default=ROOMY)
        most = max((max(part.counts) for part in parts if part.counts), default=1)
        return Trial(total_m, rows, rows_after, least, most, max(grown.counts, default=1), *_evenly_room(rest))

    def _rest(self, grown: WorkedPart) -> tuple[list[WorkedPart], Problem | None]:
        """All that follows the growing part."""
        out = [*(part.section for part in self.before), grown.section, *self.after]
        todo = self.after + [mirrored(section) for section in reversed(out[: self.design.turned_parts])]
        state = state_after(grown, self.state)
        return work_sections(self.design, todo, state, [*self.before, grown])

    def dearest(self) -> tuple[float, float, float]:
        """The most yarn of one stitch, what filling can change in one row, and the bind-off of one stitch, in m."""
        if self._dearest is None:
            bands = list(bands_of(self.design))
            names = {band.stitch for band in bands} | {self.yarn.edge_stitch, "drop"}
            fills = [
                (self.table[name], self.table[self.table[name].fill]) for name in names if self.table[name].multiple
            ]
            names |= {fill.fabric.name for _, fill in fills}
            each_m = max(self.table[name].fabric.yarn_m for name in names)
            wraps = max((drop.wraps for drop in elongated_of(self.design)), default=1)
            filled_m = max((_fill_change_m(own, fill) for own, fill in fills), default=0.0)
            last_m = max(bind_off_m(self.table, name) for name in names)
            self._dearest = each_m + (wraps - 1) * self.table["drop"].wrap_m, filled_m, last_m
        return self._dearest


def _evenly_room(parts: list[WorkedPart]) -> tuple[int, int]:
    """The least change of any `increase evenly to`, and of any `decrease evenly to`, in the first half."""
    above = below = ROOMY
    for part in parts:
        if part.section.mirrored or all(line.evenly_to is None for line in part.active.lines):
            continue
        for act in part.acts:
            line = part.active.lines[act.line]
            if line.evenly_to is not None and line.action == INCREASE:
                above = min(above, act.change)
            elif line.evenly_to is not None:
                below = min(below, -act.change)
    return above, below


def _fill_change_m(own: Material, fill: Material) -> float:
    """The most that filling can change in one row: two wings, each short of one repeat at most."""
    multiple = own.multiple
    width = sum(multiple) if multiple else 0
    return 2 * width * abs(fill.fabric.yarn_m - own.fabric.yarn_m)
