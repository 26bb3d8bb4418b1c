"""The contextual lexer, made for short lines: every state cuts the line into the same pieces.

Which keywords a state knows is all that differs between states, so one compiled pattern serves them all and a keyword
is looked up in a dictionary. A word that is no keyword here stays a whole `WORD`, as it would with all terminals always
accepted.
"""

from collections.abc import Collection, Iterator
from copy import copy
from typing import TYPE_CHECKING

from lark.lexer import BasicLexer, ContextualLexer, Scanner, TerminalDef, Token

if TYPE_CHECKING:
    from lark.common import LexerConf


def is_keyword(terminal: TerminalDef) -> bool:
    """Whether the terminal is a fixed word (`skein`, `i-cord`), against a sign or a pattern."""
    return terminal.pattern.type == "str" and terminal.pattern.value[0].isalpha()


class StateLexer(BasicLexer):
    """The lexer of one parser state: the common `scanner`, and the `keywords` of the state (word to terminal)."""

    def __init__(self, conf: "LexerConf", scanner: Scanner, keywords: dict[str, str]) -> None:
        self.newline_types = frozenset()
        self.ignore_types = frozenset(conf.ignore)
        self.terminals_by_name = conf.terminals_by_name
        self.callback = {"WORD": self._keyword}
        self._scanner = scanner
        self._keywords = keywords

    def _keyword(self, token: Token) -> Token:
        token.type = self._keywords.get(token, "WORD")
        return token


class _Lexers(dict[int, BasicLexer]):
    """Lexers by parser state, each made when its state is first met."""

    def __init__(self, conf: "LexerConf", states: dict[int, Collection[str]]) -> None:
        self._conf, self._states = conf, states
        self._words = {t.name: t.pattern.value for t in conf.terminals if is_keyword(t)}
        self.scanner = _scanner([t for t in conf.terminals if not is_keyword(t)], conf)

    def __missing__(self, state: int) -> BasicLexer:
        words = self._words
        keywords = {words[name]: name for name in self._states[state] if name in words}
        self[state] = lexer = StateLexer(self._conf, self.scanner, keywords)
        return lexer


class LineLexer(ContextualLexer):
    """Lark's contextual lexer with the state lexers above; `states` gives the terminals that each state accepts."""

    def __init__(
        self, conf: "LexerConf", states: dict[int, Collection[str]], always_accept: Collection[str] = ()
    ) -> None:
        conf = copy(conf)
        conf.skip_validation = True
        lexers = _Lexers(conf, states)
        self.lexers = lexers  # type: ignore[assignment]
        self.root_lexer = StateLexer(conf, lexers.scanner, {})


class StraySigns:
    """The post-lexer that does nothing but keep `OTHER` in every state, so that a stray sign is a token as well."""

    always_accept = ("OTHER",)

    @staticmethod
    def process(stream: Iterator[Token]) -> Iterator[Token]:
        """The tokens as they come."""
        return stream


def _scanner(terminals: list[TerminalDef], conf: "LexerConf") -> Scanner:
    ordered = sorted(terminals, key=lambda t: (-t.priority, -t.pattern.max_width, -len(t.pattern.value), t.name))
    return Scanner(ordered, conf.g_regex_flags, conf.re_module, False)  # type: ignore[no-untyped-call]
