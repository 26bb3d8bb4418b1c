"""Columns for rows of unlike counts: every stitch as near as can be above those it was worked into."""

from collections.abc import Sequence

from halfhank.model.stitches.worked_rows import WorkedItem, WorkedRow


def columns_of(rows: Sequence[WorkedRow]) -> tuple[int, list[list[int]]]:
    """The number of columns, and for each row the column, from the right, of the first square of each step.

    The widest row fills all columns; from it the others are laid out one by one, upwards and downwards. Squares that
    are left free are those where there is no stitch.
    """
    width = max(row.squares for row in rows)
    widest = next(i for i, row in enumerate(rows) if row.squares == width)
    placed: dict[int, list[int]] = {widest: _packed(rows[widest].steps)}
    for i in range(widest + 1, len(rows)):
        below = _squares(rows[i - 1].steps, placed[i - 1])
        placed[i] = settle(_above(rows[i].steps, below), [step.squares for step in rows[i].steps], width)
    for i in range(widest - 1, -1, -1):
        placed[i] = settle(_below(rows[i], rows[i + 1], placed[i + 1]), [step.squares for step in rows[i].steps], width)
    return width, [placed[i] for i in range(len(rows))]


def _packed(steps: Sequence[WorkedItem]) -> list[int]:
    starts, at = [], 0
    for step in steps:
        starts.append(at)
        at += step.squares
    return starts


def _squares(steps: Sequence[WorkedItem], starts: Sequence[int]) -> list[int]:
    """The column of each stitch that a row leaves."""
    return [start + k for step, start in zip(steps, starts, strict=True) for k in range(step.made)]


def _above(steps: Sequence[WorkedItem], below: Sequence[int]) -> list[float]:
    """Where each step would like to start: its middle over the middle of the stitches that it takes."""
    wishes, at = [], 0
    for step in steps:
        over = below[at : at + step.taken] or _neighbours(below, at)
        middle = sum(over) / len(over)
        wishes.append(middle - (step.squares - 1) / 2)
        at += step.taken
    return wishes


def _neighbours(columns: Sequence[float], at: int) -> tuple[float, float]:
    """The columns on both sides of the gap before stitch `at`."""
    before = columns[at - 1] if at else columns[0] - 1 if columns else -1
    after = columns[at] if at < len(columns) else before + 1
    return before, after


def _below(row: WorkedRow, above: WorkedRow, starts: Sequence[int]) -> list[float]:
    """Where each step of a row would like to start, so that its stitches lie under what was worked into them."""
    columns: list[float] = []
    for step, start in zip(above.steps, starts, strict=True):
        middle = start + (step.squares - 1) / 2
        columns += [middle + k - (step.taken - 1) / 2 for k in range(step.taken)]
    wishes, at = [], 0
    for step in row.steps:
        over = columns[at : at + step.made] or _neighbours(columns, at)
        wishes.append(sum(over) / len(over) - (step.squares - 1) / 2)
        at += step.made
    return wishes


def settle(wishes: Sequence[float], widths: Sequence[int], columns: int) -> list[int]:
    """Whole starts in order, without overlap, within `columns`, nearest to the wishes in the sense of least squares.

    Less the widths before it, each start only has to be no smaller than the one before: the pool-adjacent-violators
    algorithm for isotonic regression (Ayer and others, Annals of Mathematical Statistics 26, 1955, from memory).
    """
    packed, at = [], 0
    for width in widths:
        packed.append(at)
        at += width
    room = columns - at
    pools: list[tuple[float, int]] = []
    for wish, start in zip(wishes, packed, strict=True):
        value, size = wish - start, 1
        while pools and pools[-1][0] >= value:
            other, count = pools.pop()
            value, size = (value * size + other * count) / (size + count), size + count
        pools.append((value, size))
    gaps = [
        min(max(int(value + 0.5 + 1e-9) if value > 0 else 0, 0), room) for value, size in pools for _ in range(size)
    ]
    return [start + gap for start, gap in zip(packed, gaps, strict=True)]
