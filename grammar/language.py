"""The words of the language, block by block, and the words that knitters write in their place."""

from functools import cache

from halfhank.grammar.builtin.stitch_patterns import FABRICS

# The first words of the lines that open a block, by the start rule that reads the lines inside (None: it has none).
HEADERS: dict[str, str | None] = {
    "shawl": "in_shawl",
    "yarn": "in_yarn",
    "needles": None,
    "stitch": "in_stitch",
    "shape": "in_shape",
    "part": "in_part",
    "turn": None,
    "bind": None,
    "weighed": "in_weighed",
}

# The first word of each fact, by start rule, and the key that duplicates are counted by.
FACTS: dict[str, dict[str, str]] = {
    "in_shawl": {"by": "by", "remark": "remark", "units": "units"},
    "in_yarn": {"skein": "skein", "fibre": "fibre", "keep": "keep"},
    "in_stitch": {
        "gauge": "gauge",
        "before": "before_blocking",
        "swatch": "swatch",
        "multiple": "multiple",
        "fill": "fill",
        "as": "base",
        "row": "row",
        "rows": "row",
    },
    "in_shape": {
        "cast": "start",
        "garter": "start",
        "edge": "edge",
        "spine": "spine",
        "pinned": "pinned",
        "increase": "shaping",
        "decrease": "shaping",
        "bind": "shaping",
    },
    "in_part": {
        "even": "even",
        "increase": "shaping",
        "decrease": "shaping",
        "bind": "shaping",
        "drop": "band",
        "repeat": "band",
    },
    "in_weighed": {"before": "weighing", "after": "weighing"},
}

UNITS = ("mm", "cm", "m", "in", "yd", "g", "oz")
BUILT_IN_STITCHES = tuple(FABRICS)
RESERVED = ("repeat", "even", "drop", "increase", "decrease", "bind", "part")
SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")

# What is often written, in lower case, and the words of the language for it.
SYNONYMS: dict[str, tuple[str, ...]] = {
    "yard": ("yd",),
    "yards": ("yd",),
    "yds": ("yd",),
    "gram": ("g",),
    "grams": ("g",),
    "gr": ("g",),
    "grs": ("g",),
    "metre": ("m",),
    "metres": ("m",),
    "meter": ("m",),
    "meters": ("m",),
    "mtr": ("m",),
    "ounce": ("oz",),
    "ounces": ("oz",),
    "inch": ("in",),
    "inches": ("in",),
    "ins": ("in",),
    "centimetre": ("cm",),
    "centimetres": ("cm",),
    "centimeter": ("cm",),
    "centimeters": ("cm",),
    "cms": ("cm",),
    "millimetre": ("mm",),
    "millimetres": ("mm",),
    "millimeter": ("mm",),
    "millimeters": ("mm",),
    "percent": ("%",),
    "stitch": ("sts",),
    "stitches": ("sts",),
    "stiches": ("sts",),
    "stich": ("sts",),
    "garters": ("ridges",),
    "fiber": ("fibre",),
    "fibres": ("fibre",),
    "fibers": ("fibre",),
    "content": ("fibre",),
    "tension": ("gauge",),
    "gage": ("gauge",),
    "margin": ("keep",),
    "reserve": ("keep",),
    "ball": ("skein",),
    "hank": ("skein",),
    "designer": ("by",),
    "author": ("by",),
    "note": ("remark",),
    "unit": ("units",),
    "needle": ("needles",),
    "section": ("part",),
    "pattern": ("stitch",),
    "log": ("weighed",),
    "castoff": ("bind", "off"),
    "bindoff": ("bind", "off"),
    "caston": ("cast", "on"),
    "turnback": ("turn", "back"),
    "normal": ("standard",),
    "stretchy": ("elastic",),
    "icord": ("i-cord",),
    "both": ("each",),
    "edges": ("edge",),
    "either": ("each",),
    "top": ("upper",),
    "bottom": ("lower",),
    "centre": ("spine",),
    "center": ("spine",),
    "other": ("2",),
    "second": ("2",),
    "third": ("3",),
    "fourth": ("4",),
    "sixth": ("6",),
    "eighth": ("8",),
    "alternate": ("2",),
    "each": ("every",),
    "on": ("at",),
    "plus": ("+",),
    "weighed": ("weighs",),
    "weight": ("weighs",),
    "x": ("times",),
    "remaining": ("left",),
    "remains": ("left",),
    "once": ("1", "time"),
    "twice": ("2", "times"),
    "thrice": ("3", "times"),
    "one": ("1",),
    "two": ("2",),
    "three": ("3",),
    "four": ("4",),
    "five": ("5",),
    "six": ("6",),
    "seven": ("7",),
    "eight": ("8",),
    "nine": ("9",),
    "ten": ("10",),
    "twelve": ("12",),
}

# Where the word alone would be a poor hint.
PHRASES = {
    "both": "each edge",
    "either": "each edge",
    "other": "every 2 rows",
    "second": "every 2 rows",
    "alternate": "every 2 rows",
    "third": "every 3 rows",
    "fourth": "every 4 rows",
    "sixth": "every 6 rows",
    "eighth": "every 8 rows",
}

_MAX_GUESSED = 30


@cache
def nearest(word: str, options: tuple[str, ...]) -> str | None:
    """The option that a misspelt word most likely meant, None where none is near."""
    for option in options:
        if option.casefold() == word.casefold():
            return option
    if len(word) < 2 or len(word) > _MAX_GUESSED:
        return None
    from difflib import get_close_matches

    close = get_close_matches(word.casefold(), options, n=1, cutoff=0.7)
    return close[0] if close else None


def nearest_opener(word: str) -> bool:
    """Whether a line inside a block that starts with this word opens a block: `repeat`, or `repeat` misspelt."""
    return word == "repeat" or (word not in ("repeats", "report") and nearest(word, ("repeat",)) is not None)
