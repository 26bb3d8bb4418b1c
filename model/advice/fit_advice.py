"""What a technical editor would say of patterns in a shawl: how they fit, band by band. All of it is advice."""

from collections.abc import Iterator, Sequence
from math import gcd
from typing import NamedTuple

from halfhank.grammar.description import Work
from halfhank.grammar.problems import Problem, Span, advice
from halfhank.model.meaning.design import Band, Design
from halfhank.model.number_words import counted
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart
from halfhank.model.stitches.chart import too_large
from halfhank.model.stitches.fit import Fit, LaidRepeat, Needle, PatternRows, fitted, needle_of, whole_multiples
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.stitches.worked_rows import worked_rows

_MEND_ROWS = 200
"""How many rows later a start is still worth proposing."""


class Case(NamedTuple):
    """One band of the description in a pattern: all stretches that it is worked in, and the shawl's rows."""

    source: Span
    fits: tuple[Fit, ...]
    needle: Needle
    rows: Rows
    yarn_over_ends: list[tuple[bool, bool]]

    @property
    def pattern(self) -> Pattern:
        return self.fits[0].pattern


def advise(design: Design, patterns: dict[str, Pattern], parts: Sequence[WorkedPart], rows: Rows) -> Iterator[Problem]:
    """All advice on the bands that are worked in patterns."""
    needle = needle_of(design, rows)
    cases: dict[Span, list[Fit]] = {}
    for stretch in stretches(parts):
        pattern = patterns.get(stretch.stitch)
        if pattern and stretch.span:
            cases.setdefault(stretch.span, []).append(fitted(pattern, stretch, needle, rows))
    ends = {name: _yarn_over_ends(pattern) for name, pattern in patterns.items()}
    for span, fits in cases.items():
        case = Case(span, tuple(fits), needle, rows, ends[fits[0].stretch.stitch])
        for check in CASE_CHECKS:
            yield from check(case)
    if cases:
        yield from _uneven_wings(needle, [fit for fits in cases.values() for fit in fits])


def stretches(parts: Sequence[WorkedPart]) -> Iterator[PatternRows]:
    """The bands of all parts in working order, those without rows left out."""
    for part in parts:
        row = part.first_row
        for run in part.section.runs:
            if run.rows and isinstance(run.source, Band):
                yield PatternRows(run.stitch, row, row + run.rows - 1, run.source.span)
            row += run.rows


def _where(needle: Needle) -> str:
    return " in each wing" if needle.wings == 2 else ""


def _fit(case: Case) -> Iterator[Problem]:
    """Whether a whole number of multiples fits where each stretch begins."""
    pattern, needle = case.pattern, case.needle
    begun = [fit for fit in case.fits if any(_over(pattern, wing[0]) for wing in fit.wings)]
    if not begun:
        return
    first = min(begun, key=lambda fit: min(wing[0].multiples for wing in fit.wings))
    laid = max((wing[0] for wing in first.wings), key=lambda one: _over(pattern, one))
    row, there = laid.row, counted(laid.stitches, "st") + _where(needle)
    again = (
        f" So it is in {len(begun)} of the {len(case.fits)} times that this is worked." if len(case.fits) > 1 else ""
    )
    if laid.multiples == 0:
        least = pattern.multiple.stitches(pattern.least)
        needed = counted(least, "st")
        message = f"Row {row:,} begins `{pattern.name[:40]}` on {there}; its rows need at least {needed}.{again}"
        yield advice("no-multiple-fits", case.source, message, _mend(case, first, least - laid.stitches))
        return
    over, panel = _over(pattern, laid), pattern.multiple.stitches(laid.multiples)
    held = f"once {counted(panel, 'st')}" if pattern.is_panel else _multiples(pattern, laid.multiples)
    rest = f"{counted(over, 'st')} over, worked in {pattern.fill}"
    message = f"Row {row:,} begins `{pattern.name[:40]}` on {there}: {held}, and {rest}.{again}"
    more = pattern.multiple.each - over if not pattern.is_panel else 0
    yield advice("multiple-over", case.source, message, _mend(case, first, more))


def _multiples(pattern: Pattern, count: int) -> str:
    each, extra = pattern.multiple
    plus = f" + {extra:,}" if extra else ""
    return f"{count:,} {'multiple' if count == 1 else 'multiples'} of {each:,}{plus}"


def _over(pattern: Pattern, laid: LaidRepeat) -> int:
    """Stitches outside the pattern when a stretch begins."""
    return laid.stitches - (pattern.multiple.stitches(laid.multiples) if laid.multiples else 0)


def _mend(case: Case, fit: Fit, more: int) -> str | None:
    """The smallest number of rows later at which the multiple comes out, or the stitches that it takes."""
    needle, pattern, first = case.needle, case.pattern, fit.stretch.first_row
    wings = [wing for wing in (needle.right, needle.left) if wing]
    later = next(
        (
            rows
            for rows in range(2, min(len(case.rows.stitches) - first, _MEND_ROWS) + 1, 2)
            if all(_comes_out(pattern, wing[first - 1 + rows]) for wing in wings)
        ),
        None,
    )
    place = " in each wing" if needle.wings == 2 else ""
    stitches = f"{counted(more, 'st')} more{place}" if more > 0 else None
    moved = f"start {later:,} rows later" if later else None
    return " or ".join(part for part in (moved, stitches) if part) or None


def _comes_out(pattern: Pattern, stitches: int) -> bool:
    count = whole_multiples(pattern, stitches)
    return count > 0 and pattern.multiple.stitches(count) == stitches


