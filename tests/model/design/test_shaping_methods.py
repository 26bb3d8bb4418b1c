"""How shaped stitches are made: what the line says, what is usual where it says nothing, and what that means."""

from typing import Any

import pytest
from halfhank.grammar.items import ITEMS, METHODS
from halfhank.model.design.design import Gains, Methods
from halfhank.model.design.shaping_methods import BESIDE_SPINE, method_of
from halfhank.model.planning.planning import plan_design

from tests.model.texts import described

PART = "garter 20 rows"


def lines(*written: str, **more: Any) -> list[tuple[Gains, Methods]]:
    found = described(PART, lines=written, **more).lines
    return [(line.amounts, line.methods) for line in found]


@pytest.mark.parametrize(
    ("action", "place", "amount", "method"),
    [
        ("increase", "lower edge", 1, "m1r"),
        ("increase", "upper edge", 4, "m1l"),
        ("increase", "upper edge", 5, "cast on"),
        ("increase", "lower edge", 30, "cast on"),
        ("increase", "spine", 9, "yo"),
        ("increase", "evenly", 90, "m1"),
        ("decrease", "lower edge", 1, "ssk"),
        ("decrease", "upper edge", 3, "k2tog"),
        ("decrease", "lower edge", 4, "bind off"),
        ("decrease", "spine", 4, BESIDE_SPINE),
        ("decrease", "evenly", 9, "k2tog"),
        ("bind off", "lower edge", 1, "bind off"),
    ],
)
def test_what_is_usual_where_nothing_is_said(action: str, place: str, amount: int, method: str) -> None:
    assert method_of(action, place, amount, None) == method


@pytest.mark.parametrize("place", ["lower edge", "upper edge", "spine", "evenly"])
def test_what_is_said_is_done(place: str) -> None:
    for action, methods in METHODS.items():
        assert [method_of(action, place, 6, method) for method in methods] == list(methods)
        other = next(methods for name, methods in METHODS.items() if name != action)
        assert method_of(action, place, 6, other[0]) == method_of(action, place, 6, None)


def test_every_method_is_an_item_that_does_so() -> None:
    gains = {name: ITEMS[name].made - ITEMS[name].taken for methods in METHODS.values() for name in methods}
    assert all(gains[name] == 1 for name in METHODS["increase"])
    assert all(gains[name] in (-1, -2) for name in METHODS["decrease"])


def test_methods_stand_by_place_however_they_are_written() -> None:
    (each,) = lines("increase 2 yo at each edge and 1 at spine every 2 rows")
    assert each == (Gains(2, 2, 1, 0), Methods("yo", "yo", None, None))
    assert lines("increase 2 yo at upper edge and 1 at spine and 2 yo at lower edge every 2 rows") == [each]
    assert lines("increase 2 yo at upper edge and 2 kfb at lower edge") == [(Gains(2, 2), Methods("yo", "kfb"))]
    assert lines("decrease 8 k3tog evenly every 8 rows") == [(Gains(evenly=8), Methods(evenly="k3tog"))]
    assert lines("increase evenly to 90 sts from row 5") == [(Gains(), Methods())]


def test_a_method_is_part_of_the_meaning_and_changes_no_count() -> None:
    plain, said = (described(PART, lines=(f"increase 1{how} at each edge every 2 rows",)) for how in ("", " kfb"))
    assert plain != said
    counts = [planned.shawl.rows.stitches for planned in map(plan_design, (plain, said)) if planned.shawl]
    assert len(counts) == 2 and counts[0] == counts[1]


@pytest.mark.parametrize("method", ["s2kp", "s2pp"])
def test_a_centred_decrease_over_a_spine_of_one_stitch_is_one(method: str) -> None:
    line = f"decrease 2 {method} at spine every 2 rows"
    centred = [(Gains(spine=1), Methods(spine=method))]
    assert lines(line, start="cast on 41 sts") == lines("spine 1 st", line, start="cast on 41 sts") == centred
    beside = [(Gains(spine=2), Methods(spine=method))]
    for spine in (0, 3):
        assert lines(f"spine {spine} sts", line) == beside
    assert lines("decrease 2 k3tog at spine every 2 rows") == [(Gains(spine=2), Methods(spine="k3tog"))]
    planned = plan_design(described("garter 4 rows", start="cast on 41 sts", lines=(line,)))
    assert planned.shawl and planned.shawl.rows.stitches == (41, 39, 39, 37, 37)
