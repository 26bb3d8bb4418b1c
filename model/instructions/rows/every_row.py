"""Every row of a shawl, written out: what is worked from its first stitch to its last."""

from collections.abc import Iterator
from itertools import groupby

from halfhank.grammar.description import LOWER_EDGE, UPPER_EDGE, Item, WholeRow, Work
from halfhank.grammar.record import NamedTuple
from halfhank.model.instructions.rows.evenly import crowd
from halfhank.model.instructions.rows.events import Event, events
from halfhank.model.instructions.rows.fabrics import DROP_WRAPS, RowFabrics
from halfhank.model.instructions.rows.segments import EDGE, KNIT, PURL, WING, WORK, Line, makes, stitch_item, takes
from halfhank.model.instructions.rows.shape_line import NoRoomError, shape
from halfhank.model.plan import Plan
from halfhank.model.stitch_counts.bare_items import NOWHERE, bare
from halfhank.model.stitch_counts.loops import is_elongated

_WHOLE = {KNIT: "knit", PURL: "purl"}


class RowStretch(NamedTuple):
    """Neighbouring items of a row: `place` is "edge", "wing", "spine" or "shaping"."""

    place: str
    items: tuple[Item, ...]


class InstructedRow(NamedTuple):
    """A row as it is worked.

    `row` is its number in the shawl, from 1; `stitches` are on the needle after it, which inside a repeat of a
    pattern that changes its count are not the plan's. `drops`: the extra wraps of the row before are dropped in it.
    """

    row: int
    wrong_side: bool
    drops: bool
    stretches: tuple[RowStretch, ...]
    stitches: int

    @property
    def items(self) -> tuple[Item, ...]:
        """All of it, neighbours of one kind as one; a row of nothing but plain stitches as a whole row."""
        found = merged(item for stretch in self.stretches for item in stretch.items)
        only = found[0] if len(found) == 1 else None
        if isinstance(only, Work) and only.kind in _WHOLE and only == stitch_item(only.kind, only.count):
            found = [WholeRow(_WHOLE[only.kind], NOWHERE)]
        return (stitch_item(DROP_WRAPS), *found) if self.drops else tuple(found)


class RowCountError(AssertionError):
    """A written row does not take the stitches that there are: a fault of the writer."""


def every_row(plan: Plan) -> tuple[InstructedRow, ...]:
    """All rows in working order."""
    return plan.once(_every_row)


def _every_row(plan: Plan) -> tuple[InstructedRow, ...]:
    return tuple(_rows(plan))


def _rows(plan: Plan) -> Iterator[InstructedRow]:
    fabrics = RowFabrics(plan)
    by_row = {row: list(found) for row, found in groupby(events(plan), lambda event: event.row)}
    row, live = 1, plan.rows.stitches[0]
    before: tuple[Item, ...] = ()
    for part in plan.parts:
        for run in part.section.runs:
            for laid in fabrics.band_rows(run.stitch, run.wraps, row, run.rows):
                line = laid.line
                if row in by_row:
                    line = _shaped(line, by_row[row], row, before)
                stretches = tuple(_stretches(line))
                live = _live([item for stretch in stretches for item in stretch.items], live, row)
                worked = InstructedRow(row, row % 2 == 0, is_elongated(before), stretches, live)
                yield worked
                row, before = row + 1, worked.items


def _shaped(line: Line, found: list[Event], row: int, before: tuple[Item, ...]) -> Line:
    """The row with its shaping; where that has no room at its places, between plain edges, in a plain row, or else all
    of it spread over the row."""
    at_both_edges = {event.place for event in found} == {UPPER_EDGE, LOWER_EDGE}
    for trial in (line.halved() if at_both_edges else None, line.copy(), line.plained(EDGE), line.plained(EDGE, WING)):
        if trial is None:
            continue
        try:
            shape(trial, found, row % 2 == 0, before)
        except NoRoomError:
            continue
        return trial
    plain = line.plained(EDGE, WING)
    if not crowd(plain, sum(event.gain for event in found)):
        raise RowCountError(f"row {row}: no room for its shaping")
    return plain


def _live(items: list[Item], live: int, row: int) -> int:
    taken = takes(items)
    if taken != live:
        raise RowCountError(f"row {row}: {taken} stitches worked of {live}")
    return makes(items)


def _stretches(line: Line) -> Iterator[RowStretch]:
    for segment in line.segments:
        if not segment.empty:
            yield RowStretch(segment.place, tuple(merged(segment.written)))


def merged(items: Iterator[Item] | tuple[Item, ...]) -> list[Item]:
    """Items without their places in the text, neighbours of one kind as one: k3, k5 as k8."""
    found: list[Item] = []
    for item in map(bare, items):
        last = found[-1] if found else None
        if isinstance(item, Work) and isinstance(last, Work) and _joins(last, item):
            found[-1] = last._replace(count=last.count + item.count)
        else:
            found.append(item)
    return found


def _joins(last: Work, item: Work) -> bool:
    return item == last._replace(count=item.count) and (item.kind in ("k", "p", "sl") or item.kind.startswith(WORK))
