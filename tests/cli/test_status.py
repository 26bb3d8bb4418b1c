"""The four exit statuses, and what is said with each."""

from pathlib import Path

import pytest
from halfhank.cli import planned_file

from tests.cli.running import GOOD, halfhank, process

MISTAKEN = GOOD.replace("spine 1 st", "spine 1 stt")


def test_all_well(good: Path) -> None:
    for arguments in (["draw", good], ["plan", good], ["check", good], ["new"], ["--help"], ["--version"]):
        result = halfhank(*arguments)
        assert (result.status, result.err) == (0, ""), arguments


def test_mistakes(good: Path) -> None:
    good.write_text(MISTAKEN)
    for arguments in (["draw", good], ["plan", good], ["plan", good, "--json"], ["check", good]):
        assert halfhank(*arguments).status == 1, arguments
    assert not good.with_suffix(".svg").exists()


@pytest.mark.parametrize(
    "arguments",
    [
        ["nonsense"],
        ["draw"],
        ["draw", "--nonsense", "x"],
        ["draw", "one", "two"],
        ["draw", "GOOD", "-o"],
        ["draw", "GOOD", "-o", "x.gif"],
        ["draw", "GOOD", "-o", "x"],
        ["draw", "GOOD", "-o", ".svg"],
        ["draw", "GOOD", "-o", ""],
        ["draw", "GOOD", "--scale", "10"],
        ["draw", "GOOD", "--scale", "1:0"],
        ["draw", "GOOD", "--scale", "1:-4"],
        ["draw", "GOOD", "--scale", "1:nan"],
        ["draw", "GOOD", "--scale", "1:1e9"],
        ["draw", "GOOD", "--scale", "1:9999999999999999999999"],
        ["draw", "GOOD", "--scale", "1:²"],
        ["draw", "GOOD", "--width", "nan"],
        ["draw", "GOOD", "--width", "inf"],
        ["draw", "GOOD", "--width", "-5"],
        ["draw", "GOOD", "--width", "1e308"],
        ["draw", "GOOD", "--scale", "1:10", "--width", "150"],
        ["draw", "GOOD", "--units", "ells"],
        ["draw", "GOOD", "--ramp", "rainbow"],
        ["page"],
        ["page", "GOOD", "-o", "x.svg"],
        ["page", "GOOD", "-o", ".html"],
        ["page", "GOOD", "--without", "nonsense"],
        ["page", "GOOD", "--with", "notes", "--without", "notes"],
        ["page", "GOOD", "--paper", "a3"],
        ["check"],
        ["check", "-", "GOOD", "-"],
        ["new", "hexagon"],
        ["new", "triangle", "-o", "GOOD"],
    ],
)
def test_wrong_usage(good: Path, arguments: list[str]) -> None:
    result = halfhank(*(good if argument == "GOOD" else argument for argument in arguments))
    assert result.status == 2, result
    assert result.err.startswith("halfhank: ")
    assert result.out == b""
    assert list(good.parent.iterdir()) == [good]


def test_no_command_shows_the_help() -> None:
    result = halfhank()
    assert b"Usage: halfhank" in result.out
    assert result.status == 0


def test_a_misspelt_command_is_told_the_nearest() -> None:
    assert "unknown command 'chekc'; did you mean check?" in halfhank("chekc", "x").err


def test_a_fault_of_our_own(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: object) -> None:
        raise ZeroDivisionError("over \x1b[31mnothing")

    monkeypatch.setattr(planned_file, "plan", broken)
    result = halfhank("plan", good)
    assert result.status == 3
    assert "a fault of halfhank's own" in result.err and "Please report it" in result.err
    assert "ZeroDivisionError: over \\x1b[31mnothing" in result.err
    assert "halfhank.cli.planned_file, planned, line " in result.err
    assert "Traceback" not in result.err and "\x1b" not in result.err
    monkeypatch.setenv("HALFHANK_TRACEBACK", "1")
    assert "Traceback" in halfhank("plan", good).err


@pytest.mark.parametrize("error", [RecursionError, MemoryError, OSError])
def test_every_unforeseen_error_is_our_fault(
    good: Path, monkeypatch: pytest.MonkeyPatch, error: type[Exception]
) -> None:
    def broken(_: object) -> None:
        raise error

    monkeypatch.setattr(planned_file, "plan", broken)
    assert halfhank("check", good).status == 3


def test_interrupted_without_a_word(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(planned_file, "plan", interrupted)
    result = halfhank("check", good)
    assert (result.status, result.err) == (130, "")


def test_the_process_ends_with_the_status(good: Path) -> None:
    assert process("check", good).status == 0
    assert process("check", good.parent / "missing.shawl").status == 2
    good.write_text(MISTAKEN)
    assert process("check", good).status == 1
    assert process("check", good, code="import halfhank.cli.planned_file as r\nr.plan = None").status == 3
