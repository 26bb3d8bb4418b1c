"""The built-in fabrics: traditional patterns that nobody's name hangs on, as data in the description language."""

from functools import cache
from typing import NamedTuple

from halfhank.grammar.description import Stitch
from halfhank.grammar.problems import Span


class BuiltIn(NamedTuple):
    """One built-in fabric.

    `words` says what it is; `lines` are the lines of its `stitch` block: the multiple and the rows. `stitch_ratio`,
    `row_ratio`: width of a stitch and height of a row where no gauge is given, in those of garter in the same yarn on
    the same needles.
    """

    name: str
    words: str
    stitch_ratio: float
    row_ratio: float
    lines: tuple[str, ...]


# Ratios: stockinette's from a published pair (17 x 22 against 17 x 33 in 10 cm, DROPS 253-28); drop stitch is reckoned
# from its wraps; all others are common practice, to be replaced by a swatch's gauge.
_FABRICS = (
    BuiltIn("garter", "every row knit: a ridge in two rows", 1.0, 1.0, ("rows 1, 2: knit",)),
    BuiltIn(
        "stockinette",
        "smooth: knit on the right side, purl on the wrong side",
        1.0,
        1.5,
        ("row 1: knit", "row 2: purl"),
    ),
    BuiltIn(
        "drop",
        "elongated rows: every stitch wrapped more than once, released in the next row",
        1.0,
        1.0,
        ("row 1: *k1 with 2 wraps*", "row 2: knit"),
    ),
    BuiltIn(
        "moss",
        "knit and purl by turns, one over the other: flat and firm",
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
        "single eyelets on stockinette, set off from row to row",
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
        "cables of four stitches between purl columns",
        0.88,
        1.45,
        ("multiple of 6 sts + 2", "row 1: p2, *k4, p2*", "rows 2, 4: k2, *p4, k2*", "row 3: p2, *2/2 rc, p2*"),
    ),
)

FABRICS = {fabric.name: fabric for fabric in _FABRICS}

PLAIN_FABRICS = ("garter", "stockinette", "drop")
"""Built-ins that are only measured: a band of them may begin at any of their rows and be any number of rows long."""

BUILT_IN_SPAN = Span(0, 0, 0)
"""The place of every built-in: none."""


@cache
def built_in_stitch(name: str) -> Stitch:
    """A built-in as the `stitch` block that would describe it. The places of its rows are in nobody's file."""
    from halfhank.grammar.reading.blocks import find_blocks
    from halfhank.grammar.reading.stitch_blocks import Stitches
    from halfhank.grammar.reading.values import Teller
    from halfhank.grammar.text.indentation import lay_out

    text = "\n  ".join((f"stitch {_PARSED_AS}", *FABRICS[name].lines)) + "\n"
    teller = Teller()
    found = Stitches().read(teller, find_blocks(teller, lay_out(text).roots)).blocks[_PARSED_AS]
    assert not teller.problems, teller.problems
    return found._replace(name=found.name._replace(value=name), span=BUILT_IN_SPAN)


_PARSED_AS = "fabric"
