"""What is wrong with a line whose parse has stopped: the problem of the token that does not fit.

Loaded only once a line has a mistake of grammar.
"""

import re
from collections.abc import Iterable

from halfhank.grammar.items import ITEMS
from halfhank.grammar.language import HEADERS, UNITS
from halfhank.grammar.lines.synonyms import SYNONYMS
from halfhank.grammar.lines.tables import line_parser
from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem, Span
from halfhank.grammar.record import NamedTuple
from halfhank.grammar.source_text.indentation import SourceLine
from lark import Token
from lark.exceptions import UnexpectedToken

END = "$END"
_NUMBERS = frozenset({"NUMBER", "MISNUMBER", "MINUS"})
_SIGNS = {"PERCENT": "%", "COMMA": ",", "COLON": ":", "SEMICOLON": ";", "STAR": "*", "LSQB": "[", "RSQB": "]"}
_SIGNS["PLUS"] = "+"
_KINDS = {"NUMBER": "a number", "TEXT": "a text in double quotes", "WORD": "a name", "CABLE": "a cable"}
_MAX_LISTED = 7


class ParseStop(NamedTuple):
    """Where a parse has stopped: the `token` that does not fit, the names of the terminals that would (`accepts`), and
    the line with its start rule."""

    token: Token
    accepts: set[str]
    source: SourceLine
    start: str

    @property
    def column(self) -> int:
        """The column of the token, that after the line where it ends too early."""
        return len(self.source.code) + 1 if self.token.type == END else self.token.column or 1

    @property
    def before(self) -> str:
        """The line up to the token."""
        return self.source.code[: self.column - 1]

    @property
    def rest(self) -> str:
        """The line from the token on."""
        return self.source.code[self.column - 1 :].rstrip()

    @property
    def span(self) -> Span:
        """Where the token stands."""
        return Span(self.source.number, self.column, self.column + (1 if self.token.type == END else len(self.token)))


def reads(line: str, start: str, beyond: int | None = None) -> bool:
    """Whether a line reads by a start rule, or is only stopped after so many characters."""
    try:
        line_parser().parse(line.rstrip(), start=start)
    except UnexpectedToken as error:
        return beyond is not None and error.token.type != END and (error.token.column or 1) > beyond
    return True


def mends(line: str, start: str, span: Span, put: str) -> bool:
    """Whether a line is rid of its mistake with other words in a place.

    It then reads, or is only stopped later: not at the words that follow the place, unless it is the line's beginning.
    """
    before, after = line[: span.column - 1] + put, line[span.end - 1 :].partition("#")[0]  # After `4"` it is no text.
    follows = len(after) - len(after.lstrip()) + 1 if line[: span.column - 1].strip() else 0
    return reads(before + after, start, len(before) + follows)


def types() -> dict[str, str]:
    """Terminals by their word or sign."""
    terminals = line_parser().terminals
    return {t.pattern.value: t.name for t in terminals if t.pattern.type == "str"}


def keywords(accepts: Iterable[str]) -> dict[str, str]:
    """The accepted keywords, with their terminals."""
    return {word: name for word, name in types().items() if name in accepts and word[0].isalpha()}


def signs(accepts: Iterable[str]) -> list[str]:
    """The accepted signs."""
    return [sign for name, sign in _SIGNS.items() if name in accepts]


def is_word(token: Token) -> bool:
    """Whether a token is a word, of the language or not."""
    return token[:1].isalpha()


def explain(stop: ParseStop, words: tuple[str, ...] | None) -> Problem:
    """The problem of a token that does not fit; `words` are those to read in its place, None where nobody knows."""
    token, accepts = stop.token, stop.accepts
    if token.type == END:
        return _ended(stop)
    if is_word(token) and (token.column == stop.source.column or words):
        return _wrong_word(stop, words)
    if _only_units(accepts):
        return known.MISSING_UNIT.at(stop.span, word=short(token), fits=_units(stop))
    if END in accepts:
        return _overhang(stop)
    if is_word(token):
        return _wrong_word(stop, words)
    return _wrong_token(stop)


def _overhang(stop: ParseStop) -> Problem:
    """The problem of a line that goes on: a number apart from its item, a bracket, or else words too many."""
    if stop.token == "]":
        return known.LINE_GOES_ON_WITH_BRACKET.at(stop.span)
    counted = re.search(r"(?<![\w-])(k|p|sl) +$", stop.before)
    if counted and stop.token.type == "NUMBER":
        return known.LINE_GOES_ON_WITH_NUMBER.at(stop.span, item=counted[1], written=short(stop.token))
    rest = stop.rest
    span = stop.span._replace(end=stop.column + len(rest))
    if stop.start == "header":
        inside = inner_line(rest, HEADERS[stop.before.split()[0]].start) if stop.before.split()[0] in HEADERS else None
        if inside:
            return known.LINE_GOES_ON_WITH_FACT.at(span, line=inside)
    own = short(rest) if stop.start != "header" and reads(rest, stop.start) else None
    return known.LINE_GOES_ON_WITH_WORDS.at(span, rest=short(rest), own=own)


