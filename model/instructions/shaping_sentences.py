"""Shaping lines in words: what is done where, how often, and for `evenly` on which stitches."""

from collections.abc import Sequence

from halfhank.grammar.description import (
    EACH_EDGE,
    EVENLY,
    LOWER_EDGE,
    SPINE,
    UPPER_EDGE,
    Description,
    Placed,
    ShapingLine,
)
from halfhank.model.instructions.even_spacing import even_decreases, even_increases, even_words
from halfhank.model.phrases import counted
from halfhank.model.shawl import Shawl
from halfhank.model.stitches.fit import edge_stitches, spine_stitches

_MOST_LISTED = 40


def shaping_lines(description: Description, lines: Sequence[ShapingLine]) -> list[str]:
    """One sentence for each line."""
    return [_sentence(description, line) for line in lines]


def _sentence(description: Description, line: ShapingLine) -> str:
    when = _when(line)
    if line.evenly_to is not None:
        return f"{when}: {line.action} evenly to {counted(line.evenly_to, 'st')}."
    places = " and ".join(_placed(description, placed) for placed in line.places)
    until = f" Stop at {counted(line.until, 'st')}." if line.until is not None else ""
    return f"{when}: {line.action} {places} ({_total(line)}).{until}"


def _when(line: ShapingLine) -> str:
    if line.every is None:
        return f"Row {line.from_row:,}"
    if line.every == 1:
        return f"Every row from row {line.from_row:,}"
    return f"Row {line.from_row:,} and every {line.every:,} rows after it"


def _placed(description: Description, placed: Placed) -> str:
    edge, spine = edge_stitches(description), spine_stitches(description)
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
    total = sum(placed.amount * (2 if placed.place in (EACH_EDGE, SPINE) else 1) for placed in line.places)
    return f"{counted(total, 'st')} {'more' if line.action == 'increase' else 'fewer'}"


def even_lines(shawl: Shawl, first: int, last: int) -> list[str]:
    """The rows between two that are shaped evenly, with the stitches that it falls on."""
    rows = [row for row in range(first, last + 1) if shawl.rows.evenly[row]]
    return [_even(shawl, row) for row in rows[:_MOST_LISTED]]


def _even(shawl: Shawl, row: int) -> str:
    """One row: between the edges where there is room, else over all stitches."""
    before, change = shawl.rows.stitches[row - 1], shawl.rows.evenly[row]
    edge = edge_stitches(shawl.description)
    for place, stitches in (("between the edges, ", before - 2 * edge), ("over all stitches, ", before)):
        even = even_increases(stitches, change) if change > 0 else even_decreases(stitches, -change)
        if even and (edge or stitches == before):
            shown = place if edge else ""
            words = even_words(even, "m1" if change > 0 else "k2tog")
            on, after = counted(stitches, "st"), counted(stitches + change, "st")
            return f"Row {row:,}, evenly {shown}on {on}: {words}; {after}."
    moved, verb = counted(abs(change), "st"), "more" if change > 0 else "fewer"
    return f"Row {row:,}: {moved} {verb} over {counted(before, 'st')}: more than one for each stitch."
