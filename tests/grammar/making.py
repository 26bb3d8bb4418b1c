"""Random valid descriptions, and mistakes to plant in them, each with the column and code to be reported."""

import random
import re
from typing import NamedTuple

SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")


class Made(NamedTuple):
    """A line and the kind of fact in it (empty for blank lines and comments)."""

    kind: str
    text: str


class Planted(NamedTuple):
    """A line with a mistake: the new text, and the problem's column and code."""

    text: str
    column: int
    code: str


def make_lines(rng: random.Random) -> list[Made]:
    """The lines of a valid description."""
    lines = [*_shawl(rng), *_blank(rng)]
    heads = [_yarn, _needles, _garter, _mesh, _shape]
    rng.shuffle(heads)
    for head in heads:
        lines += [*head(rng), *_blank(rng)]
    parts = rng.randint(1, 4)
    allows = rng.randrange(parts)
    for number in range(parts):
        lines += [*_part(rng, number, number == allows and rng.random() < 0.5), *_blank(rng)]
    lines += _ends(rng, parts)
    return [_commented(rng, line) for line in lines]


def _blank(rng: random.Random) -> list[Made]:
    return rng.choice([[], [Made("", "")], [Made("", ""), Made("", "  # a note – with “signs”")]])


def _commented(rng: random.Random, line: Made) -> Made:
    return Made(line.kind, line.text + "  # said") if line.kind and rng.random() < 0.1 else line


def _shawl(rng: random.Random) -> list[Made]:
    lines = [Made("shawl", f'shawl "Gannet {rng.randint(1, 99)}"')]
    more = [Made("by", '  by "the harbour"'), Made("remark", '  remark "blocked wet"'), Made("units", "  units cm")]
    return lines + rng.sample(more, rng.randint(0, 3))


def _yarn(rng: random.Random) -> list[Made]:
    mass, length = rng.choice(["100 g", "100g", "3.5 oz"]), rng.choice(["380 m", "400m", "420 yd"])
    skein = f"  skein {mass} {length}" if rng.random() < 0.7 else f"  skein {length} {mass}"
    more = [Made("fibre", '  fibre "wool, 20% silk"'), Made("keep", rng.choice(["  keep 5%", "  keep 4 g"]))]
    facts = [Made("skein", skein), *rng.sample(more, rng.randint(0, 2))]
    rng.shuffle(facts)
    return [Made("yarn", rng.choice(["yarn", 'yarn "Sock"'])), *facts]


def _needles(rng: random.Random) -> list[Made]:
    return [Made("needles", rng.choice(["needles 4 mm", "needles 3.75 mm", "needles 5mm"]))]


def _gauge(rng: random.Random) -> str:
    return f"  gauge {rng.randint(17, 26)} sts {rng.randint(30, 50)} rows over {rng.choice(['10 cm', '4 in', '10cm'])}"


def _garter(rng: random.Random) -> list[Made]:
    more = [
        Made(
            "swatch", f"  swatch {rng.randint(20, 50)} sts {rng.randint(20, 80)} rows weighs {rng.randint(5, 20)}.2 g"
        ),
        Made("before", "  before blocking 21 sts 42 rows over 10 cm"),
    ]
    return [Made("stitch", "stitch garter"), Made("gauge", _gauge(rng)), *rng.sample(more, rng.randint(0, 2))]


def _mesh(rng: random.Random) -> list[Made]:
    facts = [
        Made("multiple", rng.choice(["  multiple of 6 sts + 1", "  multiple of 6 sts"])),
        Made("as", "  as garter"),
        Made("fill", "  fill garter"),
    ]
    rows = [Made("row", f"  row 1: {_notation(rng)}"), Made("row", rng.choice(["  row 2: purl", "  rows 2-4: knit"]))]
    return [Made("stitch", "stitch mesh"), *rng.sample(facts, rng.randint(0, 3)), *rows]


def _notation(rng: random.Random) -> str:
    items = ["k1", "k2tog", "yo", "p3", "ssk", "sl1 wyif", "k5 tbl", "yo twice", "[k1, yo, k1] in 1", "2/2 rc", "kfb"]
    inner = ", ".join(rng.choices(items, k=rng.randint(1, 4)))
    across = rng.choice([f"*{inner}*", f"*{inner}; rep from * to end", f"[{inner}] 3 times"])
    return ", ".join([rng.choice(items), across, rng.choice(items)])


def _shape(rng: random.Random) -> list[Made]:
    start = rng.choice([Made("cast", "  cast on 9 sts"), Made("tab", "  garter tab 3 sts 6 rows")])
    more = [
        Made("edge", "  edge 3 sts garter"),
        Made("spine", "  spine 1 st"),
        Made("pinned", "  pinned to 150 cm by 60 cm"),
    ]
    return [
        Made("shape", f"shape {rng.choice(SHAPES)}"),
        start,
        *rng.sample(more, rng.randint(0, 3)),
        *[Made("shaping", _shaping(rng)) for _ in range(rng.randint(0, 3))],
    ]


