"""Reading descriptions and putting finished files in place.

A file is written beside its place, synced, and then renamed over it: a run that fails or is killed leaves the old file
whole. What is being read is never written.
"""

import os
import stat
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import IO, Any

from halfhank.cli import terminal
from halfhank.cli.errors import CommandError, reason
from halfhank.grammar.record import NamedTuple

STANDARD = "-"
# One byte over the grammar's limit, so that it is the grammar that reports a file too large.
_READ_BYTES = 2**20 + 1

Identity = tuple[int, int]


class Source(NamedTuple):
    """A description as read: its path as given, its bytes, and the identity of the file (None: not a file)."""

    path: str
    data: bytes
    identity: Identity | None

    @property
    def name(self) -> str:
        """What to call it in messages; not made safe yet."""
        return "standard input" if self.path == STANDARD else self.path


def read(path: str) -> Source:
    """The description at `path`, or on standard input for `-`; at most one byte more than a description may have.

    Raises `CommandError` where it cannot be read.
    """
    try:
        if path == STANDARD:
            return Source(path, _standard_input(), _identity_of(sys.stdin))
        with open(path, "rb") as file:
            return Source(path, file.read(_READ_BYTES), _identity_of(file))
    except (OSError, ValueError) as error:
        shown = "standard input" if path == STANDARD else path
        raise CommandError(f"cannot read {shown}: {reason(error)}") from error


def _standard_input() -> bytes:
    if sys.stdin is None:
        raise OSError(9, os.strerror(9))
    return sys.stdin.buffer.read(_READ_BYTES)


def _identity_of(file: IO[Any] | None) -> Identity | None:
    """The identity of an open file; None for what has no descriptor."""
    try:
        return _identity(os.fstat(file.fileno())) if file is not None else None
    except (OSError, ValueError):
        return None


def _identity_at(path: str) -> Identity | None:
    try:
        return _identity(os.stat(path))
    except (OSError, ValueError):
        return None


def _identity(status: os.stat_result) -> Identity | None:
    return (status.st_dev, status.st_ino) if stat.S_ISREG(status.st_mode) else None


def write(path: str, data: bytes, source: Source | None = None) -> None:
    """Put `data` at `path`, or on standard output for `-`.

    Raises `CommandError` where that fails, and where `path` is the file that `source` was read from.
    """
    shown = "standard output" if path == STANDARD else path
    _refuse_input(path, shown, source)
    try:
        if path == STANDARD:
            terminal.out_bytes(data)
        else:
            _place(os.path.realpath(path), data)
    except (OSError, ValueError) as error:
        raise CommandError(f"cannot write {shown}: {reason(error)}") from error


def _refuse_input(path: str, shown: str, source: Source | None) -> None:
    if source is None or source.identity is None:
        return
    if (_identity_of(sys.stdout) if path == STANDARD else _identity_at(path)) == source.identity:
        raise CommandError(f"{shown} is the description itself: nothing was written", "give another name with -o")


def _place(path: str, data: bytes) -> None:
    """Replace the file at `path`; devices and pipes are written to as they are."""
    try:
        old = os.stat(path)
    except FileNotFoundError:
        old = None
    if old is not None and stat.S_ISDIR(old.st_mode):
        raise IsADirectoryError(21, "it is a folder")
    if old is not None and not stat.S_ISREG(old.st_mode):
        with open(path, "wb") as device:
            device.write(data)
        return
    _replace(path, data, old)


def _replace(path: str, data: bytes, old: os.stat_result | None) -> None:
    folder = os.path.dirname(path)
    temporary = os.path.join(folder, f".halfhank-{os.getpid():x}-{os.urandom(4).hex()}.tmp")
    with _no_litter(temporary):
        descriptor = os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_CLOEXEC", 0), 0o666)
        with os.fdopen(descriptor, "wb") as file:
            if old is not None:
                _keep_mode(file.fileno(), old)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, path)
    _sync_folder(folder)


def _keep_mode(descriptor: int, old: os.stat_result) -> None:
    if (old.st_uid, old.st_gid) != (os.geteuid(), os.getegid()):
        with suppress(OSError):  # only root may give a file away
            os.fchown(descriptor, old.st_uid, old.st_gid)
    os.fchmod(descriptor, stat.S_IMODE(old.st_mode))


def _sync_folder(folder: str) -> None:
    try:
        descriptor = os.open(folder or ".", os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
    except OSError:
        pass  # some file systems cannot sync a folder; the file itself is synced


@contextmanager
def _no_litter(temporary: str) -> Iterator[None]:
    """Remove the temporary file when anything goes wrong, a polite kill included."""
    import signal

    def stop(number: int, _frame: object) -> None:
        raise SystemExit(128 + number)

    kept = []
    for number in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
        try:
            if signal.getsignal(number) is signal.SIG_DFL:
                kept.append((number, signal.signal(number, stop)))
        except ValueError:
            pass  # not the main thread
    try:
        yield
    except BaseException:
        with suppress(OSError):
            os.unlink(temporary)
        raise
    finally:
        for number, handler in kept:
            signal.signal(number, handler)
