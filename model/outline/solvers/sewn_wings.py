"""Two wings sewn together along a straight spine whose shaping changes: where their rows lie.

One wing alone lies flat with straight rows; its edge at the spine has the slope tan phi of the shaping there. Sewn to
its mirror image, this edge has to be straight. So row i, L_i long, turns from its own slope phi_i to a direction
theta_i, which makes

    sum of h_i (theta_i - phi_i)^2 / L_i  +  sum of L h (theta')^2

least: the seam pulls at each row, and rows that fan out bend the wing. Own derivation. That both weights are 1 was
found by comparison with a relaxed membrane (orthotropic, free at its edges, computed for this project): wingspan and
depth of 27 triangles differ by 1.0 % of the wingspan (root mean square). `model/outline/README.md` has the figures.
"""

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise

from halfhank.grammar.record import NamedTuple
from halfhank.model.outline.curve import MOST_BOW, Point, bowed
from halfhank.model.outline.solvers.pentadiagonal import solve_pentadiagonal
from halfhank.model.outline.solvers.smoothing import smooth
from halfhank.model.outline.solvers.strip import Steps

LEAST_LENGTH_CM = 1e-6
FINE_CM = 0.0005
MOST_ASIDE = 0.4
"""How far a row's tip lies at most from where the row would end that is straight, as a share of the row."""

LEAST_SPREAD = 0.01
"""How far a row reaches sideways at least, as a share of its length."""


class SewnWings(NamedTuple):
    """The right wing on the page, its mirror image is the left one; by boundary 0…N.

    `spine_cm`: how far down the spine. `tips`: the outer end before and after the jump, the spine at x = 0. `bulges`:
    area in cm2 by which the boundary bulges downwards from the straight line between its ends.
    """

    spine_cm: list[float]
    tips: list[tuple[Point, Point]]
    bulges: list[float]

    def row_cm(self, row: int) -> float:
        """Length of a boundary along its curve, before its jump."""
        points = bowed((0.0, self.spine_cm[row]), self.tips[row][0], self.bulges[row]).flattened(FINE_CM)
        return sum(math.dist(p, q) for p, q in pairwise(points))


def settled_gains(heights: Sequence[float], gains: Sequence[float], sharp: Sequence[int], reach: float) -> list[float]:
    """What rows gain at the spine, in cm, settled over the reach like their lengths; `sharp` as for those."""
    sums = accumulate(gains, initial=0.0)
    cells = [before + gain / 2 for before, gain in zip(sums, gains, strict=False)]
    return [after - before for before, after in pairwise(smooth(heights, cells, sharp, reach))]


def sew(heights: Sequence[float], halves: Steps, gains: Sequence[float]) -> SewnWings:
    """Wings whose boundaries are `halves` long (before and after their jumps), the neck first, all in cm.

    `gains` is what each row gains at the spine. The spine takes `(1 + L theta') h / cos phi` of a row and the edge
    `(1 - L theta') h`, across the row: where rows fan out towards their ends, they are closer at the spine. Each
    boundary bulges by as much as its straight line encloses less than the fabric's area.
    """
    before, after = halves
    lengths = [max((a + b) / 2, LEAST_LENGTH_CM) for a, b in zip(after[:-1], before[1:], strict=True)]
    slopes = [math.atan2(gain, height) for gain, height in zip(gains, heights, strict=True)]
    angles = _at_boundaries(directions(heights, lengths, slopes))
    fans = [(b - a) / h * length for (a, b), h, length in zip(pairwise(angles), heights, lengths, strict=True)]
    steps = (h / math.cos(phi) * (1 + fan) for h, phi, fan in zip(heights, slopes, fans, strict=True))
    spine = list(accumulate(steps, initial=0.0))
    edge = _edge(heights, halves, gains, angles, fans)
    tips = [
        (_held(down, angle, x, one), _held(down, angle, y, other))
        for down, angle, x, y, (one, other) in zip(spine, angles, before, after, edge, strict=True)
    ]
    return _filled(heights, halves, SewnWings(spine, tips, []))


