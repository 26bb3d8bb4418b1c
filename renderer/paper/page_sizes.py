"""How large a page may be, its margins, and the scales that drawings are made at. Lengths in mm."""

from collections.abc import Iterator

WIDEST_MM = 180.0
TALLEST_MM = 150.0
"""The widest page and the tallest piece that a scale is chosen for: together they keep a drawing on a sheet of A4."""
MARGIN_SHARE = 15.0
"""A narrow page's margin is a fifteenth of it."""


def margin_of(extent_mm: float, widest: float) -> float:
    """White at each edge of a page that is so wide or high: a fifteenth of it, at most `widest`."""
    return min(widest, extent_mm / MARGIN_SHARE)


def tallest_on(width_mm: float) -> float:
    """The tallest piece on a page of so much width whose height nobody limits."""
    return max(TALLEST_MM, width_mm * TALLEST_MM / WIDEST_MM)


def scales() -> Iterator[float]:
    """1:4, 1:5, 1:6, 1:8, 1:10, 1:12, 1:15, 1:20, 1:25, 1:30, 1:40, 1:50, 1:60, 1:80, 1:100, 1:120 … without end."""
    yield from (4, 5, 6, 8)
    decade = 10
    while True:
        yield from (decade * step for step in (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8))
        decade *= 10


def all_scales() -> Iterator[float]:
    """The same from life size on, for pages whose width is given; none is more than a third coarser than the last."""
    yield from (1, 1.2, 1.5, 2, 2.5, 3)
    yield from scales()


def fine_scales() -> Iterator[float]:
    """The same with steps between them, for what the round ones do not fill; none is more than a sixth coarser than the
    last."""
    steps = (1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8, 9)
    decade = 1
    while True:
        yield from (round(decade * step, 1) for step in steps)
        decade *= 10
