"""`NamedTuple` for the records of all folders: that of `typing`, but defined in a fifth of the time.

Most of what `typing` takes for a record is the compiling of its constructor. Here a constructor is compiled once for
each number of fields, and every record has a copy of it with its own names for the arguments. A type checker sees the
one of `typing`, and `tests/grammar/test_record.py` holds the two against each other.
"""

import typing
from collections.abc import Iterable
from functools import cache
from operator import itemgetter
from types import FunctionType, new_class
from typing import TYPE_CHECKING, Any, Self

if TYPE_CHECKING:
    from typing import NamedTuple as NamedTuple

try:  # what `collections` takes, which is quicker to read
    from _collections import _tuplegetter as _field  # type: ignore[import-not-found]
except ImportError:

    def _field(index: int, doc: str) -> property:
        return property(itemgetter(index), doc=doc)


_REFUSED = {"__new__", "__init__", "__slots__", "__getnewargs__", "_fields", "_field_defaults"}
_REFUSED |= {"_make", "_replace", "_asdict", "_source"}


class _Record(tuple[Any, ...]):
    """What every record does."""

    __slots__ = ()
    if TYPE_CHECKING:
        _fields: tuple[str, ...]

    @classmethod
    def _make(cls, values: Iterable[Any]) -> Self:
        made = tuple.__new__(cls, values)
        if len(made) != len(cls._fields):
            raise TypeError(f"Expected {len(cls._fields)} arguments, got {len(made)}")
        return made

    def _replace(self, /, **changes: Any) -> Self:
        made = self._make(map(changes.pop, self._fields, self))
        if changes:
            raise TypeError(f"Got unexpected field names: {list(changes)!r}")
        return made

    __replace__ = _replace

    def _asdict(self) -> dict[str, Any]:
        return dict(zip(self._fields, self, strict=True))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(map('{}={!r}'.format, self._fields, self))})"

    def __getnewargs__(self) -> tuple[Any, ...]:
        return tuple(self)


class _Maker(type):
    """Makes a record out of a class statement."""

    def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> type:
        if len(bases) > 1 or not _is_plain(body):
            return _by_typing(name, bases, body)
        types = body["__annotations__"]
        fields = tuple(types)
        defaults = {field: body[field] for field in fields if field in body}
        made = {
            "__doc__": f"{name}({', '.join(fields)})",
            **body,
            **{field: _field(index, f"Alias for field number {index}") for index, field in enumerate(fields)},
            "__new__": _constructor(name, types, tuple(defaults.values())),
            "__slots__": (),
            "__match_args__": fields,
            "_fields": fields,
            "_field_defaults": defaults,
        }
        return type(name, (_Record,), made)


def _is_plain(body: dict[str, Any]) -> bool:
    """Whether there is nothing in it that `typing` refuses, or that would not be found here."""
    types = body.get("__annotations__")
    if not types or not _REFUSED.isdisjoint(body):
        return False
    with_default = [field in body for field in types]
    return with_default == sorted(with_default) and not any(field[0] == "_" for field in types)


def _by_typing(name: str, bases: tuple[type, ...], body: dict[str, Any]) -> type:
    """A record without fields, of several bases, or whose annotations are found only later; or the proper error."""
    named = body.get("__orig_bases__", bases)
    theirs = [typing.NamedTuple if type(base) is _Maker else base for base in named]
    return new_class(name, theirs, exec_body=lambda space: space.update(body))


def _constructor(name: str, types: dict[str, Any], defaults: tuple[Any, ...]) -> FunctionType:
    template = _template(len(types))
    code = template.__code__.replace(co_qualname=f"{name}.__new__", co_varnames=("_cls", *types))
    constructor = FunctionType(code, template.__globals__, "__new__", defaults)
    constructor.__annotations__ = types
    return constructor


@cache
def _template(fields: int) -> FunctionType:
    arguments = ", ".join(f"_{index}" for index in range(fields))
    text = f"lambda _cls, {arguments}: _new(_cls, ({arguments},))"
    template: FunctionType = eval(text, {"_new": tuple.__new__, "__builtins__": {}})
    return template


if not TYPE_CHECKING:
    NamedTuple = type.__new__(_Maker, "NamedTuple", (), {})
