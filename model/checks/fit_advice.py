"""What a technical editor would say of patterns in a shawl: how they fit, band by band. All of it is advice."""

from collections.abc import Iterator, Sequence
from math import gcd

from halfhank.grammar.description import Work
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.design.design import Band, Design
from halfhank.model.number_words import counted
from halfhank.model.problems import row_problems as known
from halfhank.model.rows.row_table import Rows
from halfhank.model.rows.shaping import WorkedPart, placed_gains
from halfhank.model.stitches.fit import Fit, LaidRepeat, Needle, PatternRows, fitted, needle_of, whole_multiples
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.stitches.worked_rows import too_large, worked_rows

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
    yield from _evenly_in_pattern(patterns, parts)
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


def _fit(case: Case) -> Iterator[Problem]:
    """Whether a whole number of multiples fits where each stretch begins."""
    pattern, needle = case.pattern, case.needle
    begun = [fit for fit in case.fits if any(_over(pattern, one[0]) or not one[0].multiples for one in fit.wings)]
    if not begun:
        return
    first = min(begun, key=lambda fit: min(wing[0].multiples for wing in fit.wings))
    laid = max((wing[0] for wing in first.wings), key=lambda one: _over(pattern, one))
    begins: dict[str, object] = {
        "row": laid.row,
        "stitch": pattern.name,
        "there": counted(laid.stitches, "st"),
        "wings": " in each wing" if needle.wings == 2 else "",
        "begun": len(begun) if len(case.fits) > 1 else None,
        "worked": len(case.fits),
        "later": _later(case, first),
    }
    if laid.multiples == 0:
        least = pattern.multiple.stitches(pattern.least) + laid.room
        more = _more(least - laid.stitches)
        yield known.NO_MULTIPLE_FITS.at(case.source, **begins, least=counted(least, "st"), more=more)
        return
    over, panel = _over(pattern, laid), pattern.multiple.stitches(laid.multiples)
    held = f"once {counted(panel, 'st')}" if pattern.is_panel else _multiples(pattern, laid.multiples)
    if laid.room:
        held += f", {counted(laid.room, 'st')} beside the pattern for the shaping"
    more = _more(pattern.multiple.each - over if not pattern.is_panel else 0)
    values = {"held": held, "over": counted(over, "st"), "fill": pattern.fill, "more": more}
    yield known.MULTIPLE_OVER.at(case.source, **begins, **values)


def _multiples(pattern: Pattern, count: int) -> str:
    each, extra = pattern.multiple
    plus = f" + {extra:,}" if extra else ""
    return f"{count:,} {'multiple' if count == 1 else 'multiples'} of {each:,}{plus}"


def _over(pattern: Pattern, laid: LaidRepeat) -> int:
    """Stitches outside the pattern when a stretch begins, without those that its shaping needs there."""
    return laid.stitches - laid.room - (pattern.multiple.stitches(laid.multiples) if laid.multiples else 0)


def _later(case: Case, fit: Fit) -> int | None:
    """The smallest number of rows later at which the multiple comes out."""
    needle, pattern, first = case.needle, case.pattern, fit.stretch.first_row
    wings = [(wing, laid[0].room) for wing, laid in zip((needle.right, needle.left), fit.wings, strict=False)]
    return next(
        (
            rows
            for rows in range(2, min(len(case.rows.stitches) - first, _MEND_ROWS) + 1, 2)
            if all(_comes_out(pattern, wing[first - 1 + rows] - room) for wing, room in wings)
        ),
        None,
    )


def _more(stitches: int) -> str | None:
    return counted(stitches, "st") if stitches > 0 else None


def _comes_out(pattern: Pattern, stitches: int) -> bool:
    count = whole_multiples(pattern, stitches)
    return count > 0 and pattern.multiple.stitches(count) == stitches


