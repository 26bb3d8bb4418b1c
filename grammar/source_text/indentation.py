"""The first stage of reading finds which line is inside which; each keeps the comment after it.

Nothing is thrown away: `Layout.lines` has every physical line with its ending, so that a file can be written back with
all other bytes kept. Lines with a mistake of layout are reported here and still find a place in the tree.
"""

import re
from functools import cached_property

from halfhank.grammar.language import HEADERS
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.problems.spelling import nearest_opener
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.characters import clean

MAX_LINE = 4_000
MAX_NESTING = 50
BOM = "\ufeff"
_DEFAULT_STEP = 2


class SourceLine(NamedTuple):
    """One physical line: `raw` without its `ending`, `code` corrected and without comment, indentation kept.

    `number` counts from 1; `indent` is the number of characters before the first word; `comment` is the offset of
    its `#`.
    """

    number: int
    raw: str
    ending: str
    code: str
    indent: int
    comment: int | None

    @property
    def column(self) -> int:
        """The column of the first word."""
        return self.indent + 1

    @property
    def span(self) -> Span:
        """From the first word to the last."""
        return Span(self.number, self.indent + 1, len(self.code) + 1)


class LineNode(NamedTuple):
    """A line that says something, with the lines that belong to it."""

    source: SourceLine
    children: list["LineNode"]


class SourceTree(NamedTuple):
    """A whole file: `bom` where it opened with a byte-order mark, `roots` the lines of the top level.

    `reported_lines` are the numbers of the lines with one of the `problems`.
    """

    bom: bool
    lines: tuple[SourceLine, ...]
    roots: list[LineNode]
    problems: tuple[Problem, ...]
    reported_lines: frozenset[int]


def lay_out(text: str) -> SourceTree:
    """Divide a text into lines, and put each under the line that it belongs to."""
    bom = text.startswith(BOM)
    problems: dict[int, Problem] = {}
    lines = tuple(_source_lines(text[1:] if bom else text, problems))
    tree = _Tree(problems, _step(lines))
    for line in lines:
        if line.code:
            tree.add(line)
    return SourceTree(bom, lines, tree.roots, tuple(problems.values()), frozenset(problems))


def _source_lines(text: str, problems: dict[int, Problem]) -> list[SourceLine]:
    pieces = text.split("\n")
    return [
        _source_line(number, piece, "\n" if number < len(pieces) else "", problems)
        for number, piece in enumerate(pieces, 1)
        if piece or number < len(pieces)
    ]


def _source_line(number: int, piece: str, ending: str, problems: dict[int, Problem]) -> SourceLine:
    if ending and piece.endswith("\r"):
        piece, ending = piece[:-1], "\r\n"
    cleaned = clean(piece[:MAX_LINE])
    if len(piece) > MAX_LINE:
        span = Span(number, MAX_LINE + 1, len(piece) + 1)
        problems[number] = known.LINE_TOO_LONG.at(span, length=len(piece), most=MAX_LINE)
    elif cleaned.odd:
        problem, column = cleaned.odd
        problems[number] = problem._replace(span=Span(number, column, column + 1))
    indent = len(cleaned.code) - len(cleaned.code.lstrip(" "))
    return SourceLine(number, piece, ending, cleaned.code, indent, cleaned.comment)


def _step(lines: tuple[SourceLine, ...]) -> int:
    """How far a tab would indent: as far as the file's own first step."""
    steps = [line.indent for line in lines if line.code and line.indent and "\t" not in line.raw[: line.indent]]
    return min(steps, default=_DEFAULT_STEP)


def _is_header(code: str) -> bool:
    """Whether a line can only be the header of a block, at any place."""
    word = code.split(None, 1)[0]
    return word in HEADERS and re.match(f" *{word}{HEADERS[word].opening}", code) is not None


class _Frame:
    """An open line at `depth`: lines indented more than `indent` belong to it, or beside it where it opens no block."""

    def __init__(self, indent: int, depth: int, line: LineNode, siblings: list[LineNode]) -> None:
        self.indent, self.depth, self.line, self.siblings = indent, depth, line, siblings
        self.column: int | None = None
        self.reported: set[int] = set()

    @cached_property
    def opens(self) -> bool:
        """Whether the line opens a block; used only if a line is under it."""
        word = self.line.source.code.split(None, 1)[0]
        return word not in HEADERS or bool(HEADERS[word].facts) if self.depth == 0 else nearest_opener(word)


class _Tree:
    """The tree under construction."""

    def __init__(self, problems: dict[int, Problem], step: int) -> None:
        self.roots: list[LineNode] = []
        self._problems, self._step = problems, step
        self._stack: list[_Frame] = []
        self._columns = {0}

    def add(self, source: SourceLine) -> None:
        width = self._width(source)
        while self._stack and width <= self._stack[-1].indent:
            self._stack.pop()
        line = LineNode(source, [])
        if not self._stack:
            width = self._aligned(source, 0, width, self._columns)
            self._hang(line, self.roots, 0, width)
        elif self._stack[-1].opens:
            self._nest(line, self._stack[-1], width)
        else:
            self._adopt(line, self._stack[-1], width)

    def _hang(self, line: LineNode, siblings: list[LineNode], depth: int, width: int) -> None:
        siblings.append(line)
        self._stack.append(_Frame(width, depth, line, siblings))

    def _nest(self, line: LineNode, parent: _Frame, width: int) -> None:
        if parent.column is None:
            parent.column = width
        width = self._aligned(line.source, parent.column, width, parent.reported)
        siblings = parent.line.children
        if parent.depth >= MAX_NESTING:
            if parent.depth == MAX_NESTING and not parent.reported:
                self._report(line.source, known.NESTING_TOO_DEEP.at(_whole(line.source), most=MAX_NESTING))
                siblings.append(line)
            parent.reported.add(width)
            siblings = []
        self._hang(line, siblings, parent.depth + 1, width)

    def _adopt(self, line: LineNode, parent: _Frame, width: int) -> None:
        """A line under one that opens no block is put beside it."""
        if not parent.reported:
            parent.reported.add(width)
            column = parent.line.source.column
            self._report(line.source, known.UNEXPECTED_INDENT.at(_whole(line.source), column=column))
        self._hang(line, parent.siblings, parent.depth, width)

    def _width(self, source: SourceLine) -> int:
        """The indentation that counts: a tab's is guessed, a block's header has none."""
        blank = source.raw[: source.indent]
        width = source.indent
        if "\t" in blank:
            column = blank.index("\t") + 1
            self._report(source, known.TAB_INDENTATION.at(Span(source.number, column, column + 1)))
            width += blank.count("\t") * (self._step - 1)
        if source.indent and _is_header(source.code):
            self._report(source, known.INDENTED_HEADER.at(_whole(source)))
            return 0
        return width

    def _aligned(self, source: SourceLine, column: int, width: int, reported: set[int]) -> int:
        """Report a line in another column than its block, once for each column; it counts as a line of that block."""
        tabbed = "\t" in source.raw[: source.indent]
        if width != column and width not in reported and not tabbed:
            reported.add(width)
            self._report(source, known.UNEVEN_INDENTATION.at(_whole(source), column=column + 1))
        return column

    def _report(self, source: SourceLine, problem: Problem) -> None:
        self._problems.setdefault(source.number, problem)


def _whole(source: SourceLine) -> Span:
    """The place of a line, without its indentation and its comment."""
    return Span(source.number, source.column, len(source.code) + 1)