def _shaping(rng: random.Random) -> str:
    place = rng.choice(["each edge", "upper edge", "lower edge", "spine", "each edge and 2 at spine"])
    ends = rng.choice(["", " from row 3", " until 300 sts", " from row 5 until 200 sts"])
    action = rng.choice(["increase", "decrease", "bind off"])
    method = rng.choice({"increase": [" yo", " m1", ""], "decrease": [" k2tog", " ssp", ""]}.get(action, [""]))
    return f"  {action} {rng.randint(1, 6)}{method} at {place} every {rng.randint(2, 12)} rows{ends}"


def _part(rng: random.Random, number: int, allows: bool) -> list[Made]:
    lines = [Made("part", f'part "part {number}"')]
    if rng.random() < 0.4:
        lines.append(Made("shaping", _shaping(rng)) if rng.random() < 0.7 else Made("even", "  even"))
    lines += [_band(rng, 2) for _ in range(rng.randint(1, 3))]
    if rng.random() < 0.6:
        head = "  repeat as yarn allows" if allows else f"  repeat {rng.randint(2, 9)} times"
        lines += [
            Made("allows" if allows else "repeat", head),
            _band(rng, 4),
            Made("list", "    garter 3, 5, 4 ridges"),
        ]
    return lines


def _band(rng: random.Random, indent: int) -> Made:
    count = rng.randint(2, 40)
    unit = rng.choice(["rows", "ridges"])
    if rng.random() < 0.2:
        return Made("drop", f"{'':{indent}}drop {rng.randint(2, 4)} wraps")
    if rng.random() < 0.2:
        return Made("band", f"{'':{indent}}mesh {count} repeats")
    label = ' "a label"' if rng.random() < 0.2 else ""
    return Made("band", f"{'':{indent}}{rng.choice(['garter', 'mesh', 'stockinette'])} {count} {unit}{label}")


def _ends(rng: random.Random, parts: int) -> list[Made]:
    lines = []
    if rng.random() < 0.3:
        lines.append(Made("turn", rng.choice(["turn back", f'turn back around "part {parts - 1}"'])))
    if rng.random() < 0.7:
        methods = [
            "standard",
            "elastic",
            "picot",
            "picot cast on 2 bind off 5",
            "i-cord",
            "takes 4.5 times the width",
            "takes 2.5 sts each",
        ]
        lines.append(Made("bind", f"bind off {rng.choice(methods)}"))
    if rng.random() < 0.5:
        lines += [
            Made("weighed", "weighed"),
            Made("first", "  before cast on 101.2 g"),
            Made("log", "  after row 10 95.5 g left"),
            Made("log", "  after row 20 8.5 g used"),
        ]
    return lines


