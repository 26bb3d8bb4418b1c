"""The scenes that the page is tested on: pieces made by hand, options, yarns, kinds of bind-off."""

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

import pytest
from halfhank.renderer.paper.scene import Scene
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.renderer.pieces import (
    NECK_DOWN,
    Piece,
    bow,
    bulging,
    chevron,
    fan,
    hollow,
    level,
    scaled,
    shawl_of,
    upright,
)

LONG = "An exceedingly long title with Ünïcödé, кружево и メッシュ that a designer might yet give to a shawl, " * 3
TURNED = [("growing", [("garter", 40), ("drop", 2)] * 4), ("panel", [("mesh", 24)]), ("back", [("garter", 168)])]
LEVELS = [("first", [("garter", 20)]), ("face", [("stockinette", 30), ("drop", 2), ("mesh", 20)] * 3)]
THIN_PARTS = [("a", [("garter", 20)]), *[(name, [("garter", 2)]) for name in "bcdef"], ("g", [("garter", 102)])]


def many(count: int, rows: int = 6) -> list[tuple[str, list[tuple[str, int]]]]:
    return [(f"part {k}", [("garter", rows)]) for k in range(1, count + 1)]


PIECES = {
    "triangle": Piece(NECK_DOWN, chevron, spine=True),
    "rectangle": Piece(LEVELS, level),
    "tip-to-tip": Piece(TURNED, upright, sideways=True),
    "half-circle": Piece(NECK_DOWN, bow),
    "crescent": Piece(NECK_DOWN, fan),
    "bulging sides": Piece([("only", [("garter", 240)])], bulging, sides=True),
    "hollow sides": Piece([("only", [("garter", 240)])], hollow, sides=True),
    "thin parts": Piece(THIN_PARTS, chevron, spine=True),
    "one row": Piece([("only", [("garter", 1)])], level),
    "three rows": Piece([("only", [("garter", 3)])], chevron, spine=True),
    "two rows sideways": Piece([("only", [("garter", 2)])], upright, sideways=True),
    "five centimetres": Piece([("a", [("garter", 4)]), ("b", [("mesh", 2)])], scaled(chevron, 0.5), spine=True),
    "three metres": Piece(NECK_DOWN, scaled(chevron, 3.2), spine=True),
    "wide and thin": Piece([("only", [("garter", 3)])], scaled(level, 6.6)),
    "scarf": Piece([("only", [("garter", 720)])], level),
    "12 parts": Piece(many(12), chevron, spine=True),
    "40 parts": Piece(many(40, 4), chevron, spine=True),
    "40 parts sideways": Piece(many(40), upright, sideways=True),
    "40 parts level": Piece(many(40), level),
    "long names": Piece(
        [(LONG, [("garter", 32)]), ("メッシュ" * 40, [("mesh", 8)]), ("x" * 200, [("garter", 4)])], chevron
    ),
    "many fabrics": Piece([("all", [(f"stitch-{k}-with-a-long-name", 6) for k in range(14)])], level),
}
OPTIONS = {
    "inches": Options(units="in"),
    "little ink with contours": Options(ramp="haze", contours=True),
    "full size": Options(scale=1),
    "very small": Options(scale=1000),
    "narrow": Options(width_mm=100),
    "wide": Options(width_mm=420),
    "without the table": Options(without="table"),
}
DIMENSIONS = {"wingspan", "depth", "spine", "side"}
DIMENSIONS |= {"bind-off-edge", "upper-edge", "lower-edge", "long-edge"}
YARNS: dict[str, dict[str, Any]] = {
    "too little yarn": {"skein_g": 50.0, "total_g": 82.0},
    "small skein": {"skein_g": 7.5, "total_g": 6.0, "keep_g": 0.1},
    "large skein": {"skein_g": 1234.5, "total_g": 82.0},
    "mark beyond the end": {"spare_rows": -10},
    "turning a row later": {"turn_row": 87},
    "marks on one row": {"turn_row": 86},
    "nothing kept": {"keep_g": 0.0},
}
REMARK = "Slip the first stitch of every row."
METHODS = ("standard", "elastic", "picot", "i-cord", "draw through", "measured")


def drawing(piece: Piece, options: Options | None = None, **facts: Any) -> Callable[[], Scene]:
    return lambda: draw_schematic(shawl_of(piece, **facts), options or Options())


def drawings() -> dict[str, Callable[[], Scene]]:
    triangle = PIECES["triangle"]
    found = {name: drawing(piece, title=name) for name, piece in PIECES.items()}
    found |= {name: drawing(triangle, options, method="picot") for name, options in OPTIONS.items()}
    found |= {name: drawing(triangle, **yarn) for name, yarn in YARNS.items()}
    found |= {f"{name} level": drawing(PIECES["rectangle"], **yarn) for name, yarn in YARNS.items()}
    found |= {f"{method} edge": drawing(triangle, method=method) for method in METHODS}
    found["long names without the table"] = drawing(PIECES["long names"], Options(without="table", width_mm=80))
    found["remarks"] = drawing(triangle, remarks=[REMARK, LONG, "x" * 900])
    found["long title"] = drawing(triangle, title=LONG)
    return found


class Drawn(Mapping[str, Scene]):
    """Scenes by name, each drawn once, when a test first looks at it."""

    def __init__(self, makers: dict[str, Callable[[], Scene]]) -> None:
        self._makers = {name: cache(make) for name, make in makers.items()}

    def __getitem__(self, name: str) -> Scene:
        return self._makers[name]()

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)


SCENES = Drawn(drawings())
every = pytest.mark.parametrize("name", SCENES)
