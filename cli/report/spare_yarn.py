"""What could be knitted on top of the plan, in words."""

from halfhank.cli.report.figures import grams
from halfhank.grammar.description import Band
from halfhank.model.ends.sequences import open_piece
from halfhank.model.ends.stops import one_more
from halfhank.model.number_words import counted
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.stitch_table import StitchTable


def more_words(shawl: Shawl) -> str:
    """How many rows more could be paid for, and what one more repeat takes; empty where nothing tells."""
    return "; ".join(words for words in (_rows_words(shawl), _repeat_words(shawl)) if words)


def _rows_words(shawl: Shawl) -> str:
    mark = shawl.marks.bind_off_by
    if mark is None or mark.row < shawl.rows.count:
        return ""
    rows, spare_g = mark.row - shawl.rows.count, shawl.yarn.left_g - shawl.yarn.keep_g
    if not rows and spare_g > shawl.yarn.last_ridge_g:
        return ""  # Its decreases end the piece, not the yarn.
    return f"the yarn pays for {counted(rows, 'row')} past the end" if rows else "the yarn pays for no row past the end"


def _repeat_words(shawl: Shawl) -> str:
    more = one_more(shawl)
    if more is None:
        return ""
    takes = f"{_unit_words(shawl)} would take {grams(shawl.yarn.left_g - more.mean)}"
    if more.mean >= shawl.yarn.keep_g:
        return f"{takes}, and {grams(more.mean)} would be left"
    if more.mean >= 0:
        return f"{takes}, which goes into the margin"
    return f"{takes}, {grams(-more.mean)} more than there is"


def _unit_words(shawl: Shawl) -> str:
    piece = open_piece(shawl.description)
    if not isinstance(piece, Band):
        return "one more repeat"
    rows = StitchTable(shawl.description).repeat_rows(piece.stitch.value)
    return f"one more repeat of {piece.stitch.value}" if rows else "two more rows"
