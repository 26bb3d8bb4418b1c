"""Parses one line: its tree, or its one mistake of grammar and the tree of the corrected line.

Trees and tokens stay inside `halfhank.grammar`.
"""

import re
from collections.abc import Iterable

from halfhank.grammar.language import FACTS, HEADERS, UNITS
from halfhank.grammar.lines.synonyms import PHRASES, SYNONYMS
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
_END = "$END"
_NUMBERS = frozenset({"NUMBER", "MISNUMBER", "MINUS"})
_SIGNS = {"PERCENT": "%", "COMMA": ",", "COLON": ":", "SEMICOLON": ";", "STAR": "*", "LSQB": "[", "RSQB": "]"}
_SIGNS["PLUS"] = "+"
_KINDS = {"NUMBER": "a number", "TEXT": "a text in double quotes", "WORD": "a name", "CABLE": "a cable"}
_MAX_LISTED = 7
_MAX_ROW = 100


class LineReading(NamedTuple):
    """The result of one line: `tree` (None if no correction is known), `problem` (None if it has none)."""

    tree: Tree[Token] | None
    problem: Problem | None


def read_line(source: SourceLine, start: str) -> LineReading:
    """Parse one line by a start rule of the grammar."""
    try:
        return LineReading(line_parser().parse(source.code, start=start), None)
    except UnexpectedToken as error:
        found = _suggested(error.token, source, start) or _renamed(source, start) or _mend(error, source, start)
        row = row_problem(source, found.problem) if start == "in_stitch" else None
        return LineReading(None, row) if row else found


def accepted(source: SourceLine, start: str) -> bool:
    """Whether a line reads without a mistake by this start rule."""
    return read_line(source, start).problem is None


def row_problem(source: SourceLine, first: Problem | None = None) -> Problem | None:
    """The problem of a row in the trade's form, with the whole row in the language's.

    None if that is not known, or if the correction of the `first` problem alone gives that row.
    """
    from halfhank.grammar.lines.trade_rows import row_of_trade

    row = row_of_trade(source.code)
    if row is None or row == source.code or (first and _mends(source.code, first, row)):
        return None
    try:
        line_parser().parse(row, start="in_stitch")
    except UnexpectedToken:
        return None
    row = row.strip()
    shown = row if len(row) <= _MAX_ROW else row[:_MAX_ROW] + "…"
    return known.UNKNOWN_WORD_IN_ROW.at(source.span, row=row, shown=shown)


def _mends(code: str, problem: Problem, row: str) -> bool:
    """Whether what a problem's hint says to write makes the row of a line."""
    hint = "write ``" if problem.hint == "leave it out" else problem.hint or ""
    written = re.fullmatch("write `(.*)`", hint)
    if written is None or problem.span is None:
        return False
    mended = code[: problem.span.column - 1] + written[1] + code[problem.span.end - 1 :]
    return re.sub(r"\s", "", mended) == re.sub(r"\s", "", row)


def _suggested(token: Token, source: SourceLine, start: str) -> LineReading | None:
    """A line with a phrase that knitters use and the language does not, read with the words of the language for it."""
    from halfhank.grammar.lines.trade_phrases import suggestion_at

    column = len(source.code) + 1 if token.type == _END else token.column or 1
    found = suggestion_at(source.code, column, start)
    if found is None:
        return None
    span = Span(source.number, found.start + 1, found.end + 1)
    written = _short(source.code[found.start : found.end])
    kind = {
        "line-goes-on": known.LINE_GOES_ON,
        "unexpected-sign": known.UNEXPECTED_SIGN_OF_TRADE,
        "unexpected-number": known.UNEXPECTED_NUMBER_OF_TRADE,
        "wrong-unit": known.WRONG_UNIT_OF_TRADE,
        "unknown-word": known.UNKNOWN_WORD_OF_TRADE,
    }[found.code]
    problem = kind.at(span, written=written, mend=found.hint)
    try:
        tree = found.mended and line_parser().parse(found.mended.rstrip(), start=start)
    except UnexpectedToken:
        tree = None
    return LineReading(tree or None, problem)


