"""The working text of a whole shawl: start, stitch patterns, shaping, each part with its counts, bind-off."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from halfhank.grammar.description import (
    Across,
    AnyBand,
    Band,
    Cable,
    Drop,
    GarterTab,
    InOne,
    Item,
    Part,
    Repeat,
    Times,
    Work,
)
from halfhank.grammar.items import ITEMS
from halfhank.model.instructions.abbreviations import explained, key_abbreviation
from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.instructions.shaping_sentences import even_lines, shaping_lines
from halfhank.model.phrases import bind_off_words, counted
from halfhank.model.rows.sections import spread
from halfhank.model.shawl import PartPlan, Shawl
from halfhank.model.stitches.fit import Fit, LaidRepeat, Needle, PatternRows, fitted, in_pattern, needle_of
from halfhank.model.stitches.mirror import mirrored, stand_ins
from halfhank.model.stitches.pattern import Pattern, patterns_of
from halfhank.model.yarn.stitch_table import StitchTable

INDENT = "  "
_USUAL = {"k": "knit", "p": "purl", "st(s)": "stitch(es)", "rep": "repeat", "RS": "right side", "WS": "wrong side"}
_MANNERS = {"tbl": "through the back loop", "wyif": "with the yarn in front"}
_MOST_LISTED = 60


def working_text(shawl: Shawl) -> str:
    """The whole text, in lines without trailing spaces, ending with a line feed."""
    return "\n\n".join("\n".join(block) for block in _blocks(shawl) if block) + "\n"


def _blocks(shawl: Shawl) -> Iterator[list[str]]:
    room = StitchTable(shawl.description)
    patterns, needle = _used_patterns(shawl, room), needle_of(shawl.description, shawl.rows)
    yield [shawl.title, shawl.summary]
    yield _abbreviations(patterns, needle.wings)
    for pattern in patterns.values():
        yield _pattern_block(pattern, needle)
    yield _start(shawl)
    yield _shaping(shawl, needle, patterns)
    for place, part in enumerate(shawl.parts):
        yield [*_part(shawl, room, place, part), *_indented(_fits(shawl, patterns, needle, part))]
    yield _end(shawl)


def _indented(lines: Sequence[str]) -> list[str]:
    return [INDENT + line for line in lines]


def sts(count: int) -> str:
    """A count of stitches."""
    return f"{count:,} {'st' if count == 1 else 'sts'}"


def _used_patterns(shawl: Shawl, room: StitchTable) -> dict[str, Pattern]:
    used = {band.stitch for band in shawl.bands}
    return {name: pattern for name, pattern in patterns_of(room).items() if name in used}


def _abbreviations(patterns: dict[str, Pattern], wings: int) -> list[str]:
    if not patterns:
        return []
    told = dict(_USUAL)
    for pattern in [*patterns.values(), *(mirrored(one) for one in patterns.values() if wings == 2)]:
        for row in pattern.rows:
            told.update(_explained(row.items))
    return ["Abbreviations", *[f"{INDENT}{name}: {words}" for name, words in told.items()]]


def _explained(items: tuple[Item, ...]) -> Iterator[tuple[str, str]]:
    for item in items:
        if isinstance(item, Times | InOne | Across):
            yield from _explained(item.items)
        elif isinstance(item, Cable):
            yield key_abbreviation(item), explained(item)
        elif isinstance(item, Work) and item.kind not in _USUAL:
            yield (
                key_abbreviation(item._replace(count=1, tbl=False, wyif=False, wraps=1, twice=False)),
                ITEMS[item.kind].words,
            )
        if isinstance(item, Work):
            yield from ((word, words) for word, words in _MANNERS.items() if getattr(item, word))


def _pattern_block(pattern: Pattern, needle: Needle) -> list[str]:
    rows = counted(len(pattern.rows), "row")
    lines = [f"{pattern.name} ({pattern.multiple.short_words}, {rows})", *_indented(row_lines(pattern))]
    lines += _indented(release_lines(pattern))
    second = mirrored(pattern)
    if needle.wings == 2 and row_lines(second) != row_lines(pattern):
        lines += ["", f"{pattern.name}, second wing (mirror image)", *_indented(row_lines(second))]
        lines += [f"{INDENT}{kind} has no exact mirror image." for kind in stand_ins(pattern)]
    return lines


def _newcomers(pattern: Pattern) -> list[str]:
    """How stitches are worked that increases bring, before they make a whole multiple."""
    if pattern.is_panel or pattern.multiple.each == 1:
        return []
    return [f"New stitches beside {pattern.name}: {pattern.fill}, until its rows begin again on a whole multiple more."]


def _start(shawl: Shawl) -> list[str]:
    start = shawl.description.shape.start
    if not isinstance(start, GarterTab):
        return ["Start", f"{INDENT}Cast on {sts(start.stitches)}."]
    side, along = start.tab_stitches, start.tab_rows // 2
    tab = f"Garter tab: cast on {sts(side)} and knit {start.tab_rows} rows. Turn the work a quarter to the right"
    picked = f"pick up and knit {sts(along)} along its side, then {sts(side)} from the cast-on: {sts(start.stitches)}"
    return ["Start", f"{INDENT}{tab}, {picked}."]


def _shaping(shawl: Shawl, needle: Needle, patterns: dict[str, Pattern]) -> list[str]:
    """The shape's lines, and the order in which a row is worked."""
    lines = shaping_lines(shawl.description, shawl.description.shape.shaping)
    if patterns and (needle.edge or needle.left):
        edge = [f"edge ({sts(needle.edge)})"] if needle.edge else []
        spine = [f"spine ({sts(needle.spine)})"] if needle.spine else []
        middle = ["first wing", *spine, "second wing"] if needle.left else ["pattern"]
        lines.append(f"Right-side rows: {', '.join([*edge, *middle, *edge])}; wrong-side rows in reverse order.")
    if max(shawl.rows.stitches) > shawl.rows.stitches[0]:
        lines += [line for pattern in patterns.values() for line in _newcomers(pattern)]
    return ["Shaping", *_indented(lines)] if lines else []


