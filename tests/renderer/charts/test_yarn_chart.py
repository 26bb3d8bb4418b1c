"""The yarn chart and the overlay: what is on them, where it lies, and that nothing meets or leaves the page."""

import math
import re
import string
from functools import reduce
from itertools import pairwise

import pytest
from halfhank.model.weighings.forecast import forecast
from halfhank.renderer import Options, draw_schematic
from halfhank.renderer.charts.plot import nice_step, tick_text, ticks
from halfhank.renderer.charts.yarn_chart import yarn_chart
from halfhank.renderer.charts.yarn_labels import DEEP
from halfhank.renderer.paper.house_style import INK, PAPER
from halfhank.renderer.paper.ramp import channels
from halfhank.renderer.paper.scene import Circle, Group, Label, Path, Rect, Scene
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.plane.boxes import Box
from halfhank.renderer.plane.text_boxes import label_box
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.model.weighings.knits import BANDED, PLAIN, logged, plan_of
from tests.pipe.drawing.svg_files import check
from tests.pipe.random_shawls.making import seeded_plan
from tests.renderer.checks import group, leaves, meetings, strays, texts

LOG = ("before cast on 101.2 g", "after row 44 90.4 g left", "after row 80 66 g left", "after row 95 50.1 g used")


def chart(text: str) -> Scene:
    made = plan_of(text)
    shawl = made.shawl
    return yarn_chart(shawl, forecast(made))


def sound(scene: Scene) -> None:
    """What every page must be."""
    assert meetings(scene) == []
    assert strays(scene) == []
    check(to_svg(scene))
    assert to_svg(scene) == to_svg(scene)


@pytest.mark.parametrize("text", [PLAIN, BANDED, logged(BANDED, *LOG), logged(PLAIN, "after row 64 78 g left")])
def test_charts_are_sound(text: str) -> None:
    sound(chart(text))


HARD = {
    "one row": PLAIN.replace("garter 16 ridges", "garter 1 row").replace('part "body"\n  garter 48 ridges\n', ""),
    "too long": PLAIN.replace("48 ridges", "90 ridges"),
    "many parts": PLAIN
    + "".join(f'part "part {name} with a long name"\n  garter 2 rows\n' for name in string.ascii_letters),
    "long names": BANDED.replace("Millrace", "W" * 300).replace('"plain"', f'"{"m" * 300}"'),
    "other scripts": BANDED.replace("Millrace", "Шаль 披肩 ショール").replace("collar", "воротник"),
    "a heavy skein": PLAIN.replace("100 g 380 m", "90000 g 342000 m"),
    "a light one": PLAIN.replace("100 g 380 m", "0.5 g 1.9 m"),
    "nothing kept": PLAIN.replace("keep 5%", "keep 0%"),
    "turned": PLAIN.replace(" and 1 at spine", "") + "turn back\n",
    "crowded log": logged(
        PLAIN, "before cast on 100.0 g", *(f"after row {r} {99 - r / 3:.1f} g left" for r in range(2, 62))
    ),
}


@pytest.mark.parametrize("name", HARD)
def test_hard_charts_are_sound(name: str) -> None:
    scene = chart(HARD[name])
    sound(scene)
    assert not [text for text in texts(scene) if "\u2026" in text]


@pytest.mark.parametrize("number", range(0, 120, 3))
def test_charts_of_random_shawls_are_sound(number: int) -> None:
    plan = seeded_plan(number)
    if plan.shawl is not None:
        scene = yarn_chart(plan.shawl, forecast(plan.plan))
        assert meetings(scene) == [] and strays(scene) == []
        check(to_svg(scene))


def test_the_chart_says_what_it_shows() -> None:
    told = texts(chart(logged(BANDED, *LOG)))
    for words in ("row", "on the scale, g", "used, g", "collar", "body", "bind-off", "90.4 g", "66.0 g"):
        assert words in told
    assert "forecast with its 90 % range" in told and "plan with the skein weighed" in told
    assert "90 % range of the plan with the skein weighed" in told
    unweighed = texts(chart(logged(BANDED, *LOG[1:])))
    assert "plan before the weighings" in unweighed and "90 % range of the plan before the weighings" in unweighed
    assert any(text.startswith("half ") and text.endswith("yarn:") for text in told)
    assert "plan with its 90 % range" in texts(chart(BANDED))


@pytest.mark.parametrize(
    ("chance", "told"),
    [(1.0, "over 99 %"), (0.991, "over 99 %"), (0.95, "95 %"), (0.5, "50 %"), (0.009, "under 1 %"), (0.0, "under 1 %")],
)
def test_no_chance_is_told_as_certain(chance: float, told: str) -> None:
    made = plan_of(PLAIN)
    shawl = made.shawl
    scene = yarn_chart(shawl._replace(yarn=shawl.yarn._replace(chance_enough=chance)), forecast(made))
    assert f"Chance of enough yarn if the margin (5 g) is used too: {told}." in texts(scene)