# Mistakes: (kinds of lines that they suit, pattern, replacement, code). The problem stands where group 1 starts.
_SWAPS: tuple[tuple[str, str, str, str], ...] = (
    ("skein", r"\b(yd)\b", "yards", "unknown-word"),
    ("skein", r"\b(skein)\b", "skien", "unknown-word"),
    ("skein", r"(?:g|oz) (\d+ ?(?:m|yd))\b", "50 g", "wrong-unit"),
    ("skein keep", r"(?<=\d) ?(g)\b", " grams", "unknown-word"),
    ("gauge before", r"\b(sts)\b", "stitches", "unknown-word"),
    ("gauge before swatch", r"\b(rows)\b", "rowz", "unknown-word"),
    ("gauge before", r"\b(over)\b", "ovr", "unknown-word"),
    ("gauge", r"(?<=rows) (over)\b", "", "line-too-short"),
    ("gauge before", r"over (\d+ ?(?:cm|in))", "10 g", "wrong-unit"),
    ("swatch", r"(\d+) sts", "0", "zero-number"),
    ("swatch", r"(\d+) sts", "20.5", "not-whole"),
    ("swatch", r"\b(weighs)\b", "wieghs", "unknown-word"),
    ("multiple", r"(6) sts", "0", "zero-number"),
    ("multiple", r"(6) sts", "1e3", "exponent-number"),
    ("as fill", r"(garter)", "gartre", "unknown-stitch"),
    ("fill", r"(garter)", "drop", "drop-as-band"),
    ("as", r"(garter)", "mesh", "circular-as"),
    ("row", r"\b(yo)\b", "yoo", "unknown-item"),
    ("row", r"\b(k1)\b", "K1", "unknown-item"),
    ("row", r"\b(k2tog)\b", "k2tgo", "unknown-item"),
    ("row", r"\b(wyif)\b", "wyib", "unknown-item"),
    ("row", r"\b(end)\b", "ende", "unknown-word"),
    ("shape", r"shape ([\w-]+)", "octagon", "unknown-shape"),
    ("cast", r"(9)", "0", "zero-number"),
    ("cast", r"(9)", "99999999999", "number-too-large"),
    ("tab", r"(6) rows", "5", "odd-tab-rows"),
    ("edge spine", r"\b(\d)\b", "1.5", "not-whole"),
    ("edge", r"(garter)", "gartr", "unknown-stitch"),
    ("pinned", r"(150 cm)", "150 g", "wrong-unit"),
    ("pinned", r"(150) cm", "0", "zero-number"),
    ("pinned", r" (by)\b", " x", "unknown-word"),
    ("shaping", r"at (each edge)", "both edges", "unknown-word"),
    ("shaping", r"\b(every \d+ rows)", "every other row", "unknown-word"),
    ("shaping", r"(?<=\d )(yo)\b", "ssk", "wrong-method"),
    ("shaping", r"(?<=\d )(k2tog|ssp)\b", "kfb", "wrong-method"),
    ("shaping", r"(?<=\d )(m1)\b", "M1", "unknown-word"),
    ("shaping", r"every (\d+) rows", "0", "zero-number"),
    ("shaping", r"(\d+)(?: [a-z0-9]+)? at", "-2", "negative-number"),
    ("shaping", r"\b(every)\b", "evry", "unknown-word"),
    ("shaping", r"\b(until)\b", "untill", "unknown-word"),
    ("band", r"^ +(garter|mesh|stockinette)", "garrter", "unknown-stitch"),
    ("band", r" (\d+) (?:rows|ridges|repeats)", "2,5", "comma-number"),
    ("band", r" (\d+) (?:rows|ridges|repeats)", "0", "zero-number"),
    ("band", r" (\d+) (?:rows|ridges|repeats)", "ten", "unknown-word"),
    ("band", r"\b(rows|ridges|repeats)\b", "inches", "unknown-word"),
    ("band", r"^ +(?:garter) \d+ (ridges|rows)", "repeats", "no-rows"),
    ("list", r"(3, 5), 4", "3,5", "comma-number"),
    ("list", r"(4) ridges", "4.5", "not-whole"),
    ("drop", r"\b(wraps)\b", "raps", "unknown-word"),
    ("drop", r"(drop) \d+ wraps", "drop 3 rows#", "drop-as-band"),
    ("repeat", r"(\d+) times", "0", "zero-number"),
    ("repeat", r"(\d+ times)", "twice", "unknown-word"),
    ("even", r"(even)", "evn", "unknown-word"),
    ("needles", r"(\d[\d.]* ?mm)", "4 cm", "wrong-unit"),
    ("needles", r"\b(needles)\b", "needle", "unknown-word"),
    ("needles", r" ?(mm)", " millimeters", "unknown-word"),
    ("shawl", r"\b(shawl)\b", "shwal", "unknown-word"),
    ("yarn", r"\b(yarn)\b", "Yarn", "unknown-word"),
    ("stitch", r"\b(stitch)\b", "stich", "unknown-word"),
    ("part", r"\b(part)\b", "Part", "unknown-word"),
    ("weighed", r"\b(weighed)\b", "weighted", "unknown-word"),
    ("fibre", r"\b(fibre)\b", "fiber", "unknown-word"),
    ("units", r"\b(cm)\b", "inches", "unknown-word"),
    ("bind", r"(standard|elastic|picot|i-cord)$", "stretchyy", "unknown-word"),
    ("bind", r"picot cast on 2 bind off (5)", "2", "picot-too-tight"),
    ("first log", r"\b(g)\b", "gr", "unknown-word"),
    ("log", r"\b(left|used)\b", "lost", "unknown-word"),
    ("by remark fibre shawl part", r"(\"[^\"]*\")(?=$|  #)", '"open', "unclosed-text"),
    ("by remark fibre shawl part", r"(\"[^\"]*\")", "“curly”", "curly-quote"),
    ("by remark fibre shawl part", r"(\"[^\"]*\")", "", "line-too-short"),
    ("by remark fibre", r"(\"[^\"]*\")", '""', "empty-text"),
    ("skein gauge cast tab shaping band", r"(?<=\w)( )\d", "\u00a0", "odd-space"),
    ("skein gauge cast tab shaping band log", r"(?<=\w)( )\d", "\x07", "control-character"),
    ("skein gauge swatch cast tab spine pinned log", r"()$", " extra", "line-goes-on"),
    ("skein gauge swatch before log drop repeat list band spine", r"^(  )", "\t", "tab-indentation"),
    ("cast tab spine pinned fibre skein", r"^( +)", "", "not-indented"),
)


def mistakes(line: Made) -> list[Planted]:
    """Every mistake that could be planted in a line."""
    found = []
    for kinds, pattern, put, code in _SWAPS:
        if line.kind not in kinds.split():
            continue
        planted = _swap(line.text, pattern, put, code)
        if planted:
            found.append(planted)
    return found


def _swap(text: str, pattern: str, put: str, code: str) -> Planted | None:
    if "#" in text:
        return None
    found = re.search(pattern, text)
    if not found:
        return None
    start, end = found.span(1)
    changed = text[:start] + put + text[end:]
    if code == "line-goes-on":
        return Planted(changed, start + 2, code)
    if code == "line-too-short":
        changed = changed.rstrip()
        return Planted(changed, len(changed) + 1, code) if put == "" and start >= len(changed) else None
    if code == "drop-as-band":
        changed = changed.split("#")[0]
    if code == "not-indented":
        return Planted(changed, 1, code)
    lead = len(put) - len(put.lstrip(" ")) if put.strip() else 0
    return Planted(changed, start + 1 + lead, code)
