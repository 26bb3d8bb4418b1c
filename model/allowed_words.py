"""What `as yarn allows` came to, in words."""

from halfhank.grammar.syntax import Band
from halfhank.model.fabrics import Workroom
from halfhank.model.sequences import open_piece
from halfhank.model.shawl import Shawl
from halfhank.model.words import counted


def allowed_words(shawl: Shawl) -> str:
    """The count with its unit: passes of a repeat, repeats of a stitch's own rows, or rows; empty without a count."""
    if shawl.allowed is None:
        return ""
    piece, times = open_piece(shawl.description), shawl.allowed
    if isinstance(piece, Band):
        rows = Workroom(shawl.description).repeat_rows(piece.stitch.value)
        return f"{counted(times, 'repeat')} of {piece.stitch.value}" if rows else counted(2 * times, "row")
    return "once" if times == 1 else f"{times:,} times"
