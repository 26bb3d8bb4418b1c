"""Texts whose letters run from right to left, among our own that run from left to right.

`with_isolates` keeps such words from taking a text of ours apart: without it the 100 of a yarn's Arabic name and
"100 g" behind it stands on the wrong side of the name. `visual` puts letters into the order in which they are seen, for
what draws them one after the other. Both follow the Unicode Bidirectional Algorithm (UAX #9, revision 48) for a
paragraph from left to right with isolates and without embeddings.
"""

import unicodedata
from collections.abc import Iterator, Sequence

FIRST_STRONG, LEFT_TO_RIGHT, RIGHT_TO_LEFT, POP = "\u2068", "\u2066", "\u2067", "\u2069"
MARKS = frozenset({FIRST_STRONG, LEFT_TO_RIGHT, RIGHT_TO_LEFT, POP})
"""The isolates, of no width."""
_BRACKETS = {"(": ")", "[": "]", "{": "}"}
MIRRORED = dict(zip("()[]{}<>«»‹›", ")(][}{><»«›‹", strict=True))
_STARTS = {FIRST_STRONG: -1, LEFT_TO_RIGHT: 0, RIGHT_TO_LEFT: 1}


def runs_leftwards(text: str) -> bool:
    """Whether the text has a letter that is written from right to left."""
    return not text.isascii() and any(unicodedata.bidirectional(c) in ("R", "AL") for c in text)


def isolated(text: str) -> str:
    """A whole text of others as one unit whose first letter says at which side it begins, if any runs leftwards."""
    return f"{FIRST_STRONG}{text}{POP}" if runs_leftwards(text) else text


def with_isolates(text: str) -> str:
    """The text with each run of words from right to left isolated; where it has isolates already, with those alone."""
    if not runs_leftwards(text) or not MARKS.isdisjoint(text):
        return text
    pieces, done = [], 0
    for first, last in _leftward_runs(text):
        pieces += [text[done:first], FIRST_STRONG, text[first:last], POP]
        done = last
    return "".join([*pieces, text[done:]])


def _leftward_runs(text: str) -> Iterator[tuple[int, int]]:
    """First and one past the last letter of each run: from its first letter to its last one before a letter of ours."""
    first, last = -1, -1
    for at, character in enumerate(text):
        kind = unicodedata.bidirectional(character)
        if kind in ("R", "AL") or (kind == "NSM" and last == at):
            first, last = (at if first < 0 else first), at + 1
        elif kind == "L" and first >= 0:
            yield first, last
            first = -1
    if first >= 0:
        yield first, last


def closed(lines: Sequence[str]) -> list[str]:
    """Lines of one text that was broken: an isolate that is open at the end of a line ends there and begins anew."""
    if MARKS.isdisjoint("".join(lines)):
        return [*lines]
    done, opened = [], list[str]()
    for line in lines:
        whole = "".join(opened) + line
        opened = []
        for character in whole:
            if character in _STARTS:
                opened.append(character)
            elif character == POP and opened:
                opened.pop()
        done.append(whole + POP * len(opened))
    return done


def visual(text: str) -> str:
    """The letters in the order in which they are seen from left to right, brackets mirrored, without isolates.

    A mark that stands on a letter stays behind it.
    """
    if not runs_leftwards(text):
        return "".join(c for c in text if c not in MARKS)
    levels = _levels(text, 0)
    order = _reordered(levels)
    seen = [MIRRORED.get(text[k], text[k]) if levels[k] % 2 else text[k] for k in order if text[k] not in MARKS]
    return _marks_behind(seen)


def _levels(text: str, base: int) -> list[int]:
    """The embedding level of each character (rules X5a to X6a, then W, N and I for the text outside its isolates)."""
    levels, outer, kinds, letters = [base] * len(text), list[int](), list[str](), list[str]()
    at = 0
    while at < len(text):
        outer.append(at)
        letters.append(text[at])
        if text[at] in _STARTS:
            end = _end_of_isolate(text, at)
            inner = text[at + 1 : end]
            direction = _STARTS[text[at]] if _STARTS[text[at]] >= 0 else _first_strong(inner)
            levels[at + 1 : end] = _levels(inner, base + 1 + (base + 1 + direction) % 2)
            kinds.append("ON")
            at = end
        else:
            kinds.append("ON" if text[at] == POP else unicodedata.bidirectional(text[at]) or "L")
            at += 1
    for place, level in zip(outer, _resolved(kinds, letters, base), strict=True):
        levels[place] = level
    return levels


def _end_of_isolate(text: str, start: int) -> int:
    """Where the isolate's end stands, or the end of the text."""
    depth = 0
    for at in range(start, len(text)):
        depth += (text[at] in _STARTS) - (text[at] == POP)
        if depth == 0:
            return at
    return len(text)


def _first_strong(text: str) -> int:
    """1 where the first letter runs from right to left (rules P2 and P3)."""
    kinds = (unicodedata.bidirectional(c) for c in text)
    return int(next((kind for kind in kinds if kind in ("L", "R", "AL")), "L") != "L")


