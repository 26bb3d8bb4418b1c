"""The sections about stitch patterns: their rows, and those of the mirror image."""

from collections.abc import Iterator

from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.report_tree import Content, ListBlock, ListItem, ReportSection
from halfhank.model.stitches.mirror import mirrored, stand_ins
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.words.catalogue import said, say


def pattern_sections(pattern: Pattern, wings: int) -> Iterator[ReportSection]:
    """The rows of one pattern, and those of its mirror image where the second of two wings needs other ones."""
    rows = row_lines(pattern)
    multiple, count = pattern.multiple.short_words, len(pattern.rows)
    heading = said("pattern.heading", name=pattern.name, multiple=multiple, count=count)
    yield _section(heading, [*map(_line, rows), *map(_line, release_lines(pattern))])
    second = row_lines(mirrored(pattern))
    if wings == 2 and second != rows:
        inexact = [say("pattern.inexact", item=kind) for kind in stand_ins(pattern)]
        yield _section(said("pattern.mirrored", name=pattern.name), [*map(_line, second), *inexact])


def _line(words: str) -> Content:
    return (words,)


def _section(heading: str, lines: list[Content]) -> ReportSection:
    return ReportSection(heading, (ListBlock(tuple(map(ListItem, lines))),))
