"""The starts: a cast-on, or a garter tab."""

from halfhank.model.design.design import Start
from halfhank.model.words.drawn_words import phrase

CAST_ON_STITCH = 1.5
"""A stitch cast on, in plain stitches."""


def start_stitches(start: Start) -> float:
    """Yarn of the start in plain stitches: a cast-on, or a garter tab and its set-up row."""
    if start.tab:
        return start.tab[0] * start.tab[1] + start.stitches
    return CAST_ON_STITCH * start.stitches


def start_words(start: Start) -> str:
    """How the shawl begins."""
    if start.tab:
        stitches, rows = start.tab
        both = phrase("count.st", count=stitches), phrase("count.row", count=rows)
        return phrase("begin.tab", stitches=both[0], rows=both[1])
    return phrase("begin.cast-on", stitches=phrase("count.st", count=start.stitches))
