"""The advice on even sequences and the stops never contradict each other, over random sequences of bands."""

from functools import cache
from random import Random
from typing import NamedTuple

import pytest
from halfhank.model.design.band_walk import leaves
from halfhank.model.design.design import Repeat
from halfhank.model.marks_and_stops.finish import Finish, fabric_fault, finish_of
from halfhank.model.marks_and_stops.stops import candidates, finish_in
from halfhank.model.marks_and_stops.variants import counted_piece
from halfhank.model.plan import Plan

from tests.model.texts import text
from tests.model.weighings.knits import plan_of

STITCHES = """stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch smooth
  as stockinette
  gauge 20 sts 28 rows over 10 cm
stitch eyelets
  gauge 20 sts 32 rows over 10 cm
  multiple of 2 sts + 1
  row 1: k1, *yo, k2tog*
  row 2: purl"""
BANDS = (
    "garter {} rows",
    "garter {}, {} ridges",
    "smooth {} rows",
    "eyelets {} rows",
    "drop 2 wraps",
    "stockinette 4 rows",
)


def sequence(pick: Random) -> str:
    """A growing repeat of one to four bands, with or without a border and bands beside it."""
    lines = []
    for _ in range(pick.randint(1, 4)):
        band = pick.choice(BANDS)
        lines.append("  " + band.format(*(2 * pick.randint(1, 4) for _ in range(2))))
    if pick.random() < 0.2:
        lines = ["  repeat 2 times", *("  " + line for line in lines), f"  garter {2 * pick.randint(1, 3)} rows"]
    after = pick.choice(("", "\ngarter 6 rows", "\nstockinette 4 rows"))
    return "repeat as yarn allows\n" + "\n".join(lines) + after


class Judged(NamedTuple):
    """How an end in the growing repeat is judged, what its fabric does wrong, and whether a repeat ends there."""

    finish: Finish
    fault: str | None
    ends_repeat: bool


def judged(plan: Plan) -> list[Judged]:
    """Every stop in the growing repeat but the planned end, and the row before it, inside its band."""
    repeat = counted_piece(plan.design)
    assert isinstance(repeat, Repeat)
    numbers = [leaf.number for leaf in leaves(repeat.bands)]
    found = []
    for one in candidates(plan):
        place = one.place
        if place.run.source.number not in numbers or one.planned:
            continue
        following = place.following.source.number if place.following else None
        last = place.run.source.number == numbers[-1] and following == numbers[0]
        fault = fabric_fault(plan.table.measures, place)
        found.append(Judged(finish_in(plan, one), fault, not place.inside and (last or following not in numbers)))
        if place.done > 1:
            before = place._replace(row=place.row - 1, inside=True, done=place.done - 1)
            fault = fabric_fault(plan.table.measures, before)
            found.append(Judged(finish_of(plan.table.measures, before), fault, False))
    return found


@cache
def made(number: int) -> Plan:
    """One random shawl: a rectangle from a small skein."""
    return plan_of(
        text(sequence(Random(number)), shape="rectangle", start="cast on 61 sts", stitches=STITCHES, skein="25 g 95 m")
    )


@pytest.mark.parametrize("first", range(0, 40, 20))
def test_advice_and_stops_say_the_same(first: int) -> None:
    for number in range(first, first + 20):
        plan = made(number)
        advice = [problem for problem in plan.problems if problem.code == "even-sequence"]
        places = judged(plan)
        assert bool(advice) == any(one.finish.by_sequence for one in places), number
        for one in places if advice else []:
            assert one.finish.finished == (one.ends_repeat and one.fault is None), (number, one)
        faults = {one.fault for one in places if one.ends_repeat and one.fault}
        if advice and "after a whole one" in advice[0].message:
            assert len(faults) == 1 and faults.pop() in advice[0].message, number


def test_the_random_sequences_are_of_all_kinds() -> None:
    plans = [made(number) for number in range(40)]
    advised = [any(problem.code == "even-sequence" for problem in plan.problems) for plan in plans]
    assert 6 < sum(advised) < 34
    assert any("after a whole one" in problem.message for plan in plans for problem in plan.problems)
