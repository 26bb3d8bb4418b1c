"""`halfhank check`: many files, one report."""

import json
from pathlib import Path

import pytest

from tests.cli.running import GOOD, halfhank

MISTAKEN = GOOD.replace("garter 4 ridges", "gatrer 4 ridges")
ADVISED = GOOD.replace("gauge 20 sts 40 rows", "gauge 20 sts 60 rows")


@pytest.fixture
def three(tmp_path: Path) -> list[Path]:
    paths = [tmp_path / name for name in ("good.shawl", "advised.shawl", "mistaken.shawl")]
    for path, text in zip(paths, (GOOD, ADVISED, MISTAKEN), strict=True):
        path.write_text(text)
    return paths


def test_every_file_is_reported(three: list[Path]) -> None:
    good, advised, mistaken = three
    result = halfhank("check", *three)
    assert (result.status, result.err) == (1, "")
    text = result.out.decode()
    assert f"{good}: no problems\n" in text
    assert f"{advised}: 1 piece of advice\n" in text and "advice [odd-gauge]" in text
    line = MISTAKEN.split("\n").index("  gatrer 4 ridges") + 1
    assert f"{mistaken}:{line}:3: mistake [unknown-stitch]" in text
    assert f"{mistaken}: 1 mistake\n" in text
    assert "      gatrer 4 ridges\n" in text and "\n      ^^^^^^\n" in text


def test_advice_counts_only_when_asked(three: list[Path]) -> None:
    assert halfhank("check", three[1]).status == 0
    assert halfhank("check", "--strict", three[1]).status == 1
    assert halfhank("check", "--strict", three[0]).status == 0


def test_a_file_that_cannot_be_read_does_not_hide_the_others(three: list[Path]) -> None:
    missing = three[0].with_name("missing.shawl")
    result = halfhank("check", missing, three[2])
    assert result.status == 2
    assert result.err == f"halfhank: cannot read {missing}: No such file or directory\n"
    assert "unknown-stitch" in result.out.decode()


def test_json_is_a_list_of_files_with_their_problems(three: list[Path]) -> None:
    result = halfhank("check", "--json", *three)
    assert (result.status, result.err) == (1, "")
    files = json.loads(result.out)
    assert [entry["file"] for entry in files] == [str(path) for path in three]
    assert files[0]["problems"] == []
    (advice,), (mistake,) = files[1]["problems"], files[2]["problems"]
    assert (advice["severity"], advice["code"]) == ("advice", "odd-gauge")
    assert set(mistake) == {"code", "severity", "line", "column", "message", "hint"}
    assert (mistake["severity"], mistake["code"], mistake["column"]) == ("mistake", "unknown-stitch", 3)


def test_standard_input_can_be_checked() -> None:
    assert halfhank("check", "-", stdin=GOOD.encode()).out == b"standard input: no problems\n"
    assert b"unknown-stitch" in halfhank("check", "-", stdin=MISTAKEN.encode()).out


def test_what_is_missing_is_told_after_what_is_wrong() -> None:
    lines = halfhank("check", "-", stdin=b'shawl "x\n').out.decode().splitlines()
    told = [line.partition("[")[2].partition("]")[0] for line in lines if "mistake [" in line]
    assert told[0] == "unclosed-text" and set(told[1:]) == {"missing-block", "missing-fact"}


@pytest.mark.parametrize(("wrong", "said"), [(99, "99"), (150, "150"), (1500, "1,500"), (5000, "at least 2,000")])
def test_mistakes_that_are_not_shown_are_counted(wrong: int, said: str) -> None:
    text = GOOD.replace("  garter 4 ridges\n", "  garter 0 ridges\n" * wrong, 1)
    assert GOOD.count("  garter 4 ridges\n") == 1
    last, summed = halfhank("check", "-", stdin=text.encode()).out.decode().splitlines()[-2:]
    assert summed == f"standard input: {said} mistakes"
    assert wrong <= 100 or last.endswith("more problems are not shown.")


IN_SHORT = [("stops",), ("skeins", "350m"), ("chart", "yarn"), ("instructions",), ("chart", "stitch")]


@pytest.mark.parametrize("words", IN_SHORT, ids=" ".join)
def test_most_commands_say_only_how_much_advice_there_is(tmp_path: Path, words: tuple[str, ...]) -> None:
    path = tmp_path / "one.shawl"
    path.write_text(ADVISED.replace("shape ", "stitch rib\n  as garter\n  row 1: k1\n\nshape ", 1), encoding="utf-8")
    words = (*words, "-o", str(tmp_path / "one.svg")) if words[0] == "chart" else words
    command, *rest = words
    place = 1 if command == "chart" else 0
    result = halfhank(command, *rest[:place], path, *rest[place:])
    assert result.status == 0
    assert result.err == f"1 piece of advice: see `halfhank check {path}`\n"


def test_plan_and_draw_show_advice_in_full_and_all_commands_mistakes(tmp_path: Path) -> None:
    for command in (("plan", "-"), ("draw", "-")):
        assert "advice [odd-gauge]" in halfhank(*command, stdin=ADVISED.encode()).err
    broken = GOOD.replace("shape triangle", "shape triangel").encode()
    for command in (("plan", "-"), ("draw", "-"), ("stops", "-"), ("chart", "yarn", "-")):
        result = halfhank(*command, stdin=broken)
        assert result.status == 1 and "mistake [unknown-shape]" in result.err
    assert halfhank("stops", "-", stdin=GOOD.encode()).err == ""