def directions(heights: Sequence[float], lengths: Sequence[float], slopes: Sequence[float]) -> list[float]:
    """The angle at which each row rises from the spine (radians), between the least and the largest of `slopes`."""
    pulls = [h / length for h, length in zip(heights, lengths, strict=True)]
    bends = [
        (one + other) / (above + below)
        for (one, other), (above, below) in zip(pairwise(lengths), pairwise(heights), strict=True)
    ]
    main = [pull + a + b for pull, a, b in zip(pulls, [0.0, *bends], [*bends, 0.0], strict=True)]
    right = [pull * phi for pull, phi in zip(pulls, slopes, strict=True)]
    return solve_pentadiagonal(main, [-bend for bend in bends], [0.0] * (len(main) - 2), right)


def _at_boundaries(rows: list[float]) -> list[float]:
    return [rows[0], *((a + b) / 2 for a, b in pairwise(rows)), rows[-1]]


def _edge(
    heights: Sequence[float], halves: Steps, gains: Sequence[float], angles: list[float], fans: list[float]
) -> list[tuple[Point, Point]]:
    """The outer edge from row to row, before and after each jump."""
    before, after = halves
    x, y = _along((0.0, 0.0), angles[0], before[0])
    found = [((x, y), _along((x, y), angles[0], after[0] - before[0]))]
    for i, height in enumerate(heights):
        gained = before[i + 1] - after[i] - gains[i]
        angle, across = (angles[i] + angles[i + 1]) / 2, height * (1 - fans[i])
        x, y = _along(found[-1][1], angle, gained)
        point = (x + across * math.sin(angle), y + across * math.cos(angle))
        found.append((point, _along(point, angles[i + 1], after[i + 1] - before[i + 1])))
    return found


def _along(point: Point, angle: float, length: float) -> Point:
    """So far along a row that rises from the spine at the angle."""
    return point[0] + length * math.cos(angle), point[1] - length * math.sin(angle)


def _held(spine: float, angle: float, length: float, tip: Point) -> Point:
    """The tip, not too far from where a straight row of this angle ends, and to the right of the spine."""
    if length <= LEAST_LENGTH_CM:
        return (max(length, 0.0), spine)
    straight = _along((0.0, spine), angle, length)
    aside = (tip[0] - straight[0]) / length, (tip[1] - straight[1]) / length
    share = length / (1 + (math.hypot(*aside) / MOST_ASIDE) ** 4) ** 0.25
    return max(straight[0] + aside[0] * share, LEAST_SPREAD * length), straight[1] + aside[1] * share


def _filled(heights: Sequence[float], halves: Steps, wings: SewnWings) -> SewnWings:
    """The wings with boundaries that bulge by the fabric's area up to each, less that which straight lines enclose.

    Where a boundary cannot bulge so far, it and all that follow go down (or up, by half of what they went down) as far
    as it needs.
    """
    before, after = halves
    spine, tips, bulges, left, moved = [wings.spine_cm[0]], [wings.tips[0]], [0.0], 0.0, 0.0
    for i, height in enumerate(heights):
        inner, outer = wings.spine_cm[i : i + 2], (wings.tips[i][1], wings.tips[i + 1][0])
        left += (after[i] + before[i + 1]) / 2 * height - _area([(0.0, inner[0]), *outer, (0.0, inner[1])])
        least, most = _bearable(outer[1][0], outer[1][1] - inner[1])
        move = _move(left - min(max(left, least), most), outer[1][0], inner[1] - inner[0])
        left, moved = left - move * outer[1][0], moved + move
        spine.append(inner[1] + moved)
        tips.append(_moved(wings.tips[i + 1], moved))
        bulges.append(min(max(left, least), most))
        left -= _area([(0.0, inner[1]), *wings.tips[i + 1]])
    return SewnWings(spine, tips, bulges)


def _bearable(x: float, y: float) -> tuple[float, float]:
    """The least and the largest bulge of a boundary from (0, 0) to (x, y): it stays on its side of the spine."""
    square = x * x + y * y
    upright = min(x / (9 * abs(y)), MOST_BOW) if y else MOST_BOW
    return (-MOST_BOW * square, upright * square) if y > 0 else (-upright * square, MOST_BOW * square)


def _move(over: float, width: float, step: float) -> float:
    """How far a boundary and all that follow go down to hold more area, by a step (up by half of one) at most."""
    return min(max(over / width, -step / 2), step) if width > 0 else 0.0


def _moved(tips: tuple[Point, Point], down: float) -> tuple[Point, Point]:
    one, other = ((x, y + down) for x, y in tips)
    return one, other


def _area(corners: list[Point]) -> float:
    """The area of a polygon, clockwise on the page (Gauss)."""
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in pairwise([*corners, corners[0]])) / 2
