"""The machine-readable plan of random shawls: valid by its schema, finite, and telling what the shawl holds."""

import json
from itertools import accumulate
from pathlib import Path
from typing import Any

import pytest
from halfhank.grammar.parse import parse
from halfhank.model import plan_json as module
from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
from halfhank.model.plan import Planned
from halfhank.model.plan_json import plan_json
from halfhank.model.planning.planning import plan_parsed
from halfhank.model.rows.shaping_table import shaped
from jsonschema import Draft202012Validator

from tests.pipe.random_shawls.making import seeded_plan

STEP = 25
ROOT = Path(__file__).resolve().parents[2]
SCHEMA = json.loads(Path(str(module.__file__)).with_name("plan.schema.json").read_text(encoding="utf-8"))


def refused(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON number")


def read_back(plan: Planned) -> Any:
    """The plan through its text and back, where only finite numbers may pass."""
    choices = repeat_choices(plan.plan) if plan.plan else None
    shaping = shaped(plan.plan.parts) if plan.plan else ()
    written = json.dumps(plan_json(plan.shawl, plan.problems, True, choices, shaping), allow_nan=True)
    return json.loads(written, parse_constant=refused)


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("first", range(0, 200, STEP))
def test_plan_keeps_to_its_schema(first: int) -> None:
    validator = Draft202012Validator(SCHEMA)
    for number in range(first, first + STEP):
        errors = list(validator.iter_errors(read_back(seeded_plan(number))))
        assert not errors, (number, errors[0])


def test_schema_refuses_what_no_plan_says() -> None:
    validator = Draft202012Validator(SCHEMA)
    good = read_back(seeded_plan(1))
    assert validator.is_valid(good)
    for key in good:
        assert not validator.is_valid({**good, key: "nonsense"}) or key in ("title", "shape"), key
    assert not validator.is_valid({name: value for name, value in good.items() if name != "yarn"})


def test_the_planned_choice_is_the_plan() -> None:
    chosen = 0
    for number in range(50):
        told = read_back(seeded_plan(number))
        for choice in (told.get("repeat_choices") or {"choices": []})["choices"]:
            if choice["difference"] == 0:
                chosen += 1
                plan = {**told["size"], **told["yarn"], "rows": told["counts"]["rows"]}
                assert {name: choice[name] for name in choice if name in plan} == {
                    name: plan[name] for name in ("rows", "wingspan_cm", "depth_cm", "left_g", "chance_enough")
                }
            assert choice["short_g"] == (-choice["left_g"] if choice["left_g"] < 0 else None)
    assert chosen > 10


def test_plan_tells_the_shawl() -> None:
    for number in range(50):
        plan = seeded_plan(number)
        told = read_back(plan)
        if plan.shawl is None:
            assert set(told) == {"format", "problems"}
            continue
        rows = plan.shawl.rows
        assert told["counts"] == {
            "cast_on": rows.stitches[0],
            "rows": rows.count,
            "final": rows.stitches[-1],
            "stitches": sum(rows.stitches[1:]),
        }
        assert [row[1] for row in told["rows"]] == list(rows.stitches[1:])
        assert [row[2] for row in told["rows"]] == pytest.approx(plan.shawl.used_g[1:], abs=1e-4)
        assert told["yarn"]["total_g"] == pytest.approx(plan.shawl.yarn.total_g, abs=1e-4)


SIGNS = {"increase": 1, "decrease": -1, "bind off": -1}


def rows_by_shaping(told: Any) -> list[int]:
    """The stitches of every row, made of the start and of the shaping alone."""
    gains = [0] * (told["counts"]["rows"] + 1)
    for one in told["shaping"]:
        sides = 2 if one["place"] == "spine" else 1
        for row in one["rows"]:
            gains[row] += SIGNS[one["action"]] * sides * one["stitches"]
    gains[0] = told["counts"]["cast_on"]
    return list(accumulate(gains))[1:]


def first_and_last(told: Any, part: str) -> list[tuple[int, int]]:
    return [(one["first_row"], one["last_row"]) for one in told["parts"] if one["name"] == part]


@pytest.mark.parametrize("demo", sorted((ROOT / "gallery_demo").glob("*.shawl")), ids=lambda path: path.stem)
def test_shaping_gives_the_count_of_every_row_of_the_demos(demo: Path) -> None:
    told = read_back(plan_parsed(parse(demo.read_text(encoding="utf-8"))))
    assert rows_by_shaping(told) == [row[1] for row in told["rows"]]


def test_shaping_gives_the_count_of_every_row_of_random_shawls() -> None:
    met: set[str] = set()
    for number in range(60):
        told = read_back(seeded_plan(number))
        if "rows" not in told:
            continue
        assert rows_by_shaping(told) == [row[1] for row in told["rows"]], number
        for one in told["shaping"]:
            met |= {one["action"], one["place"], one["method"]}
            assert one["rows"] == sorted(set(one["rows"]))
            spans = first_and_last(told, one["part"])
            assert any(first <= one["rows"][0] and one["rows"][-1] <= last for first, last in spans)
    assert met >= {*SIGNS, "upper edge", "lower edge", "spine", "evenly", "m1", "m1l", "kfb", "k3tog", "ssk", "cast on"}
