"""From a file's name to its plan, and its problems to standard error."""

import sys

from halfhank.cli import files, terminal
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple
from halfhank.interface import plan
from halfhank.model.plan import Plan, Planned


class PlannedFile(NamedTuple):
    """A description as read, with what planning gives back of it."""

    source: files.Source
    planned: Planned

    @property
    def plan(self) -> Plan | None:
        """The plan, None where mistakes are in the way."""
        return None if self.planned.has_mistakes else self.planned.plan

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All mistakes and all advice."""
        return self.planned.problems

    @property
    def text(self) -> str:
        """The description as its problems count it, whatever its bytes are."""
        return self.source.data.decode("utf-8", "replace")


def plan_file(name: str) -> PlannedFile:
    """Read and plan the description at `name` (`-`: standard input). Raises `CommandError` if it cannot be read."""
    return planned(files.read(name))


def planned(source: files.Source) -> PlannedFile:
    """A description as read, with its plan."""
    return PlannedFile(source, plan(source.data))


def print_problems(found: PlannedFile, problems: tuple[Problem, ...] | None = None) -> None:
    """Write the problems, or some of them, to standard error, with their lines and carets."""
    problems = found.problems if problems is None else problems
    if not problems:
        return
    from halfhank.grammar.source_text.excerpt import show_problems

    terminal.err(show_problems(problems, found.text, found.source.name, terminal.wants_colour(sys.stderr)))
