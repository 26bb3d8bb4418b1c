"""Parses one line: its tree, or its one mistake of grammar and the tree of the corrected line.

Trees and tokens stay inside `halfhank.grammar`. What a hint says to write is held against the parser first: a mend that
it refuses is not offered.
"""

import re

from halfhank.grammar.language import FACTS, HEADERS
from halfhank.grammar.lines.synonyms import SYNONYMS
from halfhank.grammar.lines.tables import line_parser
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.problems.spelling import nearest
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.indentation import SourceLine
from lark import Token, Tree
from lark.exceptions import UnexpectedToken
from lark.parsers.lalr_interactive_parser import InteractiveParser

_MAX_MENDS = 12
_MAX_SHOWN = 100


class LineReading(NamedTuple):
    """The result of one line: `tree` (None if no correction is known), `problem` (None if it has none)."""

    tree: Tree[Token] | None
    problem: Problem | None


def read_line(source: SourceLine, start: str, shape: str | None = None) -> LineReading:
    """Parse one line by a start rule of the grammar; `shape` is that of the shawl, where it is known."""
    try:
        return LineReading(line_parser().parse(_row_in_lower_case(source.code, start), start=start), None)
    except UnexpectedToken as error:
        term = _unknown_term(error.token, source)
        if term:
            return LineReading(None, term)
        found = (
            _suggested(error.token, source, start, shape)
            or _renamed(source, start)
            or _of_other_block(source, start)
            or _mend(error, source, start)
        )
        return _as_whole(source, start, found) or found


def _row_in_lower_case(code: str, start: str) -> str:
    """A stitch's row that begins as instructions print it (`Row 1 (RS): …`) with a small letter, any other line as is.

    Where more of it is in capitals the whole line is written otherwise, and its hint says how.
    """
    if start != "in_stitch" or "Row" not in code:
        return code
    printed = re.fullmatch(r"( *)R(ows?\b[^A-Z]*(?:\((?:RS|WS)\)[^A-Z]*)?)", code)
    return f"{printed[1]}r{printed[2]}" if printed else code


def accepted(source: SourceLine, start: str) -> bool:
    """Whether a line reads without a mistake by this start rule."""
    return read_line(source, start).problem is None


def _as_whole(source: SourceLine, start: str, found: LineReading) -> LineReading | None:
    """A line in the trade's form as a whole; None where that is not known, or the mend that is found says the same."""
    if found.problem is None or (start == "header" and found.problem.code == "line-too-short"):
        return None
    if start == "in_stitch":
        row = row_problem(source, found.problem)
        if row:
            return LineReading(None, row)
    from halfhank.grammar.lines.trade_lines import line_of_trade

    line = line_of_trade(source.code, start)
    if line is not None and _gives(source.code, found.problem, line):
        return None
    if line is None or _tree(line, start) is None:
        return _inside_other_block(source, start, found.problem)
    whole = _whole(source, line)
    if found.problem.code == known.LINE_TOO_SHORT.code:
        whole = found.problem._replace(hint=whole.hint, edit=whole.edit)
    return LineReading(_tree(line, start), whole)


def _inside_other_block(source: SourceLine, start: str, problem: Problem) -> LineReading | None:
    """A line that, in the trade's form or as it stands, says something in another kind of block, where nothing better
    is known of it."""
    from halfhank.grammar.lines.explanations import inner_line

    first = problem.span is not None and problem.span.column == source.column
    if not (first and start == "header") and problem.hint is not None:
        return None
    for home in HEADERS.values():
        line = inner_line(source.code, home.start) if home.start != start else None
        if line:
            known_kind = known.UNKNOWN_WORD_OF_BLOCK
            return LineReading(None, known_kind.at(source.span, home=home.name, line=line[:_MAX_SHOWN]))
    return None


