"""Phrases that knitters use and the language does not, and what to write for each.

Loaded only once a line has a mistake of grammar.
"""

import re
from collections.abc import Iterator

from halfhank.grammar.lines.trade_lines import OFTEN, often_of_trade
from halfhank.grammar.record import NamedTuple

# US sizes of knitting needles in mm (common conversion tables).
US_NEEDLES_MM = {"0": 2, "1": 2.25, "2": 2.75, "3": 3.25, "4": 3.5, "5": 3.75, "6": 4, "7": 4.5, "8": 5, "9": 5.5}
US_NEEDLES_MM |= {"10": 6, "10.5": 6.5, "11": 8}

FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}

_MAX_SHOWN = 60


class Suggestion(NamedTuple):
    """What to write for a phrase of a line.

    `start` and `end` are the phrase's offsets, `code` is the problem's, `mended` the line as the hint would make it
    (None where its columns or its meaning would not be those of the line). `put` is what the hint says to write in the
    phrase's place, None where it says something else; `lines` are whole lines that it has.
    """

    start: int
    end: int
    code: str
    hint: str
    mended: str | None
    put: str | None = None
    lines: tuple[str, ...] = ()


class _Phrase(NamedTuple):
    """A phrase of the trade: its `pattern`, whose group `at`, or else the whole match, is reported.

    `rules`: the start rules that read such lines, all where empty.

    `put` replaces the match in the line; `hint` replaces "write `put`", and then the line is not corrected. `other`
    may be meant as well.
    """

    rules: str
    pattern: str
    put: str
    code: str = "unknown-word"
    hint: str = ""
    other: str = ""


_SIDE_OF_SPINE = (
    r"(?:the +)?(?:each|both|either) +(?:edges?|sides?|ends?) +of +(?:the +)?"
    r"(?:spine|cent(?:re|er)(?:[ -]+(?:st|stitch|sts|stitches))?)\b(?:[ -]+(?:st|stitch|sts|stitches)\b)?"
)
_PRINTED_ROW = (
    r"(?:rows? *[0-9]+\b(?! *(?:, *[0-9]+ *)*(?:rows?|ridges?|repeats?)\b)"
    r"|(?:RS|WS|[0-9]+(?:st|nd|rd|th))(?: +\((?:RS|WS)\))?(?: +rows?)?(?: +\((?:RS|WS)\))? *:"
    r"|next +(?:RS +|WS +)?rows?\b)"
)
_ROWS_ELSEWHERE = "rows belong in a `stitch` block; a part says which stitch and how long, as in `{}`"

_TOGETHER = r" *-?{0} *(?:tog|together)(?: +(?:tbl|through +(?:the +)?back(?: +loops?)?))?"
_METHODS = (
    (r"yarn[- ]?overs?|yfwd|yrn", "yo"),
    (r"make[- ]?(?:1|one)(?: +(?:left|right))?", "m1"),
    (r"k(?:nit)?(?: +(?:1|one))?(?: +in(?:to)?)?(?: +the)?[- ]*front[- ]*(?:and|&)(?: +the)?[- ]*back", "kfb"),
    (r"slip,? *slip,? *knit|skpo?|sl1-?k1-?psso", "ssk"),
    (r"cdd|sl2-?k1-?p2sso", "s2kp"),
    (r"sk2po|sl1-?k2tog-?psso", "sk2p"),
    *(
        (f"{side}{_TOGETHER.format(count)}", f"{side[0]}{count}tog")
        for side in ("k(?:nit)?", "p(?:url)?")
        for count in (2, 3)
    ),
)
"""How stitches of shaping lines are made, in the trade's words."""

