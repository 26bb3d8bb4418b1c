"""All that is said of the patterns of a description, for the plan."""

from collections.abc import Iterator

from halfhank.grammar.problems import MISTAKE, Problem
from halfhank.model.fabrics import Workroom
from halfhank.model.pattern.advice import advise
from halfhank.model.pattern.checks import check_pattern
from halfhank.model.pattern.editor import edit
from halfhank.model.pattern.pattern import Pattern, patterns_of
from halfhank.model.rows import Rows
from halfhank.model.shaping import Worked


def review_rows(room: Workroom) -> Iterator[Problem]:
    """Whether the rows of each stitch follow from one another; with no mistake in them, what an editor would say."""
    for name, pattern in patterns_of(room).items():
        problems = check_pattern(pattern)
        if not any(problem.severity == MISTAKE for problem in problems) and not pattern.built_in:
            problems += edit(pattern)
        span = room.blocks[name].span if name in room.blocks else None
        for problem in problems:
            theirs = pattern.built_in and not (pattern.written and problem.span == pattern.written.span)
            yield problem._replace(span=span) if theirs else problem


def review_fit(room: Workroom, parts: list[Worked], rows: Rows) -> Iterator[Problem]:
    """How the patterns, which are free of mistakes, fit into the rows of the shawl."""
    patterns = {name: pattern for name, pattern in patterns_of(room).items() if _has_count(pattern)}
    yield from advise(room.description, patterns, parts, rows)


def _has_count(pattern: Pattern) -> bool:
    """Whether a pattern is worked over more than any number of stitches."""
    return pattern.multiple.each != 1 or pattern.multiple.extra > 0 or any(row.across for row in pattern.rows)