def _renamed(source: SourceLine, start: str) -> LineReading | None:
    """A line that was read as a band but makes sense with its first word put right: `evn`, `repaet 3 times`."""
    written, meant = first_word(source), guessed_word(source, start)
    if start != "in_part" or meant is None or meant == written:
        return None
    parser = line_parser().parse_interactive(source.code, start=start)
    token = next(parser.lexer_thread.lex(parser.parser_state))  # type: ignore[no-untyped-call]
    try:
        parser.feed_token(Token.new_borrow_pos(_types()[meant], meant, token))
        tree = parser.resume_parse()  # type: ignore[no-untyped-call]
    except UnexpectedToken:
        return None
    span = Span(source.number, source.column, source.column + len(written))
    return LineReading(tree, known.UNKNOWN_WORD.at(span, word=_short(written), meant=meant, fits=None))


def _mend(error: UnexpectedToken, source: SourceLine, start: str) -> LineReading:
    """The tree with wrong words put right one after the other, as long as the right ones are known."""
    problem = None
    for _ in range(_MAX_MENDS):
        parser = error.interactive_parser
        accepts: set[str] = parser.accepts()  # type: ignore[no-untyped-call]
        words = _replacement(error.token, accepts)
        if words and not _fit(parser, error.token, words):
            words = None
        problem = problem or _explain(error.token, accepts, words, source, start)
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
    if not _is_word(token):
        return () if _END in accepts and token.type != _END else None
    named = _keywords(accepts)
    meant = SYNONYMS.get(token.casefold())
    if meant and (meant[0] in named or meant[0] in _signs(accepts) or (meant[0].isdigit() and "NUMBER" in accepts)):
        return meant
    close = nearest(token, tuple(sorted(named)))
    if close:
        return (close,)
    return () if _END in accepts else None


def _is_word(token: Token) -> bool:
    return token[:1].isalpha()


def _feed(parser: InteractiveParser, token: Token, words: tuple[str, ...]) -> bool:
    """Give the parser the words in the token's place; False: there are none and the line ends here."""
    types = _types()
    for word in words:
        kind = "NUMBER" if word.isdigit() else types[word]
        parser.feed_token(Token.new_borrow_pos(kind, word, token))
    return bool(words)


def _fit(parser: InteractiveParser, token: Token, words: tuple[str, ...]) -> bool:
    """Whether the parser takes all of the words."""
    try:
        return _feed(parser.copy(deepcopy_values=False), token, words)  # type: ignore[no-untyped-call]
    except UnexpectedToken:
        return False


def _types() -> dict[str, str]:
    """Terminals by their word or sign."""
    terminals = line_parser().terminals
    return {t.pattern.value: t.name for t in terminals if t.pattern.type == "str"}


def _keywords(accepts: Iterable[str]) -> dict[str, str]:
    return {word: name for word, name in _types().items() if name in accepts and word[0].isalpha()}


def _signs(accepts: Iterable[str]) -> list[str]:
    return [sign for name, sign in _SIGNS.items() if name in accepts]


def _explain(token: Token, accepts: set[str], words: tuple[str, ...] | None, source: SourceLine, start: str) -> Problem:
    """The problem of a token that does not fit."""
    if token.type == _END:
        return _ended(accepts, source)
    span = Span(source.number, token.column or 1, (token.column or 1) + len(token))
    if _is_word(token) and (token.column == source.column or words):
        return _wrong_word(token, accepts, words, span, source, start)
    if _only_units(accepts):
        fits = _units_hint(accepts, source.code[: span.column - 1])
        return known.MISSING_UNIT.at(span, word=_short(token), fits=fits)
    if _END in accepts:
        return _overhang(token, source, span)
    if _is_word(token):
        return _wrong_word(token, accepts, words, span, source, start)
    return _wrong_token(token, accepts, span)


def _overhang(token: Token, source: SourceLine, span: Span) -> Problem:
    """The problem of a line that goes on: a number apart from its item, a bracket, or else words too many."""
    if token == "]":
        return known.LINE_GOES_ON_WITH_BRACKET.at(span, written=_short(token))
    counted = re.search(r"(?<![\w-])(k|p|sl) +$", source.code[: (token.column or 1) - 1])
    if counted and token.type == "NUMBER":
        return known.LINE_GOES_ON_WITH_NUMBER.at(span, item=counted[1], written=_short(token))
    return known.LINE_GOES_ON_WITH_WORDS.at(span, written=_short(token))


