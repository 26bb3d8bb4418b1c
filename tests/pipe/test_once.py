"""Nothing is computed twice for one command: no stage of a plan runs again on what it has had before."""

import re
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from inspect import signature
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any

import pytest
from halfhank.grammar import parse as reader
from halfhank.model.design import resolve
from halfhank.model.marks_and_stops import marks, stops
from halfhank.model.outline import laying
from halfhank.model.planning import computing
from halfhank.model.rows import worked
from halfhank.model.stitches import pattern
from halfhank.model.weighings import disputes, forecast, log, weighing_model
from halfhank.model.yarn import allowance, ledger, totals

from tests.cli.running import halfhank

STAGES: tuple[FunctionType, ...] = (
    reader.parse,
    resolve.resolve,
    allowance.allowance,
    worked.work,
    worked.row_table,
    ledger.ledger_of,
    laying.outline_of,
    totals.yarn_plan,
    marks.marks,
    computing.computed,
    weighing_model.weighing_model,
    log.log_posterior,
    disputes.screened,
    forecast._forecast,
    stops._candidates,
    pattern.patterns_with,
)
GALLERY = Path(__file__).parents[2] / "gallery_demo"
DEMOS = sorted(GALLERY.glob("*.shawl"))
COMMANDS = (
    ("draw", "-o", "x.svg"),
    ("plan", "--rows"),
    ("plan", "--checkpoints", "--every", "10"),
    ("plan", "--json"),
    ("check",),
    ("stops",),
    ("skeins", "300m", "350m"),
    ("chart", "yarn", "-o", "x.svg"),
    ("instructions",),
)


class Calls:
    """Every call of a stage with its arguments, which are kept so that no identity is used again."""

    def __init__(self) -> None:
        self.made: list[tuple[str, tuple[object, ...]]] = []

    def count(self) -> Counter[str]:
        """Calls by stage."""
        return Counter(name for name, _ in self.made)

    def repeated(self) -> list[str]:
        """The stages that ran again on arguments that they had before."""
        keys = Counter((name, *map(_key, arguments)) for name, arguments in self.made)
        return sorted(str(key[0]) for key, count in keys.items() if count > 1)


def _key(argument: object) -> object:
    """Plain values by what they are, records by which they are."""
    return argument if isinstance(argument, int | float | str | bytes | None) else id(argument)


@contextmanager
def watched() -> Iterator[Calls]:
    """The calls of all stages while the block runs, by whatever name they are called."""
    calls = Calls()
    codes = {stage: stage.__code__ for stage in STAGES}
    try:
        for stage in STAGES:
            stage.__code__ = noting(stage, calls)
        yield calls
    finally:
        for stage, code in codes.items():
            stage.__code__ = code


def noting(stage: FunctionType, calls: Calls) -> CodeType:
    """The code of a function that notes its call and goes on as the stage does.

    A function's globals cannot be changed, so what the code calls stands in it as a constant.
    """
    asked = signature(stage)
    itself = FunctionType(stage.__code__, stage.__globals__, stage.__name__, stage.__defaults__, stage.__closure__)

    def noted(*arguments: Any, **named: Any) -> Any:
        bound = asked.bind(*arguments, **named)
        bound.apply_defaults()
        calls.made.append((stage.__name__, tuple(bound.arguments.values())))
        return itself(*arguments, **named)

    code = _template.__code__
    return code.replace(co_consts=tuple(noted if one == "noted" else one for one in code.co_consts))


def _template(*arguments: Any, **named: Any) -> Any:
    noted: Any = "noted"
    return noted(*arguments, **named)


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_no_stage_runs_again_on_the_same(
    command: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for demo in DEMOS:
        words = [command[0], demo] if command[0] != "chart" else [*command[:2], demo]
        with watched() as calls:
            result = halfhank(*words, *command[len(words) - 1 :])
        assert result.status == 0, result.err
        count = calls.count()
        assert not calls.repeated(), demo.stem
        assert count["parse"] == count["resolve"] == 1 or command[0] == "skeins", (demo.stem, count)
        if command[0] == "instructions":  # it tells of other numbers of repeats
            assert count["computed"] <= 2 and count["work"] <= 4, (demo.stem, count)
        elif command[0] not in ("skeins", "stops"):
            assert count["computed"] == count["marks"] == 1, (demo.stem, count)
            assert 1 <= count["outline_of"] <= (3 if weighs_choices(command) else 1), (demo.stem, count)
        if weighs_choices(command):
            assert count["work"] <= 3, (demo.stem, count)


def weighs_choices(command: tuple[str, ...]) -> bool:
    """Whether a command works out one repeat fewer and one more: two shawls beside the plan, whatever their counts."""
    return command[0] == "plan" and "--checkpoints" not in command


def test_only_plan_and_stops_work_out_other_counts(tmp_path: Path) -> None:
    """A count of thousands is no reason for more than two others."""
    path = tmp_path / "a.shawl"
    text = (GALLERY / "towpath.shawl").read_text(encoding="utf-8")
    path.write_text(re.sub("skein 200 g", "skein 9000 g", text), encoding="utf-8")
    for words, works in ((("draw", path, "-o", tmp_path / "x.svg"), 1), (("check", path), 1), (("plan", path), 3)):
        with watched() as calls:
            assert halfhank(*words).status == 0
        assert calls.count()["work"] == works, words


def test_a_weighing_computes_two_descriptions(tmp_path: Path) -> None:
    path = tmp_path / "a.shawl"
    path.write_bytes((GALLERY / "lintel.shawl").read_bytes())
    with watched() as calls:
        result = halfhank("weigh", path, "10", "60", "--sure", "--dry-run")
    assert result.status == 0, result.err
    assert calls.count()["parse"] == calls.count()["resolve"] == calls.count()["computed"] == 2
    assert not calls.repeated()


def test_a_log_is_screened_once_whatever_other_counts_are_tried(tmp_path: Path) -> None:
    path = tmp_path / "a.shawl"
    text = (GALLERY / "lintel.shawl").read_text(encoding="utf-8")
    path.write_text(text + "\nweighed\n  after row 20 60 g left\n  after row 30 59 g left\n", encoding="utf-8")
    with watched() as calls:
        assert halfhank("stops", path).status == 0
    assert calls.count()["log_posterior"] >= 2
    assert calls.count()["screened"] == 1


def test_a_second_run_is_noticed() -> None:
    text = (GALLERY / "lintel.shawl").read_text(encoding="utf-8")
    with watched() as calls:
        reader.parse(text)
        reader.parse(text)
    assert calls.repeated() == ["parse"]
