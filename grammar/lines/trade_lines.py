"""Whole lines in the trade's form, as patterns print them, put into the language's.

Loaded only once a line has a mistake. Written rows of a stitch stand in `trade_rows.py`.
"""

import re
from collections.abc import Callable

from halfhank.grammar.items import METHODS

ORDINALS = {"other": 2, "alternate": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8}
ORDINALS |= {"tenth": 10, "twelfth": 12}
FIGURES = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9}
FIGURES |= {"ten": 10, "twelve": 12}

_ORDINAL = "|".join(ORDINALS)
_SIDE = r"RS|WS|right[- ]side|wrong[- ]side"
OFTEN = re.compile(
    r"\b(?:on +)?(?:(?:every|each) +(?:(?P<ordinal>"
    + _ORDINAL
    + r")|(?P<nth>[0-9]{1,4})(?:st|nd|rd|th))\b(?: +(?P<side>"
    + _SIDE
    + r")\b)?(?: +rows?\b)?|(?:(?:on|every|each) +){1,3}(?P<only>"
    + _SIDE
    + r")\b(?: +rows?\b)?)",
    re.IGNORECASE,
)
"""How often in the trade's words: `every other row`, `every 4th row`, `on RS rows`, `every other RS row`."""

_LONGEST = 300
_STS = r"(?:sts?|stitch(?:es)?)\b"
_OF_ROW = r"(?: *(?:of|in) +(?:the +)?(?:row|(?=every|each)))?"
_NAME = r"([^\W\d][\w-]*)(?: +(?:st|stitch))?"


def often_of_trade(match: re.Match[str]) -> str:
    """What `OFTEN` found, in the language's words."""
    ordinal, nth, side = match["ordinal"], match["nth"], match["side"] or match["only"]
    rows = ORDINALS[ordinal.lower()] if ordinal else int(nth) if nth else 1
    if not side:
        return "every row" if rows == 1 else f"every {rows} rows"
    later = re.match(r".*\bfrom +row\b", match.string[match.end() :])
    wrong = side[0] in "Ww" and not later
    return f"every {2 * rows} rows" + " from row 2" * wrong


def _start_of_rows(match: re.Match[str]) -> str:
    """The edge at which rows begin: those of the right side at the lower one, those of the wrong side at the upper."""
    if re.match("(?:every|each) +row", match["rows"], re.IGNORECASE):
        return "at each edge every 2 rows"
    wrong = re.match("(?:every|each) +(?:WS|wrong)", match["rows"], re.IGNORECASE) is not None
    starts = match["end"].lower() != "end"
    return f"at {'lower' if starts != wrong else 'upper'} edge {match['rows']}"


_BIND_OFF = r"^(?:(?:bind|cast)[- ]?off|bo)\b"


def _multiple(match: re.Match[str]) -> str:
    return f"multiple of {match[1]} sts" + (f" + {match[2]}" if match[2] else "")


def _unit(letter: str) -> str:
    return "yd" if letter.lower() == "y" else letter.lower()


