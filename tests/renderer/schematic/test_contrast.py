"""Texts and lines that carry meaning stand out from what is behind them: all demos, both ramps, also in grey."""

import pathlib
from functools import cache

import pytest
from halfhank.cli.planned_file import plan_file
from halfhank.model.shawl import Shawl
from halfhank.renderer.paper.house_style import INK, LIGHT, RED
from halfhank.renderer.paper.ramp import RAMPS, channels, contrast
from halfhank.renderer.paper.scene import Label, Path, Rect, Scene, Style
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.renderer.contrast import failures, grey
from tests.renderer.scenes import METHODS, SCENES

DEMOS = sorted((pathlib.Path(__file__).parents[3] / "gallery_demo").glob("*.shawl"))


@cache
def shawl_of_demo(path: pathlib.Path) -> Shawl:
    plan = plan_file(str(path)).plan
    assert plan is not None
    return plan.shawl


@pytest.mark.parametrize("ramp", RAMPS)
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_texts_and_lines_stand_out(path: pathlib.Path, ramp: str) -> None:
    scene = draw_schematic(shawl_of_demo(path), Options(ramp=ramp, contours=True))
    assert failures(scene, str) == []
    assert failures(scene, grey) == []


def test_a_grey_keeps_no_colour() -> None:
    assert grey("#9f1d1a") == "#444444"
    assert len(set(channels(grey("#336699")))) == 1


@pytest.mark.parametrize("name", ["too little yarn", "thin parts", *(f"{method} edge" for method in METHODS)])
def test_what_the_demos_do_not_show_stands_out(name: str) -> None:
    """Yarn that is short, badges in a row, every kind of edge."""
    assert failures(SCENES[name], str) == failures(SCENES[name], grey) == []


@pytest.mark.parametrize("ramp", RAMPS)
def test_marks_across_all_of_the_ramp_stand_out(ramp: str) -> None:
    """A red line cased in white, and an ink one, on every colour of the fabric."""
    for k in range(101):
        behind = RAMPS[ramp].colour(k / 100)
        for tone in (str, grey):
            for ink in (RED, INK):
                assert max(contrast(tone(ink), tone(behind)), contrast(LIGHT, tone(behind))) >= 3


def test_what_does_not_stand_out_is_found() -> None:
    """Grey on white at 2.9:1, white on white, dark on dark; a line that is seen on one of its sides is no failure."""
    line = Path((("M", (1.0, 1.0)), ("L", (9.0, 1.0))), Style(stroke="#999999", width=0.3))
    box = Rect(0, 5, 10, 10, Style(fill="#202020"))
    words = Label(1, 10, "words", 3, "#303030")
    edge = Path((("M", (0.0, 5.0)), ("L", (10.0, 5.0))), Style(stroke="#202020", width=0.3))
    pale = Label(1, 4, "pale", 3, "#8c8c8c")
    found = failures(Scene(20, 20, "", "", (line, box, words, edge, pale)), str)
    assert [one.split(":")[0] for one in found] == ["line #999999 0.30 in ", "text 'words'", "text 'pale'"]
