"""The problems of one description, as a report: `halfhank check`."""

from collections.abc import Sequence

from halfhank.grammar.problems.problem import MISTAKE, MOST_COUNTED, Problem
from halfhank.grammar.source_text.excerpt import source_line, source_lines
from halfhank.model.report_tree import Paragraph, ProblemNote, Report


def problem_report(name: str, text: str, problems: Sequence[Problem]) -> Report:
    """The problems of the file called `name`, whose text they were found in, and how many there are."""
    lines = source_lines(text)
    notes = [ProblemNote(problem, name, source_line(problem, lines)) for problem in problems]
    return Report(None, (*notes, Paragraph((f"{name}: {_counted(problems) or 'no problems'}",))))


def _counted(problems: Sequence[Problem]) -> str:
    """How many there are, as in `2 mistakes, 1 piece of advice`; empty without problems."""
    mistakes = sum(problem.count for problem in problems if problem.severity == MISTAKE)
    advice = sum(problem.count for problem in problems) - mistakes
    least = "at least " if mistakes >= MOST_COUNTED else ""
    words = [f"{least}{mistakes:,} mistake{'s' * (mistakes != 1)}"] if mistakes else []
    if advice:
        words.append(f"{advice} piece{'s' * (advice != 1)} of advice")
    return ", ".join(words)
