"""Small shawls made by hand, so that drawings can be tested without the model's own sums."""

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from halfhank.grammar.problems.problem import Problem, Span
from halfhank.model.outline.curve import Curve, Point, arc, line
from halfhank.model.outline.outline import Size, Stretch
from halfhank.model.outline.region import LEFT, RIGHT, Region
from halfhank.model.rows.row_table import NO_RATES, Rows
from halfhank.model.shawl import (
    BandPlan,
    BindOffPlan,
    Fabric,
    Mark,
    Marks,
    PartPlan,
    Shawl,
    SkeinMass,
    Start,
    YarnPlan,
)

ROW_CM, STITCH_CM = 0.25, 0.5
NOWHERE = Span(0, 0, 0)


class HandOutline:
    """Boundaries by a function of the row's height from the start, moved so that the piece's box begins at (0, 0)."""

    kind = words = "piece"
    toothed = False
    fan_words: str | None = None
    fan_degrees: float | None = None
    stretch: Stretch | None = None
    pinned = False
    curved = False
    ruffle: int | None = None
    spine: Sequence[Point] | None
    problems: tuple[Problem, ...] = ()

    def __init__(
        self, curves: Sequence[tuple[Curve, Curve]], size: Size, sideways: bool, spine: Sequence[Point] | None
    ):
        points = [p for before, after in curves for c in (before, after) for p in c.flattened(0.0005)]
        x, y = min(p[0] for p in points), min(p[1] for p in points)

        def shift(p: Point) -> Point:
            return (p[0] - x, p[1] - y)

        self._curves = [(b.mapped(shift), a.mapped(shift)) for b, a in curves]
        self.sideways = sideways
        self.spine = None if spine is None else [shift(p) for p in spine]
        self.regions = self._one_panel() if self.spine is None else self._two_wings(self.spine)
        wide, deep = max(p[0] for p in points) - x, max(p[1] for p in points) - y
        self.size = size._replace(wingspan_cm=wide, depth_cm=deep)

    def _one_panel(self) -> tuple[Region, ...]:
        return (Region("whole", lambda row, after: self.ends(row, after), lambda row, after: self._curves[row][after]),)

    def _two_wings(self, spine: Sequence[Point]) -> tuple[Region, ...]:
        """Straight wings at both sides of the spine."""
        return (
            Region("left wing", lambda row, after: (self.ends(row, after)[0], spine[row]), spine_end=RIGHT),
            Region("right wing", lambda row, after: (spine[row], self.ends(row, after)[1]), spine_end=LEFT),
        )

    def boundary(self, row: int, after: bool = False) -> Curve:
        return self._curves[row][after]

    def ends(self, row: int, after: bool = False) -> tuple[Point, Point]:
        curve = self.boundary(row, after)
        return curve.start, curve.end


Boundary = Callable[[float, float], Curve | tuple[Curve, Curve]]


class Piece(NamedTuple):
    """A hand-made shawl: parts as (name, [(stitch, rows)]), its boundary (or two of it) at a height of the whole.

    With `sides` the lengths of its side edges are known.
    """

    parts: list[tuple[str, list[tuple[str, int]]]]
    boundary: Boundary
    spine: bool = False
    sideways: bool = False
    sides: bool = False


FABRICS = {"garter": "plain", "stockinette": "plain", "mesh": "openwork", "drop": "drop"}


def shawl_of(
    piece: Piece, *, title: str = "Test Piece", method: str = "standard", remarks: Sequence[str] = (), **yarn: float
) -> Shawl:
    """A shawl with row heights of 0.25 cm (0.75 for elongated rows) and yarn in proportion to its rows' lengths."""
    stitches, heights, bands_of = [0], [0.0], [-1]
    expanded = [(p, stitch, rows) for p, (_, bands) in enumerate(piece.parts) for stitch, rows in bands]
    for b, (_, stitch, rows) in enumerate(expanded):
        for k in range(rows):
            heights.append(0.75 if stitch == "drop" and k == 0 else ROW_CM)
            bands_of.append(b)
    count = len(heights) - 1
    run = [sum(heights[: i + 1]) for i in range(count + 1)]
    curves = [_both(piece.boundary(h, run[-1])) for h in run]
    lengths = [_length(c) for c, _ in curves]
    stitches = [max(1, round(x / STITCH_CM)) for x in lengths]
    outline = HandOutline(
        curves, _size(piece, lengths, curves), piece.sideways, _spine(curves) if piece.spine else None
    )
    skein, total = yarn.get("skein_g", 100.0), yarn.get("total_g", 82.0)
    used = _used(stitches, 0.98 * total)
    bands = _bands(piece, expanded, stitches, heights, used, total, skein)
    half = next((i for i in range(1, count + 1) if used[i] >= total / 2), None)
    last = count - yarn.get("spare_rows", 0)
    marks = Marks(
        _mark(half, used, skein) if half else None,
        _mark(int(yarn["turn_row"]), used, skein) if "turn_row" in yarn else None,
        _mark(int(last), used, skein) if last <= count else Mark(int(last), total, skein - total, True),
    )
    none = (0,) * (count + 1)
    table = Rows(
        tuple(stitches),
        (STITCH_CM,) * (count + 1),
        tuple(heights),
        *(none, none, none, none, none, none),
        (NO_RATES,) * (count + 1),
        tuple(bands_of),
    )
    names = dict.fromkeys(stitch for _, stitch, _ in expanded)
    fabrics = tuple(_fabric(name) for name in names)
    plan = YarnPlan(
        "Hand-made 4-ply",
        "wool",
        skein,
        skein * 3.8,
        yarn.get("keep_g", 5.0),
        used[0],
        used[-1] - used[0],
        total - used[-1],
        total,
        total * 3.8,
        skein - total,
        2.0,
        5.0,
        0.98,
        "swatch",
    )
    return Shawl(
        title, "a piece made by hand", tuple(remarks), "triangle", "cm", 4.0, table, fabrics, tuple(bands),
        tuple(_parts(piece, bands, skein)), Start(stitches[0], f"cast-on of {stitches[0]} sts"),
        BindOffPlan(method, f"{method} bind-off", stitches[-1], 3.0), plan, tuple(used), marks, outline, None, "", (),
        yarn.get("label", SkeinMass(skein, skein * 3.8)),
    )  # fmt: skip


