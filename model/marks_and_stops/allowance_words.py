"""The count of `as yarn allows`, in words."""

from halfhank.model.design.band_walk import open_piece
from halfhank.model.design.design import Band
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.number_words import counted


def allowance_words(measures: StitchMeasures, allowed: int | None) -> str:
    """The count with its unit: repeats, repeats of a stitch's own rows, or rows; empty without one."""
    if allowed is None:
        return ""
    piece = open_piece(measures.design)
    if isinstance(piece, Band):
        rows = measures.repeat_rows(piece.stitch)
        return f"{counted(allowed, 'repeat')} of {piece.stitch}" if rows else counted(2 * allowed, "row")
    return counted(allowed, "repeat")


def unit_words(measures: StitchMeasures) -> str:
    """What one more than the yarn allows, or one more repeat, is called."""
    piece = open_piece(measures.design)
    if not isinstance(piece, Band):
        return "one more repeat"
    return f"one more repeat of {piece.stitch}" if measures.repeat_rows(piece.stitch) else "two more rows"
