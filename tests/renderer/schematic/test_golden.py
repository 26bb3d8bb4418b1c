"""A few small drawings as whole files; `pytest --accept` writes them anew after a look at what has changed."""

from pathlib import Path

import pytest
from halfhank.renderer import Options, draw_schematic, to_svg

from tests.renderer.pieces import Piece, chevron, fan, level, shawl_of, upright

FOLDER = Path(__file__).parent / "golden"
SMALL = {
    "triangle": (Piece([("neck", [("garter", 12)]), ("edge", [("mesh", 6)])], chevron, spine=True), "picot", Options()),
    "rectangle": (Piece([("all", [("garter", 20), ("drop", 2), ("garter", 8)])], level), "i-cord", Options(units="in")),
    "tip-to-tip": (
        Piece([("out", [("garter", 30)]), ("back", [("stockinette", 30)])], upright, sideways=True),
        "standard",
        Options(ramp="haze", contours=True),
    ),
    "crescent": (Piece([("all", [("garter", 24), ("mesh", 12)])], fan), "elastic", Options(scale=8)),
}


@pytest.mark.parametrize("name", SMALL)
def test_golden_drawing(name: str, accept: bool) -> None:
    piece, method, options = SMALL[name]
    drawn = to_svg(draw_schematic(shawl_of(piece, title=name.title(), method=method), options))
    path = FOLDER / f"{name}.svg"
    if accept:
        path.write_bytes(drawn)
    assert path.read_bytes() == drawn, "if the change is wanted: pytest --accept"
