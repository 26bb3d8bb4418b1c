"""The words of the language, block by block."""

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

PLAIN_STITCHES = ("garter", "stockinette", "drop")
"""Built-ins that are only measured: a band of them may begin at any of their rows and be any number of rows long."""

PATTERN_STITCHES = ("moss", "eyelet-row", "scattered-eyelets", "open-mesh", "drop-wave", "small-cable")
"""Built-ins with rows that a band works from row 1 on; `builtin/` has them."""

BUILT_IN_STITCHES = PLAIN_STITCHES + PATTERN_STITCHES

RESERVED = ("repeat", "even", "drop", "increase", "decrease", "bind", "part")
SHAPES = ("triangle", "crescent", "half-circle", "tip-to-tip", "asymmetric", "rectangle")
