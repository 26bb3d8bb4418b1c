"""What reaches the terminal: text made safe, colour only where it is wanted, closed pipes taken quietly."""

import os
import sys
from typing import IO, Any, NamedTuple

from halfhank.grammar.show import safe

__all__ = ["Words", "columns", "err", "out", "out_bytes", "safe", "silence", "wants_colour", "width"]


def wants_colour(stream: IO[Any] | None) -> bool:
    """Whether `stream` is a terminal that shows colour, and its owner has not set NO_COLOR or TERM=dumb."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM", "dumb") == "dumb":
        return False
    try:
        return stream is not None and stream.isatty()
    except ValueError:
        return False


def columns(stream: IO[Any] | None) -> int | None:
    """The width of the terminal behind `stream`, None where it is none: then nothing is cut to fit."""
    try:
        return os.get_terminal_size(stream.fileno()).columns or None if stream is not None else None
    except (OSError, ValueError):
        return None


def out(text: str) -> None:
    """Write to standard output, which must already be safe; a reader that has gone is no fault."""
    _write(sys.stdout, text)


def err(text: str) -> None:
    """Write to standard error, in the same way; there is nobody left to tell when that fails."""
    try:
        _write(sys.stderr, text)
    except OSError:
        _silence(sys.stderr)


def out_bytes(data: bytes) -> None:
    """Write a whole file to standard output."""
    if sys.stdout is None:
        raise OSError(9, os.strerror(9))
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        _silence(sys.stdout)


def silence() -> None:
    """Drop whatever is still on its way to standard output."""
    if sys.stdout is not None:
        _silence(sys.stdout)


def _write(stream: IO[str] | None, text: str) -> None:
    if stream is None:
        return
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        stream.write(text.encode(encoding, "backslashreplace").decode(encoding))
        stream.flush()
    except BrokenPipeError:
        _silence(stream)


def _silence(stream: IO[str]) -> None:
    """Point the stream's descriptor at nothing, so that neither later output nor Python's own last flush complains."""
    try:
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, stream.fileno())
        os.close(nothing)
    except (OSError, ValueError):
        pass


def width(text: str) -> int:
    """The columns that a safe text takes on a terminal: two for wide East Asian characters, none for combining ones."""
    if text.isascii():
        return len(text)
    from unicodedata import combining, east_asian_width

    return sum(0 if combining(char) else 2 if east_asian_width(char) in "WF" else 1 for char in text)


class Words(NamedTuple):
    """How emphasis is written: with colour or without."""

    colour: bool

    def bold(self, text: str) -> str:
        return f"\x1b[1m{text}\x1b[0m" if self.colour else text

    def dim(self, text: str) -> str:
        return f"\x1b[2m{text}\x1b[0m" if self.colour else text

    def red(self, text: str) -> str:
        return f"\x1b[31m{text}\x1b[0m" if self.colour else text
