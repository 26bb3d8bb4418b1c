"""The Python interface: what README promises of it, and that the commands go the same way."""

import re
import typing
from pathlib import Path

import halfhank
import pytest
from halfhank.grammar.problems.problem import MISTAKE
from halfhank.model.plan import Plan, Planned
from halfhank.renderer import OptionError

from tests.cli.running import GOOD
from tests.cli.running import halfhank as command

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "gallery_demo" / "lintel.shawl"
WRONG = GOOD.replace("needles", "nedles")


def test_the_example_of_the_readme_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    example, *_ = re.findall(r"```python\n(.*?)```", text, re.DOTALL)
    (tmp_path / "gallery_demo").symlink_to(DEMO.parent)
    monkeypatch.chdir(tmp_path)
    exec(compile(example, "README.md", "exec"), {})
    rows, grams = re.findall(r"^(\d+) rows, ([\d.]+) g$", capsys.readouterr().out, re.MULTILINE)[-1]
    assert f"{grams} g" in command("plan", DEMO).out.decode() and int(rows) > 60
    drawn = command("draw", DEMO, "-o", tmp_path / "same.svg", "--width", "120")
    assert drawn.status == 0
    assert (tmp_path / "same.svg").read_bytes() == (tmp_path / "lintel.svg").read_bytes()


def test_text_and_bytes_are_the_same() -> None:
    data = DEMO.read_bytes()
    one, other = halfhank.plan(data), halfhank.plan(data.decode())
    assert one.plan is not None and other.plan is not None
    assert one.plan.shawl.yarn == other.plan.shawl.yarn and one.problems == other.problems
    assert halfhank.draw(data) == halfhank.draw(data.decode()) == halfhank.draw(one.plan)


def test_bytes_that_are_no_text_are_a_mistake() -> None:
    planned = halfhank.plan(b"\xff\xfe\x00")
    assert planned.plan is None and planned.has_mistakes


def test_a_description_with_mistakes_raises_where_a_drawing_is_asked_for() -> None:
    planned = halfhank.plan(WRONG)
    assert planned.has_mistakes and planned.plan is None
    with pytest.raises(halfhank.DescriptionError) as raised:
        halfhank.draw(WRONG)
    assert raised.value.problems == planned.problems
    first = next(problem for problem in planned.problems if problem.severity == MISTAKE)
    assert first.span is not None and str(raised.value).startswith(f"line {first.span.line}: ")


@pytest.mark.parametrize(
    "options", [{"format": "jpeg"}, {"scale": 0.0}, {"scale": 5.0, "width_mm": 100.0}, {"ramp": "rainbow"}]
)
def test_options_that_no_drawing_can_follow(options: dict[str, typing.Any]) -> None:
    with pytest.raises(OptionError):
        halfhank.draw(GOOD, **options)


@pytest.mark.parametrize(("format_", "magic"), [("svg", b"<?xml"), ("png", b"\x89PNG"), ("pdf", b"%PDF")])
def test_each_format(format_: str, magic: bytes) -> None:
    assert halfhank.draw(GOOD, format=format_).startswith(magic)


def test_it_is_typed_and_documented() -> None:
    from halfhank import interface

    assert sorted(halfhank.__all__) == ["DescriptionError", "draw", "plan"]
    for name in halfhank.__all__:
        assert getattr(halfhank, name).__doc__
    names = {**vars(interface), "Planned": Planned, "Plan": Plan}
    assert typing.get_type_hints(halfhank.plan, names) == {"text": str | bytes, "return": Planned}
    assert typing.get_type_hints(halfhank.draw, names)["return"] is bytes