def _both(boundary: Curve | tuple[Curve, Curve]) -> tuple[Curve, Curve]:
    return (boundary, boundary) if isinstance(boundary, Curve) else boundary


def _length(curve: Curve) -> float:
    return sum(math.dist(p, q) for p, q in pairwise(curve.flattened(0.001)))


def _size(piece: Piece, lengths: list[float], curves: list[tuple[Curve, Curve]]) -> Size:
    sides = None
    if piece.sides:
        ends = [(c.start, c.end) for c, _ in curves]
        left, right = (sum(math.dist(p[k], q[k]) for p, q in pairwise(ends)) for k in (0, 1))
        sides = (left, right)
    elif len(curves[-1][0].pieces) == 2:
        sides = (lengths[-1] / 2, lengths[-1] / 2)
    return Size(0.0, 0.0, None, None, sides, lengths[-1], 0.0)


def _spine(curves: list[tuple[Curve, Curve]]) -> list[Point]:
    return [c.pieces[0][0] for c, _ in curves]


def _used(stitches: list[int], knitted: float) -> list[float]:
    start = 1.5 * stitches[0]
    whole = start + sum(stitches[1:])
    used = [start * knitted / whole]
    for count in stitches[1:]:
        used.append(used[-1] + count * knitted / whole)
    return used


def _mark(row: int, used: list[float], skein: float) -> Mark:
    return Mark(row, used[row], skein - used[row], False)


def _fabric(name: str) -> Fabric:
    return Fabric(name, STITCH_CM, ROW_CM, (20.0, 40.0), 10.0, False, 0.02, "swatch", None, FABRICS.get(name, "plain"))


def _bands(
    piece: Piece, expanded: list[tuple[int, str, int]], stitches: list[int], heights: list[float], used: list[float],
    total: float, skein: float,
) -> list[BandPlan]:  # fmt: skip
    bands, row = [], 0
    for part, stitch, rows in expanded:
        first, last = row + 1, row + rows
        mass = used[last] - used[row]
        bands.append(
            BandPlan(
                part, stitch, 2 if stitch == "drop" else 1, None, first, last, stitches[last],
                sum(heights[first : last + 1]), mass, mass / total, used[last], skein - used[last],
            )
        )  # fmt: skip
        row = last
    return bands


def _parts(piece: Piece, bands: list[BandPlan], skein: float) -> list[PartPlan]:
    parts = []
    for k, (name, _) in enumerate(piece.parts):
        own = [b for b in bands if b.part == k]
        mass = sum(b.used_g for b in own)
        share = sum(b.share for b in own)
        parts.append(
            PartPlan(name, own[0].first_row, own[-1].last_row, own[-1].stitches_at_end, mass, share, own[-1].left_g)
        )
    return parts


# Boundaries, at height `h` of `whole`, in cm.


def scaled(boundary: Callable[[float, float], Curve], by: float) -> Boundary:
    """The same boundaries, larger or smaller."""
    return lambda h, whole: boundary(h, whole).mapped(lambda p: (p[0] * by, p[1] * by))


def chevron(h: float, whole: float) -> Curve:
    """A triangle from the neck with a straight top: arms of slope one, from a start of 4 cm."""
    reach, deep = 1.5 + h * math.sqrt(2), 1.5 + h * math.sqrt(2)
    return line([(-reach, 0.0), (0.0, deep), (reach, 0.0)])


def level(h: float, whole: float) -> Curve:
    """A rectangle 45 cm wide."""
    return line([(0.0, h), (45.0, h)])


def bulging(h: float, whole: float) -> Curve:
    """A triangle from its long edge whose sides bend outwards by up to 0.6 cm."""
    half = 60 * (1 - h / whole) + 0.9 * math.sin(math.pi * h / whole) + 2
    return line([(-half, h), (half, h)])


def hollow(h: float, whole: float) -> Curve:
    """The same with sides that bend inwards."""
    half = 60 * (1 - h / whole) - 0.9 * math.sin(math.pi * h / whole) + 2
    return line([(-half, h), (half, h)])


def upright(h: float, whole: float) -> Curve:
    """Tip to tip: upright rows under a straight top, deepest in the middle."""
    deep = 1.5 + 0.5 * min(h, whole - h)
    return line([(h, 0.0), (h, deep)])


def bow(h: float, whole: float) -> Curve:
    """A half-circle: arcs around one centre from a start of 3 cm radius."""
    return arc((0.0, 0.0), 3.0 + h, math.pi, 0.0)


def fan(h: float, whole: float) -> Curve:
    """Flat arcs that grow towards the bottom, as in a crescent."""
    turn = 0.25 + 0.5 * h / whole
    return arc((0.0, -30.0), 30.0 + h, math.pi / 2 + turn, math.pi / 2 - turn)


BODY = [("mesh", 8), ("drop", 2), ("garter", 6)]
NECK_DOWN = [("neck", [("garter", 32)]), ("body", BODY * 5), ("border", [("garter", 8)])]
