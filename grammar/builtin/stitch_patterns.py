"""The built-in stitches as data: traditional patterns without an author, in the description language.

Nothing here is read by the parser, so that whoever needs a ratio alone loads none.
"""

from halfhank.grammar.record import NamedTuple


class BuiltIn(NamedTuple):
    """One built-in stitch.

    `words` says what it is; `lines` are the lines of its `stitch` block: the multiple and the rows. `stitch_ratio`,
    `row_ratio`: width of a stitch and height of a row where no gauge is given, in those of garter in the same yarn on
    the same needles.
    """

    name: str
    words: str
    stitch_ratio: float
    row_ratio: float
    lines: tuple[str, ...]


# Ratios: stockinette's from a published pair (17 x 22 against 17 x 33 in 10 cm, DROPS 253-28); those of drop stitch
# follow from its wraps; all others are common practice, to be replaced by a swatch's gauge.
_PATTERNS = (
    BuiltIn("garter", "every row knit: a ridge every two rows", 1.0, 1.0, ("rows 1, 2: knit",)),
    BuiltIn(
        "stockinette",
        "smooth: knit on the right side, purl on the wrong side",
        1.0,
        1.5,
        ("row 1: knit", "row 2: purl"),
    ),
    BuiltIn(
        "drop",
        "elongated rows: every stitch wrapped more than once, the extra wraps dropped in the next row",
        1.0,
        1.0,
        ("row 1: *k1 with 2 wraps*", "row 2: knit"),
    ),
    BuiltIn(
        "moss",
        "knit and purl stitches alternating, offset in each row: flat and firm",
        1.0,
        1.1,
        ("multiple of 2 sts + 1", "rows 1, 2: k1, *p1, k1*"),
    ),
    BuiltIn(
        "eyelet-row",
        "one row of eyelets between ridges",
        1.05,
        1.05,
        ("multiple of 2 sts + 1", "row 1: k1, *yo, k2tog*", "rows 2-4: knit"),
    ),
    BuiltIn(
        "scattered-eyelets",
        "single eyelets on stockinette, offset in alternate rows",
        1.02,
        1.5,
        (
            "multiple of 8 sts + 7",
            "row 1: k3, *yo, k2tog, k6*, yo, k2tog, k2",
            "rows 2, 4, 6, 8: purl",
            "rows 3, 7: knit",
            "row 5: k7, *yo, k2tog, k6*",
        ),
    ),
    BuiltIn(
        "open-mesh",
        "eyelets side by side that zigzag: an openwork mesh",
        1.15,
        1.4,
        ("multiple of 2 sts + 2", "row 1: k1, *yo, k2tog*, k1", "rows 2, 4: purl", "row 3: k1, *ssk, yo*, k1"),
    ),
    BuiltIn(
        "drop-wave",
        "waves of longer and shorter dropped stitches on garter",
        1.05,
        1.6,
        (
            "multiple of 6 sts + 1",
            "row 1: k1, *k1 with 2 wraps, k1 with 3 wraps, k1 with 4 wraps, k1 with 3 wraps, k1 with 2 wraps, k1*",
            "rows 2-4: knit",
            "row 5: k1 with 4 wraps, "
            "*k1 with 3 wraps, k1 with 2 wraps, k1, k1 with 2 wraps, k1 with 3 wraps, k1 with 4 wraps*",
            "rows 6-8: knit",
        ),
    ),
    BuiltIn(
        "small-cable",
        "4-stitch cables between purl columns",
        0.88,
        1.45,
        ("multiple of 6 sts + 2", "row 1: p2, *k4, p2*", "rows 2, 4: k2, *p4, k2*", "row 3: p2, *2/2 rc, p2*"),
    ),
)

STITCH_PATTERNS = {pattern.name: pattern for pattern in _PATTERNS}
