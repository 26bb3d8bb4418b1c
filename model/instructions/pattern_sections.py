"""The sections about stitch patterns: the abbreviations that they use, and their rows."""

from collections.abc import Iterator

from halfhank.grammar.description import Across, Cable, InOne, Item, Times, Work
from halfhank.grammar.items import ITEMS
from halfhank.model.instructions.abbreviations import explained, key_abbreviation
from halfhank.model.instructions.row_lines import release_lines, row_lines
from halfhank.model.number_words import counted
from halfhank.model.report_tree import ListBlock, ListItem, ReportSection
from halfhank.model.stitches.mirror import mirrored, stand_ins
from halfhank.model.stitches.pattern import Pattern

_USUAL = {"k": "knit", "p": "purl", "st(s)": "stitch(es)", "rep": "repeat", "RS": "right side", "WS": "wrong side"}
_MANNERS = {"tbl": "through the back loop", "wyif": "with the yarn in front"}


def abbreviation_section(patterns: list[Pattern], wings: int) -> ReportSection:
    """The usual abbreviations and all that the patterns use; with two `wings` those of their mirror images too."""
    found = dict(_USUAL)
    for pattern in [*patterns, *(mirrored(one) for one in patterns if wings == 2)]:
        for row in pattern.rows:
            found.update(_explained(row.items))
    items = tuple(ListItem((words,), lead=name) for name, words in found.items())
    return ReportSection("Abbreviations", (ListBlock(items),))


def _explained(items: tuple[Item, ...]) -> Iterator[tuple[str, str]]:
    for item in items:
        if isinstance(item, Times | InOne | Across):
            yield from _explained(item.items)
        elif isinstance(item, Cable):
            yield key_abbreviation(item), explained(item)
        elif isinstance(item, Work) and item.kind not in _USUAL:
            plain = item._replace(count=1, tbl=False, wyif=False, wraps=1, twice=False)
            yield key_abbreviation(plain), ITEMS[item.kind].words
        if isinstance(item, Work):
            yield from ((word, words) for word, words in _MANNERS.items() if getattr(item, word))


def pattern_sections(pattern: Pattern, wings: int) -> Iterator[ReportSection]:
    """The rows of one pattern, and those of its mirror image where the second of two wings needs other ones."""
    rows = row_lines(pattern)
    heading = f"{pattern.name} ({pattern.multiple.short_words}, {counted(len(pattern.rows), 'row')})"
    yield _section(heading, [*rows, *release_lines(pattern)])
    second = row_lines(mirrored(pattern))
    if wings == 2 and second != rows:
        inexact = [f"{kind} has no exact mirror image." for kind in stand_ins(pattern)]
        yield _section(f"{pattern.name}, second wing (mirror image)", [*second, *inexact])


def _section(heading: str, lines: list[str]) -> ReportSection:
    return ReportSection(heading, (ListBlock(tuple(ListItem((line,)) for line in lines)),))
