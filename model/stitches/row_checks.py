"""Whether a pattern's rows can be worked one after the other: mistakes, each at the item or the part that has it."""

from collections.abc import Iterable, Iterator, Sequence

from halfhank.grammar.description import Across, InOne, Item, Times, Work
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.model.number_words import counted
from halfhank.model.problems import row_problems as known
from halfhank.model.rows.shaping import MAX_STITCHES
from halfhank.model.stitch_counts.balance import StitchCount, leaves, takes
from halfhank.model.stitch_counts.pairs import Change, changes, unpaired
from halfhank.model.stitches.pattern import Pattern, PatternRow, derived_multiple

_IN_ONE = frozenset({"k", "p", "yo"})


class Walk(NamedTuple):
    """All rows worked from a multiple: `levels[i]` is what row i + 1 finds, the last one what the last row leaves.

    `problems` are what stood in the way; after one the counts go on as they were meant.
    """

    levels: tuple[StitchCount, ...]
    problems: tuple[Problem, ...]


def check_pattern(pattern: Pattern) -> tuple[Problem, ...]:
    """All that keeps the rows from being worked; an empty tuple: they can be, again and again.

    Where rows are missing (their lines have mistakes of their own) each row is looked at alone.
    """
    alone = [problem for row in _lines(pattern.rows) for problem in _check_row(row, pattern)]
    if alone or [row.number for row in pattern.rows] != list(range(1, len(pattern.rows) + 1)):
        return tuple(alone)
    walk = walked(pattern)
    if walk.problems and pattern.written:
        derived = pattern._replace(multiple=derived_multiple(pattern.rows), written=None)
        if _rows_agree(derived) and not walked(derived).problems:
            return (wrong_multiple(pattern.written.span, pattern.multiple, derived.multiple),)
    return walk.problems


def walked(pattern: Pattern) -> Walk:
    """Work all rows once, from the multiple on."""
    levels, problems = [pattern.multiple], []
    for place, row in enumerate(pattern.rows):
        left = leaves(levels[-1], row.tally)
        if left is None:
            problems.append(_misfit(pattern, levels, place))
            left = _as_meant(levels[-1], row)
        levels.append(left)
    if not problems:
        problems += _end(pattern, levels)
    return Walk(tuple(levels), tuple(problems))


def _lines(rows: Sequence[PatternRow]) -> Iterator[PatternRow]:
    """One row for each written line."""
    seen: set[Span] = set()
    for row in rows:
        if row.span not in seen:
            seen.add(row.span)
            yield row


def _check_row(row: PatternRow, pattern: Pattern) -> Iterator[Problem]:
    """What is wrong with a row whatever comes before it."""
    if row.is_whole:
        return
    yield from _check_in_one(row.items)
    tally, across = row.tally, row.across
    if across is None:
        if pattern.multiple.each:
            yield known.NO_STARS.at(_around(row.items), row=row.number, stitches=tally.before.taken)
    elif tally.across and tally.across.taken == 0:
        yield known.STARS_TAKE_NOTHING.at(across.span)
    widest = max(
        tally.outside.taken, tally.outside.made, *((tally.across.taken, tally.across.made) if tally.across else (0,))
    )
    if widest > MAX_STITCHES:
        yield known.ROW_TOO_WIDE.at(row.span, most=MAX_STITCHES)


def _check_in_one(items: Iterable[Item], inside: bool = False) -> Iterator[Problem]:
    for item in items:
        if inside and not (isinstance(item, Times) or (isinstance(item, Work) and item.kind in _IN_ONE)):
            yield known.IN_ONE_ITEM.at(item.span)
        elif isinstance(item, InOne | Times | Across):
            yield from _check_in_one(item.items, inside or isinstance(item, InOne))


def _around(items: Sequence[Item]) -> Span:
    return Span(items[0].span.line, items[0].span.column, items[-1].span.end)


def _rows_agree(pattern: Pattern) -> bool:
    """Whether two written lines or more say what the multiple is, none needing several of another's."""
    widths = [row.tally.across.taken for row in _lines(pattern.rows) if row.tally.across]
    return len(widths) > 1 and pattern.multiple.each == max(widths)


def wrong_multiple(span: Span, said: StitchCount, found: StitchCount) -> Problem:
    """The multiple is not the one that the rows are worked over."""
    multiple = f"{found.each} {'st' if found.each == 1 else 'sts'}" + (f" + {found.extra}" if found.extra else "")
    return known.WRONG_MULTIPLE.at(span, found=found.words, said=said.words, multiple=multiple)


