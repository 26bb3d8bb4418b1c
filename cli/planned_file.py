"""From a file's name to its plan, and its problems to standard error."""

import sys
from typing import NamedTuple

from halfhank.cli import files, terminal
from halfhank.grammar.description import Parsed
from halfhank.grammar.problems import MISTAKE, Problem
from halfhank.model.shawl import Plan, Shawl


class PlannedFile(NamedTuple):
    """A description with its plan. `shawl` is None where mistakes kept it from being computed."""

    source: files.Source
    shawl: Shawl | None
    problems: tuple[Problem, ...]

    @property
    def has_mistakes(self) -> bool:
        return any(problem.severity == MISTAKE for problem in self.problems)

    @property
    def text(self) -> str:
        """The description as its problems count it, whatever its bytes are."""
        return self.source.data.decode("utf-8", "replace")


def plan_file(name: str) -> PlannedFile:
    """Read and plan the description at `name` (`-`: standard input). Raises `CommandError` if it cannot be read."""
    return planned(files.read(name))


def planned(source: files.Source) -> PlannedFile:
    """A description as read, with its plan."""
    plan = _plan(_parse(source.data))
    return PlannedFile(source, plan.shawl, plan.problems)


def _parse(data: bytes) -> Parsed:
    from halfhank.grammar.parse import parse_bytes

    return parse_bytes(data)


def _plan(parsed: Parsed) -> Plan:
    from halfhank.model.planning import plan_parsed

    return plan_parsed(parsed)


def print_problems(found: PlannedFile) -> None:
    """Write the problems to standard error, with their lines and carets."""
    if not found.problems:
        return
    from halfhank.grammar.text.excerpt import show_problems

    terminal.err(show_problems(found.problems, found.text, found.source.name, terminal.wants_colour(sys.stderr)))
