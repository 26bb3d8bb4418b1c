"""From a description's text to its plan and drawing, as every test of the whole pipe goes."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE, Problem
from halfhank.model.plan import Plan, Planned
from halfhank.model.planning.planning import plan
from halfhank.model.shawl import Shawl

HANGS_AFTER_S = 120.0
"""Far beyond what anything here takes on any machine: only a loop without an end comes to it."""


@contextmanager
def ending() -> Iterator[None]:
    """Fail, instead of hanging, where the block does not come to an end. No measure of speed."""

    def hang(number: int, frame: FrameType | None) -> None:
        raise AssertionError(f"no end after {HANGS_AFTER_S} s")

    before = signal.signal(signal.SIGALRM, hang)
    signal.setitimer(signal.ITIMER_REAL, HANGS_AFTER_S)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def planned(text: str) -> Planned:
    """The plan of a description that must be free of mistakes of grammar."""
    parsed = parse(text)
    wrong = [p for p in parsed.problems if p.severity == MISTAKE]
    assert parsed.description is not None and not wrong, wrong
    return plan(parsed.description)


def shawl(text: str) -> Shawl:
    """The shawl of a description that must be free of mistakes."""
    found, problems = planned(text)
    assert found is not None, problems
    return found.shawl


def plan_of(text: str) -> Plan:
    """The plan of a description that must be free of mistakes."""
    found, problems = planned(text)
    assert found is not None, problems
    return found


def mistakes(text: str) -> tuple[Problem, ...]:
    """All mistakes of a description, of grammar and of value."""
    parsed = parse(text)
    problems = parsed.problems
    if parsed.description is not None and all(p.severity != MISTAKE for p in problems):
        problems = plan(parsed.description).problems
    return tuple(p for p in problems if p.severity == MISTAKE)