def _growth(case: Case) -> Iterator[Problem]:
    """How the gain at each side in one vertical repeat compares with the multiple.

    Of two stitches nobody needs to be told.
    """
    pattern, rows = case.pattern, len(case.pattern.rows)
    each = pattern.multiple.each
    long = next((fit for fit in case.fits if fit.stretch.rows > rows), None)
    if each <= 2 or long is None:
        return
    first = long.stretch.first_row
    told = set[tuple[int, int]]()
    for place, column in _sides(case):
        gain = sum(column[first : first + rows])
        steady = all(
            sum(column[start : start + rows]) == gain for start in range(first, long.stretch.last_row - rows + 2, rows)
        )
        turns = each // gcd(abs(gain), each) if gain else 1
        if turns == 1 or not steady or (gain, turns) in told:
            continue
        told.add((gain, turns))
        verb = "gains" if gain > 0 else "loses"
        message = (
            f"At the {place} each repeat of {rows:,} rows {verb} {counted(abs(gain), 'st')}, the multiple is {each:,}: "
            f"whole multiples {'come in' if gain > 0 else 'go out'} every {turns * rows:,} rows."
        )
        yield advice("growth-out-of-step", case.source, message)


def _sides(case: Case) -> tuple[tuple[str, Sequence[int]], ...]:
    rows = case.rows
    edges = (("lower edge" if rows.lower != rows.upper else "edges", rows.lower), ("upper edge", rows.upper))
    return (*edges, ("spine", rows.spine)) if case.needle.left else edges


def _ends_inside(case: Case) -> Iterator[Problem]:
    """A stretch that ends inside the vertical repeat."""
    rows = len(case.pattern.rows)
    cut = [fit for fit in case.fits if fit.stretch.rows % rows]
    if not cut:
        return
    worked, last = cut[0].stretch.rows, cut[0].stretch.rows % rows
    message = f"`{case.pattern.name[:40]}` repeats over {rows:,} rows; {worked:,} rows end with its row {last:,}."
    whole = worked - last
    hint = f"work {whole:,} or {whole + rows:,} rows" if whole else f"work {rows:,} rows"
    yield advice("ends-inside-repeat", case.source, message, hint)


def _odd_repeat(case: Case) -> Iterator[Problem]:
    """Row 1 of an odd repeat falls on the wrong side every other time."""
    rows = len(case.pattern.rows)
    if rows % 2 and rows > 1 and any(fit.stretch.rows > rows for fit in case.fits):
        message = f"`{case.pattern.name[:40]}` repeats over {rows:,} rows: every other time row 1 is a wrong-side row."
        yield advice("odd-repeat", case.source, message, "write it over an even number of rows")


def _beside_increase(case: Case) -> Iterator[Problem]:
    """A yarn over right beside a shaping increase: at the edge or the spine, without a filled stitch between."""
    ends = case.yarn_over_ends
    if not any(any(pair) for pair in ends):
        return
    for fit in case.fits:
        for number, laid in enumerate(fit.right):
            found = _first_beside(case, fit, number, laid, ends)
            if found:
                yield found
                return


def _first_beside(case: Case, fit: Fit, number: int, laid: LaidRepeat, ends: list[tuple[bool, bool]]) -> Problem | None:
    if not laid.multiples:
        return None
    rows, pattern = case.rows, case.pattern
    inner, inner_name = (rows.spine, "spine") if case.needle.left else (rows.upper, "upper edge")
    outer_name = "edge" if case.needle.left else "lower edge"
    at_edge, at_spine = laid.at_edge, laid.at_spine
    for place, (edge, spine) in enumerate(ends):
        row = laid.row + place
        if row > fit.stretch.last_row:
            return None
        for yarn_over, filled, column, name in (
            (edge, at_edge, rows.lower, outer_name),
            (spine, at_spine, inner, inner_name),
        ):
            if yarn_over and not filled and column[row] > 0:
                where = f"Row {row:,} (row {place + 1:,} of `{pattern.name[:40]}`)"
                message = f"{where} has a yarn over right beside the increase at the {name}."
                return advice("yarn-over-beside-increase", case.source, message, "leave a plain stitch between the two")
        at_edge, at_spine = at_edge + rows.lower[row], at_spine + inner[row]
    return None


def _yarn_over_ends(pattern: Pattern) -> list[tuple[bool, bool]]:
    """For each row, whether it has a yarn over at its right end (the edge) and at its left end (the spine)."""
    multiples = pattern.least
    if too_large(pattern):
        return []
    rows = worked_rows(pattern, multiples)
    return [(_is_yarn_over(row.steps[0].item), _is_yarn_over(row.steps[-1].item)) for row in rows if row.steps]


def _is_yarn_over(item: object) -> bool:
    return isinstance(item, Work) and item.kind == "yo"


def _uneven_wings(needle: Needle, fits: list[Fit]) -> Iterator[Problem]:
    """Wings of unlike width: the second cannot mirror the first."""
    for fit in fits:
        if fit.left and fit.left[0].stitches != fit.right[0].stitches:
            right, left = fit.right[0].stitches, fit.left[0].stitches
            live = 2 * needle.edge + needle.spine + right + left
            message = (
                f"Row {fit.stretch.first_row:,} is worked on {live:,} sts: edges {needle.edge} + {needle.edge}, spine "
                f"{needle.spine}, wings {right:,} and {left:,}. The second wing cannot mirror the first."
            )
            yield advice("uneven-wings", fit.stretch.span, message)
            return


CASE_CHECKS = (_fit, _growth, _ends_inside, _odd_repeat, _beside_increase)
