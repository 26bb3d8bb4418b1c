"""Problems in words, for a terminal: the place, the line itself with a caret under it, what is wrong, and the mend.

Everything that a file can bring in is made safe first: no control, escape or bidirectional character is written raw.
"""

from collections.abc import Iterable, Sequence

from halfhank.grammar.problems.problem import MISTAKE, Problem, Span

_TAB = "    "
_INDENT = "    "
_WIDEST = 100
_BOLD, _RED, _YELLOW, _CYAN, _PLAIN = "\x1b[1m", "\x1b[31m", "\x1b[33m", "\x1b[36m", "\x1b[0m"


def show_problems(problems: Iterable[Problem], text: str, path: str, colour: bool = False) -> str:
    """All problems of the file at `path`, whose text they were found in, each ending with a line break."""
    lines = source_lines(text)
    return "".join(show_problem(problem, lines, path, colour) for problem in problems)


def source_lines(text: str) -> list[str]:
    """A file's text in lines, as problems count them."""
    return text.removeprefix("\ufeff").split("\n")


def show_problem(problem: Problem, lines: Sequence[str], path: str, colour: bool = False) -> str:
    """One problem; `lines` are the file's, without their endings."""
    return "\n".join(problem_lines(problem, source_line(problem, lines), path, colour)) + "\n"


def source_line(problem: Problem, lines: Sequence[str]) -> str | None:
    """The line of a file that a problem points at, None for one of the whole file."""
    span = problem.span
    return lines[span.line - 1].removesuffix("\r") if span and span.line <= len(lines) else None


def problem_lines(problem: Problem, source: str | None, path: str, colour: bool = False) -> list[str]:
    """One problem of the file at `path`; `source` is the line that it points at, if there is one."""
    span = problem.span
    place = f"{path}:{span.line}:{span.column}" if span else path
    tone = _RED if problem.severity == MISTAKE else _YELLOW
    shown = [f"{_dyed(safe(place), _BOLD, colour)}: {_dyed(f'{problem.severity} [{problem.code}]', tone, colour)}"]
    if span and source is not None:
        excerpt, caret = _quoted(source, span)
        shown += [_INDENT + excerpt, _INDENT + _dyed(caret, tone, colour)]
    shown.append(f"  {safe(problem.message)}")
    if problem.hint:
        shown.append(f"  {_dyed('try:', _CYAN, colour)} {safe(problem.hint)}")
    return [line.rstrip() for line in shown]


def safe(text: str) -> str:
    """A text as it may go to a terminal: tabs as spaces, what cannot be seen as its code."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_safe_char, text))


def _safe_char(char: str) -> str:
    if char == "\t":
        return _TAB
    if char.isprintable():
        return char
    code = ord(char)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def _quoted(line: str, span: Span) -> tuple[str, str]:
    """The source line and the line of carets below it; of a long line the stretch around the place."""
    start, end = min(span.column, len(line) + 1) - 1, max(span.end, span.column + 1) - 1
    first = max(0, start - _WIDEST // 2) if len(line) > _WIDEST else 0
    last = first + _WIDEST
    shown = safe(line[first:last])
    before, marked = _width(line[first:start]), _width(line[start : min(end, last)])
    lead = "…" if first else ""
    tail = "…" if last < len(line) else ""
    return lead + shown + tail, " " * (len(lead) + before) + "^" * max(1, marked)


def _width(text: str) -> int:
    """Terminal columns that a text takes once it is made safe."""
    shown = safe(text)
    if shown.isascii():
        return len(shown)
    from unicodedata import combining, east_asian_width

    return sum(0 if combining(char) else 2 if east_asian_width(char) in "WF" else 1 for char in shown)


def _dyed(text: str, tone: str, colour: bool) -> str:
    return f"{tone}{text}{_PLAIN}" if colour else text
