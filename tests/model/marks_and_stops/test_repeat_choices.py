"""One fewer, as planned, one more: each line against the plan that has the count written out."""

import pytest
from halfhank.model.marks_and_stops.repeat_choices import RepeatChoice, repeat_choices
from halfhank.model.shawl import Shawl

from tests.model.texts import text
from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of, shawl_of
from tests.pipe.random_shawls.making import seeded_plan

OPEN_BAND = text("garter 20 rows", "garter as yarn allows", "garter 4 rows", shape="rectangle", start="cast on 60 sts")
TURNED = text(
    "repeat as yarn allows\n  garter 4 rows\n  stockinette 2 rows",
    shape="tip-to-tip",
    start="cast on 3 sts",
    lines=("increase 1 at upper edge every 4 rows",),
    tail="turn back\nbind off draw through",
)


def is_that_of(choice: RepeatChoice, shawl: Shawl) -> None:
    """The line has the numbers of the plan; their tensions drift over yarns of slightly different length."""
    size = shawl.outline.size
    assert choice.rows == shawl.rows.count
    assert choice.left_g == pytest.approx(shawl.yarn.left_g, abs=0.02)
    assert choice.chance_enough == pytest.approx(shawl.yarn.chance_enough, abs=0.02 if shawl.skein.by_log else 0.005)
    assert (choice.size.wingspan_cm, choice.size.depth_cm) == (size.wingspan_cm, size.depth_cm)
    assert (choice.short_g is None) == (shawl.yarn.left_g >= 0)


@pytest.mark.parametrize(
    ("described", "unit", "stitch"),
    [
        (BANDED, "repeats", None),
        (TURNED, "repeats", None),
        (BANDED.replace("repeat as yarn allows", "repeat 4 times"), "repeats", None),
        (OPEN_BAND, "rows", "garter"),
        (BANDED.replace("  garter 3 ridges", "  eyelets as yarn allows").replace("repeat as yarn", "repeat 4 times #"),
         "repeats", "eyelets"),
    ],
)  # fmt: skip
def test_every_line_is_a_plan_with_that_count(described: str, unit: str, stitch: str | None) -> None:
    plan = plan_of(described)
    found = repeat_choices(plan)
    assert found is not None and (found.unit, found.stitch) == (unit, stitch)
    step = 2 if unit == "rows" else 1
    assert [choice.difference for choice in found.choices] == [-step, 0, step]
    planned = found.choices[1].count
    assert planned == (plan.shawl.allowed or 4) * step
    for choice in found.choices:
        assert choice.count == planned + choice.difference
        written = {"rows": f"{choice.count} rows", "repeats": f"{choice.count} times"}[unit]
        if stitch == "eyelets":
            written = f"{choice.count} repeats"
        counted = described.replace("as yarn allows", written) if "as yarn allows" in described else described.replace(
            "repeat 4 times", f"repeat {written}"
        )  # fmt: skip
        is_that_of(choice, shawl_of(counted))


def test_the_planned_line_is_the_plan_with_and_without_a_log() -> None:
    log = logged(BANDED, "before cast on 100.0 g", "after row 60 79.0 g left")
    for plan in (plan_of(BANDED), plan_of(log)):
        found = repeat_choices(plan)
        assert found is not None
        (planned,) = [choice for choice in found.choices if not choice.difference]
        shawl = plan.shawl
        assert (planned.left_g, planned.chance_enough) == (shawl.yarn.left_g, shawl.yarn.chance_enough)
        assert (planned.rows, planned.size, planned.count) == (shawl.rows.count, shawl.outline.size, shawl.allowed)


def test_with_a_log_every_line_has_what_the_log_teaches() -> None:
    """Against the plan with the same log and the count written out."""
    log = ("before cast on 100.0 g", "after row 60 79.0 g left")
    found = repeat_choices(plan_of(logged(BANDED, *log)))
    assert found is not None and len(found.choices) == 3
    for choice in found.choices:
        shawl = shawl_of(logged(BANDED.replace("as yarn allows", f"{choice.count} times"), *log))
        is_that_of(choice, shawl)


def test_what_is_knitted_cannot_be_changed() -> None:
    """After a row of the last repeat there is no fewer, after one of the border no other count at all."""
    planned = plan_of(BANDED).shawl
    kerb = planned.parts[2].first_row
    left = planned.yarn.skein_g - planned.used_g[kerb - 2]
    late = repeat_choices(plan_of(logged(BANDED, "before cast on 100.0 g", f"after row {kerb - 2} {left:.1f} g left")))
    assert late is not None and [choice.difference for choice in late.choices] == [0, 1]
    left = planned.yarn.skein_g - planned.used_g[kerb + 1]
    log = ("before cast on 100.0 g", f"after row {kerb + 1} {left:.1f} g left")
    assert repeat_choices(plan_of(logged(BANDED, *log))) is None


@pytest.mark.parametrize(("before", "offered"), [(0, [0, 2]), (1, [0, 2]), (2, [-2, 0, 2])])
def test_a_band_cannot_lose_rows_that_are_weighed(before: int, offered: list[int]) -> None:
    """Two rows fewer are left while at least two rows of the band are not weighed."""
    planned = plan_of(OPEN_BAND).shawl
    row = planned.parts[1].last_row - before
    left = planned.yarn.skein_g - planned.used_g[row]
    found = repeat_choices(plan_of(logged(OPEN_BAND, "before cast on 100.0 g", f"after row {row} {left:.1f} g left")))
    assert found is not None and [choice.difference for choice in found.choices] == offered


def test_one_repeat_has_none_fewer_and_nothing_repeated_has_no_table() -> None:
    once = repeat_choices(plan_of(BANDED.replace("as yarn allows", "1 time")))
    assert once is not None and [choice.difference for choice in once.choices] == [0, 1]
    assert repeat_choices(plan_of(PLAIN)) is None


def test_the_last_repeat_stands_in_where_the_yarn_counts_nothing() -> None:
    twice = BANDED.replace('part "collar"\n', 'part "collar"\n  repeat 3 times\n    garter 2 rows\n')
    found = repeat_choices(plan_of(twice.replace("as yarn allows", "5 times")))
    assert found is not None and found.choices[1].count == 5


def test_random_plans_are_not_contradicted() -> None:
    tables = 0
    for number in range(0, 60, 3):
        plan = seeded_plan(number).plan
        found = repeat_choices(plan) if plan else None
        if plan is None or found is None:
            continue
        tables += 1
        (planned,) = [choice for choice in found.choices if not choice.difference]
        assert (planned.rows, planned.left_g) == (plan.rows.count, plan.shawl.yarn.left_g)
        rows = [choice.rows for choice in found.choices]
        assert rows == sorted(set(rows))
    assert tables > 5