def row_problem(source: SourceLine, first: Problem | None = None) -> Problem | None:
    """The problem of a row in the trade's form, with the whole row in the language's.

    None if that is not known, or if the correction of the `first` problem alone gives that row.
    """
    from halfhank.grammar.lines.explanations import reads
    from halfhank.grammar.lines.trade_rows import row_of_trade

    row = row_of_trade(source.code)
    if row is None or row == source.code or (first and _gives(source.code, first, row)) or not reads(row, "in_stitch"):
        return None
    return _whole(source, row)


def _whole(source: SourceLine, line: str) -> Problem:
    """The problem of a line that is written anew as a whole."""
    line = line.strip()
    shown = line if len(line) <= _MAX_SHOWN else line[:_MAX_SHOWN] + "…"
    other = "bind off elastic" if line == "bind off standard" else None
    return known.UNKNOWN_WORD_IN_LINE.at(source.span, line=line, shown=shown, other=other)


def _gives(code: str, problem: Problem, line: str) -> bool:
    """Whether what a problem's hint says to write makes that line."""
    written = re.fullmatch("write `(.*)`|(remove) `.*`", problem.hint or "")
    if written is None or problem.span is None:
        return False
    mended = code[: problem.span.column - 1] + (written[1] or "") + code[problem.span.end - 1 :]
    return re.sub(r"\s", "", mended) == re.sub(r"\s", "", line)


def _unknown_term(token: Token, source: SourceLine) -> Problem | None:
    """The problem of a line that is stopped by a term of the trade that the language does not know."""
    from halfhank.grammar.lines.unknown_terms import term_at

    found = term_at(source.code, _column(token, source))
    if found is None:
        return None
    term, first, last = found
    span = Span(source.number, first + 1, last + 1)
    return known.UNKNOWN_WORD_NOT_KNOWN.at(span, term=term.name, mend=term.instead)


def _column(token: Token, source: SourceLine) -> int:
    return len(source.code) + 1 if token.type == "$END" else token.column or 1


def _suggested(token: Token, source: SourceLine, start: str, shape: str | None) -> LineReading | None:
    """A line with a phrase that knitters use and the language does not, read with the words of the language for it."""
    from halfhank.grammar.lines.explanations import mends, reads, short
    from halfhank.grammar.lines.trade_phrases import suggestions_at

    for found in suggestions_at(source.code, _column(token, source), start, shape):
        span = Span(source.number, found.start + 1, found.end + 1)
        if found.put is not None and not mends(source.code, start, span, found.put):
            continue
        if not all(reads(line, start) for line in found.lines):
            continue
        written = short(source.code[found.start : found.end])
        kind = (
            known.UNKNOWN_WORD_WITHOUT_PLACE
            if found.lines
            else {
                "line-goes-on": known.LINE_GOES_ON,
                "unexpected-sign": known.UNEXPECTED_SIGN_OF_TRADE,
                "unexpected-number": known.UNEXPECTED_NUMBER_OF_TRADE,
                "wrong-unit": known.WRONG_UNIT_OF_TRADE,
                "unknown-word": known.UNKNOWN_WORD_OF_TRADE,
            }[found.code]
        )
        return LineReading(_tree(found.mended, start), kind.at(span, written=written, mend=found.hint))
    return None


def _tree(line: str | None, start: str) -> Tree[Token] | None:
    try:
        return line_parser().parse(line.rstrip(), start=start) if line else None
    except UnexpectedToken:
        return None


def _renamed(source: SourceLine, start: str) -> LineReading | None:
    """A line that was read as a band but makes sense with its first word put right: `evn`, `repaet 3 times`."""
    from halfhank.grammar.lines.explanations import short, types

    written, meant = first_word(source), guessed_word(source, start)
    if start != "in_part" or meant is None or meant == written:
        return None
    parser = line_parser().parse_interactive(source.code, start=start)
    token = next(parser.lexer_thread.lex(parser.parser_state))  # type: ignore[no-untyped-call]
    try:
        parser.feed_token(Token.new_borrow_pos(types()[meant], meant, token))
        tree = parser.resume_parse()  # type: ignore[no-untyped-call]
    except UnexpectedToken:
        return None
    span = Span(source.number, source.column, source.column + len(written))
    return LineReading(tree, known.UNKNOWN_WORD.at(span, word=short(written), meant=meant, fits=None))


