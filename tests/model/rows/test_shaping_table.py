"""Shaping as it is worked, against lists written by hand."""

from typing import Any

from halfhank.model.planning.planning import plan_design
from halfhank.model.rows.shaping_table import shaped

from tests.model.texts import described


def table(*parts: str, **more: Any) -> list[tuple[object, ...]]:
    planned = plan_design(described(*parts, **more))
    assert planned.plan, planned.problems
    return [tuple(one) for one in shaped(planned.plan.parts)]


def test_each_part_line_and_place_has_an_entry() -> None:
    found = table(
        "garter 6 rows",
        "increase 6 yo at lower edge from row 2\nincrease 6 at lower edge from row 4\ngarter 4 rows",
        lines=("increase 1 m1 at each edge and 2 at spine every 4 rows",),
    )
    assert found == [
        (0, "increase", "upper edge", "m1", 1, (1, 5)),
        (0, "increase", "lower edge", "m1", 1, (1, 5)),
        (0, "increase", "spine", "yo", 2, (1, 5)),
        (1, "increase", "lower edge", "yo", 6, (8,)),
        (1, "increase", "lower edge", "cast on", 6, (10,)),
    ]


def test_a_line_stopped_by_its_limit_or_of_a_part_worked_even_has_none() -> None:
    lines = ("increase 1 at upper edge every row until 11 sts",)
    assert table("garter 6 rows", "even\ngarter 4 rows", lines=lines) == [
        (0, "increase", "upper edge", "m1l", 1, (1, 2))
    ]


def test_saw_teeth_are_bound_off_and_totals_are_reached_evenly() -> None:
    lines = ("increase 1 at lower edge every row", "bind off 3 at lower edge every 4 rows from row 4")
    assert table("garter 8 rows", shape="asymmetric", lines=lines)[1:] == [
        (0, "bind off", "lower edge", "bind off", 3, (4, 8))
    ]
    lines = ("increase evenly to 30 sts from row 3", "decrease evenly to 30 sts from row 5")
    assert table("garter 8 rows", shape="half-circle", lines=lines) == [(0, "increase", "evenly", "m1", 21, (3,))]


def test_on_the_way_back_the_opposite_is_done_as_usual() -> None:
    lines = ("increase 1 kfb at lower edge every 2 rows", "decrease 1 ssk at upper edge every 8 rows from row 9")
    found = table("garter 8 rows", shape="tip-to-tip", lines=lines, tail="turn back")
    assert found == [
        (0, "increase", "lower edge", "kfb", 1, (1, 3, 5, 7)),
        (1, "decrease", "lower edge", "ssk", 1, (9, 11, 13, 15)),
    ]
