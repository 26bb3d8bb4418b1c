"""All that makes the command start quickly beyond plain Python, in one place, with what each saves of a cold `draw`.

Wall time of about 125 ms in an ordinary install (Python 3.11, medians of 31 pairs, each with and without one of these):

| what | saves |
| --- | --- |
| the parser's tables, made beforehand (`halfhank.grammar.lines.tables`) | 47 ms |
| `load_without_unused`: svgwrite without what its web fonts and its checks need | 33 ms |
| `collector_off`: no collection of cyclic garbage | 25 ms |
| records defined more quickly than those of `typing` (`halfhank.grammar.record`) | 12 ms |
| `postpone`: modules that Lark imports and never uses here | 9 ms |

`tests/benchmarks/startup.py` measures the whole.
It imports nothing that Python has not loaded by itself, so that the collector is off before the real imports begin.
"""

import sys
from types import ModuleType

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

UNUSED = ("getpass", "hashlib", "pickle", "tempfile", "traceback")
"""Lark imports these for its own cache of grammars, for grammar files that name others, and for its log."""


def collector_off() -> None:
    """Leaves cyclic garbage to the end of the process, which never lives long."""
    import gc

    gc.disable()


def collector_done() -> None:
    """Spares the last collection, when the process ends."""
    import gc

    gc.freeze()


class Postponed(ModuleType):
    """Stands where a module will be; the first use of anything in it imports the module itself."""

    def __getattr__(self, name: str) -> object:
        from importlib import import_module

        if sys.modules.get(self.__name__) is self:
            del sys.modules[self.__name__]
        return getattr(import_module(self.__name__), name)


def postpone() -> None:
    """Put off every module of `UNUSED` that is not there yet."""
    for name in UNUSED:
        sys.modules.setdefault(name, Postponed(name))


def load_without_unused(load: "Callable[[], object]") -> None:
    """Calls `load`, which imports svgwrite, with stand-ins for three modules that svgwrite takes names from at once.

    They are urllib.request, with ssl and the rest of the network behind it, pathlib, and svgwrite's own checks with
    their tables: most of its import time. The stand-ins are there during the import alone, and each name of theirs
    loads the real module if it is ever used.
    """
    contents: dict[str, dict[str, object]] = {
        "urllib.request": {"urlopen": _later("urllib.request", "urlopen")},
        "pathlib": {"Path": _later("pathlib", "Path")},
        "svgwrite.validator2": {"get_validator": LaterValidator},
    }
    ours = [name for name in contents if name not in sys.modules] if "svgwrite" not in sys.modules else []
    for name in ours:
        sys.modules[name] = ModuleType(name)
        vars(sys.modules[name]).update(contents[name])
    try:
        load()
    finally:
        for name in ours:
            del sys.modules[name]


def _later(module: str, name: str) -> "Callable[..., object]":
    """A callable of a module that is imported when it is called."""

    def call(*arguments: object, **options: object) -> object:
        from importlib import import_module

        return getattr(import_module(module), name)(*arguments, **options)

    return call


class LaterValidator:
    """svgwrite's validator once something asks it for a check; no drawing of ours does."""

    def __init__(self, profile: str, debug: bool = True) -> None:
        self._asked = (profile, debug)

    def __getattr__(self, name: str) -> object:
        validator = _later("svgwrite.validator2", "get_validator")(*self._asked)
        return getattr(validator, name)
