"""Rows that are straight lines to both sides of a middle: triangles and rectangles."""

from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import RowEnds
from halfhank.model.outline.solvers.strip import Strip


def arms_ends(
    strip: Strip, arm: Point, step: float, panel: list[float] | None = None, drawn: float = 1.0
) -> list[tuple[RowEnds, RowEnds]]:
    """Ends of all rows: the middle goes down by `step` for each cm across the fabric; the arms run along `arm`: the
    right one's direction and length for each cm of it, mirrored for the left one.

    `panel`: how much of each boundary lies level in the middle, between the arms; each cm of it is `drawn` cm wide.
    """
    panel = panel or [0.0] * len(strip.along_cm)
    return [
        _both(at * step, (before - level) / 2, (after - level) / 2, arm, level * drawn / 2)
        for at, before, after, level in zip(strip.along_cm, strip.before, strip.after, panel, strict=True)
    ]


def _both(y: float, before: float, after: float, arm: Point, level: float) -> tuple[RowEnds, RowEnds]:
    first = _pair(y, before, arm, level)
    return first, first if after == before else _pair(y, after, arm, level)


def _pair(y: float, half: float, arm: Point, level: float) -> RowEnds:
    rise, x = y + half * arm[1], level + half * arm[0]
    return (-x, rise), (x, rise)


def in_working_order(ends: list[tuple[RowEnds, RowEnds]], turned: bool) -> list[tuple[RowEnds, RowEnds]]:
    """Ends by row: those of a strip that was laid out from its last row are turned round again."""
    return [(after, before) for before, after in reversed(ends)] if turned else ends