def _part(shawl: Shawl, room: StitchTable, place: int, part: PartPlan) -> list[str]:
    begin = shawl.rows.stitches[part.first_row - 1]
    rows = (
        f"row {part.first_row:,}"
        if part.first_row == part.last_row
        else f"rows {part.first_row:,} to {part.last_row:,}"
    )
    lines = [f"Part {place + 1}, {part.name} ({rows}; {sts(begin)} to {sts(part.stitches_at_end)})"]
    written = shawl.description.parts
    if place < len(written):
        lines += _indented(_own_shaping(shawl, written[place]))
        lines += _indented(_bands(shawl, room, written[place].bands))
        lines += _indented(_repeat_counts(shawl, room, written[place], part))
    else:
        lines += _indented(_back(shawl, part))
    return [
        *lines,
        *_indented(even_lines(shawl, part.first_row, part.last_row)),
        f"{INDENT}{sts(part.stitches_at_end)} after row {part.last_row:,}.",
    ]


def _own_shaping(shawl: Shawl, part: Part) -> list[str]:
    if part.even:
        return ["No shaping in this part."]
    if not part.shaping:
        return []
    return ["In this part, rows counted from its first:", *_indented(shaping_lines(shawl.description, part.shaping))]


def _bands(shawl: Shawl, room: StitchTable, bands: tuple[AnyBand, ...]) -> list[str]:
    lines: list[str] = []
    for band in bands:
        if isinstance(band, Repeat):
            times = shawl.allowed or 0 if band.times is None else band.times.value
            lines += [
                f"Work {'once' if times == 1 else f'{times:,} times'}:",
                *_indented(_bands(shawl, room, band.bands)),
            ]
        else:
            label = f" ({band.label.value})" if band.label else ""
            lines.append(f"{_band(shawl, room, band)}{label}.")
    return lines


def _band(shawl: Shawl, room: StitchTable, band: Band | Drop) -> str:
    if isinstance(band, Drop):
        return f"drop: 1 row with {band.wraps} wraps of the needle for every stitch, 1 row that releases them"
    name = band.stitch.value
    if band.as_yarn_allows:
        repeat = room.repeat_rows(name)
        count = (shawl.allowed or 0) * (repeat or 2)
        return f"{name}: {count:,} rows" + (f" ({shawl.allowed:,} repeats)" if repeat else "")
    values = [count.value for count in band.counts]
    unit = band.unit if len(values) > 1 or values[0] != 1 else (band.unit or "").removesuffix("s")
    by_turns = " by turns" if len(values) > 1 else ""
    return f"{name}: {', '.join(f'{value:,}' for value in values)} {unit}{by_turns}"


