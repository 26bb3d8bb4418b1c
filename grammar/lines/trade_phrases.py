"""Phrases that knitters use and the language does not, and what to write for each.

Loaded only once a line has a mistake of grammar.
"""

import re
from collections.abc import Iterator

from halfhank.grammar.record import NamedTuple

# US sizes of knitting needles in mm (common conversion tables).
US_NEEDLES_MM = {"0": 2, "1": 2.25, "2": 2.75, "3": 3.25, "4": 3.5, "5": 3.75, "6": 4, "7": 4.5, "8": 5, "9": 5.5}
US_NEEDLES_MM |= {"10": 6, "10.5": 6.5, "11": 8}

FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}

_MAX_SHOWN = 60
_LENGTHS, _MASSES = ("cm", "in", "m", "mm", "yd"), ("g", "oz")
# The units that fit behind the last of these words in a line.
_UNITS_BEHIND: dict[str, tuple[str, ...]] = {
    "needles": ("mm",),
    "skein": ("g", "m", "oz", "yd"),
    "keep": ("%", *_MASSES),
    "over": _LENGTHS,
    "to": _LENGTHS,
    "by": _LENGTHS,
    "takes": _LENGTHS,
    "weighs": _MASSES,
    "on": _MASSES,
    "row": _MASSES,
}


class Suggestion(NamedTuple):
    """What to write for a phrase of a line.

    `start` and `end` are the phrase's offsets, `code` is the problem's, `mended` the line as the hint would make it
    (None where its columns or its meaning would not be those of the line).
    """

    start: int
    end: int
    code: str
    hint: str
    mended: str | None


class _Phrase(NamedTuple):
    """A phrase of the trade: its `pattern`, whose group `at`, or else the whole match, is reported.

    `rules`: the start rules that read such lines, all where empty.

    `put` replaces the match in the line; `hint` replaces "write `put`", and then the line is not corrected.
    """

    rules: str
    pattern: str
    put: str
    code: str = "unknown-word"
    hint: str = ""


_SIDE_OF_SPINE = (
    r"(?:the +)?(?:each|both|either) +(?:edges?|sides?|ends?) +of +(?:the +)?"
    r"(?:spine|cent(?:re|er)(?:[ -]+(?:st|stitch|sts|stitches))?)\b(?:[ -]+(?:st|stitch|sts|stitches)\b)?"
)
_PRINTED_ROW = (
    r"(?:rows? *[0-9]+\b(?! *(?:, *[0-9]+ *)*(?:rows?|ridges?|repeats?)\b)"
    r"|(?:RS|WS|[0-9]+(?:st|nd|rd|th))(?: +\((?:RS|WS)\))?(?: +rows?)?(?: +\((?:RS|WS)\))? *:)"
)
_ROWS_ELSEWHERE = "rows belong in a `stitch` block; a part says which stitch and how long, as in `{}`"