_PHRASES = (
    _Phrase(
        "in_shape in_part",
        r"\b((?:increase|decrease) +([0-9]+) +at +(?:each|upper|lower) +edge) +and +(?:(?:at|on) +)?" + _SIDE_OF_SPINE,
        r"\1 and \2 at spine",
    ),
    _Phrase("in_shape in_part", r"\b(?:(?:at|on) +)?" + _SIDE_OF_SPINE, "at spine"),
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
    _Phrase("in_stitch", r"\(([^()\[\]]+)\)(?= *(?:,|$|[a-z]))(?! *(?:to|until)\b)", r"\1", "unexpected-sign"),
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
    _Phrase(
        "in_part",
        r"(?P<at>\b(?:until|till)\b[^\"]*?\b([0-9.]+) *(g|oz)\b[^\"]*)$",
        r"keep \2 \3",
        hint="write `as yarn allows`, and `{}` in the `yarn` block",
    ),
    _Phrase(
        "in_shape in_part",
        r"^ *(?P<at>((?:increase|decrease) +[0-9]+)(?: +sts?| +stitches)?( +(?:evenly|at +[a-z]+(?: edge)?))"
        r" +(?:on|in) +rows? +([0-9]+) *(?:,|and|&).*)$",
        r"\2\3 from row \4",
        hint="write a line for each row, as in `{}`",
    ),
    _Phrase(
        "in_part",
        r"^ *([^\W\d][\w-]*) +[0-9.]+ *(?P<at>cm\b|mm\b|in\b|inch(?:es)?\b|\")",
        r"\1 40 rows",
        hint="count the rows by the gauge, as in `{}`",
    ),
    _Phrase(
        "in_stitch",
        r"^ *(?P<at>(?:gauge|tension) +([0-9.]+) *(?:sts?|stitches)(?: +(?:over|to|per|in|=) +([0-9.]+ *(?:cm|in)))?)$",
        r"gauge \2 sts 40 rows over 10 cm",
        hint="give stitches and rows, as in `{}`",
    ),
    _Phrase("in_part", r"^ *(?P<at>eyelet +rows?)$", "eyelet-row 1 repeat"),
    _Phrase(
        "in_part",
        r"^ *(?P<at>(?:[0-9] *x *[0-9]|k[0-9] *,? *p[0-9])? *rib(?:bing)?\b.*)$",
        "row 1: *k2, p2*",
        hint="describe it in a `stitch` block, as in `{}`",
    ),
    _Phrase(
        "in_part",
        r"^ *(?P<at>rep(?:eat)? +(?:these +)?rows? +[0-9].*?\b([0-9]+) +times?)$",
        r"mesh \2 repeats",
        hint="write the stitch and how often, as in `{}`",
    ),
    _Phrase("in_part", r"\b(?:until|till|to)\b[^\"]*?\byarn\b(?: +[a-z]+)*", "as yarn allows"),
    _Phrase(
        "header",
        r"^(?:cast +off|bo|(?:bind|cast) +off +(?:all|every)\b.*)$",
        "bind off standard",
        other="bind off elastic",
    ),
    _Phrase("header", r"^(?:bind|cast) +off +(?:loosely|stretch(?:il)?y)$", "bind off elastic"),
    _Phrase(
        "header",
        r"^yarn\b.*?\b([0-9.]+) *(g|oz|m|yd)s?\b *(?:[/=,;:–-]|per|to|is)* *([0-9.]+) *(g|oz|m|yd)s?\b.*$",
        r"skein \1 \2 \3 \4",
        hint="write `yarn`, and under it, indented, `{}`",
    ),
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
    _Phrase(
        "in_shape in_part",
        r"(?<=at )(?:each +(?:edges|ends?|sides?)|(?:both|either) +(?:edges?|ends?|sides?))\b",
        "each edge",
    ),
    _Phrase(
        "in_part",
        r"^ *(?P<at>drop +([0-9]+)(?: *, *[0-9]+)+ +wraps?)(?= *(?:\"|$))",
        r"drop \2 wraps",
        "unexpected-number",
        hint="`drop` takes one number of wraps: write `{}`",
    ),
    *(_Phrase("in_shape in_part", rf"(?<=[0-9] )(?:{pattern})\b", put) for pattern, put in _METHODS),
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


def suggestions_at(code: str, column: int, rule: str, shape: str | None = None) -> Iterator[Suggestion]:
    """What to write for the phrases around a column (from 1) at which reading stopped, the best first.

    `shape` is that of the shawl, None where it is not known.
    """
    for suggestion in _suggestions(code, rule, shape):
        if suggestion.start <= column - 1 <= suggestion.end:
            yield suggestion


def _suggestions(code: str, rule: str, shape: str | None) -> Iterator[Suggestion]:
    yield from _fractions(code, rule)
    yield from _needles(code, rule)
    yield from _placeless(code, rule, shape)
    yield from _often(code, rule)
    for phrase in _PHRASES:
        if phrase.rules and rule not in phrase.rules.split():
            continue
        for match in re.finditer(phrase.pattern, code, re.IGNORECASE):
            yield _found(phrase, match)


def _found(phrase: _Phrase, match: re.Match[str]) -> Suggestion:
    group = "at" if "at" in match.re.groupindex else 0
    put = match.expand(phrase.put)
    start, end = match.span(group)
    if not put:
        hint, mended = phrase.hint or f"remove `{_shown(match[group].strip())}`", _replaced(match, group, "")
        return Suggestion(start, end, phrase.code, hint, mended, None if phrase.hint else "")
    shown = _shown(put)
    if phrase.hint:
        return Suggestion(start, end, phrase.code, phrase.hint.format(shown), None)
    hint = f"write `{shown}`" + (f" or `{phrase.other}`" if phrase.other else "")
    return Suggestion(start, end, phrase.code, hint, _replaced(match, 0, put), put)


def _often(code: str, rule: str) -> Iterator[Suggestion]:
    """How often in the trade's words: `every other row`, `on RS rows`."""
    if rule not in ("in_shape", "in_part"):
        return
    for match in OFTEN.finditer(code):
        put = often_of_trade(match)
        yield Suggestion(*match.span(), "unknown-word", f"write `{put}`", _replaced(match, 0, put), put)


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
        yield Suggestion(match.start(), match.end(), "unexpected-sign", f"write `{value:.12g}`", None, f"{value:.12g}")
    if re.match(r" *rows?\b", code) and rule == "in_stitch":
        return
    for match in re.finditer(r"\b([0-9]{1,9}) +([1-7])/([2-8])\b", code):
        value = int(match[1]) + int(match[2]) / int(match[3])
        yield Suggestion(
            match.start(),
            match.end(),
            "unexpected-number",
            f"write `{round(value, 3):g}`",
            None,
            f"{round(value, 3):g}",
        )


def _needles(code: str, rule: str) -> Iterator[Suggestion]:
    match = re.match(r"needles +((?:US(?=[0-9])|(?:US|size|no)\b).*)$", code, re.IGNORECASE)
    if match is None or rule != "header":
        return
    size = re.fullmatch(r"US *(?:size)? *([0-9]+(?:\.5)?)", match[1], re.IGNORECASE)
    known = size and size[1] in US_NEEDLES_MM
    put = f"{US_NEEDLES_MM[size[1]]:g} mm" if size and known else None
    hint = f"write `{put}`" if put else "write their size in `mm`"
    yield Suggestion(match.start(1), match.end(1), "wrong-unit", hint, None, put)


def _placeless(code: str, rule: str, shape: str | None) -> Iterator[Suggestion]:
    """A shaping line that does not say where, with the places that its stitches usually have in the shape."""
    match = re.fullmatch(
        r" *(inc|dec)(?:rease)? +([1-9][0-9]{0,3})(?: +(?:sts?|stitch(?:es)?))?"
        r"((?: +(?:every|each|on)\b.*?)?)(?: *\(.*\))?",
        code,
        re.IGNORECASE,
    )
    if match is None or rule not in ("in_shape", "in_part"):
        return
    often = re.sub(r" +each(?= +row\b)", " every", OFTEN.sub(often_of_trade, match[3]))
    lines = [f"{match[1].lower()}rease {where}{often}" for where in _usual_places(int(match[2]), shape)]
    start = len(code) - len(code.lstrip(" "))
    hint = "write " + ", or ".join(f"`{line}`" for line in lines)
    if not lines:
        hint = "remove this line: every row of a rectangle has the stitches of the cast-on"
    yield Suggestion(start, len(code), "unknown-word", hint, None, lines=tuple(lines))


def _usual_places(number: int, shape: str | None) -> list[str]:
    """Where so many stitches are increased or decreased in a row of a shape, as shaping lines say it.

    Common practice: a triangle is shaped at its edges and beside its spine, a crescent at its edges, a half-circle
    evenly, a piece worked sideways at one edge.
    """
    evenly = f"{number} evenly"
    if shape == "rectangle":
        return []
    if shape == "half-circle":
        return [evenly]
    if shape in ("tip-to-tip", "asymmetric"):
        return [f"{number} at lower edge", f"{number} at upper edge"]
    if number % 2:
        return ["1 at spine", "1 at each edge"] if number == 1 and shape != "crescent" else [evenly]
    edges = number // 2 if shape == "crescent" else (number + 2) // 4
    spine = number // 2 - edges
    at_places = f"{edges} at each edge" + f" and {spine} at spine" * bool(spine)
    return [at_places] if shape == "triangle" else [at_places, evenly]
