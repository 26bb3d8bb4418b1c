"""All that is said of the patterns of a description, for the plan."""

from collections.abc import Iterator

from halfhank.grammar.problems.problem import MISTAKE, Problem
from halfhank.model.checks.fit_advice import advise
from halfhank.model.checks.technical_edit import edit
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.stitches.pattern import Pattern, derived_multiple, patterns_of
from halfhank.model.stitches.row_checks import check_pattern, wrong_multiple


def review_rows(measures: StitchMeasures) -> Iterator[Problem]:
    """Whether the rows of each stitch follow from one another; with no mistake in them, what an editor would say."""
    seen = set[tuple[object, ...]]()
    for pattern in patterns_of(measures).values():
        if (pattern.rows[0].span, pattern.written, pattern.built_in) in seen:
            continue
        seen.add((pattern.rows[0].span, pattern.written, pattern.built_in))
        if pattern.built_in:
            yield from _built_in(pattern)
            continue
        problems = check_pattern(pattern)
        yield from problems
        if not any(problem.severity == MISTAKE for problem in problems):
            yield from edit(pattern)


def _built_in(pattern: Pattern) -> Iterator[Problem]:
    """A built-in's rows are right; only a multiple that somebody gives them can be wrong."""
    if pattern.written and check_pattern(pattern):
        yield wrong_multiple(pattern.written.span, pattern.multiple, derived_multiple(pattern.rows))


def review_fit(measures: StitchMeasures, parts: list[WorkedPart], rows: Rows) -> Iterator[Problem]:
    """How the patterns, which are free of mistakes, fit into the rows of the shawl."""
    patterns = {name: pattern for name, pattern in patterns_of(measures).items() if _has_count(pattern)}
    yield from advise(measures.design, patterns, parts, rows)


def _has_count(pattern: Pattern) -> bool:
    """Whether a pattern is worked over more than any number of stitches."""
    return pattern.multiple.each != 1 or pattern.multiple.extra > 0 or any(row.across for row in pattern.rows)
