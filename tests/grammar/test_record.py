"""Records against those of `typing`: whatever fields they have, they are and do the same."""

import ast
import copy
import inspect
import keyword
import operator
import pickle
import string
import sys
import typing
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Generic, TypeVar, get_type_hints

import pytest
from halfhank.grammar import record
from hypothesis import given
from hypothesis import strategies as st

ROOT = Path(__file__).parents[2]
BOTH: tuple[Any, Any] = (record.NamedTuple, typing.NamedTuple)
TYPES = {"int": 1, "str": "one", '"list[int]"': [], "float | None": None, '"Outcome"': (), "tuple[str, ...]": ("a",)}
NAMES = st.text(string.ascii_letters + "ßé", min_size=1, max_size=8).filter(lambda name: not keyword.iskeyword(name))

Outcome = tuple[str, Any]
T = TypeVar("T")


class Place(record.NamedTuple):
    row: int
    column: int = 1


@st.composite
def bodies(draw: st.DrawFn) -> str:
    """The body of a class: fields, the last of them with defaults, perhaps a docstring, a method, a property."""
    names = draw(st.lists(NAMES, max_size=20, unique=True))
    plain = draw(st.integers(0, len(names)))
    lines = ['"""What it holds."""'] if draw(st.booleans()) else []
    for number, name in enumerate(names):
        kind = draw(st.sampled_from(sorted(TYPES)))
        lines.append(f"{name}: {kind}" + (f" = {TYPES[kind]!r}" if number >= plain else ""))
    lines += ["def count_(self): return len(self)"] if draw(st.booleans()) else []
    lines += ["@property", "def first_(self): return self[0]"] if draw(st.booleans()) else []
    return "\n    ".join([*lines, "MOST_ = 3"])


def defined(body: str, base: Any) -> Any:
    space: dict[str, Any] = {"Base": base, "__name__": __name__}
    exec(f"class Made(Base):\n    {body}", space)
    return space["Made"]


def outcome(work: Callable[[], Any]) -> Outcome:
    """What comes of it, or the error; a record as its text."""
    try:
        found = work()
    except Exception as error:
        return type(error).__name__, str(error)
    return type(found).__name__, repr(found)


def facts(kind: Any) -> Iterator[Any]:
    """What can be known of a record without making one."""
    yield kind.__name__, kind.__qualname__, kind.__module__, kind.__doc__.replace(",)", ")"), type(kind)
    yield kind._fields, kind._field_defaults, kind.__match_args__, kind.__slots__
    yield get_type_hints(kind), list(kind.__annotations__)
    yield kind.__new__.__name__, kind.__new__.__qualname__, kind.__new__.__defaults__ or ()
    yield [(name, parameter.kind, parameter.default) for name, parameter in inspect.signature(kind).parameters.items()]
    yield [getattr(kind, name).__doc__ for name in kind._fields]
    yield kind.MOST_, issubclass(kind, tuple)


@given(bodies())
def test_a_record_is_what_that_of_typing_is(body: str) -> None:
    ours, theirs = (defined(body, base) for base in BOTH)
    assert list(facts(ours)) == list(facts(theirs))


@given(bodies(), st.data())
def test_it_is_made_and_refused_alike(body: str, data: st.DataObject) -> None:
    ours, theirs = (defined(body, base) for base in BOTH)
    values = data.draw(st.lists(st.integers(), min_size=0, max_size=len(ours._fields) + 1))
    named = data.draw(st.dictionaries(st.sampled_from([*ours._fields, "other"]), st.integers(), max_size=4))
    for work in (
        lambda kind: kind(*values),
        lambda kind: kind(*values, **named),
        lambda kind: kind._make(values),
        lambda kind: kind._make(iter(values)),
    ):
        assert outcome(lambda: work(ours)) == outcome(lambda: work(theirs))  # noqa: B023


@given(bodies(), st.data())
def test_it_does_what_that_of_typing_does(body: str, data: st.DataObject) -> None:
    kinds = [defined(body, base) for base in BOTH]
    count = len(kinds[0]._fields)
    values = data.draw(st.lists(st.one_of(st.integers(), st.text(), st.floats()), min_size=count, max_size=count))
    changes = data.draw(st.dictionaries(st.sampled_from(kinds[0]._fields), st.integers(), max_size=4)) if count else {}
    ours, theirs = (kind(*values) for kind in kinds)
    assert ours == theirs == tuple(values) and hash(ours) == hash(theirs)
    for work in (
        repr,
        lambda made: made._replace(**changes),
        lambda made: made._asdict(),
        lambda made: made.__getnewargs__(),
        lambda made: [getattr(made, name) for name in made._fields],
        lambda made: setattr(made, made._fields[0], 1),
        lambda made: setattr(made, "other", 1),
        lambda made: made.__dict__,
        lambda made: made.count_(),
        lambda made: made.first_,
        copy.copy,
        copy.deepcopy,
        lambda made: sorted([made, made], key=operator.itemgetter(slice(0, 0))),
    ):
        assert outcome(lambda: work(ours)) == outcome(lambda: work(theirs))  # noqa: B023


@pytest.mark.parametrize("base", BOTH)
def test_a_name_that_is_no_field_is_not_replaced(base: Any) -> None:
    with pytest.raises((TypeError, ValueError), match=r"unexpected field names: \['other'\]"):
        defined("one: int", base)(1)._replace(other=2)


@pytest.mark.parametrize(
    "body", ["one: int = 1; two: int", "_one: int", "one: int; _make = 3", "one: int\n    def __new__(cls): pass"]
)
def test_what_typing_refuses_is_refused(body: str) -> None:
    ours, theirs = (outcome(lambda base=base: defined(body, base)) for base in BOTH)  # type: ignore[misc]
    assert ours == theirs and "Error" in ours[0]


def test_a_record_is_stored_and_copied() -> None:
    for protocol in range(pickle.HIGHEST_PROTOCOL + 1):
        again = pickle.loads(pickle.dumps(Place(3), protocol))
        assert again == Place(3, 1) and type(again) is Place
    assert copy.deepcopy(Place(3)) == Place(3, 1) and type(copy.copy(Place(3))) is Place


@pytest.mark.skipif(sys.version_info < (3, 13), reason="copy.replace came with Python 3.13")
def test_a_record_is_copied_with_changes() -> None:
    assert copy.replace(Place(3), column=4) == Place(3, 4)  # type: ignore[attr-defined]


def test_a_record_is_told_apart_by_its_fields() -> None:
    match Place(3, 4):
        case Place(row, column=4):
            assert row == 3
        case _:
            raise AssertionError


@pytest.mark.parametrize("base", BOTH)
def test_a_record_may_be_generic_and_have_heirs(base: Any) -> None:
    class Pair(base, Generic[T]):  # type: ignore[misc]
        one: T
        two: T

    class Heir(defined("one: int", base)):  # type: ignore[misc]
        def twice(self) -> Any:
            return self.one * 2

    assert Pair[int](1, 2)._replace(two=3) == (1, 3)
    assert Heir(2).twice() == 4 and repr(Heir(2)) == "Heir(one=2)"


def test_no_module_takes_the_slower_one() -> None:
    paths = [path for folder in ("grammar", "model", "renderer", "cli") for path in (ROOT / folder).rglob("*.py")]
    for path in paths:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module == "typing" and path.stem != "record":
                assert "NamedTuple" not in [alias.name for alias in node.names], path
