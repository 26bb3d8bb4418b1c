"""Modules that Lark imports when it starts, for things that Halfhank never asks of it, put off until they are used.

They serve its own cache of grammars, grammar files that name others, and its log: a tenth of the start-up of the
command.
"""

import sys
from importlib import import_module
from types import ModuleType
from typing import Any

UNUSED = ("getpass", "hashlib", "pickle", "tempfile", "traceback")


class Postponed(ModuleType):
    """Stands where a module will be; the first use of anything in it imports the module itself."""

    def __getattr__(self, name: str) -> Any:
        if sys.modules.get(self.__name__) is self:
            del sys.modules[self.__name__]
        return getattr(import_module(self.__name__), name)


def postpone() -> None:
    """Put off every module of `UNUSED` that is not there yet."""
    for name in UNUSED:
        sys.modules.setdefault(name, Postponed(name))
