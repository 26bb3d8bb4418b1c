"""Hints as changes of the text: what each says to write or to remove, put where its problem stands."""

import re
from collections.abc import Iterator

from halfhank.grammar.problems.problem import Problem

ALTERNATIVES = re.compile(r"(?:`([^`]*)`)(?:, or | or |$)")


def mended_texts(text: str, problem: Problem) -> Iterator[str]:
    """The text with each of the mends of a problem that are exact: `write …`, `remove …` and `remove it`."""
    if problem.edit:
        lines = text.split("\n")
        span = problem.edit.span
        lines[span.line - 1] = _put(lines[span.line - 1], span.column, span.end, problem.edit.text)
        yield "\n".join(lines)
        return
    for put in _puts(problem.hint or ""):
        assert problem.span
        lines = text.split("\n")
        span = problem.span
        lines[span.line - 1] = _put(lines[span.line - 1], span.column, span.end, put)
        yield "\n".join(lines)


def _puts(hint: str) -> Iterator[str]:
    if re.match("remove (?:it$|it:|`[^`]*`)", hint):
        yield ""
    opening = "(?:`drop` takes one number of wraps: )?(?:write )?"
    said = re.match(opening + "((?:`[^`]*`(?:, or | or |$))+)", hint)
    if said and "…" not in hint:
        yield from ALTERNATIVES.findall(said[1])


def _put(line: str, column: int, end: int, put: str) -> str:
    return line[: column - 1] + put + line[end - 1 :]
