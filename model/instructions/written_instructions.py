"""The written instructions of a whole shawl as a report, from its size to its blocking."""

from collections.abc import Iterable, Iterator

from halfhank.grammar.description import Item
from halfhank.model.instructions.ending.bind_off_steps import bind_off_section
from halfhank.model.instructions.ending.blocking_section import blocking_section
from halfhank.model.instructions.ending.weigh_points import weighing_section
from halfhank.model.instructions.opening.abbreviation_list import abbreviation_section
from halfhank.model.instructions.opening.head_facts import head_facts
from halfhank.model.instructions.opening.notes_section import notes_section
from halfhank.model.instructions.parts.part_text import part_text
from halfhank.model.instructions.pattern_sections import pattern_sections
from halfhank.model.instructions.rows.every_row import every_row
from halfhank.model.instructions.start_section import start_section
from halfhank.model.plan import Plan
from halfhank.model.report_tree import (
    ListBlock,
    ListItem,
    Paragraph,
    Report,
    ReportBlock,
    ReportSection,
    Table,
    words_of,
)
from halfhank.model.stitches.fit import needle_of
from halfhank.model.stitches.mirror import mirrored
from halfhank.model.stitches.pattern import Pattern, patterns_of


def written_instructions(plan: Plan) -> Report:
    """The whole of it: facts, notes and abbreviations first, then the sections in working order."""
    head = (Paragraph((plan.shawl.summary,)), *head_facts(plan))
    return Report(plan.shawl.title, (*head, notes(plan), abbreviations(plan), *patterns(plan), *steps(plan)))


def notes(plan: Plan) -> ReportSection:
    """The notes that a shawl needs."""
    return notes_section(plan, plan.once(_text))


def abbreviations(plan: Plan) -> ReportSection:
    """The abbreviations of the stitch patterns and of all steps."""
    return abbreviation_section(plan.once(_text), _items(plan))


def patterns(plan: Plan) -> tuple[ReportSection, ...]:
    """The stitch patterns, with the mirror image for the second wing where it differs."""
    wings = needle_of(plan.design, plan.rows).wings
    return tuple(section for one in used_patterns(plan) for section in pattern_sections(one, wings))


def steps(plan: Plan) -> tuple[ReportSection, ...]:
    """From the cast-on to the blocking."""
    return plan.once(_steps)


def _steps(plan: Plan) -> tuple[ReportSection, ...]:
    parts = (part_text(plan, place) for place in range(len(plan.shawl.parts)))
    return (start_section(plan), *parts, bind_off_section(plan), weighing_section(plan), blocking_section(plan))


def used_patterns(plan: Plan) -> list[Pattern]:
    """The patterns with rows of their own that a band is worked in."""
    used = {band.stitch for band in plan.shawl.bands}
    return [pattern for name, pattern in patterns_of(plan.table.measures).items() if name in used]


def _items(plan: Plan) -> Iterator[Item]:
    """All items of the patterns' rows, in both images, and of the shawl's."""
    for pattern in used_patterns(plan):
        for one in (pattern, mirrored(pattern))[: needle_of(plan.design, plan.rows).wings]:
            yield from (item for row in one.rows for item in row.items)
    yield from (item for row in every_row(plan) for item in row.items)


def _text(plan: Plan) -> str:
    """All that is read while knitting, as plain text, for what has to be explained."""
    return "\n".join(_words((*patterns(plan), *steps(plan))))


def _words(blocks: Iterable[ReportBlock]) -> Iterator[str]:
    for block in blocks:
        match block:
            case ReportSection(heading, inner):
                yield heading
                yield from _words(inner)
            case Paragraph(text, _):
                yield words_of(text)
            case ListBlock(items):
                yield from _of_items(items)
            case Table(columns, _):
                yield from (column.heading for column in columns)


def _of_items(items: tuple[ListItem, ...]) -> Iterator[str]:
    for item in items:
        yield words_of(item.text)
        yield from _of_items(item.below)
