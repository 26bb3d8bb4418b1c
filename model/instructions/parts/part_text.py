"""One part of a shawl as a section: its shaping, its bands with each kind of row worked out, and what to repeat."""

from collections.abc import Iterator

from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.kind_words import kind_item
from halfhank.model.instructions.parts.repeat_table import later_turns
from halfhank.model.instructions.parts.row_kinds import KindLine, kind_lines, worded
from halfhank.model.instructions.parts.row_sets import progressions, rows_words
from halfhank.model.instructions.parts.shaping_overview import shaping_sentences
from halfhank.model.instructions.parts.worked_blocks import BandBlock, PlacedRun, Turn, blocks_of
from halfhank.model.instructions.rows.events import Event, events
from halfhank.model.instructions.rows.every_row import every_row
from halfhank.model.phrases import stitch_name
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    Content,
    ListBlock,
    ListItem,
    ReportBlock,
    ReportSection,
    content,
    row_number,
)
from halfhank.model.stitches.pattern import patterns_of
from halfhank.model.words.catalogue import said, say


def part_text(plan: Plan, place: int) -> ReportSection:
    """The part at that place of the plan, in working order."""
    part, planned = plan.parts[place], plan.shawl.parts[place]
    text = PartText(plan, blocks_of(plan, part), _events_in(plan, planned.first_row, planned.last_row))
    return ReportSection(_heading(plan, place), tuple(text.blocks()))


def _events_in(plan: Plan, first: int, last: int) -> list[Event]:
    return [one for one in plan.once(events) if first <= one.row <= last]


def _heading(plan: Plan, place: int) -> str:
    part, live = plan.shawl.parts[place], plan.rows.stitches
    first, last = row_number(part.first_row), row_number(part.last_row)
    begin, end = stitches(live[part.first_row - 1]), stitches(part.stitches_at_end)
    same = len(set(live[part.first_row - 1 : part.last_row + 1])) == 1
    if same:
        return said("part.heading-same", number=place + 1, name=part.name, first=first, last=last, stitches=end)
    return said("part.heading", number=place + 1, name=part.name, first=first, last=last, begin=begin, end=end)


