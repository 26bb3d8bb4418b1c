"""Standard streams that are closed, full, or not what was expected."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.running import GOOD, halfhank, process

COMMANDS = [
    line.split()
    for line in (
        "draw FILE -o -",
        "plan FILE",
        "plan FILE --json",
        "check FILE",
        "new",
        "--help",
        "draw -h",
        "--version",
    )
]


def _into(good: Path, arguments: list[str], out: int) -> tuple[int, str]:
    command = [sys.executable, "-m", "halfhank", *(str(good) if word == "FILE" else word for word in arguments)]
    done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, stdin=subprocess.DEVNULL, timeout=60)
    return done.returncode, done.stderr.decode()


@pytest.mark.parametrize("arguments", COMMANDS, ids=" ".join)
def test_a_closed_pipe_is_quiet(good: Path, arguments: list[str]) -> None:
    read, write = os.pipe()
    os.close(read)
    try:
        assert _into(good, arguments, write) == (0, "")
    finally:
        os.close(write)


def test_a_closed_pipe_hides_no_mistakes(good: Path) -> None:
    good.write_text(GOOD.replace("spine 1 st", "spine 1 stt"))
    read, write = os.pipe()
    os.close(read)
    try:
        assert _into(good, ["check", "FILE"], write) == (1, "")
    finally:
        os.close(write)


@pytest.mark.parametrize("arguments", COMMANDS, ids=" ".join)
def test_a_full_device_is_told(good: Path, arguments: list[str]) -> None:
    with Path("/dev/full").open("wb") as full:
        status, err = _into(good, arguments, full.fileno())
    assert (status, err) == (2, "halfhank: cannot write standard output: No space left on device\n")


def test_standard_output_closed_from_the_start(good: Path) -> None:
    for arguments in ("draw FILE -o -", "plan FILE", "check FILE"):
        command = f"{sys.executable} -m halfhank {arguments.replace('FILE', str(good))} >&-"
        done = subprocess.run(["sh", "-c", command], stderr=subprocess.PIPE, timeout=60)
        assert (done.returncode, b"Traceback" in done.stderr) == (2, False), done
        assert b"cannot write standard output" in done.stderr


def test_standard_input_closed_from_the_start() -> None:
    done = subprocess.run(["sh", "-c", f"{sys.executable} -m halfhank check - <&-"], capture_output=True, timeout=60)
    assert (done.returncode, done.stdout) == (2, b"")
    assert b"cannot read standard input" in done.stderr


def test_dashes_are_the_standard_streams() -> None:
    result = halfhank("draw", "-", stdin=GOOD.encode())
    assert (result.status, result.err) == (0, "")
    assert result.out.startswith(b"<?xml") and result.out.endswith(b"</svg>\n")
    assert halfhank("draw", "-", "-o", "-", stdin=GOOD.encode()).out == result.out


def test_mistakes_never_go_into_a_drawing() -> None:
    result = halfhank("draw", "-", stdin=b"shawl\n")
    assert (result.status, result.out) == (1, b"")
    assert "standard input" in result.err


def test_an_ascii_locale_is_no_fault(good: Path) -> None:
    good.write_text(GOOD.replace("My triangle", "Öse ✂").replace('part "neck"', 'part "Rücken"'), encoding="utf-8")
    environment = {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "LC_ALL": "C"}
    result = process("plan", good, env=environment)
    assert (result.status, result.err) == (0, "")
    assert b"\\xd6se \\u2702" in result.out
