"""What reaches the terminal: text made safe, colour only where it is wanted, closed pipes taken quietly."""

import os
import sys
from typing import IO, Any

from halfhank.cli.errors import CommandError, reason
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.excerpt import safe

__all__ = ["Emphasis", "columns", "err", "out", "out_bytes", "safe", "wants_colour", "width"]


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
    """Write safe text to standard output. A reader that has gone is no fault; raises `CommandError` for all else."""
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    out_bytes(text.encode(encoding, "backslashreplace"))


def err(text: str) -> None:
    """Write to standard error, in the same way; there is nobody left to tell when that fails."""
    stream = sys.stderr
    if stream is None:
        return
    try:
        stream.write(text)
        stream.flush()
    except OSError:
        _silence(stream)


def out_bytes(data: bytes) -> None:
    """Write a whole file to standard output, on the same terms as `out`."""
    if sys.stdout is None:
        raise CommandError(f"cannot write standard output: {os.strerror(9)}")
    try:
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        _silence(sys.stdout)
    except OSError as error:
        _silence(sys.stdout)
        raise CommandError(f"cannot write standard output: {reason(error)}") from error


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


class Emphasis(NamedTuple):
    """How emphasis is written: with colour or without."""

    colour: bool

    def bold(self, text: str) -> str:
        return f"\x1b[1m{text}\x1b[0m" if self.colour else text

    def dim(self, text: str) -> str:
        return f"\x1b[2m{text}\x1b[0m" if self.colour else text
