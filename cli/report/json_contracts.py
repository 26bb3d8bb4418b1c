"""What `plan --json` and `check --json` print: forms that other programs rely on, so they stay as they are."""

import json
from collections.abc import Iterable

from halfhank.grammar.problems.problem import Problem
from halfhank.model.plan import Plan
from halfhank.model.plan_json import plan_json, problems_json


def plan_contract(plan: Plan | None, problems: Iterable[Problem], with_rows: bool) -> str:
    """The plan of `model/plan.schema.json`."""
    if plan is None:
        return _printed(plan_json(None, problems))
    from halfhank.model.marks_and_stops.repeat_choices import repeat_choices
    from halfhank.model.rows.shaping_table import shaped

    return _printed(plan_json(plan.shawl, problems, with_rows, repeat_choices(plan), shaped(plan.parts)))


def check_contract(files: Iterable[tuple[str, Iterable[Problem]]]) -> str:
    """A list of files by their paths as given, each with its problems."""
    return _printed([{"file": path, "problems": problems_json(problems)} for path, problems in files])


def _printed(value: object) -> str:
    """Pure ASCII, so that it is safe to show and the same under every locale."""
    return json.dumps(value, indent=2, allow_nan=False) + "\n"