def inner_line(code: str, start: str) -> str | None:
    """A line as it would stand in a kind of block, in the language's form; None where it says nothing there."""
    from halfhank.grammar.language import FACTS
    from halfhank.grammar.lines.trade_lines import line_of_trade
    from halfhank.grammar.lines.trade_rows import row_of_trade

    if start not in FACTS:
        return None
    code = code.strip()
    forms = [code, line_of_trade(code, start), row_of_trade(code) if start == "in_stitch" else None]
    return next((line for line in forms if line and reads(line, start)), None)


def _ended(stop: ParseStop) -> Problem:
    from halfhank.grammar.lines.missing_ends import missing_end, unpaired

    code = stop.source.code
    lone = unpaired(code)
    if lone is not None:
        span = Span(stop.source.number, lone + 1, lone + 2)
        return known.UNPAIRED_SIGN.at(span, sign=code[lone], partner="]" if code[lone] == "[" else "*")
    mend = missing_end(code)
    if _only_units(stop.accepts):
        return known.MISSING_UNIT_AT_END.at(stop.span, mend=mend, fits=None if mend else _units(stop))
    return known.LINE_TOO_SHORT.at(stop.span, mend=mend, fits=None if mend else _fits(stop.accepts))


def _units(stop: ParseStop) -> str:
    """The units that fit where the line stopped."""
    from halfhank.grammar.lines.missing_ends import units_behind

    return _listed([f"`{unit}`" for unit in units_behind(stop.before, {*keywords(stop.accepts), *signs(stop.accepts)})])


def _wrong_token(stop: ParseStop) -> Problem:
    token, accepts, fits = stop.token, stop.accepts, _fits(stop.accepts)
    if token.type in _NUMBERS or token.type == "CABLE":
        return known.UNEXPECTED_NUMBER.at(stop.span, number=short(token), fits=fits)
    if token.type in ("TEXT", "UNCLOSED"):
        return known.UNEXPECTED_TEXT.at(stop.span, fits=fits)
    quoted = re.match("'([^'\"]*)'", stop.rest) if "TEXT" in accepts else None
    span = stop.span._replace(end=stop.column + quoted.end()) if quoted else stop.span
    meant = quoted and f'"{quoted[1]}"'
    return known.UNEXPECTED_SIGN.at(span, sign=str(token), meant=meant, fits=None if meant else fits)


def _wrong_word(stop: ParseStop, words: tuple[str, ...] | None) -> Problem:
    token, span = stop.token, stop.span
    meant = " ".join(words) if words else None
    if meant and not mends(stop.source.code, stop.start, span, meant):
        meant = None
    if token.column == stop.source.column and not words:
        return _wrong_first_word(stop)
    if not meant and "TEXT" in stop.accepts:
        meant, span = f'"{short(stop.rest)}"', span._replace(end=stop.column + len(stop.rest))
    fits = None if meant else _fits(stop.accepts)
    return known.UNKNOWN_WORD.at(span, word=short(token), meant=meant, fits=fits)


def _wrong_first_word(stop: ParseStop) -> Problem:
    """The problem of a line whose first word says nothing in this block."""
    word = str(stop.token)
    if stop.start == "header":
        meant = SYNONYMS.get(word.casefold(), ("",))
        home = _home(meant[0])
        values: dict[str, object] = {"meant": " ".join(meant), "home": home, "fits": _fits(stop.accepts)}
        return known.UNKNOWN_WORD_AS_HEADER.at(stop.span, word=short(word), **values)
    block, home = stop.start.removeprefix("in_"), _home(word)
    fits = None if home else _fits(stop.accepts)
    return known.UNKNOWN_WORD_IN_BLOCK.at(stop.span, word=short(word), block=block, full=word, home=home, fits=fits)


def _home(word: str) -> str | None:
    """The kind of block in which a line may begin with this word, the first of several; None without."""
    return next((kind.name for kind in HEADERS.values() if any(word in fact.words for fact in kind.facts)), None)


def _only_units(accepts: set[str]) -> bool:
    words = {word for word, name in types().items() if name in accepts}
    return bool(words) and words <= {*UNITS, "%"} and not accepts & {END, "NUMBER", "WORD", "TEXT"}


def _fits(accepts: set[str]) -> str | None:
    """What fits, as a list in words; None where that is too much to be of help."""
    known_words = keywords(accepts)
    named = [word for word in known_words if word + "s" not in known_words and word not in ITEMS]
    words = [f"`{word}`" for word in sorted(named + ([] if named else signs(accepts)))]
    words += [name for kind, name in _KINDS.items() if kind in accepts]
    return _listed(words) if 0 < len(words) <= _MAX_LISTED else None


def _listed(words: list[str]) -> str:
    return ", ".join(words[:-1]) + " or " + words[-1] if len(words) > 1 else words[0]


def short(word: str) -> str:
    """A word as a message shows it: cut where it is very long."""
    return word if len(word) <= 40 else word[:39] + "…"
