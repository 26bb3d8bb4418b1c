"""From a description's text to its plan and drawing, as every test of the whole pipe goes."""

from halfhank.grammar.parse import parse
from halfhank.grammar.problems import MISTAKE, Problem
from halfhank.model.plan import plan
from halfhank.model.shawl import Plan, Shawl


def planned(text: str) -> Plan:
    """The plan of a description that must be free of mistakes of grammar."""
    parsed = parse(text)
    wrong = [p for p in parsed.problems if p.severity == MISTAKE]
    assert parsed.description is not None and not wrong, wrong
    return plan(parsed.description)


def shawl(text: str) -> Shawl:
    """The shawl of a description that must be free of mistakes."""
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
