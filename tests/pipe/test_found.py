"""Descriptions that once went wrong somewhere in the pipe, from `tests/cases/found`: each goes through all of it."""

from pathlib import Path

import pytest
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.pipe.drawing import svg_files
from tests.pipe.drawing.test_scene import meeting, outside
from tests.whole import shawl

FOUND = sorted((Path(__file__).parents[1] / "cases" / "found").glob("*.shawl"))


@pytest.mark.parametrize("path", FOUND, ids=lambda path: path.stem)
def test_found_cases_stay_mended(path: Path) -> None:
    found = shawl(path.read_text(encoding="utf-8"))
    for options in (Options(), Options(scale=10), Options(scale=20)):
        scene = draw_schematic(found, options)
        assert not meeting(scene) and not outside(scene)
        svg_files.check(to_svg(scene))


def test_there_are_cases() -> None:
    assert FOUND
