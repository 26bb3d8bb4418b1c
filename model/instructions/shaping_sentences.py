"""Shaping lines in words: what is done where, how often, and for `evenly` on which stitches."""

from collections.abc import Sequence

from halfhank.grammar.description import EACH_EDGE, EVENLY, LOWER_EDGE, SPINE, UPPER_EDGE, Placed
from halfhank.model.instructions.even_spacing import even_decreases, even_increases, even_words
from halfhank.model.meaning.design import Design, ShapingLine
from halfhank.model.number_words import counted
from halfhank.model.plan import Plan

_MOST_LISTED = 40


def shaping_lines(design: Design, lines: Sequence[ShapingLine]) -> list[str]:
    """One sentence for each line."""
    return [_sentence(design, line) for line in lines]


def _sentence(design: Design, line: ShapingLine) -> str:
    when = _when(line)
    if line.evenly_to is not None:
        return f"{when}: {line.action} evenly to {counted(line.evenly_to, 'st')}."
    places = " and ".join(_placed(design, placed) for placed in line.written.value.places)
    until = f" Stop at {counted(line.until, 'st')}." if line.until is not None else ""
    return f"{when}: {line.action} {places} ({_total(line)}).{until}"


def _when(line: ShapingLine) -> str:
    if line.every is None:
        return f"Row {line.from_row:,}"
    if line.every == 1:
        return f"Every row from row {line.from_row:,}"
    return f"Row {line.from_row:,} and every {line.every:,} rows after it"


def _placed(design: Design, placed: Placed) -> str:
    edge, spine = design.edge.stitches, design.spine.stitches
    inside = f" inside the {counted(edge, 'st')} of the edge" if edge else ""
    where = {
        EACH_EDGE: f"at each edge{inside}",
        UPPER_EDGE: f"at the upper edge{inside}",
        LOWER_EDGE: f"at the lower edge{inside}",
        SPINE: f"on each side of the {counted(spine, 'st') + ' of the spine' if spine else 'centre'}",
        EVENLY: "evenly across the row",
    }[placed.place]
    return f"{counted(placed.amount, 'st')} {where}"


def _total(line: ShapingLine) -> str:
    return f"{counted(line.amounts.total, 'st')} {'more' if line.action == 'increase' else 'fewer'}"


def even_lines(plan: Plan, first: int, last: int) -> list[str]:
    """The rows between two that are shaped evenly, with the stitches that it falls on."""
    rows = [row for row in range(first, last + 1) if plan.rows.evenly[row]]
    return [_even(plan, row) for row in rows[:_MOST_LISTED]]


def _even(plan: Plan, row: int) -> str:
    """One row: between the edges where there is room, else over all stitches."""
    before, change = plan.rows.stitches[row - 1], plan.rows.evenly[row]
    edge = plan.design.edge.stitches
    for place, stitches in (("between the edges, ", before - 2 * edge), ("over all stitches, ", before)):
        even = even_increases(stitches, change) if change > 0 else even_decreases(stitches, -change)
        if even and (edge or stitches == before):
            shown = place if edge else ""
            words = even_words(even, "m1" if change > 0 else "k2tog")
            on, after = counted(stitches, "st"), counted(stitches + change, "st")
            return f"Row {row:,}, evenly {shown}on {on}: {words}; {after}."
    moved, verb = counted(abs(change), "st"), "more" if change > 0 else "fewer"
    return f"Row {row:,}: {moved} {verb} over {counted(before, 'st')}: more than one for each stitch."
