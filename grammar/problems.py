"""Problems as data: what is wrong with a description, where, and how to mend it.

Records here are named tuples, not dataclasses: they are as frozen, and the command's start-up pays
a tenth of the time to define them.
"""

from typing import NamedTuple

MISTAKE = "mistake"
ADVICE = "advice"
MOST_COUNTED = 2_000


class Span(NamedTuple):
    """A stretch of one source line: `line` and `column` count characters from 1, `end` is the column after it."""

    line: int
    column: int
    end: int


class Problem(NamedTuple):
    """One problem of a description.

    `code` is stable (`unknown-stitch`); `severity` is `MISTAKE` or `ADVICE`; `span` says where (None: the
    description as a whole); `message` says what is wrong in knitting words; `hint` is the mend, where one can be known.
    `count` is how many problems it stands for, of which mistakes are counted up to `MOST_COUNTED`.
    """

    code: str
    severity: str
    span: Span | None
    message: str
    hint: str | None = None
    count: int = 1  # type: ignore[assignment]


def by_place(problem: Problem) -> tuple[float, ...]:
    """The key to sort by: the order of the file, then what is missing in it, last how many more there are."""
    return problem.span or (float("inf"), problem.code == "more-problems")


def mistake(code: str, span: Span | None, message: str, hint: str | None = None) -> Problem:
    """A problem that keeps the description from being computed."""
    return Problem(code, MISTAKE, span, message, hint)


def advice(code: str, span: Span | None, message: str, hint: str | None = None) -> Problem:
    """A problem that the designer should know of; the plan stands."""
    return Problem(code, ADVICE, span, message, hint)