_PHRASES = (
    _Phrase(
        "in_shape in_part",
        r"\b((?:increase|decrease) +([0-9]+) +at +(?:each|upper|lower) +edge) +and +(?:(?:at|on) +)?" + _SIDE_OF_SPINE,
        r"\1 and \2 at spine",
    ),
    _Phrase("in_shape in_part", r"\b(?:(?:at|on) +)?" + _SIDE_OF_SPINE, "at spine"),
    _Phrase("in_shape in_part", r"\b(?:(?:on|every|each) +)+(?:RS|right[- ]side)\b(?: +rows?\b)?", "every 2 rows"),
    _Phrase(
        "in_shape in_part",
        r"\b(?:(?:on|every|each) +)+(?:WS|wrong[- ]side)\b(?: +rows?\b)?",
        "every 2 rows from row 2",
    ),
    _Phrase(
        "in_stitch",
        r"(?P<at>\b(?:all +)?(?:even|WS)(?:-numbered)? +rows?)(?P<rest> *:.*)$",
        r"rows 2, 4\g<rest>",
        hint="name each row, as in `{}`",
    ),
    _Phrase(
        "in_stitch",
        r"(?P<at>\b(?:all +)?(?:odd|RS)(?:-numbered)? +rows?)(?P<rest> *:.*)$",
        r"rows 1, 3\g<rest>",
        hint="name each row, as in `{}`",
    ),
    _Phrase(
        "in_stitch", r"[(\[]([^()\[\]]+)[)\]] *[x×] *([0-9]+)\b(?: *times\b)?", r"[\1] \2 times", "unexpected-sign"
    ),
    _Phrase("in_stitch", r"(?<=[0-9]) *(?P<at>\((?:RS|WS)\))", "", "unexpected-sign"),
    _Phrase("in_stitch", r"\(([^()\[\]]+)\) *in +([0-9]+)\b", r"[\1] in \2", "unexpected-sign"),
    _Phrase("in_stitch", r"\(([^()\[\]]+)\) *([0-9]+) *times\b", r"[\1] \2 times", "unexpected-sign"),
    _Phrase("in_stitch", r"\(([^()\[\]]+)\) *twice\b", r"[\1] 2 times", "unexpected-sign"),
    _Phrase("in_stitch", r"\(([^()\[\]]+)\) *(?:across|to +end)\b", r"*\1*", "unexpected-sign"),
    _Phrase("in_stitch", r"\(([^()\[\]]+)\)(?= *(?:,|$|[a-z]))", r"\1", "unexpected-sign"),
    _Phrase("in_stitch", r"(?<=[ ,])((?!rep )[a-z]\w*) +([0-9]+) +times\b", r"[\1] \2 times", "unexpected-number"),
    _Phrase("in_part", r"^ *(?P<at>" + _PRINTED_ROW + r".*)$", "garter 4 rows", hint=_ROWS_ELSEWHERE),
    _Phrase(
        "in_part",
        r"^ *(?P<at>([0-9]+) +(rows?|ridges?) +(?:of +|in +)?([^\W\d][\w-]*)(?: +(?:st|stitch))?)(?= *(?:\"|$))",
        r"\4 \2 \3",
        "unexpected-number",
    ),
    _Phrase(
        "in_part",
        r"^ *(?P<at>([0-9]+) +(rows?|ridges?))$",
        r"garter \2 \3",
        "unexpected-number",
        hint="name the stitch first, as in `{}`",
    ),
    _Phrase("", r"(?<![0-9] )\b(?:st|stocking|stockinette) +(?:st|stitch)\b", "stockinette"),
    _Phrase("in_part", r"\bseed +(?:st|stitch)\b", "moss"),
    _Phrase("", r"\bgarter +(?:st|stitch)\b", "garter"),
    _Phrase("", r"\bmoss +(?:st|stitch)\b", "moss"),
    _Phrase("in_part", r"\b(?:until|till|to)\b[^\"]*?\byarn\b(?: +[a-z]+)*", "as yarn allows"),
    _Phrase("header", r"^(?:cast +off|bo|(?:bind|cast) +off +(?:all|every)\b.*)$", "bind off standard"),
    _Phrase("header", r"^(?:bind|cast) +off +(?:loosely|stretch(?:il)?y)$", "bind off elastic"),
    _Phrase("", r"\bcast +off\b", "bind off"),
    _Phrase(
        "in_yarn",
        r"(?<=skein )( *[0-9.]+ *(?:g|oz|m|yd)) *(?:[/=,;:–-]|per|to|is)+ *([0-9.]+ *(?:g|oz|m|yd))$",
        r"\1 \2",
        "unexpected-sign",
    ),
    _Phrase(
        "in_shape in_part",
        r"(?<=at )(?:the +)?(?:right(?:[- ]hand)?|beginning|start)(?: +(?:edge|side|end))?(?: +of +(?:the +)?rows?)?\b",
        "lower edge",
        hint="write `{}`: right-side rows begin there",
    ),
    _Phrase(
        "in_shape in_part",
        r"(?<=at )(?:the +)?(?:left(?:[- ]hand)?|end)(?: +(?:edge|side|end))?(?: +of +(?:the +)?rows?)?\b",
        "upper edge",
        hint="write `{}`: right-side rows end there",
    ),
    _Phrase("in_shape in_part", r"(?<=at )(?:each|both|either) +(?:ends?|sides?)\b", "each edge"),
    _Phrase("header", r"(?<=shape )(?:half|semi) +circle\b", "half-circle"),
    _Phrase("header", r"(?<=shape )tip +to +tip\b", "tip-to-tip"),
    _Phrase(
        "in_weighed",
        r"^ *(?P<at>(?:(?:(?:at|before|the) +)*cast[ -]*on|(?:(?:at|after) +)?row +0):?"
        r" +([0-9.]+ *(?:g|oz))(?: +left)?)$",
        r"before cast on \2",
    ),
    _Phrase(
        "in_weighed",
        r"^ *(?P<at>(?:at +)?row +([0-9]+):? +([0-9.]+ *(?:g|oz))(?: +left)?)$",
        r"after row \2 \3 left",
    ),
    _Phrase("in_weighed", r"^ *(?P<at>(?:at +)?row +([0-9]+):? +([0-9.]+ *(?:g|oz)) +used)$", r"after row \2 \3 used"),
    _Phrase("in_stitch in_shape", r'\b([0-9]+(?:\.[0-9]+)?) *"', r"\1 in", "unexpected-sign"),
    _Phrase("", r"^ *(?!rows?\b)[^\W\d]+(?: +[^\W\d]+)?(?P<at>:)", "", "unexpected-sign"),
    _Phrase(
        "header",
        r"^bind +off +(?:standard|elastic|picot|i-cord|draw +through) +(?P<at>takes\b.*)$",
        "",
        "line-goes-on",
        hint="write the method or `takes …`, not both",
    ),
    _Phrase("", r"(?P<at>//.*)$", "", "line-goes-on", hint="start a comment with `#`"),
)


