"""The written instructions of a whole shawl as a report, from the abbreviations to the bind-off."""

from collections.abc import Iterator

from halfhank.grammar.description import GarterTab
from halfhank.model.instructions.part_sections import part_section
from halfhank.model.instructions.pattern_sections import abbreviation_section, pattern_sections
from halfhank.model.instructions.shaping_sentences import shaping_lines
from halfhank.model.phrases import bind_off_words
from halfhank.model.report_tree import (
    Content,
    ListBlock,
    ListItem,
    Paragraph,
    Report,
    ReportSection,
    content,
    joined,
    sts,
)
from halfhank.model.shawl import Shawl
from halfhank.model.stitches.fit import Needle, needle_of
from halfhank.model.stitches.pattern import Pattern, patterns_of
from halfhank.model.yarn.stitch_table import StitchTable


def written_instructions(shawl: Shawl) -> Report:
    """The whole of it, one section after the other."""
    return Report(shawl.title, (Paragraph((shawl.summary,)), *_sections(shawl)))


def _sections(shawl: Shawl) -> Iterator[ReportSection]:
    table = StitchTable(shawl.description)
    patterns, needle = _used_patterns(shawl, table), needle_of(shawl.description, shawl.rows)
    if patterns:
        yield abbreviation_section(list(patterns.values()), needle.wings)
    for pattern in patterns.values():
        yield from pattern_sections(pattern, needle.wings)
    yield _lines("Start", [_start(shawl)])
    if shaping := _shaping(shawl, needle, list(patterns.values())):
        yield _lines("Shaping", shaping)
    for place in range(len(shawl.parts)):
        yield part_section(shawl, table, place, patterns, needle)
    yield _end(shawl)


def _lines(heading: str, lines: list[Content]) -> ReportSection:
    return ReportSection(heading, (ListBlock(tuple(map(ListItem, lines))),))


def _used_patterns(shawl: Shawl, table: StitchTable) -> dict[str, Pattern]:
    used = {band.stitch for band in shawl.bands}
    return {name: pattern for name, pattern in patterns_of(table).items() if name in used}


def _start(shawl: Shawl) -> Content:
    start = shawl.description.shape.start
    if not isinstance(start, GarterTab):
        return content("Cast on ", sts(start.stitches), ".")
    side, along = sts(start.tab_stitches), sts(start.tab_rows // 2)
    tab = content(
        "Garter tab: cast on ", side, f" and knit {start.tab_rows} rows. Turn the work a quarter to the right"
    )
    picked = content(", pick up and knit ", along, " along its side, then ", side, " from the cast-on: ")
    return content(tab, picked, sts(start.stitches), ".")


def _shaping(shawl: Shawl, needle: Needle, patterns: list[Pattern]) -> list[Content]:
    """The shape's lines, and the order in which a row is worked."""
    lines = shaping_lines(shawl.description, shawl.description.shape.shaping)
    if patterns and (needle.edge or needle.left):
        lines.append(_row_order(needle))
    if max(shawl.rows.stitches) > shawl.rows.stitches[0]:
        lines += [line for pattern in patterns for line in _new_stitches(pattern)]
    return lines


def _row_order(needle: Needle) -> Content:
    edge = [content("edge (", sts(needle.edge), ")")] if needle.edge else []
    spine = [content("spine (", sts(needle.spine), ")")] if needle.spine else []
    middle: list[Content] = [("first wing",), *spine, ("second wing",)] if needle.left else [("pattern",)]
    return content("Right-side rows: ", joined(", ", [*edge, *middle, *edge]), "; wrong-side rows in reverse order.")


def _new_stitches(pattern: Pattern) -> list[Content]:
    """How stitches are worked that increases bring, before they make a whole multiple."""
    if pattern.is_panel or pattern.multiple.each == 1:
        return []
    until = "until its rows begin again on a whole multiple more"
    return [(f"New stitches beside {pattern.name}: {pattern.fill}, {until}.",)]


def _end(shawl: Shawl) -> ReportSection:
    off = shawl.bind_off
    if off.method == "draw through":
        return _lines("End", [content("Draw the yarn through the last ", sts(off.stitches), ".")])
    words = bind_off_words(shawl.description.bind_off)
    return _lines("Bind off", [content(f"{words[0].upper()}{words[1:]} over ", sts(off.stitches), ".")])
