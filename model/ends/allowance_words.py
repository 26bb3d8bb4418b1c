"""What `as yarn allows` came to, in words."""

from halfhank.grammar.description import Band
from halfhank.model.ends.sequences import open_piece
from halfhank.model.phrases import counted
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.stitch_table import StitchTable


def allowed_words(shawl: Shawl) -> str:
    """The count with its unit: passes of a repeat, repeats of a stitch's own rows, or rows; empty without a count."""
    if shawl.allowed is None:
        return ""
    piece, times = open_piece(shawl.description), shawl.allowed
    if isinstance(piece, Band):
        rows = StitchTable(shawl.description).repeat_rows(piece.stitch.value)
        return f"{counted(times, 'repeat')} of {piece.stitch.value}" if rows else counted(2 * times, "row")
    return "once" if times == 1 else f"{times:,} times"
