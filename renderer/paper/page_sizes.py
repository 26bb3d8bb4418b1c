"""How large a page may be, and the scales that drawings are made at."""

from collections.abc import Iterator

WIDEST_MM = 180.0
TALLEST_MM = 150.0
"""The widest page and the tallest piece that a scale is chosen for: together they keep a drawing on a sheet of A4."""


def scales() -> Iterator[float]:
    """1:4, 1:5, 1:8, 1:10, 1:15, 1:20, 1:25, 1:30, 1:40, 1:50, 1:60, 1:80, 1:100, 1:150 … without end."""
    yield from (4, 5, 8)
    decade = 10
    while True:
        yield from (decade * step for step in (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8))
        decade *= 10
