"""What shows in the rows and the yarn of a worked shawl: small checks, each from the work to problems."""

from collections.abc import Callable, Iterator

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.design.design import Band, ShapingLine
from halfhank.model.number_words import counted, mass_words
from halfhank.model.problems import plan_problems as known
from halfhank.model.yarn.working import Working

ROUNDING_G = 1e-6
"""Rounding by which a margin is not short."""

Check = Callable[[Working], Iterator[Problem]]

MOST_DRAWN = 20
"""About how many stitches are drawn together at most (common practice): more leave a hole or a lump."""


def check_work(working: Working) -> list[Problem]:
    """All that shows in the rows."""
    return [problem for check in WORK_CHECKS for problem in check(working)]


def _wrong_side_start(working: Working) -> Iterator[Problem]:
    for part in working.parts:
        if part.section.mirrored or not part.active.own:
            continue
        for line in part.active.lines:
            if line.every == 1 or line.from_row % 2 == 0 or (part.first_row + line.from_row) % 2 == 0:
                continue
            yield known.WRONG_SIDE_START.at(line.span, row=part.first_row + line.from_row - 1)


def _wrong_side_back(working: Working) -> Iterator[Problem]:
    """Lines that are used on right-side rows, but on wrong-side rows in the mirrored second half."""
    out = {part.section.part: part for part in working.parts if not part.section.mirrored}
    seen = set[Span]()
    for part in working.parts:
        first = part.first_row
        for k, row in sorted(part.starts.items()) if part.section.mirrored else ():
            line, forth = part.active.lines[k], out[part.section.part]
            right = all((forth.first_row + act.row) % 2 == 0 for act in forth.acts if act.line == k)
            if not right or (line.every or 0) % 2 or (first + row) % 2 == 0 or line.span in seen:
                continue
            seen.add(line.span)
            yield known.WRONG_SIDE_START_ON_WAY_BACK.at(line.span, row=first + row - 1)


def _wrong_side_pattern(working: Working) -> Iterator[Problem]:
    seen = set[Span]()
    for part in working.parts:
        row = part.first_row
        for run in part.section.runs:
            if isinstance(run.source, Band) and working.table.measures.repeat_rows(run.stitch) and row % 2 == 0:
                if run.source.span not in seen:
                    yield known.WRONG_SIDE_START_OF_ROWS.at(run.source.span, stitch=run.stitch, row=row)
                seen.add(run.source.span)
            row += run.rows


def _lines_without_effect(working: Working) -> Iterator[Problem]:
    acting = {part.active.lines[act.line].number for part in working.parts for act in part.acts}
    rows = working.row_count
    for line in working.design.all_lines:
        if line.number in acting:
            continue
        owners = (
            part for part in working.parts if part.active.own and part.first_row <= line.from_row <= part.last_row
        )
        own = next(owners, None)
        if line in working.design.lines and line.every is None and own:
            yield known.LINE_LOST.at(line.span, row=line.from_row, part=own.section.name)
        else:
            yield _idle(working, line, rows)


def _idle(working: Working, line: ShapingLine, rows: int) -> Problem:
    part = next((one for one in working.parts if one.active.own and line in one.active.lines), None)
    if part is None or line.from_row <= part.section.rows:
        return known.IDLE_LINE.at(line.span, rows=rows)
    return known.IDLE_LINE_IN_PART.at(line.span, rows=part.section.rows)


def _wide_edges(working: Working) -> Iterator[Problem]:
    edge, counts = working.design.edge, (k for part in working.parts for k in part.counts)
    narrow = next((k for k in (working.design.start.stitches, *counts) if k < working.yarn.edges), None)
    if narrow is not None:
        yield known.WIDE_EDGES.at(edge.at.value, edges=working.yarn.edges, stitches=narrow)


def _picot_multiple(working: Working) -> Iterator[Problem]:
    off, live = working.design.bind_off, working.parts[-1].end
    if off.method != "picot":
        return
    every = off.bind_off - off.cast_on
    if (live - 1) % every:
        yield known.PICOT_MULTIPLE.at(off.at.value, each=counted(every, "st"), stitches=live)


def _many_drawn_together(working: Working) -> Iterator[Problem]:
    off, live = working.design.bind_off, working.parts[-1].end
    if off.method == "draw through" and live > MOST_DRAWN:
        yield known.MANY_DRAWN_TOGETHER.at(off.at.value, stitches=counted(live, "st"), most=MOST_DRAWN)


def _yarn_short(working: Working) -> Iterator[Problem]:
    supply, span = working.supply, working.design.yarn.skein_at.value
    total_g, unit = working.total_m / supply.metres_per_gram, supply.unit
    left_g = working.left_over_g
    if total_g > supply.skein_g:
        yield known.YARN_SHORT.at(span, total=mass_words(total_g, unit), skein=mass_words(supply.skein_g, unit))
    elif left_g < 0:
        yield _bind_off_short(working)
    elif supply.margin_g - left_g > ROUNDING_G:
        left, keep = mass_words(left_g, unit), mass_words(supply.margin_g, unit)
        yield known.MARGIN_SHORT.at(span, left=left, keep=keep)


def _bind_off_short(working: Working) -> Problem:
    """The scale shows less than the bind-off takes, though the skein has enough for all that is planned."""
    last, unit = working.design.log[-1], working.supply.unit
    bind_off = mass_words((working.total_m - working.used_m[-1]) / working.supply.metres_per_gram, unit)
    return known.YARN_SHORT_BY_SCALE.at(last.span, bind_off=bind_off, row=last.row)


WORK_CHECKS: tuple[Check, ...] = (
    _wrong_side_start,
    _wrong_side_back,
    _wrong_side_pattern,
    _lines_without_effect,
    _wide_edges,
    _picot_multiple,
    _many_drawn_together,
    _yarn_short,
)
