"""One part of a shawl as a section: its rows, shaping and bands, the counts on the way, and how patterns lie in it."""

from collections.abc import Sequence
from itertools import pairwise

from halfhank.model.design.design import AnyBand, Band, Design, Elongated, Part, Repeat
from halfhank.model.instructions.shaping_sentences import even_lines, shaping_lines
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
from halfhank.model.shawl import PartPlan, Shawl
from halfhank.model.stitches.fit import Fit, LaidRepeat, Needle, PatternRows, fitted, in_pattern
from halfhank.model.stitches.pattern import Pattern

_MOST_LISTED = 60


def part_section(plan: Plan, place: int, patterns: dict[str, Pattern], needle: Needle) -> ReportSection:
    """The part at that place of the plan, in working order."""
    shawl, parts = plan.shawl, plan.design.parts
    part = shawl.parts[place]
    items = _written(plan, parts[place], part) if place < len(parts) else _items(_back(shawl, part))
    items += _items(even_lines(plan, part.first_row, part.last_row))
    items.append(ListItem(content(sts(part.stitches_at_end), " after row ", row_number(part.last_row), ".")))
    items += _items(_fits(shawl, patterns, needle, part))
    return ReportSection(_heading(shawl, place), (ListBlock(tuple(items)),))


def _items(lines: list[Content]) -> list[ListItem]:
    return list(map(ListItem, lines))


def _heading(shawl: Shawl, place: int) -> str:
    part = shawl.parts[place]
    first, last = part.first_row, part.last_row
    rows = f"row {first:,}" if first == last else f"rows {first:,} to {last:,}"
    counts = f"{sts(shawl.rows.stitches[first - 1])} to {sts(part.stitches_at_end)}"
    return f"Part {place + 1}, {part.name} ({rows}; {counts})"


def _written(plan: Plan, written: Part, part: PartPlan) -> list[ListItem]:
    """What the description says of a part."""
    bands = _bands(plan, written.bands)
    return [*_own_shaping(plan.design, written), *bands, *_items(_repeat_counts(plan, written, part))]


def _own_shaping(design: Design, part: Part) -> list[ListItem]:
    if part.lines is None:
        return []
    if not part.lines:
        return [ListItem(("No shaping in this part.",))]
    lines = _items(shaping_lines(design, part.lines))
    return [ListItem(("In this part, rows counted from its first:",), tuple(lines))]


def _bands(plan: Plan, bands: tuple[AnyBand, ...]) -> list[ListItem]:
    return [_repeat(plan, one) if isinstance(one, Repeat) else _band(plan, one) for one in bands]


def _repeat(plan: Plan, repeat: Repeat) -> ListItem:
    times = _times(plan, repeat)
    often = Value("once" if times == 1 else f"{times:,} times", times, "repeats")
    return ListItem(content("Work ", often, ":"), tuple(_bands(plan, repeat.bands)))


def _times(plan: Plan, repeat: Repeat) -> int:
    return plan.shawl.allowed or 0 if repeat.times is None else repeat.times


def _band(plan: Plan, band: Band | Elongated) -> ListItem:
    label = f" ({band.label})" if band.label else ""
    return ListItem(content(_band_words(plan, band), f"{label}."))


def _band_words(plan: Plan, band: Band | Elongated) -> Content:
    if isinstance(band, Elongated):
        releases = "1 row that releases them"
        return (f"drop: 1 row with {band.wraps} wraps of the needle for every stitch, {releases}",)
    name, written = band.stitch, band.written.value
    if band.as_yarn_allows:
        return content(f"{name}: ", _allowed_rows(plan.shawl, plan.table.measures.repeat_rows(name)))
    values = [count.value for count in written.counts]
    unit = written.unit if len(values) > 1 or values[0] != 1 else (written.unit or "").removesuffix("s")
    by_turns = " by turns" if len(values) > 1 else ""
    return (f"{name}: {', '.join(f'{value:,}' for value in values)} {unit}{by_turns}",)


def _allowed_rows(shawl: Shawl, repeat_rows: int | None) -> Content:
    """What `as yarn allows` comes to, in rows and, of a stitch with rows of its own, in repeats of those."""
    allowed = shawl.allowed or 0
    count = allowed * (repeat_rows or 2)
    repeats = content(" (", Value(f"{shawl.allowed:,} repeats", allowed, "repeats"), ")") if repeat_rows else ()
    return content(Value(f"{count:,} rows", count, "rows"), repeats)


def _repeat_counts(plan: Plan, written: Part, part: PartPlan) -> list[Content]:
    """The stitches after each pass of the part's repeats."""
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
        if len(counts) > 1:
            lines.append(_counts_line(_times(plan, band), counts))
    return lines


def _counts_line(times: int, counts: list[int]) -> Content:
    listed = joined(", ", [(Value(f"{count:,}", count, "sts"),) for count in counts[:_MOST_LISTED]])
    rest = " …" if len(counts) > _MOST_LISTED else ""
    return content(f"Stitches after each of the {times:,} times: ", listed, f"{rest}.")


def _back(shawl: Shawl, part: PartPlan) -> list[Content]:
    """The way back, band by band as they are worked."""
    bands = [band for band in shawl.bands if part.first_row <= band.first_row <= part.last_row]
    return [
        content(_rows(band.first_row, band.last_row), f": {band.stitch}; ", sts(band.stitches_at_end), " at the end.")
        for band in bands[:_MOST_LISTED]
    ]


def _rows(first: int, last: int) -> Content:
    return content("Rows ", row_number(first), " to ", row_number(last))


def _fits(shawl: Shawl, patterns: dict[str, Pattern], needle: Needle, part: PartPlan) -> list[Content]:
    """How the patterns lie in the part's rows."""
    bands = [
        band for band in shawl.bands if band.stitch in patterns and part.first_row <= band.first_row <= part.last_row
    ]
    stretches = [PatternRows(band.stitch, band.first_row, band.last_row, None) for band in bands[:_MOST_LISTED]]
    return [_fit(fitted(patterns[one.stitch], one, needle, shawl.rows)) for one in stretches]


def _fit(fit: Fit) -> Content:
    first = _laid(fit.pattern, fit.right[0])
    places = content("in each wing " if fit.left else "between the edges ", first)
    if fit.left and fit.left[0][1:] != fit.right[0][1:]:
        places = content("in the first wing ", first, ", in the second ", _laid(fit.pattern, fit.left[0]))
    later = _later(fit.right)
    growing = content("; new stitches come in: ", later) if later else ()
    return content("Row ", row_number(fit.stretch.first_row), f", {fit.pattern.name}: ", places, growing, ".")


def _laid(pattern: Pattern, laid: LaidRepeat) -> Content:
    if not laid.multiples:
        return content(sts(laid.stitches), f", all in {pattern.fill}")
    each, extra = pattern.multiple
    if pattern.is_panel:
        held = content(sts(in_pattern(pattern, 1)), " in pattern")
    else:
        plus = f" + {extra}" if extra else ""
        word = "multiple" if laid.multiples == 1 else "multiples"
        held = content(sts(laid.stitches), f", {laid.multiples:,} {word} of {each:,}{plus}")
    return content(held, " and ", sts(laid.at_edge), f" in {pattern.fill} at the edge") if laid.at_edge else held


def _later(wing: Sequence[LaidRepeat]) -> Content:
    """The rows on which the number of multiples changes."""
    changes = [after for before, after in pairwise(wing) if after.multiples != before.multiples]
    words = [content(f"{one.multiples:,} multiples from row ", row_number(one.row)) for one in changes[:_MOST_LISTED]]
    return joined(", ", words)