def test_the_curve_lies_where_the_axes_say() -> None:
    """Read back from the drawn ticks: the curve's points are the forecast's rows and grams."""
    scene, found = chart(logged(BANDED, *LOG)), forecast(plan_of(logged(BANDED, *LOG)))
    figures = [item for item in leaves(group(scene, "axes").items) if isinstance(item, Label) and item.text.isdigit()]
    left = {float(f.text): f.y for f in figures if f.anchor == "end"}
    rows = {float(f.text): f.x for f in figures if f.anchor == "middle"}
    (y0, y50), (x0, x50) = (left[0], left[50]), (rows[0], rows[50])
    curve = group(scene, "curves").items[-1]
    assert isinstance(curve, Path)
    for _, (x, y) in curve.data[:-1]:
        row = 50 * (x - x0) / (x50 - x0)
        shift = y0 - next(f.y for f in figures if f.text == "0" and f.anchor == "end")
        grams = 50 * (y - (y0 - 3.1 * 0.716 / 2) - shift) / (y50 - y0)
        assert row == pytest.approx(round(row), abs=0.02)
        assert grams == pytest.approx(found.rows[round(row)].mean, abs=0.1)


def test_weighings_are_points_with_the_scales_own_error() -> None:
    scene = chart(logged(PLAIN, "before cast on 100.0 g", "after row 40 91 g left", "after row 64 78.4 g left"))
    items = group(scene, "weighings").items
    assert sum(isinstance(item, Circle) for item in items) == 3
    bars = [item for item in items if isinstance(item, Path) and item.data[0][1][0] == item.data[1][1][0]]
    coarse, fine = (abs(bar.data[1][1][1] - bar.data[0][1][1]) for bar in bars)
    assert coarse / fine == pytest.approx(math.sqrt((0.2025 + 1 / 12) / (0.2025 + 0.01 / 12)), rel=1e-6)


def test_bands_are_told_apart_without_colour() -> None:
    """Lightness of both bands, of white and of the curve: each a good step from the next."""
    old, new = (item.style.fill for item in group(chart(logged(BANDED, *LOG)), "bands").items)
    curve = group(chart(logged(BANDED, *LOG)), "curves").items[-1].style.stroke
    grey = [0.2126 * r + 0.7152 * g + 0.0722 * b for r, g, b in map(channels, ("#ffffff", old, new, curve))]
    assert all(lighter - darker > 0.12 for lighter, darker in pairwise(grey))


def test_a_mark_beyond_the_end_is_a_note() -> None:
    scene = chart(PLAIN)
    assert any("Enough yarn for" in text for text in texts(Scene(1, 1, "", "", group(scene, "notes").items)))
    assert not any("bind off" in text for text in texts(Scene(1, 1, "", "", group(scene, "marks").items)))


def test_the_margin_and_what_lies_below_zero_are_named() -> None:
    told = texts(chart(BANDED))
    assert "margin, 4 g" in told and "below zero: not enough yarn" in told
    plain = texts(chart(PLAIN.replace("keep 5%", "keep 0%").replace("48 ridges", "10 ridges")))
    assert not any("margin" in text or "below zero" in text for text in plain)


def test_bind_off_and_margin_look_as_on_the_skeins_bar() -> None:
    made = plan_of(BANDED)
    areas = group(chart(BANDED), "areas")
    bar = group(draw_schematic(made.shawl, Options()), "skein").items
    hatched = next(item for item in leaves(bar) if isinstance(item, Rect) and item.style.fill == DEEP)
    swatch = group(areas, "bind-off-swatch").items
    assert isinstance(swatch[0], Rect) and swatch[0].style.fill == hatched.style.fill
    (strokes,) = group(areas, "bind-off-yarn").items
    assert strokes.style in [item.style for item in leaves(bar) if isinstance(item, Path)]
    margin = next(item for item in areas.items if isinstance(item, Rect))
    (border,) = group(chart(BANDED), "margin-border").items
    assert border.style in [item.style for item in leaves(bar) if isinstance(item, Path)]
    assert margin.style.fill == PAPER in [item.style.fill for item in leaves(bar) if isinstance(item, Rect)]


def test_the_zero_line_runs_over_the_bands_to_the_right_edge() -> None:
    scene = chart(logged(BANDED, *LOG))
    (line,) = group(scene, "zero").items
    frame = next(item for item in group(scene, "grid").items if isinstance(item, Rect))
    assert isinstance(line, Path) and [x for x, _ in _ends(line)] == [frame.x, frame.x + frame.width]
    order = [item.name for item in scene.items if isinstance(item, Group)]
    assert order.index("zero") > order.index("bands")


