"""Whatever happens while a file is written, the old one stays whole and nothing is left lying about."""

import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from halfhank.cli import files
from halfhank.cli.errors import CommandError

from tests.cli.running import process

OLD, NEW = b"old\n", b"new and longer\n"


def test_a_new_file_has_the_mode_that_the_umask_leaves(tmp_path: Path) -> None:
    before = os.umask(0o027)
    try:
        files.write(str(tmp_path / "a.svg"), NEW)
    finally:
        os.umask(before)
    assert (tmp_path / "a.svg").read_bytes() == NEW
    assert stat.S_IMODE((tmp_path / "a.svg").stat().st_mode) == 0o640


def test_an_old_file_keeps_its_mode(tmp_path: Path) -> None:
    path = _old(tmp_path)
    path.chmod(0o604)
    files.write(str(path), NEW)
    assert path.read_bytes() == NEW
    assert stat.S_IMODE(path.stat().st_mode) == 0o604


@pytest.mark.skipif(os.geteuid() != 0, reason="only root gives files away")
def test_an_old_file_keeps_its_owner(tmp_path: Path) -> None:
    path = _old(tmp_path)
    os.chown(path, 1234, 1235)
    files.write(str(path), NEW)
    assert (path.stat().st_uid, path.stat().st_gid) == (1234, 1235)


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    path = _old(tmp_path)
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.svg"
    link.symlink_to(path)
    files.write(str(link), NEW)
    assert link.is_symlink()
    assert path.read_bytes() == NEW


def test_the_longest_name_can_be_written(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 251 + ".svg")
    files.write(str(path), NEW)
    assert path.read_bytes() == NEW


@pytest.mark.parametrize("step", ["fsync", "replace", "fchmod"])
def test_a_failure_leaves_the_old_file_and_no_litter(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = _old(tmp_path)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, full)
    with pytest.raises(CommandError, match=r"cannot write .*: No space left on device"):
        files.write(str(path), NEW)
    assert path.read_bytes() == OLD
    assert list(tmp_path.iterdir()) == [path]


KILLED = """
import os, signal
# As at a terminal, even if the tests were started with signals ignored.
signal.signal(signal.SIGINT, signal.default_int_handler)
signal.signal(signal.SIGTERM, signal.SIG_DFL)
signal.signal(signal.SIGHUP, signal.SIG_DFL)
sync = os.fsync
def killed(descriptor):
    sync(descriptor)
    os.kill(os.getpid(), signal.{name})
os.fsync = killed
"""


@pytest.mark.parametrize("name", ["SIGTERM", "SIGHUP", "SIGINT"])
def test_a_kill_leaves_the_old_file_and_no_litter(good: Path, name: str) -> None:
    path = _old(good.parent)
    result = process("draw", good, "-o", path, code=KILLED.format(name=name))
    assert result.status == 128 + getattr(signal, name), result
    assert result.err == ""
    assert path.read_bytes() == OLD
    assert sorted(good.parent.iterdir()) == [good, path]


def test_a_signal_that_is_ignored_stays_ignored(good: Path) -> None:
    code = KILLED.replace("SIGHUP, signal.SIG_DFL", "SIGHUP, signal.SIG_IGN").format(name="SIGHUP")
    assert process("draw", good, "-o", good.with_suffix(".svg"), code=code).status == 0


def test_a_hard_kill_leaves_the_old_file(good: Path) -> None:
    path = _old(good.parent)
    assert process("draw", good, "-o", path, code=KILLED.format(name="SIGKILL")).status == -signal.SIGKILL
    assert path.read_bytes() == OLD


def test_the_files_read_and_written_are_told_apart_by_identity(tmp_path: Path) -> None:
    path = _old(tmp_path)
    source = files.read(str(path))
    (tmp_path / "hard.svg").hardlink_to(path)
    (tmp_path / "soft.svg").symlink_to(path)
    for name in ("old.svg", "hard.svg", "soft.svg", "../" + tmp_path.name + "/old.svg"):
        with pytest.raises(CommandError, match="is the description itself"):
            files.write(str(tmp_path / name), NEW, source)
    assert path.read_bytes() == OLD


def test_a_description_on_standard_input_is_no_output_either(good: Path) -> None:
    path = good.rename(good.with_name("odd.svg"))
    with path.open("rb") as file:
        command = [sys.executable, "-m", "halfhank", "draw", "-", "-o", str(path)]
        done = subprocess.run(command, stdin=file, capture_output=True, timeout=60)
    assert done.returncode == 2
    assert b"is the description itself" in done.stderr


def test_devices_are_written_to_as_they_are(tmp_path: Path) -> None:
    link = tmp_path / "nothing.svg"
    link.symlink_to(os.devnull)
    files.write(str(link), NEW)
    assert stat.S_ISCHR(link.stat().st_mode)


def test_a_named_pipe_gets_everything(tmp_path: Path) -> None:
    path, data = tmp_path / "pipe.svg", bytes(300_000)
    os.mkfifo(path)
    with (tmp_path / "read").open("wb") as read, subprocess.Popen(["cat", str(path)], stdout=read) as reader:
        files.write(str(path), data)
        assert reader.wait(timeout=30) == 0
    assert (tmp_path / "read").read_bytes() == data
    assert stat.S_ISFIFO(path.stat().st_mode)


def test_no_more_is_read_than_a_description_may_have() -> None:
    assert len(files.read("/dev/zero").data) == 2**20 + 1


def _old(folder: Path) -> Path:
    path = folder / "old.svg"
    path.write_bytes(OLD)
    return path
