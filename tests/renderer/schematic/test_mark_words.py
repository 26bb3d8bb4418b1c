"""What the drawing says of rows that are marked: turning back, going on past the end, and of drop stitch."""

import re
from pathlib import Path

import pytest
from halfhank.renderer.paper.scene import Label
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.cli.running import halfhank
from tests.outside.pieces import part, piece
from tests.renderer import checks
from tests.whole import shawl

GARTER = "stitch garter\n  gauge 20 sts 40 rows over 10 cm"
GROWN = "increase 1 at lower edge every 2 rows"


def turned(bands: str, skein: str) -> str:
    return piece(
        shape="tip-to-tip", start="cast on 5 sts", shaping=GROWN, parts=part(bands), skein=skein, end="turn back"
    )


@pytest.mark.parametrize(
    ("text", "latest"),
    [
        (turned("repeat as yarn allows\n    garter 2 rows", "50 g 200 m"), False),
        (turned("garter 120 rows", "10 g 40 m"), True),
    ],
)
def test_where_the_plan_turns_back_it_is_no_latest_row(text: str, latest: bool) -> None:
    """A first half as long as the yarn allows turns at its own end; one that the yarn is short for at a row before."""
    scene = draw_schematic(shawl(text))
    names = [i.text for i in checks.group(scene, "mark-names").items if isinstance(i, Label)]
    assert ("turn back at the latest" if latest else "turn back") in names
    said = " ".join(checks.texts(scene))
    assert ("at the latest" in said) == latest and "turn back after row " in said


@pytest.mark.parametrize(
    ("shape", "start", "shaping", "words"),
    [
        ("rectangle", "cast on 40 sts", "", "rectangle, second half mirrored"),
        ("tip-to-tip", "cast on 5 sts", GROWN, "worked from tip to tip, second half mirrored"),
        ("crescent", "cast on 9 sts", "increase 2 at each edge every 2 rows", "crescent, second half mirrored"),
        ("triangle", "cast on 9 sts", "increase 1 at each edge every 2 rows", "triangle, second half mirrored"),
    ],
)
def test_a_second_half_is_said_to_be_mirrored(shape: str, start: str, shaping: str, words: str) -> None:
    text = piece(shape=shape, start=start, shaping=shaping, parts=part("garter 40 rows"), end="turn back")
    summary = shawl(text).summary
    assert summary.startswith(words), summary


REPEAT = "repeat as yarn allows\n    garter 8 ridges"
TOOTH = "increase 1 at lower edge every 2 rows\nbind off 7 at lower edge every 16 rows from row 17"


@pytest.mark.parametrize(
    ("shape", "start", "shaping", "bands", "unit"),
    [
        ("rectangle", "cast on 40 sts", "", REPEAT, ", not for one more repeat"),
        ("asymmetric", "cast on 5 sts", TOOTH, REPEAT, ", not for one more tooth"),
        ("rectangle", "cast on 40 sts", "", "garter 100 ridges", ""),
    ],
)
def test_rows_past_the_end_say_that_no_repeat_fits(shape: str, start: str, shaping: str, bands: str, unit: str) -> None:
    """The skein is tried in steps, as the yarn must be enough for some rows past a whole count of repeats."""
    for grams in range(80, 88):
        text = piece(
            shape=shape, start=start, shaping=shaping, parts=part(bands), skein=f"{grams} g {4 * grams} m", keep="4%"
        )
        found = [words for words in checks.texts(draw_schematic(shawl(text))) if words.startswith("Enough yarn for ")]
        if found:
            assert found[0].endswith(f" more garter rows{unit}."), found
            return
    raise AssertionError("no skein goes on past the end")


@pytest.mark.parametrize("width", [None, 80])
def test_drop_stitch_has_its_whole_name_in_the_key(width: float | None) -> None:
    text = piece(shape="rectangle", start="cast on 40 sts", parts=part("garter 20 ridges", "drop 3 wraps"))
    scene = draw_schematic(shawl(text), Options(width_mm=width))
    legend = [i.text for i in checks.leaves(checks.group(scene, "legend").items) if isinstance(i, Label)]
    assert "drop stitch, 3 wraps" in " ".join(legend)


@pytest.mark.parametrize("pinned", ["pinned straight", ""])
def test_a_half_circle_says_once_that_it_is_pinned_straight(pinned: str) -> None:
    shaping = "increase 30 evenly every 10 rows from row 5\n" + pinned
    made = shawl(piece(shape="half-circle", start="cast on 60 sts", shaping=shaping, parts=part("garter 40 ridges")))
    said = "; pinned to a straight top edge" in made.summary
    assert said == bool(pinned) and made.summary.count("pinned") == said
    assert ("knits to " in made.summary) == said


def test_a_part_that_the_plan_turns_back_around_is_named() -> None:
    slipway = (Path(__file__).parents[3] / "gallery_demo/slipway-nine.shawl").read_text(encoding="utf-8")
    said = " ".join(checks.texts(draw_schematic(shawl(slipway))))
    assert "after row 216, 58 g on the scale: work keel, then turn back" in said
    assert "keel, then turn back half of 86 g" in said


def test_plan_and_drawing_agree_on_turning_back() -> None:
    slipway = Path(__file__).parents[3] / "gallery_demo/slipway-nine.shawl"
    planned = halfhank("plan", slipway).out.decode()
    assert (
        re.search(r"\nturn back +216 ", planned) and "at the latest" not in planned.split("Parts")[0].split("Marks")[1]
    )


def test_a_strip_is_described_by_the_words_of_its_dimensions() -> None:
    gallery = Path(__file__).parents[3] / "gallery_demo"
    for name, said in (("towpath", " long and "), ("quarry-bench", " wide and "), ("lintel", " wide and ")):
        description = draw_schematic(shawl((gallery / f"{name}.shawl").read_text(encoding="utf-8"))).description
        assert said in description
    assert " deep" in description
