"""Random starts and shaping lines for each construction, such as can be worked."""

from random import Random
from typing import NamedTuple

from tests.pipe.random_shawls.spec import Line, Tab

SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")


class Construction(NamedTuple):
    """A start with its lines, and the lines that a part may have for its own."""

    shape: str
    start: int | Tab
    edge: int
    spine: int | None
    lines: tuple[Line, ...]
    others: tuple[tuple[Line, ...], ...]
    pinned: tuple[str | None, ...] = (None, None, None, "to 150 cm by 70 cm", "to 50 in by 65 cm")


def grow(*places: tuple[int, str], every: int, from_row: int | None = None, until: int | None = None) -> Line:
    return Line("increase", places, every, from_row, until)


def shrink(*places: tuple[int, str], every: int, until: int, from_row: int | None = None) -> Line:
    return Line("decrease", places, every, from_row, until)


def sometimes(pick: Random, value: int, chance: float) -> int | None:
    return value if pick.random() < chance else None


def tab_or_cast_on(pick: Random, most: int) -> int | Tab:
    if pick.random() < 0.4:
        return Tab(pick.randint(2, 4), 2 * pick.randint(1, 6))
    return pick.randint(3, most)


def from_neck(pick: Random) -> Construction:
    spine = pick.choice((None, 1, 2, 3))
    until = sometimes(pick, pick.randint(30, 300), 0.15)
    first = sometimes(pick, pick.choice((1, 3, 5, 2)), 0.2)
    lines = pick.choice(
        (
            (grow((1, "each edge"), (1, "spine"), every=2, from_row=first, until=until),),
            (grow((1, "each edge"), every=1), grow((1, "spine"), every=3, until=until)),
            (grow((1, "each edge"), every=2, from_row=first), grow((1, "spine"), every=4)),
            (
                grow((1, "spine"), every=2),
                grow((2, "each edge"), every=4, until=until),
                grow((3, "upper edge"), every=9),
            ),
        )
    )
    others = (
        (grow((1, "each edge"), every=2),),
        (grow((1, "each edge"), (1, "spine"), every=1, until=200),),
        (grow((6, "each edge"), every=12, from_row=3), grow((1, "spine"), every=2)),
        (shrink((1, "each edge"), every=2, until=20),),
        (Line("increase", ((7, "evenly"),), None, sometimes(pick, 3, 0.5)), grow((1, "spine"), every=4)),
    )
    pinned = (None, None, None, "straight", "to 150 cm by 70 cm")
    return Construction("triangle", tab_or_cast_on(pick, 15), pick.randint(0, 4), spine, lines, others, pinned)


def from_long_edge(pick: Random) -> Construction:
    cast_on, edge = pick.randint(60, 260), pick.randint(0, 4)
    floor = 2 * edge + pick.randint(2, 20)
    lines = (shrink((pick.randint(1, 2), "each edge"), every=2, until=floor, from_row=sometimes(pick, 5, 0.5)),)
    others = (
        (shrink((1, "each edge"), every=4, until=floor), shrink((1, "lower edge"), every=3, until=floor)),
        (Line("decrease", ((3, "evenly"),), 4, None, floor),),
    )
    return Construction("triangle", cast_on, edge, pick.choice((0, None)), lines, others)


def crescent(pick: Random) -> Construction:
    lines = pick.choice(
        (
            (grow((2, "each edge"), every=2), grow((1, "each edge"), every=2, from_row=2)),
            (grow((1, "each edge"), every=1, until=sometimes(pick, 211, 0.3)),),
            (grow((3, "each edge"), every=2),),
            (grow((1, "each edge"), every=1), Line("increase", ((9, "evenly"),), 10, 5)),
        )
    )
    others = (
        (grow((5, "each edge"), every=6),),
        (grow((1, "each edge"), every=4), grow((1, "upper edge"), every=5)),
        (Line("increase", ((8, "each edge"),), None, None),),
        (shrink((1, "each edge"), every=2, until=15),),
    )
    return Construction("crescent", tab_or_cast_on(pick, 60), pick.randint(0, 4), None, lines, others)


def half_circle(pick: Random) -> Construction:
    lines = pick.choice(
        (
            (
                Line(
                    "increase", ((pick.randint(4, 9), "evenly"),), 4, sometimes(pick, 3, 0.5), sometimes(pick, 180, 0.3)
                ),
            ),
            (grow((1, "each edge"), every=2), Line("increase", ((6, "evenly"),), 6)),
            (Line("increase", ((3, "evenly"),), 2), Line("increase", ((12, "evenly"),), None, 9)),
        )
    )
    others = (
        (Line("increase", ((5, "evenly"),), 2),),
        (Line("increase", ((20, "evenly"),), None, 3),),
        (Line("decrease", ((4, "evenly"),), 6, 2, 12),),
    )
    pinned = (None, None, None, "straight", "to 150 cm by 70 cm")
    return Construction("half-circle", tab_or_cast_on(pick, 20), pick.randint(0, 3), None, lines, others, pinned)


def sideways(pick: Random) -> Construction:
    shape = pick.choice(("tip-to-tip", "asymmetric"))
    near, far = pick.choice((("lower edge", "upper edge"), ("upper edge", "lower edge")))
    floor = pick.randint(12, 30)
    lines = pick.choice(
        (
            (grow((1, near), every=pick.choice((2, 4, 6))),),
            (grow((1, near), every=2), shrink((1, far), every=2, until=floor, from_row=3)),
            (grow((2, near), every=2), grow((1, far), every=6, until=sometimes(pick, 90, 0.3))),
            (grow((1, near), every=1), Line("bind off", ((pick.randint(3, 7), near),), 12, 12, floor)),
            (grow((1, near), every=2), Line("bind off", ((5, far),), 12, 13, floor)),
        )
    )
    others = (
        (shrink((1, near), every=4, until=floor),),
        (shrink((1, near), every=2, until=floor), grow((1, far), every=2)),
        (Line("bind off", ((4, far),), 8, 2, floor), grow((1, far), every=1)),
        (grow((6, near), every=6),),
    )
    return Construction(shape, pick.randint(3, 30), pick.randint(0, 3), None, lines, others)


def rectangle(pick: Random) -> Construction:
    return Construction("rectangle", pick.randint(12, 80), pick.randint(0, 5), None, (), ((),))


CONSTRUCTIONS = (from_neck, from_neck, from_long_edge, crescent, half_circle, sideways, sideways, rectangle)


def construction(pick: Random) -> Construction:
    return pick.choice(CONSTRUCTIONS)(pick)