def suggestion_at(code: str, column: int, rule: str) -> Suggestion | None:
    """What to write for the phrase around a column (from 1) at which reading stopped, None where none is known."""
    for suggestion in _suggestions(code, rule):
        if suggestion.start <= column - 1 <= suggestion.end:
            return suggestion
    return None


def _suggestions(code: str, rule: str) -> Iterator[Suggestion]:
    yield from _fractions(code, rule)
    yield from _needles(code, rule)
    yield from _placeless(code, rule)
    for phrase in _PHRASES:
        if phrase.rules and rule not in phrase.rules.split():
            continue
        for match in re.finditer(phrase.pattern, code, re.IGNORECASE):
            yield _found(phrase, match)


def _found(phrase: _Phrase, match: re.Match[str]) -> Suggestion:
    group = "at" if "at" in match.re.groupindex else 0
    put = match.expand(phrase.put)
    if not put:
        hint, mended = phrase.hint or "leave it out", _replaced(match, group, "")
    else:
        shown = _shown(put)
        hint = phrase.hint.format(shown) if phrase.hint else f"write `{shown}`"
        mended = None if phrase.hint else _replaced(match, 0, put)
    return Suggestion(match.start(group), match.end(group), phrase.code, hint, mended)


def _shown(put: str) -> str:
    """The words of a correction, shortened if there are many."""
    return put if len(put) <= _MAX_SHOWN else put[: _MAX_SHOWN - 1] + "…"


def _replaced(match: re.Match[str], group: int | str, put: str) -> str | None:
    """The line with other words for a group, filled up with blanks: what follows keeps its column."""
    lead = len(match[0]) - len(match[0].lstrip(" ")) if not group else 0
    start, end = match.start(group) + lead, match.end(group)
    if len(put) > end - start:
        return None
    return match.string[:start] + put.ljust(end - start) + match.string[end:]


def _fractions(code: str, rule: str) -> Iterator[Suggestion]:
    for match in re.finditer(r"([0-9]{0,9}) *([½¼¾⅓⅔⅛⅜⅝⅞])", code):
        value = int(match[1] or 0) + FRACTIONS[match[2]]
        yield Suggestion(match.start(), match.end(), "unexpected-sign", f"write `{value:.12g}`", None)
    if re.match(r" *rows?\b", code) and rule == "in_stitch":
        return
    for match in re.finditer(r"\b([0-9]{1,9}) +([1-7])/([2-8])\b", code):
        value = int(match[1]) + int(match[2]) / int(match[3])
        yield Suggestion(match.start(), match.end(), "unexpected-number", f"write `{round(value, 3):g}`", None)


