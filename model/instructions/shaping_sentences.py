"""Shaping lines in words: what is done where, how often, and for `evenly` on which stitches."""

from collections.abc import Sequence

from halfhank.grammar.description import (
    EACH_EDGE,
    EVENLY,
    LOWER_EDGE,
    SPINE,
    UPPER_EDGE,
    Placed,
)
from halfhank.model.design.design import Design, ShapingLine
from halfhank.model.design.shaping_methods import amount_at
from halfhank.model.instructions.rows.even_spacing import crowded_words, even_decreases, even_increases, even_words
from halfhank.model.plan import Plan
from halfhank.model.report_tree import Content, Value, content, joined, row_number, sts
from halfhank.model.rows.shaping import BIND_OFF, INCREASE

_MOST_LISTED = 40


_EDGES = {UPPER_EDGE: "Upper edge: the end of RS rows.", LOWER_EDGE: "Lower edge: the start of RS rows."}
_CHANGED = {INCREASE: " increased", BIND_OFF: " bound off"}


def shaping_lines(design: Design, lines: Sequence[ShapingLine], rows_before: int = 0) -> list[Content]:
    """One sentence for each line; its rows are counted from 1 after `rows_before` rows of the shawl."""
    return [_sentence(design, line, rows_before) for line in lines]


def edge_lines(design: Design) -> list[Content]:
    """Where the edges lie that shaping lines name, each said once."""
    lines = [*design.lines, *(line for part in design.parts for line in part.lines or ())]
    places = {placed.place for line in lines for placed in line.written.value.places}
    return [(words,) for place, words in _EDGES.items() if place in places]


def _sentence(design: Design, line: ShapingLine, rows_before: int) -> Content:
    when = _when(line, rows_before)
    if line.evenly_to is not None:
        return content(when, f": {line.action} evenly to ", sts(line.evenly_to), ".")
    places = joined(" and ", [_placed(design, placed) for placed in line.written.value.places])
    until = content(" Stop at ", sts(line.until), ".") if line.until is not None else ()
    return content(when, f": {line.action} ", places, " (", _total(line), ").", until)


def _when(line: ShapingLine, rows_before: int) -> Content:
    first = content("Row ", row_number(line.from_row))
    if line.every is None:
        return first
    later = " after it" if line.from_row > 1 or line.every > 2 else ""
    if line.every == 1:
        return content(first, " and every row", later) if later else ("Every row",)
    side = "WS" if (rows_before + line.from_row) % 2 == 0 else "RS"
    return content(first, f" and every {side} row" if line.every == 2 else f" and every {line.every:,} rows", later)


def _placed(design: Design, placed: Placed) -> Content:
    edge, spine = design.edge.stitches, design.spine.stitches
    inside = content(" inside the ", _plain(edge), " edge st", "" if edge == 1 else "s") if edge else ()
    middle = content(_plain(spine), " spine st", "" if spine == 1 else "s") if spine else ("centre",)
    where = {
        EACH_EDGE: content("at each edge", inside),
        UPPER_EDGE: content("at the upper edge", inside),
        LOWER_EDGE: content("at the lower edge", inside),
        SPINE: content("on each side of the ", middle),
        EVENLY: ("evenly across the row",),
    }[placed.place]
    return content(sts(amount_at(placed, spine)), " ", where)


def _plain(count: int) -> Value:
    """A count of stitches, its unit left to the words after it."""
    return Value(f"{count:,}", count, "sts")


def _total(line: ShapingLine) -> Content:
    return content(sts(line.amounts.total), _CHANGED.get(line.action, " decreased"))


def even_lines(plan: Plan, first: int, last: int) -> list[Content]:
    """The rows between two that are shaped evenly, with the stitches that it falls on."""
    rows = [row for row in range(first, last + 1) if plan.rows.evenly[row]]
    return [_even(plan, row) for row in rows[:_MOST_LISTED]]


def _even(plan: Plan, row: int) -> Content:
    """One row: between the edges where there is room, else over all stitches."""
    return even_sentence(row, plan.rows.stitches[row - 1], plan.rows.evenly[row], plan.design.edge.stitches)


def even_sentence(row: int, before: int, change: int, edge: int) -> Content:
    """A row on `before` stitches that gains `change` evenly, with `edge` stitches at each side."""
    room = "there are gaps between them" if change > 0 else "there are pairs"
    for place, stitches in (("between the edges, ", before - 2 * edge), ("over all stitches, ", before)):
        even = even_increases(stitches, change) if change > 0 else even_decreases(stitches, -change)
        if even and (edge or stitches == before):
            words = even_words(even, "m1" if change > 0 else "k2tog")
            where = content(", evenly ", place if edge else "", "on ", sts(stitches))
            return content("Row ", row_number(row), where, f": {words}; ", sts(stitches + change), ".")
    many = content(sts(abs(change)), " increased" if change > 0 else " decreased", f", more than {room}")
    words = crowded_words(before, change)
    on = content(", evenly on ", sts(before), " (", many, ")")
    return content("Row ", row_number(row), on, f": {words}; ", sts(before + change), ".")
