"""Written rows in the trade's form, as patterns print them, put into the language's working notation.

Loaded only once a row has a mistake.
"""

import re
from collections.abc import Callable

from halfhank.grammar.items import ITEMS, WHOLE_ROWS
from halfhank.grammar.lines.trade_lines import FIGURES

ITEMS_OF_TRADE = {
    "cdd": "s2kp",
    "cddp": "s2pp",
    "m1p": "m1lp",
    "m1pl": "m1lp",
    "m1pr": "m1rp",
    "sk2po": "sk2p",
    "sl1-k2tog-psso": "sk2p",
    "sl2-k1-p2sso": "s2kp",
    "sl1-k1-psso": "ssk",
    "skp": "ssk",
    "skpo": "ssk",
}
"""Abbreviations of the trade for items that the language calls otherwise (`cdd`: centred double decrease)."""

_CABLE = re.compile("c([0-9]{1,3})([fb])")
"""Cables by their stitches: c4f crosses two over two, the first held at the front."""

_KNOWN = {*ITEMS, *WHOLE_ROWS, "tbl", "wyif", "twice", "with", "wrap", "wraps", "in", "time", "times", "rc", "lc"}
_KNOWN |= {"bind", "cast", "off", "on", "drop"}
_HEAD = re.compile(
    r"( *)(rows?|r)\s*([0-9](?:[0-9,\s–-]|to|and)*)\s*(?:\((?:rs|ws)\)|\b(?:rs|ws)\b)?\s*:?\s*(.*)", re.I
)
_TO_END = r"(?:(?:to|until)(?: the)? end(?: of (?:the )?row)?|across(?: the)?(?: row)?)"
_TO_LAST = r"(?:to|until)(?: the)? last(?: [0-9]+)? (?:sts?|stitch(?:es)?)(?=, *[^ ])"
_REPEAT = r"\*([^*]*?)[;,.]? *\brep(?:eat)?\b(?: from)?(?: \*)?"
_MULTIPLE_CHANGES = re.compile(r"\. each (?:multiple|repeat) now has [0-9]+ sts\.?$")

# What is printed, in lower case, and the language's form of it, in turn.
_FORMS: tuple[tuple[str, str | Callable[[re.Match[str]], str]], ...] = (
    (r"[.;,]? *[(\[][0-9,]+ (?:sts?|stitch(?:es)?)[)\]]$", ""),
    (_REPEAT + f"(?: {_TO_END}| {_TO_LAST})?(?= *(?:,|$))", r"*\1*"),
    (r"^k(?:nit)?(?: (?:all(?: sts| stitches)?|back|" + _TO_END + r"))?$", "knit"),
    (r"^p(?:url)?(?: (?:all(?: sts| stitches)?|back|" + _TO_END + r"))?$", "purl"),
    (r"\b(" + "|".join(FIGURES) + r")(?= times\b)", lambda number: str(FIGURES[number[0]])),
    (r"(?<![\w\]\)])\(([^()\[\]]+)\) (?=[0-9]+ times\b)", r"[\1] "),
    (rf"[(\[]([^()\[\]]+)[)\]] *(?:{_TO_END}|{_TO_LAST})(?= *(?:,|$))", r"*\1*"),
    (rf"\b([kp])(?:nit|url)? (?:{_TO_END}|{_TO_LAST})(?= *(?:,|$))", r"*\g<1>1*"),
    (r"\bsl ?([12])[,-] ?(k2tog|k1|k2)[,-] ?(psso|p2sso)\b", r"sl\1-\2-\3"),
    (r"\bsl ([0-9]+)\b", r"sl\1"),
    (r"\b(?:bo|bind[ -]?off) ?([0-9]+)(?: (?:sts?|stitch(?:es)?))?(?= *(?:,|$))", r"bind off \1"),
    (r"\b(?:co|cast[ -]?on) ?([0-9]+)(?: (?:sts?|stitch(?:es)?))?(?= *(?:,|$))", r"cast on \1"),
    (r"^drop(?:ping)?(?: the)?(?: extra)? wraps\b", "drop wraps"),
    (r" wrapping yarn twice", " with 2 wraps"),
    (r" wrapping yarn ([0-9]+) times", r" with \1 wraps"),
    (r"\(([^()]+)\) in next st\b", r"[\1] in 1"),
    (r"\(([^()]+)\) in next ([0-9]+) sts(?: together)?", r"[\1] in \2"),
    (r"\(([^()]+)\) (twice|once|[0-9]+ times)\b", r"[\1] \2"),
    (r"[(\[]([^()\[\]]+)[)\]] *[x×] *([0-9]+)\b(?: *times\b)?", r"[\1] \2 times"),
    (r"\b([kp][0-9]*(?:tog)?)-?tbl\b", r"\1 tbl"),
    (r"\] once\b", "] 1 time"),
    (r"\] twice\b", "] 2 times"),
)


def row_of_trade(code: str) -> str | None:
    """The line of a stitch's row in the language's form; None where it is no row, or has words that nobody knows.

    Whether the line then reads is for the parser to say.
    """
    found = _HEAD.fullmatch(code)
    if found is None:
        return None
    indent, _, numbers, rest = found.groups()
    row = _notation(rest)
    words = re.findall(r"[^\W\d_][\w-]*", row)
    if not words or not all(is_known(word) for word in words):
        return None
    listed = re.sub(r"\s*(?:to|–)\s*", "-", re.sub(r",?\s*and\s*", ", ", numbers.strip().lower()))
    head = "rows" if re.search("[,-]", listed) else "row"
    return f"{indent}{head} {re.sub(r',[ ]*', ', ', listed)}: {row}"


def _notation(rest: str) -> str:
    row = _MULTIPLE_CHANGES.sub("", rest.strip().lower()).rstrip(". ")
    for printed, form in _FORMS:
        row = re.sub(printed, form, row)
    return re.sub(r"[^\W\d_][\w-]*", lambda word: item_of_trade(word[0]), row)


def item_of_trade(word: str) -> str:
    """What the language has for a word of a row, in lower case; the word itself where it knows no other."""
    cable = _CABLE.fullmatch(word)
    if cable and int(cable[1]) >= 2 and int(cable[1]) % 2 == 0:
        half = int(cable[1]) // 2
        return f"{half}/{half} {'lc' if cable[2] == 'f' else 'rc'}"
    return ITEMS_OF_TRADE.get(word, word)


def is_known(word: str) -> bool:
    """Whether a word of a row is one of working notation."""
    return word in _KNOWN or re.fullmatch("(?:k|p|sl)[0-9]+", word) is not None
