"""Systems of linear equations with five diagonals, solved in linear time."""

from collections.abc import Sequence


def solve_pentadiagonal(
    main: Sequence[float], first: Sequence[float], second: Sequence[float], right: Sequence[float]
) -> list[float]:
    """Solves a positive definite, symmetric system with two diagonals beside the main one, in linear time.

    The factors are L D L' (square-root-free Cholesky; Golub and Van Loan, "Matrix Computations", banded systems).
    """
    n = len(main)
    pivots, near, far, halfway = [0.0] * n, [0.0] * n, [0.0] * n, [0.0] * n
    d1 = d2 = e1 = f1 = f2 = z1 = z2 = 0.0  # of the row before, and of the one before that
    for i in range(n):
        d = max(main[i] - d1 * e1 * e1 - d2 * f2 * f2, 1e-13 * main[i])
        z = right[i] - e1 * z1 - f2 * z2
        e = (first[i] - d1 * e1 * f1) / d if i < n - 1 else 0.0
        f = second[i] / d if i < n - 2 else 0.0
        pivots[i], near[i], far[i], halfway[i] = d, e, f, z
        d1, d2, e1, f1, f2, z1, z2 = d, d1, e, f, f1, z, z1
    solution = [0.0] * n
    x1 = x2 = 0.0
    for i in range(n - 1, -1, -1):
        x = halfway[i] / pivots[i] - near[i] * x1 - far[i] * x2
        solution[i] = x
        x1, x2 = x, x1
    return solution
