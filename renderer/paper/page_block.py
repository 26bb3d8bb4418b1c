"""PageStack of a page, one below the other, and the column that they keep to."""

import re
from collections.abc import Callable

from halfhank.grammar.record import NamedTuple
from halfhank.renderer.paper.scene import Group
from halfhank.renderer.paper.text_widths import text_width, wrap

MOST_LINES = 200
"""More lines than any text of a page has: they are never cut."""
_UNITS = re.compile(r"(?<=[0-9]) (?=(?:mm|cm|m|in|yd|g|oz|sts?|rows?)\b|[%×])|(?<=row) (?=[0-9])|(?<=rows) (?=[0-9])")
_JOINT = "\u00b7"
"""A middle dot, which is as wide as a space: it stands for one that lines are not broken at."""


class PageColumn(NamedTuple):
    """The column that all blocks keep to: its left edge and width, mm."""

    left: float
    width: float

    @property
    def right(self) -> float:
        return self.left + self.width


class PageBlock(NamedTuple):
    """A group and where it ends, mm from the top of the page."""

    group: Group
    bottom: float


def text_lines(text: str, width: float, size: float, bold: bool = False) -> list[str]:
    """The text in lines of so much width, mm, none broken between a figure and its unit, none cut.

    Where the last one would be a single word, the word before goes with it; not a word that was broken itself.
    """
    if _JOINT in text:
        return wrap(text, width, size, MOST_LINES, bold=bold)
    joined = _UNITS.sub(_JOINT, text)
    return [line.replace(_JOINT, " ") for line in _balanced(joined, width, size, bold)]


def _balanced(joined: str, width: float, size: float, bold: bool) -> list[str]:
    lines = wrap(joined, width, size, MOST_LINES, bold=bold)
    if len(lines) < 2 or _is_several(lines[-1]) or " ".join(lines) != joined:
        return lines
    shorter, _, word = lines[-2].rpartition(" ")
    last = f"{word} {lines[-1]}"
    fits = shorter and text_width(last, size, bold=bold) <= width
    return [*lines[:-2], shorter, last] if fits else lines


def _is_several(line: str) -> bool:
    return " " in line or _JOINT in line


class PageStack:
    """A page's blocks as they are stacked: their groups, and where the last one ends, mm from the top."""

    def __init__(self, top: float) -> None:
        self.groups: list[Group] = []
        self.bottom = top

    def add(self, gap: float, make: Callable[[float], PageBlock]) -> None:
        """Makes a block so far below the last one; the first has no gap above it."""
        block = make(self.bottom + (gap if self.groups else 0.0))
        self.groups.append(block.group)
        self.bottom = block.bottom
