"""Roots of a function of one variable between two places."""

from collections.abc import Callable

_STEPS = 60


def bisected(is_before: Callable[[float], bool], low: float, high: float) -> float:
    """The place between `low` and `high` up to which `is_before` holds, by halving sixty times."""
    for _ in range(_STEPS):
        middle = (low + high) / 2
        if is_before(middle):
            low = middle
        else:
            high = middle
    return low


def false_position(
    value: Callable[[float], float], low: tuple[float, float], high: tuple[float, float], near: float
) -> float:
    """The root between two places of unlike sign, each given with its value: false position, Illinois rule
    (Dowell and Jarratt, BIT 11, 1971). A value below `near` is as good as zero."""
    (a, fa), (b, fb) = low, high
    for _ in range(_STEPS):
        c = b - fb * (b - a) / (fb - fa)
        fc = value(c)
        if abs(fc) < near:
            return c
        if fc * fb < 0:
            a, fa = b, fb
        else:
            fa /= 2
        b, fb = c, fc
    return b
