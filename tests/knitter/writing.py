"""Pieces written by hand in the printed form: the least text around some rows."""

WORDS = {
    "[ ] N times": "work what is in the brackets N times in all",
    "bind off": "knit the next stitch, pass the one before it over",
    "cast on": "make backward loops onto the right needle",
    "cast on N to the left needle": "make new stitches on the left needle",
    "drop wraps": "let the extra wraps fall from the needle",
    "k": "knit",
    "k2tog": "knit 2 together",
    "m1l": "make 1 leaning to the left",
    "m1r": "make 1 leaning to the right",
    "p": "purl",
    "pass over": "pass the second stitch on the right needle over the first",
    "sl": "slip as if to purl",
    "slN back": "slip from the right needle back to the left",
    "ssk": "slip, slip, knit together",
    "tbl": "through the back loop",
    "with N wraps": "with the yarn N times around the needle",
    "yo": "yarn over",
}
STANDARD = "[ ] N times, k, pass over"
CUT = "Cut the yarn and draw it through the last st."


def page(terms: str, start: list[str], rows: list[str], bind_off: list[str]) -> str:
    """A text with one part. `terms`: the abbreviations to explain, in one line."""
    explained = [f"{term}: {WORDS.get(term, 'as is usual')}" for term in terms.split(", ")]
    sections = {"Abbreviations": explained, "Start": start, "Part 1, all of it": rows, "Bind off": bind_off}
    return "Piece\n\n" + "\n\n".join("\n".join([name, *(f"  {line}" for line in sections[name])]) for name in sections)


def flat(stitches: int, rows: list[str], left: int, terms: str) -> str:
    """A piece cast on and bound off in the plain way over `left` stitches, after an even number of rows or an odd one.

    `terms` are those of the rows, without the bind-off's.
    """
    side = "WS" if len(rows) % 2 else "RS"
    every = sorted({*STANDARD.split(", "), *filter(None, terms.split(", "))})
    off = [f"Bind-off row ({side}): k1, [k1, pass over] {left - 1} times (1 st)", CUT]
    return page(", ".join(every), [f"Cast on {stitches} sts."], rows, off)
