"""The machine-readable plan of random shawls: valid by its schema, finite, and telling what the shawl holds."""

import json
from pathlib import Path
from typing import Any

import pytest
from halfhank.model import plan_json as module
from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
from halfhank.model.plan import Planned
from halfhank.model.plan_json import plan_json
from jsonschema import Draft202012Validator

from tests.pipe.random_shawls.making import seeded_plan

STEP = 25
SCHEMA = json.loads(Path(str(module.__file__)).with_name("plan.schema.json").read_text(encoding="utf-8"))


def refused(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON number")


def read_back(plan: Planned) -> Any:
    """The plan through its text and back, where only finite numbers may pass."""
    choices = repeat_choices(plan.plan) if plan.plan else None
    written = json.dumps(plan_json(plan.shawl, plan.problems, True, choices), allow_nan=True)
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