def _of_other_block(source: SourceLine, start: str) -> LineReading | None:
    """A line that says nothing in its block and reads as it stands in another kind of block."""
    from halfhank.grammar.lines.explanations import reads

    if start == "header" or source.code[source.indent :].partition(" ")[0] in HEADERS:
        return None
    for home in HEADERS.values():
        if home.facts and home.start != start and reads(source.code, home.start):
            block = start.removeprefix("in_")
            return LineReading(None, known.UNKNOWN_WORD_OF_OTHER_BLOCK.at(source.span, block=block, home=home.name))
    return None


def _mend(error: UnexpectedToken, source: SourceLine, start: str) -> LineReading:
    """The tree with wrong words put right one after the other, as long as the right ones are known."""
    from halfhank.grammar.lines.explanations import ParseStop, explain

    problem = None
    for _ in range(_MAX_MENDS):
        parser = error.interactive_parser
        accepts: set[str] = parser.accepts()  # type: ignore[no-untyped-call]
        words = _replacement(error.token, accepts)
        if words and not _fit(parser, error.token, words):
            words = None
        problem = problem or explain(ParseStop(error.token, accepts, source, start), words)
        if words is None:
            return LineReading(None, problem)
        try:
            if _feed(parser, error.token, words):
                return LineReading(parser.resume_parse(), problem)  # type: ignore[no-untyped-call]
            return LineReading(parser.feed_eof(error.token), problem)  # type: ignore[no-untyped-call]
        except UnexpectedToken as next_error:
            error = next_error
    return LineReading(None, problem)


def _replacement(token: Token, accepts: set[str]) -> tuple[str, ...] | None:
    """The words to read in place of a token; an empty tuple: the line ends before it. None: nobody knows."""
    from halfhank.grammar.lines.explanations import END, is_word, keywords, signs

    ends = () if END in accepts and token.type != END else None
    if not is_word(token):
        return ends
    named = keywords(accepts)
    meant = SYNONYMS.get(token.casefold())
    if meant and (meant[0] in named or meant[0] in signs(accepts) or (meant[0].isdigit() and "NUMBER" in accepts)):
        return meant
    close = nearest(token, tuple(sorted(named)))
    return (close,) if close else ends


def _feed(parser: InteractiveParser, token: Token, words: tuple[str, ...]) -> bool:
    """Give the parser the words in the token's place; False: there are none and the line ends here."""
    from halfhank.grammar.lines.explanations import types

    named = types()
    for word in words:
        kind = "NUMBER" if word.isdigit() else named[word]
        parser.feed_token(Token.new_borrow_pos(kind, word, token))
    return bool(words)


def _fit(parser: InteractiveParser, token: Token, words: tuple[str, ...]) -> bool:
    """Whether the parser takes all of the words; it stays as it is, with trees that a reduction may not extend."""
    trial: InteractiveParser = parser.copy(deepcopy_values=False)  # type: ignore[no-untyped-call]
    values = trial.parser_state.value_stack
    values[:] = [Tree(one.data, [*one.children], one.meta) if isinstance(one, Tree) else one for one in values]
    try:
        return _feed(trial, token, words)
    except UnexpectedToken:
        return False


def first_word(source: SourceLine) -> str:
    """The word that a line starts with, empty where it starts otherwise."""
    word = source.code.split(None, 1)[0]
    if word.isalpha():
        return word
    found = re.match(r" *([^\W\d_][\w-]*)", source.code)
    return found[1] if found else ""


def guessed_word(source: SourceLine, start: str) -> str | None:
    """The first word of a fact or header as it was most likely meant, None where nobody knows."""
    word = first_word(source)
    known = tuple(HEADERS) if start == "header" else tuple(FACTS[start])
    if word in known:
        return word
    meant = SYNONYMS.get(word.casefold())
    if meant and meant[0] in known:
        return meant[0]
    return nearest(word, known)
