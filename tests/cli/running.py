"""Running the command: in this process, which is fast, or as people do, which shows what only a process has."""

import io
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from halfhank.cli.commands.new import starter
from halfhank.cli.planned_file import plan_file
from halfhank.cli.run import run
from halfhank.model.shawl import Shawl

GOOD = starter("triangle").decode()


class Result(NamedTuple):
    """What a run left: its exit status and both streams."""

    status: int
    out: bytes
    err: str


class _Standard(io.TextIOWrapper):
    """A standard stream in memory."""

    def __init__(self, data: bytes = b"") -> None:
        super().__init__(io.BytesIO(data), encoding="utf-8")

    def bytes(self) -> bytes:
        self.flush()
        value = self.buffer
        assert isinstance(value, io.BytesIO)
        return value.getvalue()


def shawl_of(path: Path) -> Shawl:
    """The shawl that commands find in a file without mistakes."""
    found = plan_file(str(path))
    assert found.plan is not None, found.problems
    return found.plan.shawl


def halfhank(*arguments: str | Path, stdin: bytes = b"") -> Result:
    """Run one command line in this process."""
    out, err = _Standard(), _Standard()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sys, "stdin", _Standard(stdin))
        patch.setattr(sys, "stdout", out)
        patch.setattr(sys, "stderr", err)
        status = run([str(argument) for argument in arguments])
        return Result(status, out.bytes(), err.bytes().decode())


def process(
    *arguments: str | Path,
    stdin: bytes = b"",
    env: Mapping[str, str] | None = None,
    cwd: Path | None = None,
    code: str | None = None,
) -> Result:
    """Run one command line in a process of its own; `code` runs before it there."""
    start = ["-m", "halfhank"] if code is None else ["-c", f"{code}\nfrom halfhank.cli.main import main\nmain()"]
    done = subprocess.run(
        [sys.executable, *start, *map(str, arguments)],
        input=stdin,
        capture_output=True,
        timeout=60,
        cwd=cwd,
        env={**os.environ, **(env or {})},
    )
    return Result(done.returncode, done.stdout, done.stderr.decode())
