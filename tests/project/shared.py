"""What is made once for all processes that run the tests side by side."""

import fcntl
from collections.abc import Callable
from pathlib import Path

import pytest


def made_once(name: str, make: Callable[[Path], None], temporary: pytest.TempPathFactory) -> Path:
    """The folder `name` that `make` fills: the first process to ask for it fills it, the others wait and use it.

    Raises what `make` raises; the next process to ask then tries anew, in another folder.
    """
    own = temporary.getbasetemp()
    common = own.parent if own.name.startswith("popen-") else own
    ready = common / f"{name}-made"
    with (common / f"{name}-lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not ready.exists():
            folder = temporary.mktemp(name)
            make(folder)
            ready.symlink_to(folder)
        return ready.resolve()