_METHOD = "|".join(name for methods in METHODS.values() for name in methods)
_BY = r",? *(?:\(|\b(?:with|by|using|as)\b)? *(?:an? +)?\b"
_Put = str | Callable[[re.Match[str]], str]
_SHAPING: tuple[tuple[str, _Put], ...] = (
    (r"^inc(?:r|rease|reasing|s)?\.?(?= )", "increase"),
    (r"^dec(?:r|rease|reasing|s)?\.?(?= )", "decrease"),
    (r"^(?:bo|(?:bind|cast)[- ]off)(?= )", "bind off"),
    (r"\b(" + "|".join(FIGURES) + r")\b", lambda match: str(FIGURES[match[1].lower()])),
    (r"^((?:increase|decrease|bind off) [0-9]+) +" + _STS, r"\1"),
    (rf"^((?:increase|decrease) [0-9]+)( (?:at|evenly)\b(?:(?! and ).)*?){_BY}({_METHOD})s?\b\)?(.*)$", r"\1 \3\2\4"),
    (r"\bon +(?=(?:each|both|either) +(?:sides?|ends?|edges?)\b)", "at "),
    (r"(?<!at )\b(?=(?:each|both|either) +(?:sides?|ends?|edges?)\b)", "at "),
    (
        r"\bat +(?:the +)?(?:each|both|either) +(?:edges?|sides?|ends?) +of +(?:the +)?(?:spine|cent(?:re|er))\b"
        r"(?:[ -]+" + _STS + ")?",
        "at spine",
    ),
    (r"\bat +(?:the +)?(?:each|both|either) +(?:edges?|sides?|ends?)\b" + _OF_ROW + " *", "at each edge "),
    (r"^(m1|yo|kfb)[lr]?(?= +(?:at|on|each)\b)", lambda match: f"increase 1 {match[1].lower()}"),
    (r"^(k2tog|ssk|p2tog|ssp)(?= +(?:at|on|each)\b)", lambda match: f"decrease 1 {match[1].lower()}"),
    (r"\b(?:on|in) +row +([0-9]+)$", r"from row \1"),
    (r"^(increase|decrease)(?: +evenly)? +to +([0-9]+)(?: +" + _STS + ")?(?: +evenly)?$", r"\1 evenly to \2 sts"),
    (r"\bat +(?:the +)?(?P<end>beg(?:inning)?|start|end) +of +(?:the +)?(?P<rows>(?:every|each) .*)$", _start_of_rows),
    (r"\beach(?= +(?:[0-9]+ +)?rows?\b)", "every"),
    (OFTEN.pattern, often_of_trade),
)
_BANDS: tuple[tuple[str, _Put], ...] = (
    (
        r"^(?:(?:work|knit|continue)(?: +(?:for|another|the +next|next))* +)?([0-9]+) +(?:more +)?"
        r"(rows?|ridges?|repeats?)(?: +more)? +(?:of +|in +)?(?:the +)?" + _NAME + "$",
        r"\3 \1 \2",
    ),
    (
        r"^(?:(?:work|continue)(?: +in)? +)?"
        + _NAME
        + r"(?: *: *| +for +|, *| +x +)([0-9]+) +(rows?|ridges?|repeats?)$",
        r"\1 \2 \3",
    ),
    (r"^work +(?:in +)?" + _NAME + r" +([0-9]+) +(rows?|ridges?|repeats?)$", r"\1 \2 \3"),
    (r"^(?:work|continue)(?: +in)? +" + _NAME + r" +(?:until|till|to)\b.*\byarn\b.*$", r"\1 as yarn allows"),
    (r"^work +even$", "even"),
    (
        "^" + _NAME + r" +([0-9]+(?: +[0-9]+)+) +(rows?|ridges?|repeats?)$",
        lambda match: f"{match[1]} {', '.join(match[2].split())} {match[3]}",
    ),
    (r"^" + _NAME + r" +([0-9]+) *(?:x|times?)$", r"\1 \2 repeats"),
    (r"^rep(?:eat)? +(?:these +rows +)?([0-9]+)(?: +times|x)?$", r"repeat \1 times"),
)
_START: tuple[tuple[str, _Put], ...] = (
    (
        r"^garter +tab(?: +cast[- ]?on)? *:? +(?:of +)?([0-9]+) +"
        + _STS
        + r",? *(?:and +|for +|x +|by +)?([0-9]+) +rows?$",
        r"garter tab \1 sts \2 rows",
    ),
    (r"^edges? +(?:of +)?([0-9]+)(?: +" + _STS + r")?(?: +each +side)? +in +" + _NAME + "$", r"edge \1 sts \2"),
    (
        r"^(?:pin|block(?:ed)?) +(?:out +)?to *:? *([0-9.]+) *(cm|in)?(?:ches)? *(?:x|×|by|and) *([0-9.]+) *(cm|in)"
        r"(?:ches)?$",
        lambda match: f"pinned to {match[1]} {match[2] or match[4]} by {match[3]} {match[4]}",
    ),
    (r"^edges?(?: +" + _STS + r")? *:? *([0-9]+)(?: +" + _STS + r")?(?: +(?:at +)?each +\w+)?$", r"edge \1 sts"),
    (r"^(?:co|cast[- ]?on)\b *:? *([0-9]+)(?: *(?:sts?|stitch(?:es)?))?$", r"cast on \1 sts"),
)
_GAUGE: tuple[tuple[str, _Put], ...] = (
    (
        r"^(?:(?:gauge|tension)\b)? *:? *([0-9.]+) *(?:sts?|stitches)(?: *(?:and|x|×|/|,|&|by) *| +)([0-9.]+) *rows?"
        r" *(?:=|to|over|in|per|on|:)? *([0-9.]+) *(cm|in|inches|\")(?: *\(.*\)| +(?:in|after|on|with) +.*)?$",
        lambda match: f"gauge {match[1]} sts {match[2]} rows over {match[3]} {'cm' if match[4] == 'cm' else 'in'}",
    ),
    (r"^multiple +of +([0-9]+)(?: +" + _STS + r")?(?: *(?:\+|plus|and) *([0-9]+)(?: +" + _STS + ")?)?$", _multiple),
    (
        r"^swatch *:? *(?:of +)?([0-9]+) +" + _STS + r",? *(?:and +|x +|by +)?([0-9]+) +rows?,? +(weighs|takes)\b",
        r"swatch \1 sts \2 rows \3",
    ),
)
_UNIT = r"(g|oz|m|y)(?:rams?|unces?|et(?:er|re)s?|(?:ar)?ds?)?\b"
_SKEIN: tuple[tuple[str, _Put], ...] = (
    (
        r"^(?:skein|ball|hank)? *:? *([0-9.]+) *" + _UNIT + r"(?: *\([^()]*\))? *(?:[/=,;:–-]|per|to|is)*"
        r" *([0-9.]+) *" + _UNIT + r"(?: *\([^()]*\))?$",
        lambda match: f"skein {match[1]} {_unit(match[2])} {match[3]} {_unit(match[4])}",
    ),
)
_HEADERS: tuple[tuple[str, _Put], ...] = (
    (r'^(?:title|name|shawl) *:? +["\']?([^"]+?)["\']?$', r'shawl "\1"'),
    (r"^needles? *:?(?= ).*?(?<![0-9./])([0-9]+(?:\.[0-9]+)?) *mm\b.*$", r"needles \1 mm"),
    (_BIND_OFF + r"(?: +(?:all|every|the|sts?|stitches))* +(?:loosely|stretch(?:il)?y)(?: .*)?$", "bind off elastic"),
    (_BIND_OFF + r"(?: +(?:all|every|the|sts?|stitches|knitwise|in +pattern))*$", "bind off standard"),
    (_BIND_OFF + r"(?!.*\b(?:takes|cast)\b).*\b(standard|elastic|picot|i-cord)\b.*$", r"bind off \1"),
    (_BIND_OFF + r"(?= +[a-z])", "bind off"),
    (r'^(?:part|section) *(?:[0-9]+ *)?: *"?([^"]+?)"?$', r'part "\1"'),
    (r'^(?:part|section) +[0-9]+ +"([^"]+)"$', r'part "\1"'),
    (r"^shape *:? +.*\b(?:half|semi)[- ]?circ.*$", "shape half-circle"),
    (r"^shape *:? +.*\b(asymmetric|crescent|rectangle|triangle)\b.*$", r"shape \1"),
)
_FORMS = {
    "header": _HEADERS,
    "in_stitch": _GAUGE,
    "in_yarn": _SKEIN,
    "in_shape": (*_START, *_SHAPING),
    "in_part": (*_SHAPING, *_BANDS),
}


def line_of_trade(code: str, rule: str) -> str | None:
    """A line in the language's form, as far as it is known; None for one that already has it.

    Texts in quotes stay as they are. Whether the line then reads is for the parser to say.
    """
    if len(code) > _LONGEST:
        return None
    found = re.fullmatch(r'( *)([^"]*?)[.;,]?( *"[^"]*")?', code)
    if rule == "header":
        found = re.fullmatch(r"( *)(.*?)[.;,]?()", code)
    if found is None:
        return None
    line = found[2]
    for printed, form in _FORMS.get(rule, ()):
        line = re.sub(printed, form, line, flags=re.IGNORECASE).rstrip(" ")
    written = f"{found[1]}{line}{found[3] or ''}"
    return None if written == code else written