def _growth(case: Case) -> Iterator[Problem]:
    """How the gain at each side in one vertical repeat compares with the multiple.

    Two stitches are not worth a word.
    """
    pattern, rows = case.pattern, len(case.pattern.rows)
    each = pattern.multiple.each
    long = next((fit for fit in case.fits if fit.stretch.rows > rows), None)
    if each <= 2 or long is None:
        return
    first = long.stretch.first_row
    seen = set[tuple[int, int]]()
    for place, column in _sides(case):
        gain = sum(column[first : first + rows])
        steady = all(
            sum(column[start : start + rows]) == gain for start in range(first, long.stretch.last_row - rows + 2, rows)
        )
        turns = each // gcd(abs(gain), each) if gain else 1
        if turns == 1 or not steady or (gain, turns) in seen:
            continue
        seen.add((gain, turns))
        kind = known.GROWTH_OUT_OF_STEP_GAINED if gain > 0 else known.GROWTH_OUT_OF_STEP_LOST
        stitches, every = counted(abs(gain), "st"), turns * rows
        yield kind.at(case.source, place=place, rows=rows, stitches=stitches, multiple=each, every=every)


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
    fewer = worked - last
    kind = known.ENDS_INSIDE_REPEAT if fewer else known.ENDS_INSIDE_REPEAT_FIRST
    counts = {"rows": rows, "worked": worked, "last": last, "fewer": fewer, "more": fewer + rows}
    yield kind.at(case.source, stitch=case.pattern.name, **counts)


def _odd_repeat(case: Case) -> Iterator[Problem]:
    """Row 1 of an odd repeat falls on the wrong side every other time."""
    rows = len(case.pattern.rows)
    if rows % 2 and rows > 1 and any(fit.stretch.rows > rows for fit in case.fits):
        yield known.ODD_REPEAT.at(case.source, stitch=case.pattern.name, rows=rows)


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
                values = {"row": row, "number": place + 1, "stitch": pattern.name, "place": name}
                return known.YARN_OVER_BESIDE_INCREASE.at(case.source, **values)
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


def _evenly_in_pattern(patterns: dict[str, Pattern], parts: Sequence[WorkedPart]) -> Iterator[Problem]:
    """Lines that act evenly across a row of a pattern, once each.

    A band's last row is free where it is plain: the next band places its pattern again.
    """
    seen = set[Span]()
    for part in parts:
        if not any(line.evenly_to is not None or line.amounts.evenly for line in part.active.lines):
            continue
        worked = {row: stretch for stretch in stretches([part]) for row in _held(patterns, stretch)}
        for act in part.acts:
            line, row = part.active.lines[act.line], part.first_row + act.row - 1
            if row not in worked or line.span in seen or not placed_gains(line, act.change).evenly:
                continue
            seen.add(line.span)
            stretch = worked[row]
            number = (row - stretch.first_row) % len(patterns[stretch.stitch].rows) + 1
            kind = known.EVENLY_IN_PATTERN_GAINED if act.change > 0 else known.EVENLY_IN_PATTERN_LOST
            yield kind.at(line.span, row=row, number=number, stitch=stretch.stitch)


def _held(patterns: dict[str, Pattern], stretch: PatternRows) -> range:
    """The rows of a stretch that hold a pattern in line."""
    pattern = patterns.get(stretch.stitch)
    if pattern is None:
        return range(0)
    plain_end = pattern.rows[(stretch.rows - 1) % len(pattern.rows)].is_whole
    return range(stretch.first_row, stretch.last_row + (0 if plain_end else 1))


def _uneven_wings(needle: Needle, fits: list[Fit]) -> Iterator[Problem]:
    """Wings of unlike width: the second cannot mirror the first."""
    for fit in fits:
        if fit.left and fit.left[0].stitches != fit.right[0].stitches:
            right, left = fit.right[0].stitches, fit.left[0].stitches
            yield known.UNEVEN_WINGS.at(
                fit.stretch.span,
                row=fit.stretch.first_row,
                stitches=2 * needle.edge + needle.spine + right + left,
                edge=needle.edge,
                spine=needle.spine,
                right=right,
                left=left,
            )
            return


CASE_CHECKS = (_fit, _growth, _ends_inside, _odd_repeat, _beside_increase)
