"""The starts: a cast-on, or a garter tab."""

from halfhank.model.design.design import Start
from halfhank.model.number_words import counted

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
        return f"garter tab of {counted(start.tab[0], 'st')} and {counted(start.tab[1], 'row')}"
    return f"cast on {counted(start.stitches, 'st')}"
