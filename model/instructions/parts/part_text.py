"""One part of a shawl as a section: its shaping, its bands with each kind of row worked out, and what to repeat."""

from collections.abc import Iterator

from halfhank.model.instructions.counts import stitches
from halfhank.model.instructions.parts.further_rows import further_block, further_plan
from halfhank.model.instructions.parts.kind_words import kind_item
from halfhank.model.instructions.parts.later_rows import LaterRows, Side, later_rows
from halfhank.model.instructions.parts.repeat_table import later_turns
from halfhank.model.instructions.parts.row_kinds import KindLine, WordedRow, kind_lines, worded
from halfhank.model.instructions.parts.row_phrases import REPEATS
from halfhank.model.instructions.parts.row_sets import progressions
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
    Value,
    content,
    joined,
    row_number,
)
from halfhank.model.stitches.pattern import patterns_of
from halfhank.model.words.catalogue import ordinal, said, say

_MOST_SERIES = 3
"""Series of rows that are named; plain rows in more of them are all the others."""


def part_text(plan: Plan, place: int) -> ReportSection:
    """The part at that place of the plan, in working order."""
    part, planned = plan.parts[place], plan.shawl.parts[place]
    text = PartText(plan, blocks_of(plan, part), _events_in(plan, planned.first_row, planned.last_row))
    return ReportSection(_heading(plan, place), tuple(text.blocks(place)))


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
        self._rows = worded(blocks, every_row(plan), by_row, patterns_of(plan.table.measures))
        after = [plan.rows.stitches[0], *(row.stitches for row in every_row(plan))]
        self._before = {one.row.row: after[one.row.row - 1] for one in self._rows}

    def blocks(self, place: int) -> Iterator[ReportBlock]:
        """All of it; `place`: that of the part in the plan."""
        sentences = shaping_sentences(self._shaping)
        if sentences:
            yield ListBlock((ListItem(say("part.shaping"), tuple(map(ListItem, sentences))),))
        for block in self._blocks:
            yield from self._block(block)
            longer = further_block(self.plan, place, block)
            if longer:
                yield _list_block(self._further(block, longer))

    def _block(self, block: BandBlock) -> Iterator[ReportBlock]:
        first, *later = block.turns
        told = tuple(self._run(run, block.by_yarn and not block.repeated) for run in first.runs)
        if not block.repeated:
            yield ListBlock(told)
        elif not later:
            yield ListBlock((ListItem(say("part.once"), told),))
        else:
            yield ListBlock((ListItem(content(_repeats(block), " ", _first_turn(first)), told),))
            differing = tuple(self._differing(block))
            yield from map(_list_block, differing)
            yield from later_turns(self.plan, block, bool(differing))

    def _further(self, block: BandBlock, longer: BandBlock) -> ListItem:
        """The rows past the plan, with those of them that are not as in the first repeat, or all rows of a band."""
        plan = further_plan(self.plan)
        assert plan
        last = block.turns[-1].last_row
        text = PartText(plan, [longer], _events_in(plan, longer.turns[0].first_row, longer.turns[-1].last_row))
        if not block.repeated:
            lines = kind_lines([row for row in text._rows if row.row.row > last])
            return ListItem(say("part.more-rows"), tuple(kind_item(line, text._before) for line in lines))
        more = longer.turns[-1]
        bands = joined(", ", [_band(run) for run in more.runs])
        number, live = ordinal(len(longer.turns)), stitches(plan.rows.stitches[more.last_row])
        differing = tuple(text._differing(longer._replace(turns=(longer.turns[0], more)), self._later(block).elsewhere))
        below = differing[0].below if differing else ()
        if not below:
            return ListItem(say("part.one-more", number=number, bands=bands, stitches=live))
        return ListItem(say("part.one-more-differs", number=number, bands=bands, stitches=live), below)

    def _differing(self, block: BandBlock, told_apart: frozenset[Side] = frozenset()) -> Iterator[ListItem]:
        """The rows of later repeats that are not as in the first, where there are any."""
        differing = self._later(block, told_apart)
        lines = [kind_item(line, self._before) for line in differing.lines]
        others = [_others(*side, row) for side, row in differing.others.items()]
        if lines or others:
            lead = say("part.shaped-elsewhere" if differing.elsewhere else "part.new-later")
            yield ListItem(lead, (*lines, *others))

    def _later(self, block: BandBlock, told_apart: frozenset[Side] = frozenset()) -> LaterRows:
        first, *later = block.turns
        names = [_name(run) for run in first.runs]
        return later_rows(self._in(first), [row for turn in later for row in self._in(turn)], names, told_apart)

    def _in(self, turn: Turn) -> list[WordedRow]:
        return [row for row in self._rows if turn.first_row <= row.row.row <= turn.last_row]

    def _run(self, run: PlacedRun, by_yarn: bool) -> ListItem:
        """A band with all its rows."""
        lines = kind_lines([row for row in self._rows if row.row.row in run.rows])
        head = say("band.head-by-yarn" if by_yarn else "band.head", band=_band(run))
        return ListItem(head, tuple(self._items(lines, run)))

    def _items(self, lines: list[KindLine], run: PlacedRun) -> Iterator[ListItem]:
        """The lines of a band, plain rows that lie among all others after these."""
        others = next((line for line in lines if len(lines) > 1 and _is_scattered(line)), None)
        for line in lines:
            if line is not others:
                yield kind_item(line, self._before)
        if others:
            yield kind_item(others, self._before, say("rows.others", last=row_number(run.last_row)))


def _list_block(item: ListItem) -> ListBlock:
    return ListBlock((item,))


def _others(name: str, wrong_side: bool, row: WordedRow) -> ListItem:
    """The further rows of a band and side, in the words of one of them."""
    label = say("rows.others-of", side=said("rows.wrong" if wrong_side else "rows.right"), names=name)
    phrases = [_without_repeats(one) for one in row.words.phrases]
    return ListItem(content(label, ": ", row.words.lead, joined(", ", phrases), "."))


def _without_repeats(phrase: Content) -> Content:
    """A phrase without how often it is repeated, which differs from row to row."""
    return tuple(one for one in phrase if not (isinstance(one, Value) and one.unit == REPEATS))


def _is_scattered(line: KindLine) -> bool:
    """Whether its rows are plain, and too many series to be named."""
    return line.is_plain and len(progressions(line.numbers)) > _MOST_SERIES


def _repeats(block: BandBlock) -> Content:
    times = len(block.turns)
    if block.back:
        return say("part.repeats-back", count=times)
    return say("part.by-yarn" if block.by_yarn else "part.repeats", count=times)


def _first_turn(turn: Turn) -> Content:
    return say("part.first-repeat", first=row_number(turn.first_row), last=row_number(turn.last_row))


def _name(run: PlacedRun) -> str:
    name, label = stitch_name(run.run.stitch), run.run.source.label
    return f"{name} ({label})" if label else name


def _band(run: PlacedRun) -> Content:
    """What a band is, and its rows."""
    named = _name(run)
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
