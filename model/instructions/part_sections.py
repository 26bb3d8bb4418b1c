"""One part of a shawl as a section: its rows, shaping and bands, the counts on the way, and how patterns lie in it."""

from collections.abc import Sequence
from itertools import groupby, pairwise

from halfhank.model.design.design import AnyBand, Band, Design, Elongated, Part, Repeat
from halfhank.model.instructions.band_words import band_words, named, whole_band
from halfhank.model.instructions.shaping_sentences import even_lines, shaping_lines
from halfhank.model.number_words import counted
from halfhank.model.phrases import stitch_name
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    Content,
    ListBlock,
    ListItem,
    ReportSection,
    Value,
    content,
    joined,
    row_number,
    sts,
)
from halfhank.model.rows.sections import runs_of
from halfhank.model.shawl import BandPlan, PartPlan, Shawl
from halfhank.model.stitches.fit import Fit, LaidRepeat, Needle, PatternRows, fitted, in_pattern
from halfhank.model.stitches.pattern import Pattern

_MOST_LISTED = 60
_SHORT_ROWS = 2
"""Counts after each repeat are of no use where it has so few rows."""


def part_section(plan: Plan, place: int, patterns: dict[str, Pattern], needle: Needle) -> ReportSection:
    """The part at that place of the plan, in working order."""
    shawl, parts = plan.shawl, plan.design.parts
    part = shawl.parts[place]
    items = _written(plan, parts[place], part) if place < len(parts) else _items(_back(shawl, part))
    items += _items(even_lines(plan, part.first_row, part.last_row))
    if not same_count(shawl, part):
        items.append(ListItem(content(sts(part.stitches_at_end), " after row ", row_number(part.last_row), ".")))
    items += _items(_fits(shawl, patterns, needle, part))
    return ReportSection(_heading(shawl, place), (ListBlock(tuple(items)),))


def _items(lines: list[Content]) -> list[ListItem]:
    return list(map(ListItem, lines))


def _heading(shawl: Shawl, place: int) -> str:
    part = shawl.parts[place]
    first, last = part.first_row, part.last_row
    rows = f"row {first:,}" if first == last else f"rows {first:,} to {last:,}"
    end = sts(part.stitches_at_end)
    counts = f"{end}" if same_count(shawl, part) else f"{sts(shawl.rows.stitches[first - 1])} to {end}"
    return f"Part {place + 1}, {part.name} ({rows}; {counts})"


def same_count(shawl: Shawl, part: PartPlan) -> bool:
    """Whether the part has as many stitches after every row as before it."""
    return len(set(shawl.rows.stitches[part.first_row - 1 : part.last_row + 1])) == 1


def _written(plan: Plan, written: Part, part: PartPlan) -> list[ListItem]:
    """What the description says of a part."""
    bands = _bands(plan, written.bands)
    return [
        *_own_shaping(plan.design, written, part.first_row - 1),
        *bands,
        *_items(_repeat_counts(plan, written, part)),
    ]


def _own_shaping(design: Design, part: Part, rows_before: int) -> list[ListItem]:
    if part.lines is None:
        return []
    if not part.lines:
        return [ListItem(("No shaping in this part.",))]
    lines = _items(shaping_lines(design, part.lines, rows_before))
    return [ListItem(("In this part, with its rows counted from 1:",), tuple(lines))]


def _bands(plan: Plan, bands: tuple[AnyBand, ...], times: int = 1) -> list[ListItem]:
    """Bands that are worked so many times."""
    return [_repeat(plan, one) if isinstance(one, Repeat) else _band(plan, one, times) for one in bands]


def _repeat(plan: Plan, repeat: Repeat) -> ListItem:
    times = _times(plan, repeat)
    whole = whole_band(plan.table.measures, repeat, times)
    if whole:
        return ListItem(whole)
    often = content("Work ", Value(f"{times:,} repeats", times, "repeats"), " of:") if times > 1 else ("Work once:",)
    return ListItem(often, tuple(_bands(plan, repeat.bands, times)))


def _times(plan: Plan, repeat: Repeat) -> int:
    return plan.shawl.allowed or 0 if repeat.times is None else repeat.times


def _band(plan: Plan, band: Band | Elongated, times: int) -> ListItem:
    if isinstance(band, Band) and band.as_yarn_allows:
        return ListItem(content(f"{named(band)}: ", _allowed_rows(plan, band), "."))
    return ListItem((f"{named(band)}: {band_words(band, times)}.",))


def _allowed_rows(plan: Plan, band: Band) -> Content:
    """The rows of `as yarn allows` and, of a stitch with rows of its own, how many repeats of those they are."""
    allowed, repeat_rows = plan.shawl.allowed or 0, plan.table.measures.repeat_rows(band.stitch)
    count = allowed * (repeat_rows or 2)
    repeats = content(" (", Value(counted(allowed, "repeat"), allowed, "repeats"), ")") if repeat_rows else ()
    return content(Value(f"{count:,} rows", count, "rows"), repeats)


