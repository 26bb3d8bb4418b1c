"""From a file's name to its plan, and its problems to people."""

import sys
from typing import IO, NamedTuple

from halfhank.cli import files, terminal
from halfhank.grammar.description import Parsed
from halfhank.grammar.problems import MISTAKE, MOST_COUNTED, Problem
from halfhank.model.shawl import Plan, Shawl


class Described(NamedTuple):
    """A description with all that came of it. `shawl` is None where mistakes kept it from being computed."""

    source: files.Source
    shawl: Shawl | None
    problems: tuple[Problem, ...]

    @property
    def has_mistakes(self) -> bool:
        return any(problem.severity == MISTAKE for problem in self.problems)


def describe(name: str) -> Described:
    """Read and compute the description at `name` (`-`: standard input). Raises `CommandError` if it cannot be read."""
    return computed(files.read(name))


def computed(source: files.Source) -> Described:
    """A description as read, with all that comes of it."""
    plan = _plan(_parse(source.data))
    return Described(source, plan.shawl, plan.problems)


def _parse(data: bytes) -> Parsed:
    from halfhank.grammar.parse import parse_bytes

    return parse_bytes(data)


def _plan(parsed: Parsed) -> Plan:
    from halfhank.model.planning.planning import plan_parsed

    return plan_parsed(parsed)


def shown_problems(described: Described, stream: IO[str]) -> str:
    """The problems with their lines and carets, in colour where `stream` takes it."""
    from halfhank.grammar.text.excerpt import show_problems

    text = described.source.data.decode("utf-8", "replace")
    return show_problems(described.problems, text, described.source.name, terminal.wants_colour(stream))


def tell_problems(described: Described) -> None:
    """Write the problems to standard error."""
    if described.problems:
        terminal.err(shown_problems(described, sys.stderr))


def counted(problems: tuple[Problem, ...]) -> str:
    """How many there are, as in `2 mistakes, 1 piece of advice`; empty without problems."""
    mistakes = sum(problem.count for problem in problems if problem.severity == MISTAKE)
    advice = sum(problem.count for problem in problems) - mistakes
    least = "at least " if mistakes >= MOST_COUNTED else ""
    words = [f"{least}{mistakes:,} mistake{'s' * (mistakes != 1)}"] if mistakes else []
    if advice:
        words.append(f"{advice} piece{'s' * (advice != 1)} of advice")
    return ", ".join(words)


def as_json(value: object) -> str:
    """Pure ASCII, so that it is safe to show and the same under every locale."""
    import json

    return json.dumps(value, indent=2, allow_nan=False) + "\n"