def _resolved(kinds: list[str], letters: list[str], base: int) -> list[int]:
    side = "R" if base % 2 else "L"
    kinds = _numbers(_weak(kinds, side), side)
    kinds = _neutrals(_brackets(kinds, letters, side), side)
    rises = ({"R": 1, "AN": 2, "EN": 2}, {"L": 1, "AN": 1, "EN": 1})[base % 2]
    return [base + rises.get(kind, 0) for kind in kinds]


def _weak(kinds: list[str], side: str) -> list[str]:
    """Rules W1 to W3: marks take the class of what they stand on; numbers behind Arabic letters are Arabic ones."""
    done, strong = list[str](), side
    for kind in kinds:
        kind = (done[-1] if done else side) if kind == "NSM" else kind
        strong = kind if kind in ("L", "R", "AL") else strong
        done.append("AN" if kind == "EN" and strong == "AL" else kind)
    return ["R" if kind == "AL" else kind for kind in done]


def _numbers(kinds: list[str], side: str) -> list[str]:
    """Rules W4 to W7: signs within and beside numbers belong to them; numbers behind Latin letters are as those."""
    done = [*kinds]
    for at in range(1, len(done) - 1):
        before, kind, after = done[at - 1 : at + 2]
        if before == after and (kind, before) in (("CS", "EN"), ("CS", "AN"), ("ES", "EN")):
            done[at] = before
    for run in _runs_of(done, ("ET",)):
        beside = (done[run.start - 1] if run.start else "", done[run.stop] if run.stop < len(done) else "")
        done[run.start : run.stop] = ["EN" if "EN" in beside else "ON"] * len(run)
    strong = side
    for at, kind in enumerate(done):
        strong = kind if kind in ("L", "R") else strong
        done[at] = "L" if kind == "EN" and strong == "L" else kind
    return done


def _brackets(kinds: list[str], letters: list[str], side: str) -> list[str]:
    """Rule N0: a pair of brackets belongs to the side around if that is within, else to the other if that is before."""
    done = [*kinds]
    for start, end in sorted(_pairs(kinds, letters)):
        within = {_strong(kind) for kind in done[start + 1 : end]} - {""}
        before = next((_strong(kind) for kind in done[:start][::-1] if _strong(kind)), side)
        if within:
            done[start] = done[end] = side if side in within or before == side else before
    return done


def _strong(kind: str) -> str:
    """The side that a class counts for, numbers as from right to left; empty for neutrals."""
    return "L" if kind == "L" else "R" if kind in ("R", "EN", "AN") else ""


def _pairs(kinds: list[str], letters: list[str]) -> Iterator[tuple[int, int]]:
    """Places of brackets that belong together (BD16)."""
    opened: list[int] = []
    for at, (kind, letter) in enumerate(zip(kinds, letters, strict=True)):
        if kind == "ON" and letter in _BRACKETS:
            opened.append(at)
        elif kind == "ON" and letter in _BRACKETS.values():
            matching = [place for place in opened if _BRACKETS[letters[place]] == letter]
            if matching:
                yield matching[-1], at
                opened = [place for place in opened if place < matching[-1]]


def _neutrals(kinds: list[str], side: str) -> list[str]:
    """Rules N1 and N2: what lies between two sides that are one belongs to it, all else to the text around."""
    plain = [kind if kind in ("L", "R", "EN", "AN") else "ON" for kind in kinds]
    for run in _runs_of(plain, ("ON",)):
        before = plain[run.start - 1] if run.start else side
        after = plain[run.stop] if run.stop < len(plain) else side
        one, other = ("L" if kind == "L" else "R" for kind in (before, after))
        plain[run.start : run.stop] = [one if one == other else side] * len(run)
    return plain


def _runs_of(kinds: list[str], wanted: tuple[str, ...]) -> list[range]:
    runs, start = list[range](), None
    for at, kind in enumerate([*kinds, ""]):
        if kind in wanted:
            start = at if start is None else start
        elif start is not None:
            runs.append(range(start, at))
            start = None
    return runs


def _reordered(levels: list[int]) -> list[int]:
    """Places in the order in which they are seen (rule L2)."""
    order = [*range(len(levels))]
    for level in range(max(levels, default=0), 0, -1):
        at = 0
        while at < len(order):
            end = at
            while end < len(order) and levels[order[end]] >= level:
                end += 1
            order[at:end] = order[at:end][::-1]
            at = max(end, at + 1)
    return order


def _marks_behind(seen: list[str]) -> str:
    """Marks stood behind their letter in reading order, and stand before it where that is turned round (rule L3)."""
    done, waiting = list[str](), list[str]()
    for character in seen:
        if unicodedata.combining(character) and unicodedata.bidirectional(character) == "NSM":
            waiting.append(character)
        else:
            done += [character, *waiting[::-1]] if waiting and runs_leftwards(character) else [*waiting, character]
            waiting = []
    return "".join([*done, *waiting])
