"""A skein in ounces: what commands print is in ounces too, and JSON in grams."""

import json
import re
from pathlib import Path

import pytest

from tests.cli.running import halfhank
from tests.model.weighings.knits import BANDED, logged

OUNCES = BANDED.replace("skein 100 g 390 m", "skein 3.5 oz 430 yd")
LOG = ("before cast on 3.55 oz", "after row 44 3.2 oz left")
GRAMS = re.compile(r"[0-9] g\b")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "ounces.shawl"
    path.write_text(logged(OUNCES, *LOG), encoding="utf-8")
    return path


@pytest.mark.parametrize("words", [("plan", "--rows"), ("plan", "--checkpoints"), ("stops",), ("skeins", "380yd")])
def test_masses_are_in_ounces(file: Path, words: tuple[str, ...]) -> None:
    result = halfhank(words[0], file, *words[1:])
    text = result.out.decode().replace("length in 100 g", "")
    assert result.status == 0 and not GRAMS.search(text + result.err)
    assert re.search(r"[0-9]\.[0-9]{2} oz\b", text)


def test_a_weighing_is_explained_in_ounces(file: Path) -> None:
    result = halfhank("weigh", file, 60, "2.9oz")
    text = result.out.decode()
    assert result.status == 0 and not GRAMS.search(text + result.err)
    assert "After row 60: 2.90 oz on the scale." in text


def test_short_yarn_is_short_by_ounces(tmp_path: Path) -> None:
    path = tmp_path / "short.shawl"
    for repeat, skein, keep, code in (
        ("repeat 6 times", "1 oz 120 yd", "4%", "yarn-short"),
        ("repeat 1 time", "3.5 oz 430 yd", "3.4 oz", "margin-short"),
        ("repeat as yarn allows", "0.2 oz 24 yd", "4%", "yarn-too-short"),
    ):
        text = OUNCES.replace("repeat as yarn allows", repeat).replace("3.5 oz 430 yd", skein)
        path.write_text(text.replace("keep 4%", f"keep {keep}"), encoding="utf-8")
        found = halfhank("check", path).out.decode()
        said = found.partition(f"[{code}]\n")[2].partition("\n  try:")[0].splitlines()[-1]
        assert " oz" in said and not GRAMS.search(said)


def test_json_has_grams(file: Path) -> None:
    plan = json.loads(halfhank("plan", file, "--json").out)
    assert plan["yarn"]["skein_g"] == pytest.approx(3.55 * 28.349523125, abs=0.5)


def test_ounces_without_their_unit_are_asked_about(file: Path) -> None:
    """A bare figure is in grams: 2.9 for 2.9 oz."""
    result = halfhank("weigh", file, 60, "2.9")
    assert result.status == 1 and "Is it 2.9 oz?" in result.err
    start = halfhank("weigh", file, 0, "3.56")
    assert "Is it 3.56 oz?" in start.err