def _ended(accepts: set[str], source: SourceLine) -> Problem:
    from halfhank.grammar.lines.trade_phrases import missing_end, unpaired

    lone = unpaired(source.code)
    if lone is not None:
        sign = source.code[lone]
        span = Span(source.number, lone + 1, lone + 2)
        partner = "]" if sign == "[" else "*"
        return known.UNPAIRED_SIGN.at(span, sign=sign, partner=partner)
    end = len(source.code) + 1
    span = Span(source.number, end, end + 1)

    hint = missing_end(source.code)
    if _only_units(accepts):
        hint = hint or _units_hint(accepts, source.code)
        return known.MISSING_UNIT_AT_END.at(span, fits=hint)
    return known.LINE_TOO_SHORT.at(span, fits=hint or _fits(accepts))


def _units_hint(accepts: set[str], before: str) -> str:
    """The hint that lists the units that fit behind the beginning of a line."""
    from halfhank.grammar.lines.trade_phrases import units_behind

    return _listed([f"`{unit}`" for unit in units_behind(before, {*_keywords(accepts), *_signs(accepts)})])


def _wrong_token(token: Token, accepts: set[str], span: Span) -> Problem:
    fits = _fits(accepts)
    if token.type in _NUMBERS or token.type == "CABLE":
        return known.UNEXPECTED_NUMBER.at(span, number=_short(token), fits=fits)
    if token.type in ("TEXT", "UNCLOSED"):
        return known.UNEXPECTED_TEXT.at(span, fits=fits)
    meant = '"' if token == "'" else None
    return known.UNEXPECTED_SIGN.at(span, sign=str(token), meant=meant, fits=None if meant else fits)


def _wrong_word(
    token: Token, accepts: set[str], words: tuple[str, ...] | None, span: Span, source: SourceLine, start: str
) -> Problem:
    meant = PHRASES.get(token.casefold(), " ".join(words)) if words else None
    if token.column == source.column and not words:
        return _wrong_first_word(str(token), accepts, span, start)
    if not meant and "TEXT" in accepts:
        meant = f'"{_short(source.code[(token.column or 1) - 1 :])}"'
    fits = None if meant else _fits(accepts)
    return known.UNKNOWN_WORD.at(span, word=_short(token), meant=meant, fits=fits)


def _wrong_first_word(word: str, accepts: set[str], span: Span, start: str) -> Problem:
    """The problem of a line whose first word says nothing in this block."""
    if start == "header":
        meant = SYNONYMS.get(word.casefold(), ("",))[0]
        home = _home(meant)
        fits = None if home else _fits(accepts)
        return known.UNKNOWN_WORD_AS_HEADER.at(span, word=_short(word), meant=meant, home=home, fits=fits)
    block, home = start.removeprefix("in_"), _home(word)
    fits = None if home else _fits(accepts)
    return known.UNKNOWN_WORD_IN_BLOCK.at(span, word=_short(word), block=block, full=word, home=home, fits=fits)


def _home(word: str) -> str | None:
    """The kind of block in which a line may begin with this word, the first of several; None without."""
    return next((kind.name for kind in HEADERS.values() if any(word in fact.words for fact in kind.facts)), None)


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


def _only_units(accepts: set[str]) -> bool:
    words = {word for word, name in _types().items() if name in accepts}
    return bool(words) and words <= {*UNITS, "%"} and not accepts & {_END, "NUMBER", "WORD", "TEXT"}


def _fits(accepts: set[str]) -> str | None:
    """The hint that lists what fits, None where that is too much to be of help."""
    words = [f"`{word}`" for word in sorted([*_keywords(accepts), *_signs(accepts)])]
    words += [name for kind, name in _KINDS.items() if kind in accepts]
    if not words:
        return "leave it out" if _END in accepts else None
    if len(words) > _MAX_LISTED:
        return None
    return _listed(words)


def _listed(words: list[str]) -> str:
    return "here fits " + (", ".join(words[:-1]) + " or " + words[-1] if len(words) > 1 else words[0])


def _short(word: str) -> str:
    return word if len(word) <= 40 else word[:39] + "…"