def _repeat_counts(plan: Plan, written: Part, part: PartPlan) -> list[Content]:
    """The stitches after each time through the part's repeats, where that is of more than a row or two."""
    row, lines, allowed = part.first_row - 1, [], plan.shawl.allowed or 0
    for band in written.bands:
        if not isinstance(band, Repeat):
            row += sum(run.rows for run in runs_of((band,), allowed))
            continue
        counts = []
        for turn in range(_times(plan, band)):
            rows = sum(run.rows for run in runs_of(band.bands, allowed, turn))
            if not rows:
                break
            row += rows
            counts.append(plan.rows.stitches[row])
        if len(counts) > 1 and rows > _SHORT_ROWS and not same_count(plan.shawl, part):
            lines.append(_counts_line(counts))
    return lines


def _counts_line(counts: list[int]) -> Content:
    if len(set(counts)) == 1:
        return content(sts(counts[0]), " after every repeat.")
    listed = joined(", ", [(Value(f"{count:,}", count, "sts"),) for count in counts[:_MOST_LISTED]])
    rest = " …" if len(counts) > _MOST_LISTED else ""
    return content("Stitches after each repeat: ", listed, f"{rest}.")


def _back(shawl: Shawl, part: PartPlan) -> list[Content]:
    """The mirrored half, band by band as they are worked, neighbours of one stitch on one line."""
    bands = [band for band in shawl.bands if part.first_row <= band.first_row <= part.last_row]
    alike = [list(found) for _, found in groupby(bands, lambda band: (band.stitch, band.wraps, band.label))]
    return [_back_line(found[0], found[-1], same_count(shawl, part)) for found in alike[:_MOST_LISTED]]


def _back_line(first: BandPlan, last: BandPlan, same: bool) -> Content:
    rows = content("Rows ", row_number(first.first_row), " to ", row_number(last.last_row))
    if first.first_row == last.last_row:
        rows = content("Row ", row_number(first.first_row))
    wraps = f", {first.wraps} wraps" if first.wraps > 1 else ""
    end = () if same else content("; ", sts(last.stitches_at_end), " at the end")
    return content(rows, f": {stitch_name(first.stitch)}{wraps}", end, ".")


def _fits(shawl: Shawl, patterns: dict[str, Pattern], needle: Needle, part: PartPlan) -> list[Content]:
    """How the patterns lie in the part's rows; said again only where it has changed."""
    bands = [
        band for band in shawl.bands if band.stitch in patterns and part.first_row <= band.first_row <= part.last_row
    ]
    stretches = [PatternRows(band.stitch, band.first_row, band.last_row, None) for band in bands]
    fits = [fitted(patterns[one.stitch], one, needle, shawl.rows) for one in stretches]
    lines, known = list[Content](), dict[str, Content]()
    for fit in fits:
        places = _places(fit)
        if known.get(fit.pattern.name) != places:
            row = row_number(fit.stretch.first_row)
            lines.append(content("Row ", row, f", {fit.pattern.name}: ", places, "."))
        known[fit.pattern.name] = places
    return lines[:_MOST_LISTED]


def _places(fit: Fit) -> Content:
    first = _laid(fit.pattern, fit.right[0])
    places = content("in each wing " if fit.left else "between the edges ", first)
    if fit.left and fit.left[0][1:] != fit.right[0][1:]:
        places = content("in the first wing ", first, ", in the second ", _laid(fit.pattern, fit.left[0]))
    later = _later(fit.right)
    return content(places, "; ", later) if later else places


def _laid(pattern: Pattern, laid: LaidRepeat) -> Content:
    if not laid.multiples:
        return content(sts(laid.stitches), f", all in {pattern.fill}")
    extra = pattern.multiple.extra
    if pattern.is_panel:
        held = content(sts(in_pattern(pattern, 1)), " in pattern")
    else:
        plus = f" + {counted(extra, 'st')}" if extra else ""
        held = content(sts(laid.stitches), f": {counted(laid.multiples, 'repeat')}{plus}")
    return content(held, " and ", sts(laid.at_edge), f" in {pattern.fill} at the edge") if laid.at_edge else held


def _later(wing: Sequence[LaidRepeat]) -> Content:
    """The rows from which there are more or fewer repeats."""
    changes = [after for before, after in pairwise(wing) if after.multiples != before.multiples]
    words = [
        content(f"{counted(one.multiples, 'repeat')} from row ", row_number(one.row)) for one in changes[:_MOST_LISTED]
    ]
    return joined(", ", words)
