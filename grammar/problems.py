"""Problems as data: what is wrong with a description, where, and how to mend it.

Records here are named tuples, not dataclasses: they are as frozen, and the command's start-up pays
a tenth of the time to define them.
"""

from typing import NamedTuple

MISTAKE = "mistake"
ADVICE = "advice"


class Span(NamedTuple):
    """A stretch of one source line: `line` and `column` count characters from 1, `end` is the column after it."""

    line: int
    column: int
    end: int


class Problem(NamedTuple):
    """One problem of a description.

    `code` is stable (`unknown-stitch`); `severity` is `MISTAKE` or `ADVICE`; `span` says where (None: the
    description as a whole); `message` says what is wrong in knitting words; `hint` is the mend, where one can be known.
    """

    code: str
    severity: str
    span: Span | None
    message: str
    hint: str | None = None


def mistake(code: str, span: Span | None, message: str, hint: str | None = None) -> Problem:
    """A problem that keeps the description from being computed."""
    return Problem(code, MISTAKE, span, message, hint)


def advice(code: str, span: Span | None, message: str, hint: str | None = None) -> Problem:
    """A problem that the designer should know of; the plan stands."""
    return Problem(code, ADVICE, span, message, hint)
