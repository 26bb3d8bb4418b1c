"""What is shown on a terminal: colour only where it is wanted, nothing that moves the cursor or turns text round."""

import os
import pty
import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.cli.running import GOOD, halfhank

COLOUR = re.compile(rb"\x1b\[[0-9;]*m")
NASTY = "\x1b]0;title\x07 \x9b31m \u202eback\u2066 \u200b \u2028"


def on_terminal(*arguments: str | Path, env: Mapping[str, str], columns: int = 80) -> bytes:
    """What a command writes to a terminal of that many columns."""
    import fcntl
    import struct
    import termios

    leader, follower = pty.openpty()
    fcntl.ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    command = [sys.executable, "-m", "halfhank", *map(str, arguments)]
    clean = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "TERM", "COLUMNS")}
    process = subprocess.Popen(command, stdin=follower, stdout=follower, stderr=follower, env={**clean, **env})
    os.close(follower)
    written = b""
    try:
        while chunk := os.read(leader, 65536):
            written += chunk
    except OSError:
        pass  # the other end is closed
    os.close(leader)
    process.wait(timeout=60)
    return written


@pytest.fixture
def mistaken(good: Path) -> Path:
    good.write_text(GOOD.replace("spine 1 st", "spine 1 stt"))
    return good


def test_a_terminal_gets_colour(mistaken: Path) -> None:
    assert COLOUR.search(on_terminal("check", mistaken, env={"TERM": "xterm"}))


@pytest.mark.parametrize("env", [{"TERM": "dumb"}, {"TERM": "xterm", "NO_COLOR": "1"}, {}])
def test_no_colour_where_it_is_not_wanted(mistaken: Path, env: Mapping[str, str]) -> None:
    for arguments in (["check", mistaken], ["draw", mistaken], ["--help"]):
        assert b"\x1b" not in on_terminal(*arguments, env=env)


def test_no_colour_in_pipes(mistaken: Path) -> None:
    result = halfhank("check", mistaken)
    assert b"\x1b" not in result.out and b"[" in result.out


@pytest.mark.parametrize("columns", [24, 40, 60, 80, 200])
def test_a_plan_keeps_to_the_terminal(good: Path, columns: int) -> None:
    written = COLOUR.sub(b"", on_terminal("plan", good, "--rows", env={"TERM": "xterm"}, columns=columns)).decode()
    assert "body" in written
    assert max(map(len, written.splitlines())) <= columns


def test_nothing_in_a_description_reaches_the_terminal_raw(good: Path) -> None:
    texts = (
        GOOD.replace("My triangle", NASTY),
        GOOD.replace("My triangle", "\u202eback\u2066\u200b"),
        GOOD.replace('part "neck"', 'part "\u202eback\u2066\u200b"'),
        GOOD.replace("garter 12 ridges", 'garter 12 ridges "\u202eback\u2066\u200b"'),
        GOOD.replace("spine 1 st", "spine " + NASTY),
        GOOD + "# " + NASTY,
    )
    for text in texts:
        good.write_bytes(text.encode())
        for command in ("check", "plan", "draw"):
            _assert_safe(halfhank(command, good))
        _assert_safe(halfhank("plan", good, "--json"))
        _assert_safe(halfhank("check", good, "--json"))


def test_nothing_in_a_file_name_reaches_the_terminal_raw(good: Path) -> None:
    name = good.with_name("\x1b[31m\u202e\n.shawl")
    _assert_safe(halfhank("check", name))
    _assert_safe(halfhank("draw", good, "-o", str(name)))
    good.rename(name)
    for command in ("check", "plan", "draw"):
        result = halfhank(command, name)
        assert result.status == 0
        _assert_safe(result)


def test_nothing_in_an_argument_reaches_the_terminal_raw() -> None:
    red = "\x1b[31m"
    for arguments in ([red], ["draw", "x", f"--{red}"], ["new", red], ["draw", "x", "--scale", red]):
        _assert_safe(halfhank(*arguments))


def test_a_file_name_in_no_encoding(good: Path) -> None:
    name = os.fsdecode(os.fsencode(good.parent) + b"/\xff.shawl")
    good.rename(name)
    assert halfhank("check", name).status == 0
    assert halfhank("check", name, "--json").status == 0
    assert halfhank("check", name + "x").status == 2


def _assert_safe(result: tuple[int, bytes, str]) -> None:
    for text in (result[1].decode(), result[2]):
        bad = [c for c in text if c not in "\n" and not c.isprintable()]
        assert not bad, (bad, text)
