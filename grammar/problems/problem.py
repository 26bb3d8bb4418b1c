"""Problems as data: what is wrong with a description, where, and how to fix it.

Records here are named tuples, not dataclasses: they are as frozen, and are defined in a tenth of the
time at start-up.
"""

from halfhank.grammar.record import NamedTuple

MISTAKE = "mistake"
ADVICE = "advice"
MOST_COUNTED = 2_000


class Span(NamedTuple):
    """A stretch of one source line: `line` and `column` count characters from 1, `end` is the column after it."""

    line: int
    column: int
    end: int


class Edit(NamedTuple):
    """A change of the text: `text` replaces the text in the span. It may be empty, and it may contain line ends."""

    span: Span
    text: str


class Problem(NamedTuple):
    """One problem of a description.

    `code` is stable (`unknown-stitch`); `severity` is `MISTAKE` or `ADVICE`; `span` says where (None: the
    description as a whole); `message` says what is wrong in knitting words; `hint` is how to fix it, if that is known.
    `count` is how many problems it is, of which mistakes are counted up to `MOST_COUNTED`. `edit` is the correction
    as a change of the text, if there is only one.
    """

    code: str
    severity: str
    span: Span | None
    message: str
    hint: str | None = None
    count: int = 1  # type: ignore[assignment]
    edit: Edit | None = None


Templates = str | tuple[str, ...]


class ProblemKind(NamedTuple):
    """One wording of a problem; a code may have several.

    `message`, `mend` and `edit` are templates of `str.format`. A message may be written in pieces, which are joined
    without a space, and a `mend` in alternatives, which are joined by "or". What names a value that is None is left
    out.
    """

    code: str
    severity: str
    message: Templates
    mend: Templates = ()
    edit: str | None = None

    def at(self, span: Span | None, edit_span: Span | None = None, /, **values: object) -> Problem:
        """The problem at a place, its templates filled; the edit is made there too, or at `edit_span`.

        KeyError where a template names a value that is not given.
        """
        message = "".join(_filled(self.message, values))
        hint = " or ".join(_filled(self.mend, values)) or None
        return Problem(self.code, self.severity, span, message, hint, edit=self._edit(edit_span or span, values))

    def _edit(self, span: Span | None, values: dict[str, object]) -> Edit | None:
        texts = _filled(self.edit, values) if self.edit is not None and span else []
        return Edit(span, texts[0]) if texts and span else None


def _filled(templates: Templates, values: dict[str, object]) -> list[str]:
    """The templates with their values, without those that name a value that is None."""
    absent = [mark for name, value in values.items() if value is None for mark in (f"{{{name}}}", f"{{{name}:")]
    pieces = (templates,) if isinstance(templates, str) else templates
    return [piece.format(**values) for piece in pieces if not any(mark in piece for mark in absent)]


def by_place(problem: Problem) -> tuple[float, ...]:
    """The key to sort by: the order of the file, then what is missing in it, last how many more there are."""
    return problem.span or (float("inf"), problem.code == "more-problems")