def _as_meant(level: StitchCount, row: PatternRow) -> StitchCount:
    """What a row that does not fit would leave if it did: the count before it, changed as the row changes counts."""
    tally = row.tally
    inside = tally.across.made - tally.across.taken if tally.across else 0
    passes = max(1, level.each // tally.across.taken) if tally.across else 1
    return StitchCount(max(level.each + inside * passes, 0), level.extra + tally.outside.made - tally.outside.taken)


def _misfit(pattern: Pattern, levels: list[StitchCount], place: int) -> Problem:
    """A row does not take what the one before made: an earlier row has a wrong count, or this one."""
    row = pattern.rows[place]
    culprit = next((i for i in range(place - 1, -1, -1) if levels[i] != levels[i + 1]), None)
    if culprit is not None and leaves(levels[culprit], row.tally) is not None:
        problem = _unbalanced(pattern.rows[culprit], levels[culprit], row.number)
        levels[-1] = levels[culprit]
        return problem
    return _row_count(pattern, levels, place)


def _row_count(pattern: Pattern, levels: list[StitchCount], place: int) -> Problem:
    row, found = pattern.rows[place], takes(pattern.rows[place].tally)
    span, short, where = _blame(row, levels[place], found)
    values = {"row": row.number, "found": found.words, "there": levels[place].words, "where": where}
    missing = counted(short, "st") if short > 0 else None
    over = None if short > 0 else counted(-short, "st")
    if not place:
        return known.ROW_COUNT_AT_START.at(span, **values, missing=missing, over=over)
    return known.ROW_COUNT.at(span, **values, before=pattern.rows[place - 1].number, missing=missing, over=over)


def _blame(row: PatternRow, level: StitchCount, found: StitchCount) -> tuple[Span, int, str]:
    """Where a row has too few stitches or (below 0) too many, how many, and in which part of it."""
    across = row.across
    if across is None or not found.each or level.each % found.each:
        short = level.each - found.each if across else level.extra - found.extra
        where = "between the stars" if across else "in the row"
        return across.span if across else _around(row.items), short, where
    short = (level.extra - found.extra) % found.each
    short = short if short <= found.each // 2 else short - found.each
    outside = [item for item in row.items if item is not across]
    return _around(outside) if len(outside) == 1 else row.span, short, "outside the stars"


def _unbalanced(row: PatternRow, level: StitchCount, needed_by: int) -> Problem:
    """The row that makes more or fewer stitches than it takes, reported at the item without its partner."""
    tally = row.tally
    inside = tally.across is not None and tally.across.made != tally.across.taken
    side = tally.across if inside and tally.across else tally.outside
    part = (row.across,) if inside and row.across else tuple(item for item in row.items if item is not row.across)
    found = changes(part)
    gain = side.made - side.taken
    kind = {-1: known.ROW_UNBALANCED_ONE_SHORT, 1: known.ROW_UNBALANCED_ONE_OVER}.get(gain, known.ROW_UNBALANCED)
    return kind.at(
        _first(unpaired(found), row.span),
        row=row.number,
        taken=side.taken,
        left=side.made,
        where="between its stars" if inside else "outside its stars" if row.across else "in all",
        made=sum(change.gain for change in found if change.gain > 0),
        decreased=-sum(change.gain for change in found if change.gain < 0),
        needed_by=needed_by if needed_by > row.number else None,
        needed=level.words,
        short=-gain if gain < 0 else None,
        over=None if gain < 0 else gain,
    )


def _first(left: Sequence[Change], span: Span) -> Span:
    return left[0].span if left else span


def _end(pattern: Pattern, levels: list[StitchCount]) -> Iterator[Problem]:
    """Whether row 1 can be worked again on what the last row leaves."""
    start, end = levels[0], levels[-1]
    if start == end:
        return
    each, last = start.each or 1, pattern.rows[-1]
    again = end.each % each == 0 and (end.extra - start.extra) % each == 0 and start.each > 0
    if again:
        yield known.COUNT_CHANGES.at(last.span, left=end.words, taken=start.words)
        return
    changed = [i for i in range(len(pattern.rows)) if levels[i] != levels[i + 1]]
    if levels[changed[-1]] == start or len(changed) == 1:
        yield _unbalanced(pattern.rows[changed[-1]], start, 0)
        return
    yield known.COUNT_NOT_KEPT.at(last.span, row=last.number, left=end.words, taken=start.words)
