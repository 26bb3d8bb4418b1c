"""A fault of our own: printed in a few lines that can be sent to us, with no bare traceback."""

import os
import sys

from halfhank import __version__
from halfhank.cli import terminal

# Set to anything, it shows developers the whole traceback as well.
TRACEBACK = "HALFHANK_TRACEBACK"


def print_fault(error: BaseException) -> None:
    """Print that `error` is our fault, and what to send to us."""
    terminal.err(
        "halfhank: this is a fault of halfhank's own, not of your description.\n"
        f"  {terminal.safe(_what(error))}\n"
        f"  {terminal.safe(_where(error))}\n"
        f"  halfhank {__version__}, Python {sys.version.split()[0]}, {sys.platform}\n"
        "  Please report it to its developers with these lines, the command and the description.\n"
    )
    if os.environ.get(TRACEBACK):
        from traceback import format_exception

        terminal.err("".join(terminal.safe(line) + "\n" for line in "".join(format_exception(error)).splitlines()))


def _what(error: BaseException) -> str:
    text = f"{type(error).__name__}: {error}"
    return text if len(text) <= 300 else text[:297] + "..."


def _where(error: BaseException) -> str:
    """The innermost place of our own code, shortened to the package's path."""
    place = "before any of its code ran"
    step = error.__traceback__
    while step is not None:
        frame = step.tb_frame
        if str(frame.f_globals.get("__name__", "")).startswith("halfhank"):
            place = f"in {frame.f_globals['__name__']}, {frame.f_code.co_name}, line {step.tb_lineno}"
        step = step.tb_next
    return place
