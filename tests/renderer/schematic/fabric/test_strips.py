"""Each strip of colour is drawn on under the next one by at least 0.2 mm, and by no row more."""

import pytest
from halfhank.renderer.schematic.fabric.drawn_bands import spans_of, strips_of
from halfhank.renderer.schematic.fabric.drawn_piece import DrawnPiece

from tests.renderer.pieces import shawl_of
from tests.renderer.scenes import PIECES

SEAM_MM = 0.2


@pytest.mark.parametrize("scale", [2.0, 10.0, 12.4, 12.6, 50.0, 400.0])
def test_a_strip_goes_on_under_the_next(scale: float) -> None:
    shawl = shawl_of(PIECES["triangle"])
    piece = DrawnPiece(shawl, 10 / scale)
    heights = [height * piece.mm for height in shawl.rows.height_cm]
    seen = 0
    for span in spans_of(piece):
        for strip in strips_of(piece, span):
            under = sum(heights[strip.last + 1 : strip.reach + 1])
            assert under >= SEAM_MM or strip.reach == piece.last
            assert strip.reach == strip.last or under - heights[strip.reach] < SEAM_MM
            seen += 1
    assert seen > 1
