"""A pattern as a chart: one square a stitch, seen from the right side."""

from halfhank.grammar.description import Item
from halfhank.grammar.record import NamedTuple
from halfhank.model.stitch_counts.appearance import Sign, sign_of
from halfhank.model.stitch_counts.balance import StitchCount
from halfhank.model.stitch_counts.bare_items import bare
from halfhank.model.stitches.chart_columns import columns_of
from halfhank.model.stitches.pattern import Pattern
from halfhank.model.stitches.worked_rows import WorkedRow, worked_rows

_LEAST_COLUMNS = 6


class Cell(NamedTuple):
    """A sign and the column, from the left, of its leftmost square."""

    column: int
    sign: Sign


class ChartRow(NamedTuple):
    """One row: its `cells` from left to right; `box` is where the multiple begins and ends, in columns from the left.

    `box` is None in a panel that never repeats.
    """

    number: int
    wrong_side: bool
    cells: tuple[Cell, ...]
    box: tuple[int, int] | None


class Use(NamedTuple):
    """How a sign comes about: the items worked on the right side and on the wrong side, in order of appearance."""

    sign: Sign
    right_side: tuple[Item, ...]
    wrong_side: tuple[Item, ...]


class Chart(NamedTuple):
    """The whole chart. `rows` from the first to the last; `uses` has every sign once, in order of appearance.

    `no_stitch`: some squares hold no stitch. `multiples`: how often the multiple is shown.
    """

    name: str
    multiple: StitchCount
    multiples: int
    columns: int
    rows: tuple[ChartRow, ...]
    uses: tuple[Use, ...]
    no_stitch: bool


def chart_of(pattern: Pattern, turned: bool = False) -> Chart:
    """The chart of a pattern that is free of mistakes and not `too_large`; `turned`: row 1 is a wrong-side row.

    It shows the fewest multiples in which every row's stars are worked, and at least six stitches.
    """
    multiples = pattern.least
    while pattern.multiple.each and pattern.multiple.stitches(multiples) < _LEAST_COLUMNS:
        multiples += 1
    worked = worked_rows(pattern, multiples, turned)
    columns, starts = columns_of(worked)
    rows, edges = [], (-1, -1)
    for row, places in zip(worked, starts, strict=True):
        edges = _edges(row, places, edges, columns)
        box = None if pattern.is_panel else (columns - edges[1], columns - edges[0])
        rows.append(ChartRow(row.row.number, row.wrong_side, _cells(row, places, columns), box))
    free = any(row.squares < columns for row in worked)
    return Chart(pattern.name, pattern.multiple, multiples, columns, tuple(rows), _uses(worked), free)


def _cells(row: WorkedRow, places: list[int], columns: int) -> tuple[Cell, ...]:
    cells = []
    for step, place in zip(row.steps, places, strict=True):
        sign = sign_of(step.item, row.wrong_side)
        cells.append(Cell(columns - place - sign.width, sign))
    return tuple(cells[::-1])


def _edges(row: WorkedRow, places: list[int], before: tuple[int, int], columns: int) -> tuple[int, int]:
    """The box's sides in columns from the right.

    Across squares without a stitch they keep the line of the row below.
    """
    squares = [place + k for step, place in zip(row.steps, places, strict=True) for k in range(step.made)]
    right, left = (_edge(squares, at, line, columns) for at, line in zip(row.box_out, before, strict=True))
    return right, left


def _edge(squares: list[int], at: int, before: int, columns: int) -> int:
    low = squares[at - 1] + 1 if at else 0
    high = squares[at] if at < len(squares) else columns
    return low if before < 0 else min(max(before, low), high)


def _uses(rows: list[WorkedRow]) -> tuple[Use, ...]:
    found: dict[Sign, tuple[dict[Item, None], dict[Item, None]]] = {}
    for row in rows:
        for step in row.steps[::-1] if row.wrong_side else row.steps:
            sides = found.setdefault(sign_of(step.item, row.wrong_side), ({}, {}))
            sides[row.wrong_side].setdefault(bare(step.item))
    return tuple(Use(sign, tuple(right), tuple(wrong)) for sign, (right, wrong) in found.items())
