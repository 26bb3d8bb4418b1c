"""Settling: how long the rows of a fabric lie, whose counts rise in steps while its edges run on evenly.

A row is a cell between two boundaries. The boundaries' lengths are a Whittaker smoother of the cells' (E. T. Whittaker,
"On a new method of graduation", 1923) for cells of unequal height.
"""

from collections.abc import Sequence

from halfhank.model.outline.solvers.pentadiagonal import solve_pentadiagonal

SMOOTHING_CM = (3.0, 1.5, 0.75)
"""Reach of the smoother, and what is tried in its place where a length comes out negative."""

# Reach over height of a row outside which the sums would drown in rounding; no real fabric comes near.
_LARGEST_REACH, _SMALLEST_REACH = 400.0, 0.01


def corners(breaks: Sequence[int], along_cm: Sequence[float], reach_cm: float) -> list[int]:
    """Those boundaries of `breaks` (rising) where an edge may turn sharply.

    Left out are breaks less than half the reach after the last corner, or under two rows from an end. `along_cm` are
    the boundaries' distances from the start.
    """
    found: list[int] = []
    last = len(along_cm) - 1
    for boundary in breaks:
        if boundary < 2 or last - boundary < 2:
            continue
        if not found or along_cm[boundary] - along_cm[found[-1]] >= reach_cm / 2:
            found.append(boundary)
    return found


def smooth(heights: Sequence[float], cells: Sequence[float], sharp: Sequence[int], reach_cm: float) -> list[float]:
    """The values at the N + 1 boundaries of N cells that are `cells` on average.

    They minimise `sum h_i ((x_(i-1) + x_i) / 2 - y_i)^2 + l^4 sum m_i (D_i x)^2`: h the heights, l the reach, D_i twice
    the second divided difference at boundary i, m_i the mean of the heights at both its sides. The second sum leaves
    out the boundaries `sharp`. The sum of `h_i (x_(i-1) + x_i) / 2` is that of `h_i y_i`, and a linear sequence
    stays as it is.
    """
    if len(cells) == 1:
        return [cells[0], cells[0]]
    base, slope = fitted_line(heights, cells)
    reach = min(max(reach_cm, _SMALLEST_REACH * max(heights)), _LARGEST_REACH * min(heights))
    diagonals = _normal_matrix(heights, set(sharp), reach**4)
    right, at = [0.0] * (len(cells) + 1), 0.0
    for i, (h, y) in enumerate(zip(heights, cells, strict=True)):
        share = h / 2 * (y - base - slope * (at + h / 2))
        right[i] += share
        right[i + 1] += share
        at += h
    bends, at = solve_pentadiagonal(*diagonals, right), 0.0
    settled = [base + bends[0]]
    for h, bend in zip(heights, bends[1:], strict=True):
        at += h
        settled.append(base + slope * at + bend)
    return settled


def fitted_line(heights: Sequence[float], cells: Sequence[float]) -> tuple[float, float]:
    """Value at the start and slope of the line of least squares through the cells, weighted by their heights.

    It keeps their area. The smoother leaves lines alone, so it need only see what differs from one; that keeps the
    rounding small.
    """
    total = mean = middle = at = 0.0
    for h, y in zip(heights, cells, strict=True):
        total += h
        mean += h * y
    mean, middle = mean / total, total / 2
    spread = lean = 0.0
    for h, y in zip(heights, cells, strict=True):
        off = at + h / 2 - middle
        spread += h * off * off
        lean += h * off * (y - mean)
        at += h
    slope = lean / spread if spread > 0 else 0.0
    return mean - slope * middle, slope


def _normal_matrix(
    heights: Sequence[float], sharp: set[int], weight: float
) -> tuple[list[float], list[float], list[float]]:
    """The diagonal and the two upper diagonals of the normal equations."""
    n = len(heights)
    main, first, second = [0.0] * (n + 1), [0.0] * n, [0.0] * (n - 1)
    for i, h in enumerate(heights):
        main[i] += h / 4
        main[i + 1] += h / 4
        first[i] += h / 4
    for i in range(1, n):
        if i in sharp:
            continue
        above, below = heights[i - 1], heights[i]
        mean = (above + below) / 2
        p, r = 1 / (above * mean), 1 / (below * mean)
        q, force = -p - r, weight * mean
        main[i - 1] += force * p * p
        main[i] += force * q * q
        main[i + 1] += force * r * r
        first[i - 1] += force * p * q
        first[i] += force * q * r
        second[i - 1] += force * p * r
    return main, first, second