def test_each_weighing_has_its_figure_the_skeins_own_too() -> None:
    text = logged(BANDED, *LOG)
    after_rows = [f"{reading.left_g:.1f} g" for reading in forecast(plan_of(text)).weighings]
    assert len(after_rows) == 3
    assert texts(Scene(1, 1, "", "", group(chart(text), "weighings").items)) == ["101.2 g", *after_rows]


def test_the_heading_says_what_the_weighings_made_of_the_skein() -> None:
    """The metres are those of the printed grams at the label's 390 m per 100 g."""
    told = texts(chart(logged(BANDED, *LOG)))
    (words,) = [text for text in told if text.startswith("corrected by ")]
    found = re.fullmatch(r"corrected by 4 weighings: the skein is about ([\d.]+) g, (\d+) m \(\d+ yd\)", words)
    assert found and int(found[2]) == round(float(found[1]) * 3.9)
    assert not any("corrected" in text for text in texts(chart(BANDED)))


@pytest.mark.parametrize("grams", [100.13, 100.17, 99.88, 101.04, 102.49])
def test_metres_agree_with_the_printed_grams(grams: float) -> None:
    made = plan_of(BANDED)
    yarn = made.shawl.yarn._replace(skein_g=grams, skein_m=3.9 * grams)
    told = texts(yarn_chart(made.shawl._replace(yarn=yarn), forecast(made)))
    found = next(filter(None, (re.search(r"([\d.]+) g, (\d+) m ", text) for text in told)))
    assert int(found[2]) == math.floor(float(found[1]) * 3.9 + 0.5)


def test_a_narrow_part_has_its_name_on_a_leader_where_there_is_room() -> None:
    scene = chart(BANDED)
    parts = group(scene, "parts").items
    name = next(item for item in parts if isinstance(item, Label) and item.text == "kerb")
    lines = [_ends(item) for item in parts if isinstance(item, Path) and item.style.stroke == INK]
    assert len(lines) == 1 and lines[0][0][0] == name.x
    assert not any("kerb" in text for text in texts(Scene(1, 1, "", "", group(scene, "notes").items)))


def test_a_part_without_room_for_its_name_has_a_number_and_a_key() -> None:
    told = texts(chart(BANDED.replace('part "collar"', 'part "a collar with a name longer than its rows"')))
    assert "1" in told and "kerb" in told
    assert "1 a collar with a name longer than its rows" in told
    told = texts(chart(BANDED.replace('part "kerb"', 'part "a kerb with quite a long name"')))
    assert "3" in told and "3 a kerb with quite a long name" in told


def _ends(path: Path) -> list[tuple[float, float]]:
    return [(numbers[0], numbers[1]) for _, numbers in path.data if numbers]


@pytest.mark.parametrize("text", [BANDED, logged(BANDED, *LOG)])
def test_names_of_curves_and_marks_are_joined_to_their_points(text: str) -> None:
    """A text, both its lines together, is within 1.7 mm of its point, or a line runs from it to the point."""
    scene = chart(text)
    drawn = (*group(scene, "curves").items, *group(scene, "bands").items[:1])
    curves = [point for path in drawn for point in _ends(path)]
    dots = [(item.x, item.y) for item in group(scene, "marks").items if isinstance(item, Circle)]
    for name, points in (("names", curves), ("marks", dots)):
        items = group(scene, name).items
        lines = [_ends(item) for item in items if isinstance(item, Path) and not item.style.dash]
        labels = [item for item in items if isinstance(item, Label)]
        for label in labels:
            block = [label_box(other) for other in labels if other.x == label.x]
            box = reduce(Box.joined, block).grown(1.7)
            mine = [line for line in lines if any(_within(box, end) for end in line)]
            reached = [end for line in mine for end in line] + [point for point in points if _within(box, point)]
            assert any(math.dist(end, point) < 12 or _within(box, point) for end in reached for point in points), label


def _within(box: Box, point: tuple[float, float]) -> bool:
    return box.left <= point[0] <= box.right and box.top <= point[1] <= box.bottom


@settings(max_examples=200)
@given(st.floats(1e-6, 1e9), st.integers(2, 20))
def test_steps_are_round_and_few(span: float, most: int) -> None:
    step = nice_step(span, most)
    assert span / step <= most + 1e-6 and span / step > most / 5
    assert float(f"{step:.0e}".split("e")[0]) in (1, 2, 5)
    assert len(ticks(0, span, step)) <= most + 1


def test_ticks_are_written_with_the_steps_decimals() -> None:
    assert [tick_text(value, 0.5) for value in (0, 0.5, -0.5)] == ["0.0", "0.5", "−0.5"]
    assert tick_text(20000, 5000) == "20,000"