class PartText:
    """The lines of one part, and where each of them stands."""

    def __init__(self, plan: Plan, blocks: list[BandBlock], shaping: list[Event]) -> None:
        self.plan, self._blocks, self._shaping = plan, blocks, shaping
        by_row: dict[int, list[Event]] = {}
        for one in shaping:
            by_row.setdefault(one.row, []).append(one)
        patterns = patterns_of(plan.table.measures)
        self.rows = worded(blocks, every_row(plan), by_row, patterns)
        first = {run.first_row for block in blocks for run in block.turns[0].runs}
        self.lines = kind_lines(self.rows, first)
        self._stitches = {
            row: (run.run.stitch, run.run.wraps)
            for block in blocks
            for turn in block.turns
            for run in turn.runs
            for row in run.rows
            if run.run.stitch not in patterns
        }
        after = [plan.rows.stitches[0], *(row.stitches for row in every_row(plan))]
        self._before = {one.row.row: after[one.row.row - 1] for one in self.rows}

    def blocks(self) -> Iterator[ReportBlock]:
        """All of it."""
        sentences = shaping_sentences(self._shaping)
        if sentences:
            yield ListBlock(tuple(map(ListItem, sentences)))
        for block in self._blocks:
            yield from self._block(block)

    def _block(self, block: BandBlock) -> Iterator[ReportBlock]:
        first, *later = block.turns
        if not block.repeated:
            yield ListBlock(tuple(self._run(run, block.by_yarn) for run in first.runs))
            return
        times = len(block.turns)
        told = tuple(self._run(run) for run in first.runs)
        if times == 1:
            yield ListBlock((ListItem(say("part.once"), told),))
            return
        yield ListBlock((ListItem(content(_repeats(block), " ", _first_turn(first)), told),))
        yield from later_turns(self.plan, block)
        new = [kind_item(line, self._before) for turn in later for run in turn.runs for line in self._lines_in(run)]
        if new:
            yield ListBlock((ListItem(say("part.new-later"), tuple(new)),))

    def _run(self, run: PlacedRun, by_yarn: bool = False) -> ListItem:
        """A band with the rows that are told in it, and where the others are told."""
        own = self._lines_in(run)
        known = {line.first_row: rows for line in _distinct(own) if (rows := self._known(line, run))}
        if len(known) < len(own) or all(line.is_plain for line in own):
            known = {first: rows for first, rows in known.items() if not self._line(first).is_plain}
        new = [line for line in own if line.first_row not in known]
        below = list(self._items(new, run))
        if known:
            models = rows_words(sorted({row for found in known.values() for row in found}), inside=True)
            below.append(ListItem(say("part.others-as", rows=models) if new else say("part.as", rows=models)))
        band = _band(run)
        head = say("band.head-by-yarn", band=band) if by_yarn else say("band.head", band=band)
        return ListItem(head, tuple(below))

    def _line(self, first_row: int) -> KindLine:
        return next(line for line in self.lines if line.first_row == first_row)

    def _known(self, line: KindLine, run: PlacedRun) -> list[int]:
        """The rows of an earlier band of the same stitch in which the same was told; none if it was not.

        A stitch pattern is told in each of its bands: its rows would have to be counted anew.
        """
        if line.first_row not in self._stitches or len({row.row.wrong_side for row in line.rows}) > 1:
            return []
        if line.numbers[-1] not in run.rows:
            return []
        earlier = [one for one in self.lines if one.first_row < run.first_row and one.told == line.told]
        stitch = self._stitches[line.first_row]
        return next((one.numbers for one in earlier if self._stitches.get(one.first_row) == stitch), [])

    def _items(self, lines: list[KindLine], run: PlacedRun) -> Iterator[ListItem]:
        """The lines of a band, plain rows that lie among all others after these."""
        others = next((line for line in lines if self._is_rest(line, lines, run)), None)
        for line in lines:
            if line is not others:
                yield kind_item(line, self._before)
        if others:
            yield kind_item(others, self._before, say("rows.others", last=row_number(run.last_row)))

    def _is_rest(self, line: KindLine, lines: list[KindLine], run: PlacedRun) -> bool:
        """Whether a line has all rows of a band that no other has, and these are no simple series."""
        told = {row for one in lines for row in one.numbers}
        return line.is_plain and told == set(run.rows) and len(lines) > 1 and len(progressions(line.numbers)) > 1

    def _lines_in(self, run: PlacedRun) -> list[KindLine]:
        return [line for line in self.lines if line.first_row in run.rows]


def _distinct(lines: list[KindLine]) -> list[KindLine]:
    """Those that alone have the rows of their side and shaping, so that a knitter finds them by these."""
    looks = [{(row.task.wrong_side, row.task.shaping) for row in line.rows} for line in lines]
    return [line for line, own in zip(lines, looks, strict=True) if sum(bool(own & one) for one in looks) == 1]


def _repeats(block: BandBlock) -> Content:
    times = len(block.turns)
    if block.back:
        return say("part.repeats-back", count=times)
    return say("part.by-yarn" if block.by_yarn else "part.repeats", count=times)


def _first_turn(turn: Turn) -> Content:
    return say("part.first-repeat", first=row_number(turn.first_row), last=row_number(turn.last_row))


def _band(run: PlacedRun) -> Content:
    """What a band is, and its rows."""
    label = run.run.source.label
    name = stitch_name(run.run.stitch)
    named = f"{name} ({label})" if label else name
    first, last = row_number(run.first_row), row_number(run.last_row)
    if run.run.stitch == "drop":
        return say("band.drop", name=named, first=first, last=last, wraps=run.run.wraps)
    if run.first_row == run.last_row:
        return say("band.one-row", name=named, row=first)
    if run.run.stitch == "garter" and run.run.rows % 2 == 0:
        return say("band.ridges", name=named, count=run.run.rows // 2, first=first, last=last)
    if run.run.rows == 2:
        return say("band.two-rows", name=named, first=first, last=last)
    return say("band.rows", name=named, count=run.run.rows, first=first, last=last)
