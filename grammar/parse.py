"""Text in, description and problems out."""

from halfhank.grammar.builtin.built_in_stitches import with_built_ins
from halfhank.grammar.description import Parsed
from halfhank.grammar.problems import MOST_COUNTED, Problem, Span, by_place, mistake
from halfhank.grammar.reading.assemble import assemble
from halfhank.grammar.reading.blocks import find_blocks
from halfhank.grammar.reading.parse_context import ParseContext
from halfhank.grammar.text.indentation import lay_out

MAX_BYTES = 1 << 20
MAX_PROBLEMS = 100
_BOMS = (b"\xff\xfe", b"\xfe\xff")


def parse_bytes(data: bytes) -> Parsed:
    """Read a file's bytes: UTF-8 text of at most 1 MiB; anything else is one problem."""
    if len(data) > MAX_BYTES:
        return _refused(_too_large(len(data)))
    if b"\0" in data or data.startswith(_BOMS):
        return _refused(mistake("not-text", None, "This file is no UTF-8 text.", "save it as UTF-8"))
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = len(data[data.rfind(b"\n", 0, error.start) + 1 : error.start].decode("utf-8")) + 1
        message = "This character is not in UTF-8."
        return _refused(mistake("not-utf-8", Span(line, column, column + 1), message, "save the file as UTF-8"))
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
        return _refused(mistake("empty-description", None, "This description is empty.", 'start with `shawl "…"`'))
    description = assemble(context, find_blocks(context, layout.roots))
    return Parsed(description and with_built_ins(description), _ordered(context.problems))


def _size(text: str) -> int:
    return len(text.encode("utf-8", "surrogatepass"))


def _too_large(size: int) -> Problem:
    return mistake("file-too-large", None, f"The file has {size:,} bytes; {MAX_BYTES:,} are read.")


def _refused(problem: Problem) -> Parsed:
    return Parsed(None, (problem,))


def _ordered(problems: list[Problem]) -> tuple[Problem, ...]:
    problems.sort(key=by_place)
    rest = len(problems) - MAX_PROBLEMS
    if rest <= 0:
        return tuple(problems)
    least = "At least " if len(problems) >= MOST_COUNTED else ""
    many = mistake("more-problems", None, f"{least}{rest:,} more problems are not shown.")._replace(count=rest)
    return (*problems[:MAX_PROBLEMS], many)
