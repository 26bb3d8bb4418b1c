"""The written instructions of a whole shawl as a report, from the abbreviations to the bind-off."""

from collections.abc import Iterator

from halfhank.model.instructions.part_sections import part_section
from halfhank.model.instructions.pattern_sections import abbreviation_section, pattern_sections
from halfhank.model.instructions.shaping_sentences import edge_lines, shaping_lines
from halfhank.model.instructions.start_section import start_section
from halfhank.model.plan import Plan
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
from halfhank.model.start_and_bind_off.bind_offs import bind_off_words
from halfhank.model.stitches.fit import Needle, needle_of
from halfhank.model.stitches.pattern import Pattern, patterns_of


def written_instructions(plan: Plan) -> Report:
    """The whole of it, one section after the other."""
    return Report(plan.shawl.title, (Paragraph((plan.shawl.summary,)), *_sections(plan)))


def _sections(plan: Plan) -> Iterator[ReportSection]:
    patterns, needle = _used_patterns(plan), needle_of(plan.design, plan.rows)
    if patterns:
        yield abbreviation_section(list(patterns.values()), needle.wings)
    for pattern in patterns.values():
        yield from pattern_sections(pattern, needle.wings)
    yield start_section(plan)
    if shaping := _shaping(plan, needle, list(patterns.values())):
        yield _lines("Shaping", shaping)
    for place in range(len(plan.shawl.parts)):
        yield part_section(plan, place, patterns, needle)
    yield _end(plan)


def _lines(heading: str, lines: list[Content]) -> ReportSection:
    return ReportSection(heading, (ListBlock(tuple(map(ListItem, lines))),))


def _used_patterns(plan: Plan) -> dict[str, Pattern]:
    used = {band.stitch for band in plan.shawl.bands}
    return {name: pattern for name, pattern in patterns_of(plan.table.measures).items() if name in used}


def _shaping(plan: Plan, needle: Needle, patterns: list[Pattern]) -> list[Content]:
    """The shape's lines, and the order in which a row is worked."""
    lines = [*edge_lines(plan.design), *shaping_lines(plan.design, plan.design.lines)]
    if min(plan.rows.stitches) < 2 * needle.edge:
        lines.append(content("Rows of fewer than ", sts(2 * needle.edge), ": every st is an edge st."))
    if patterns and (needle.edge or needle.left):
        lines.append(_row_order(needle))
    if max(plan.rows.stitches) > plan.rows.stitches[0]:
        lines += [line for pattern in patterns for line in _new_stitches(pattern)]
    return lines


def _row_order(needle: Needle) -> Content:
    edge = [content("edge (", sts(needle.edge), ")")] if needle.edge else []
    spine = [content("spine (", sts(needle.spine), ")")] if needle.spine else []
    middle: list[Content] = [("first wing",), *spine, ("second wing",)] if needle.left else [("pattern",)]
    return content("RS rows: ", joined(", ", [*edge, *middle, *edge]), "; WS rows in reverse order.")


def _new_stitches(pattern: Pattern) -> list[Content]:
    """How stitches are worked that increases bring, before they make a whole repeat."""
    if pattern.is_panel or pattern.multiple.each == 1:
        return []
    until = "until there are enough for another repeat; take them into the pattern at its next row 1"
    return [(f"{pattern.name}: work new stitches in {pattern.fill} {until}.",)]


def _end(plan: Plan) -> ReportSection:
    off = plan.shawl.bind_off
    if off.method == "draw through":
        return _lines("End", [content("Draw the yarn through the last ", sts(off.stitches), ".")])
    words = bind_off_words(plan.design.bind_off)
    return _lines("Bind off", [content(f"{words[0].upper()}{words[1:]} over ", sts(off.stitches), ".")])