def _needles(code: str, rule: str) -> Iterator[Suggestion]:
    match = re.match(r"needles +((?:US(?=[0-9])|(?:US|size|no)\b).*)$", code, re.IGNORECASE)
    if match is None or rule != "header":
        return
    size = re.fullmatch(r"US *(?:size)? *([0-9]+(?:\.5)?)", match[1], re.IGNORECASE)
    known = size and size[1] in US_NEEDLES_MM
    hint = f"write `{US_NEEDLES_MM[size[1]]:g} mm`" if size and known else "write their size in `mm`"
    yield Suggestion(match.start(1), match.end(1), "wrong-unit", hint, None)


def _placeless(code: str, rule: str) -> Iterator[Suggestion]:
    """A shaping line that does not say where, with the places that its stitches would usually have."""
    match = re.fullmatch(
        r" *(inc|dec)(?:rease)? +([1-9][0-9]{0,3})(?: +(?:sts?|stitch(?:es)?))?((?: +every\b.*)?)", code
    )
    if match is None or rule not in ("in_shape", "in_part"):
        return
    action, number = f"{match[1]}rease", int(match[2])
    often = re.sub(r"every +(?:RS|right[- ]side)\b(?: +rows?)?", "every 2 rows", match[3], flags=re.IGNORECASE)
    edges, spine = (number + 2) // 4, number // 4
    counts = f", {spine} on each side of the spine" if spine else ""
    both = f"{edges} at each edge" + (f" and {spine} at spine" if spine else "")
    at_places = f"`{action} {both}{often}` makes {number} sts{counts}; " if number % 2 == 0 else ""
    evenly = f"`{action} {number} evenly{often}` spreads them over the row, as in a half-circle"
    hint = f"say where: {at_places}{evenly}" if number > 1 else f"say where, as in `{action} 1 at spine{often}`"
    start = len(code) - len(code.lstrip(" "))
    yield Suggestion(start, len(code), "unknown-word", hint, None)


def units_behind(code: str, accepted: set[str]) -> list[str]:
    """The units that fit after the beginning of a line, of those that the grammar would take."""
    for word in reversed(re.findall(r"[a-z]+", code)):
        if word in _UNITS_BEHIND:
            return sorted(set(_UNITS_BEHIND[word]) & accepted)
    return sorted(accepted)


def unpaired(code: str) -> int | None:
    """Where a star or an opening bracket of a written row has no partner (from 0), None if all have one.

    Of several stars too many the last is meant; a bracket opened inside the stars is closed before them.
    """
    if not code.lstrip().startswith("row") or ":" not in code:
        return None
    stars, open_ = [], []
    for place, sign in enumerate(code):
        if sign == "*":
            stars.append(place)
        elif sign == "[":
            open_.append(place)
        elif sign == "]" and open_:
            open_.pop()
    return open_[-1] if open_ else stars[-1] if len(stars) % 2 else None


def missing_end(code: str) -> str | None:
    """The hint for a line that ends too early, if it can be more exact than a list of what fits."""
    size = re.fullmatch(r" *needles +([0-9.]+) *", code)
    if size and size[1] in US_NEEDLES_MM:
        return f"write `{size[1]} mm`, or `{US_NEEDLES_MM[size[1]]:g} mm` for US {size[1]}"
    if re.fullmatch(r"bind +off *", code):
        return "write `bind off standard`, or name another: `elastic`, `picot`, `i-cord`, `draw through`"
    if re.fullmatch(r" *skein +[0-9.]+ *(?:g|oz) *", code):
        return "add the length, as in `400 m`"
    if re.fullmatch(r" *skein +[0-9.]+ *(?:m|yd) *", code):
        return "add the mass, as in `100 g`"
    return None