def _repeat_counts(shawl: Shawl, room: StitchTable, written: Part, part: PartPlan) -> list[str]:
    """The stitches after each pass of the part's repeats."""
    row, lines = part.first_row - 1, []
    for band in written.bands:
        if not isinstance(band, Repeat):
            row += sum(run.rows for run in spread(room, (band,), shawl.allowed or 0))
            continue
        times = shawl.allowed or 0 if band.times is None else band.times.value
        counts = []
        for turn in range(times):
            rows = sum(run.rows for run in spread(room, band.bands, shawl.allowed or 0, turn))
            if not rows:
                break
            row += rows
            counts.append(shawl.rows.stitches[row])
        if len(counts) > 1:
            listed = ", ".join(f"{count:,}" for count in counts[:_MOST_LISTED])
            lines.append(
                f"Stitches after each of the {times:,} times: {listed}{' …' if len(counts) > _MOST_LISTED else ''}."
            )
    return lines


def _back(shawl: Shawl, part: PartPlan) -> list[str]:
    """The way back, band by band as they are worked."""
    bands = [band for band in shawl.bands if part.first_row <= band.first_row <= part.last_row]
    lines = [
        f"Rows {band.first_row:,} to {band.last_row:,}: {band.stitch}; {sts(band.stitches_at_end)} at the end."
        for band in bands
    ]
    return lines[:_MOST_LISTED]


def _fits(shawl: Shawl, patterns: dict[str, Pattern], needle: Needle, part: PartPlan) -> list[str]:
    """How the patterns lie in the part's rows."""
    lines = []
    for band in shawl.bands:
        if band.stitch in patterns and part.first_row <= band.first_row <= part.last_row:
            stretch = PatternRows(band.stitch, band.first_row, band.last_row, None)
            lines.append(_fit(fitted(patterns[band.stitch], stretch, needle, shawl.rows)))
    return lines[:_MOST_LISTED]


def _fit(fit: Fit) -> str:
    first = _laid(fit.pattern, fit.right[0])
    places = f"{'in each wing' if fit.left else 'between the edges'} {first}"
    if fit.left and fit.left[0][1:] != fit.right[0][1:]:
        places = f"in the first wing {first}, in the second {_laid(fit.pattern, fit.left[0])}"
    later = _later(fit.right)
    return f"Row {fit.stretch.first_row:,}, {fit.pattern.name}: {places}" + (
        f"; new stitches come in: {later}." if later else "."
    )


def _laid(pattern: Pattern, laid: LaidRepeat) -> str:
    if not laid.multiples:
        return f"{sts(laid.stitches)}, all in {pattern.fill}"
    each, extra = pattern.multiple
    if pattern.is_panel:
        held = f"{sts(in_pattern(pattern, 1))} in pattern"
    else:
        plus = f" + {extra}" if extra else ""
        word = "multiple" if laid.multiples == 1 else "multiples"
        held = f"{sts(laid.stitches)}, {laid.multiples:,} {word} of {each:,}{plus}"
    return held + (f" and {sts(laid.at_edge)} in {pattern.fill} at the edge" if laid.at_edge else "")


def _later(wing: Sequence[LaidRepeat]) -> str:
    """The rows on which the number of multiples changes."""
    changes = [after for before, after in pairwise(wing) if after.multiples != before.multiples]
    words = [f"{one.multiples:,} multiples from row {one.row:,}" for one in changes[:_MOST_LISTED]]
    return ", ".join(words)


def _end(shawl: Shawl) -> list[str]:
    words = bind_off_words(shawl.description.bind_off)
    if shawl.bind_off.method == "draw through":
        return ["End", f"{INDENT}Draw the yarn through the last {sts(shawl.bind_off.stitches)}."]
    return ["Bind off", f"{INDENT}{words[0].upper()}{words[1:]} over {sts(shawl.bind_off.stitches)}."]
