"""One source line's characters: where its comment starts, and characters that word processors and keyboards slip in.

Every correction replaces one character by one character, so that columns stay those of the file.
"""

from collections.abc import Callable

from halfhank.grammar.problems import parse_problems as known
from halfhank.grammar.problems.problem import Problem
from halfhank.grammar.record import NamedTuple

_CURLY = "“”„‟«»″"
_DASHES = "‐‑‒–—―−"
_FOREIGN = "\ufffd"


class Cleaned(NamedTuple):
    """A line without its comment (`code`, corrected), the offset of its `#`, and the first odd character.

    `odd` is its problem, without its place, and the character's column from 1.
    """

    code: str
    comment: int | None
    odd: tuple[Problem, int] | None


def clean(raw: str) -> Cleaned:
    """Take the comment off a line and correct its characters."""
    line = raw.replace("\t", " ")
    if line.isascii() and line.isprintable():
        return _plain(line)
    return _Scan(line).cleaned()


def _plain(line: str) -> Cleaned:
    mark = line.find("#")
    if mark >= 0 and '"' in line[:mark]:
        return _Scan(line).cleaned()
    return Cleaned((line if mark < 0 else line[:mark]).rstrip(), None if mark < 0 else mark, None)


def is_refused(char: str) -> bool:
    """Whether a character is allowed nowhere: controls, line separators, lone surrogates and noncharacters."""
    code = ord(char)
    if code < 0x20 or 0x7F <= code <= 0x9F:
        return True
    return code in (0x2028, 0x2029) or 0xD800 <= code <= 0xDFFF or code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF


class _Scan:
    """One pass over a line's characters."""

    def __init__(self, line: str) -> None:
        self.line = line
        self.out: list[str] = []
        self.odd: tuple[Problem, int] | None = None
        self.text = ""  # the characters that would close the text we are in
        self.escaped = False

    def cleaned(self) -> Cleaned:
        comment = None
        for offset, char in enumerate(self.line):
            if char == "#" and not self.text:
                comment = offset
                break
            self.out.append(self._inside(char, offset) if self.text else self._outside(char, offset))
        if comment is not None:
            self._comment(comment)
        return Cleaned("".join(self.out).rstrip(" "), comment, self.odd)

    def _comment(self, start: int) -> None:
        for offset in range(start, len(self.line)):
            self._refuse(self.line[offset], offset)

    def _outside(self, char: str, offset: int) -> str:
        if char == '"' or char in _CURLY:
            self.text = '"' if char == '"' else '"' + _CURLY
            if char == "″" and "".join(self.out).rstrip(" ")[-1:].isdigit():
                self._report(offset, lambda: known.CURLY_QUOTE_FOR_INCHES.at(None))
            elif char != '"':
                self._report(offset, lambda: known.CURLY_QUOTE.at(None))
            return '"'
        if char in _DASHES:
            self._report(offset, lambda: known.DASH.at(None))
            return "-"
        if not char.isprintable() or char.isspace():
            if char != " " and not self._refuse(char, offset):
                self._report(offset, lambda: known.ODD_SPACE.at(None, char=_named(char)))
            return " "
        return char

    def _inside(self, char: str, offset: int) -> str:
        if self._refuse(char, offset):
            return _FOREIGN
        if self.escaped:
            self.escaped = False
        elif char == "\\":
            self.escaped = True
        elif char in self.text:
            self.text = ""
            return '"'
        return char

    def _refuse(self, char: str, offset: int) -> bool:
        if not is_refused(char):
            return False
        self._report(offset, lambda: known.CONTROL_CHARACTER.at(None, char=_named(char)))
        return True

    def _report(self, offset: int, problem: Callable[[], Problem]) -> None:
        """Note the line's first problem; those after it are not even made."""
        if self.odd is None:
            self.odd = (problem(), offset + 1)


def _named(char: str) -> str:
    known = {"\u00a0": "A no-break space", "\u202f": "A narrow no-break space", "\u200b": "A zero-width space"}
    return known.get(char, f"U+{ord(char):04X}")
