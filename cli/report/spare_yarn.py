"""What could be knitted on top of the plan, in words."""

from halfhank.cli.report.figures import grams, rows
from halfhank.grammar.description import Band
from halfhank.model.ends.sequences import open_piece
from halfhank.model.ends.stops import one_more
from halfhank.model.report_tree import Content, content, joined
from halfhank.model.shawl import Shawl
from halfhank.model.yarn.stitch_table import StitchTable


def spare_yarn(shawl: Shawl) -> Content:
    """How many rows more could be paid for, and what one more repeat takes; empty where neither is known."""
    return joined("; ", [text for text in (_more_rows(shawl), _more_repeats(shawl)) if text])


def _more_rows(shawl: Shawl) -> Content:
    mark = shawl.marks.bind_off_by
    if mark is None or mark.row < shawl.rows.count:
        return ()
    more, spare_g = mark.row - shawl.rows.count, shawl.yarn.left_g - shawl.yarn.keep_g
    if not more and spare_g > shawl.yarn.last_ridge_g:
        return ()  # Its decreases end the piece, not the yarn.
    return content("the yarn pays for ", rows(more) if more else "no row", " past the end")


def _more_repeats(shawl: Shawl) -> Content:
    more = one_more(shawl)
    if more is None:
        return ()
    takes = content(_unit_words(shawl), " would take ", grams(shawl.yarn.left_g - more.mean))
    if more.mean >= shawl.yarn.keep_g:
        return content(takes, ", and ", grams(more.mean), " would be left")
    if more.mean >= 0:
        return content(takes, ", which goes into the margin")
    return content(takes, ", ", grams(-more.mean), " more than there is")


def _unit_words(shawl: Shawl) -> str:
    piece = open_piece(shawl.description)
    if not isinstance(piece, Band):
        return "one more repeat"
    repeat_rows = StitchTable(shawl.description).repeat_rows(piece.stitch.value)
    return f"one more repeat of {piece.stitch.value}" if repeat_rows else "two more rows"
