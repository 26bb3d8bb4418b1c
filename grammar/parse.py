"""Text in, description and problems out."""

from halfhank.grammar.builtin.built_in_stitches import with_built_ins
from halfhank.grammar.description import Parsed
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import MOST_COUNTED, Problem, Span, by_place
from halfhank.grammar.reading.assemble import assemble
from halfhank.grammar.reading.blocks import find_blocks
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.source_text.indentation import lay_out

MAX_BYTES = 1 << 20
MAX_PROBLEMS = 100
_BOMS = (b"\xff\xfe", b"\xfe\xff")


def parse_bytes(data: bytes) -> Parsed:
    """Read a file's bytes: UTF-8 text of at most 1 MiB; anything else is one problem."""
    if len(data) > MAX_BYTES:
        return _refused(_too_large(len(data)))
    if b"\0" in data or data.startswith(_BOMS):
        return _refused(known.NOT_TEXT.at(None))
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = len(data[data.rfind(b"\n", 0, error.start) + 1 : error.start].decode("utf-8")) + 1
        return _refused(known.NOT_UTF_8.at(Span(line, column, column + 1)))
    return parse(text)


def parse(text: str) -> Parsed:
    """Read a description.

    `Parsed.description` is given wherever all that is required was understood; lines with mistakes are left out of it.
    It is None otherwise. Problems are in the order of the file, those of what is missing in it last; of more than 100
    the rest is only counted.
    """
    if len(text) > MAX_BYTES or (not text.isascii() and _size(text) > MAX_BYTES):
        return _refused(_too_large(_size(text)))
    layout = lay_out(text)
    context = ParseContext()
    context.problems.extend(layout.problems)
    context.reported_lines.update(layout.reported_lines)
    if not layout.roots and not context.problems:
        return _refused(known.EMPTY_DESCRIPTION.at(None))
    description = assemble(context, find_blocks(context, layout.roots))
    return Parsed(description and with_built_ins(description), _ordered(context.problems))


def _size(text: str) -> int:
    return len(text.encode("utf-8", "surrogatepass"))


def _too_large(size: int) -> Problem:
    return known.FILE_TOO_LARGE.at(None, size=size, most=MAX_BYTES)


def _refused(problem: Problem) -> Parsed:
    return Parsed(None, (problem,))


def _ordered(problems: list[Problem]) -> tuple[Problem, ...]:
    problems.sort(key=by_place)
    rest = len(problems) - MAX_PROBLEMS
    if rest <= 0:
        return tuple(problems)
    kind = known.MORE_PROBLEMS_AT_LEAST if len(problems) >= MOST_COUNTED else known.MORE_PROBLEMS
    many = kind.at(None, rest=rest)._replace(count=rest)
    return (*problems[:MAX_PROBLEMS], many)
