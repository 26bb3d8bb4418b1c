"""Rows that are straight lines to both sides of a middle: triangles and rectangles."""

from halfhank.model.outline.curve import Point
from halfhank.model.outline.region import RowEnds
from halfhank.model.outline.solvers.strip import Strip


def arms_ends(strip: Strip, arm: Point, step: float) -> list[tuple[RowEnds, RowEnds]]:
    """Ends of all rows: the middle goes down by `step` for each cm across the fabric; the arms run along `arm`: the
    right one's direction and length for each cm of it, mirrored for the left one."""
    return [
        _both(at * step, before / 2, after / 2, arm)
        for at, before, after in zip(strip.along_cm, strip.before, strip.after, strict=True)
    ]


def _both(y: float, before: float, after: float, arm: Point) -> tuple[RowEnds, RowEnds]:
    first = _pair(y, before, arm)
    return first, first if after == before else _pair(y, after, arm)


def _pair(y: float, half: float, arm: Point) -> RowEnds:
    rise = y + half * arm[1]
    return (-half * arm[0], rise), (half * arm[0], rise)


def in_working_order(ends: list[tuple[RowEnds, RowEnds]], turned: bool) -> list[tuple[RowEnds, RowEnds]]:
    """Ends by row: those of a strip that was laid out from its last row are turned round again."""
    return [(after, before) for before, after in reversed(ends)] if turned else ends
