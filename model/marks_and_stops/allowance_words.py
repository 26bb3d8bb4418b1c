"""The count of `as yarn allows`, in words."""

from halfhank.model.design.band_walk import open_piece
from halfhank.model.design.design import Band
from halfhank.model.design.stitch_measures import StitchMeasures
from halfhank.model.words.drawn_words import phrase


def allowance_words(measures: StitchMeasures, allowed: int | None) -> str:
    """The count with its unit: repeats, repeats of a stitch's own rows, or rows; empty without one."""
    if allowed is None:
        return ""
    piece = open_piece(measures.design)
    if isinstance(piece, Band):
        rows = measures.repeat_rows(piece.stitch)
        if not rows:
            return phrase("count.row", count=2 * allowed)
        return phrase("allowed.repeats-of", repeats=phrase("count.repeat", count=allowed), stitch=piece.stitch)
    return phrase("count.repeat", count=allowed)


def unit_words(measures: StitchMeasures) -> str:
    """What one more than the yarn allows, or one more repeat, is called."""
    piece = open_piece(measures.design)
    if not isinstance(piece, Band):
        return phrase("one-more.repeat")
    if measures.repeat_rows(piece.stitch):
        return phrase("one-more.repeat-of", stitch=piece.stitch)
    return phrase("one-more.rows")
