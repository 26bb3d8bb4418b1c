"""The skein on the drawing: what its label says, what it weighed, and masses in the unit of the label."""

import re
from itertools import pairwise

import pytest
from halfhank.model.shawl import SkeinMass
from halfhank.model.weighings.forecast import forecast
from halfhank.renderer.charts.yarn_chart import yarn_chart
from halfhank.renderer.paper.house_style import MARGIN
from halfhank.renderer.paper.measure_words import mass
from halfhank.renderer.paper.scene import Label, Path, Scene
from halfhank.renderer.paper.text_widths import text_width
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic
from halfhank.renderer.schematic.skein_axis import Ruler, ticks

from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of
from tests.renderer import checks
from tests.renderer.pieces import Piece, level, shawl_of
from tests.renderer.scenes import PIECES

START, LATER = "before cast on 101.2 g", "after row 80 66 g left"
OUNCES = BANDED.replace("skein 100 g 390 m", "skein 3.5 oz 430 yd")


def drawn(text: str) -> Scene:
    return draw_schematic(plan_of(text).shawl, Options(contours=True))


def said_of_the_skein(scene: Scene) -> str:
    found = [item.text for item in checks.leaves(checks.group(scene, "skein-heading").items) if isinstance(item, Label)]
    return " ".join(found)


@pytest.mark.parametrize(
    ("log", "said"),
    [
        ((), "The skein grams on the scale 100 g, 380 m (416 yd)"),
        ((START,), "The skein grams on the scale 100 g, 380 m (416 yd) by its label, weighed 101.2 g"),
        ((START, LATER), "The skein grams on the scale 100 g, 380 m (416 yd) by its label, weighed 101.2 g"),
    ],
)
def test_label_and_scale_are_named(log: tuple[str, ...], said: str) -> None:
    assert said_of_the_skein(drawn(logged(PLAIN, *log) if log else PLAIN)) == said


def test_a_mass_that_only_the_log_says_is_named_so() -> None:
    """Two grams less than the plan's are partly put down to the label."""
    made = plan_of(logged(PLAIN, "after row 80 58 g left"))
    mass = made.shawl.yarn.skein_g
    assert 90 < mass < 99.5
    assert f"by its label, {round(mass, 1):g} g by its log" in said_of_the_skein(draw_schematic(made.shawl))


@pytest.mark.parametrize("text", [OUNCES, logged(OUNCES, "before cast on 3.55 oz", "after row 44 3.2 oz left")])
def test_no_mass_in_grams_where_the_skein_is_in_ounces(text: str) -> None:
    made = plan_of(text)
    for scene in (drawn(text), yarn_chart(made.shawl, forecast(made))):
        words = checks.texts(scene) + [group.title or "" for group in checks.groups(scene.items)]
        assert not [one for one in [*words, scene.description] if re.search(r"\bg\b|\bgrams?\b", one)]
        assert [one for one in words if re.search(r"[0-9] oz\b", one)]
        assert checks.meetings(scene) == [] and checks.strays(scene) == []


def test_ticks_of_ounces_stand_at_their_grams() -> None:
    scene = draw_schematic(shawl_of(PIECES["triangle"])._replace(skein=SkeinMass(100.0, 380.0, unit="oz")))
    items = checks.group(scene, "ticks").items
    named = dict(
        zip((i.text for i in items if isinstance(i, Label)), (i for i in items if isinstance(i, Path)), strict=True)
    )
    assert sorted(named, reverse=True) == ["3.53 oz", "3.0", "2.5", "2.0", "1.5", "1.0", "0.5", "0"]
    place = {words: path.data[0][1][0] for words, path in named.items()}
    ounce = (place["0"] - place["3.53 oz"]) * 28.349523125 / 100
    assert place["0"] - place["2.5"] == pytest.approx(2.5 * ounce)


def test_contours_of_ounces_are_half_an_ounce_apart_at_least() -> None:
    (note,) = [one for one in checks.texts(drawn(OUNCES)) if "fine line" in one]
    assert note == "A fine line follows each 0.5 oz of yarn used."


def fields_said(scene: Scene) -> tuple[list[Label], list[str]]:
    """The words inside the bar, and those of its key."""
    inside = [item for item in checks.leaves(checks.group(scene, "bar").items) if isinstance(item, Label)]
    keys = [group for group in checks.groups(scene.items) if group.name == "skein-key"]
    keyed = [item.text for group in keys for item in checks.leaves(group.items) if isinstance(item, Label)]
    return inside, keyed


@pytest.mark.parametrize("keep_g", [0.0, 0.4, 2.0, 5.0, 12.0, 18.0])
@pytest.mark.parametrize("width", [None, 100, 250])
def test_what_lies_behind_the_rows_is_named_on_the_bar_or_in_its_key(keep_g: float, width: float | None) -> None:
    """82 of 100 g: bind-off, margin and what is spare, each once, in type of 2.6 mm at least."""
    scene = draw_schematic(shawl_of(PIECES["triangle"], keep_g=keep_g), Options(width_mm=width))
    inside, keyed = fields_said(scene)
    assert all(label.size >= 2.6 for label in inside)
    said = {words.split(" ")[0]: words.split(" ", 1)[1] for words in [*(label.text for label in inside), *keyed]}
    wide = (scene.width - 20) / 100 * keep_g >= 0.2
    assert set(said) == {"bind-off", *(["margin"] if wide else []), *(["spare"] if keep_g < 17.5 else [])}
    assert said.get("margin", f"{keep_g:g} g") == f"{keep_g:g} g"
    assert said.get("spare", mass(18 - keep_g, "g")) == mass(18 - keep_g, "g")
    assert len(said) == len(inside) + len(keyed) and "bind-off 1.6 g" in keyed
    assert not checks.meetings(scene) and not checks.strays(scene)


@pytest.mark.parametrize("rows", [60, 7, 3])
def test_the_middle_of_the_shawls_yarn_is_marked_as_that(rows: int) -> None:
    """Half of 82 of 100 g is used at 59 g on the scale, however far behind it the row ends that gets there."""
    scene = draw_schematic(shawl_of(Piece([("only", [("garter", rows)])], level)))
    (name,) = [i for i in checks.group(scene, "mark-names").items if isinstance(i, Label)]
    line = next(i for i in checks.group(scene, "ruler-marks").items if isinstance(i, Path))
    assert name.text == "half of 82 g"
    share = (line.data[0][1][0] - MARGIN) / (scene.width - 2 * MARGIN)
    assert share == pytest.approx(0.41, abs=0.0001)


@pytest.mark.parametrize("width", range(50, 240, 10))
@pytest.mark.parametrize(("skein_g", "end_g"), [(50, 0), (100, 0), (101.2, 0), (150, 0), (200, -20), (437, 0)])
def test_the_figures_under_the_bar_are_evenly_apart(skein_g: float, end_g: float, width: float) -> None:
    """Every step or every second one has its figure; behind the skein's own mass the first may be missing."""
    labels = [i for i in ticks(Ruler(10, width, skein_g, end_g, "g"), 5.0).items if isinstance(i, Label)]
    full, *figures = [label.text for label in labels]
    values = [float(words.replace("\u2212", "-")) for words in figures]
    steps = {before - after for before, after in pairwise(values)}
    assert len(values) >= 2 and len(steps) == 1 and float(full.removesuffix(" g")) - values[0] < 2 * steps.pop()
    assert all(after.x - before.x > text_width(before.text, before.size) + 1 for before, after in pairwise(labels))
