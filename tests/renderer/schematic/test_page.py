"""What the page says: texts, figures, edges and textures."""

import pytest
from halfhank.renderer.paper.house_style import MARGIN, SOFT
from halfhank.renderer.paper.scene import Group, Label, Path, Scene, Style
from halfhank.renderer.schematic.fabric.bind_off_edges import overhang_of
from halfhank.renderer.schematic.fabric.textures import textures_of
from halfhank.renderer.schematic.options import Options
from halfhank.renderer.schematic.page import draw_schematic

from tests.renderer import checks
from tests.renderer.pieces import (
    shawl_of,
)
from tests.renderer.scenes import METHODS, PIECES, REMARK, SCENES


def test_every_band_says_what_it_is() -> None:
    scene = SCENES["triangle"]
    bands = checks.group(scene, "fabric").items
    assert len(bands) == 17
    used = shawl_of(PIECES["triangle"]).bands[1].used_g
    assert isinstance(bands[1], Group)
    assert bands[1].title == f"rows 33–40: mesh, to 88 sts, {used:.1f} g"


def test_page_says_what_must_be_said() -> None:
    words = " ".join(checks.texts(SCENES["triangle"]))
    for told in (
        "half of this shawl's yarn: after row",
        "ends after row 120 and the bind-off, 18 g left over",
        "half of 82 g",
        "g on the scale",
        "blocked, not stretched",
        "1:8",
        "garter 20 × 40",
        "4 mm needles",
    ):
        assert told in words


def edge_styles(method: str) -> list[Style]:
    """How the bound-off edge is stroked, behind the fabric and on it."""
    scene = SCENES[f"{method} edge"]
    items = checks.group(scene, "edge-behind").items + checks.group(scene, "bind-off").items
    return [item.style for item in items if isinstance(item, Path)]


def test_each_bind_off_has_an_edge_of_its_own() -> None:
    assert len({tuple(edge_styles(method)) for method in METHODS}) == len(METHODS)


@pytest.mark.parametrize("method", METHODS)
def test_scallops_are_of_a_picot_alone(method: str) -> None:
    scallops = [style for style in edge_styles(method) if style.cap == "round" and style.dash]
    assert bool(scallops) == (method == "picot")


@pytest.mark.parametrize("method", METHODS)
def test_an_edge_keeps_within_its_overhang(method: str) -> None:
    assert max(style.width for style in edge_styles(method)) / 2 <= overhang_of(method) + 1e-9


@pytest.mark.parametrize("method", METHODS)
def test_the_table_shows_the_edge(method: str) -> None:
    """Beside the bind-off's name stands a piece of its edge."""
    items = checks.group(SCENES[f"{method} edge"], "parts").items
    styles = {item.style._replace(dash=()) for item in items if isinstance(item, Path)}
    assert {style._replace(dash=()) for style in edge_styles(method)} <= styles


def test_remarks_stand_at_the_foot_and_in_the_description() -> None:
    scene = SCENES["remarks"]
    feet = [label for label in labels(scene) if label.text == REMARK]
    assert len(feet) == 1 and REMARK in scene.description
    assert feet[0].y > max(label.y for label in labels(scene) if label.text == "garter 20 × 40")
    assert " ".join(checks.texts(scene)).count("кружево") == 3


def test_units_lead_as_asked() -> None:
    assert "95 cm (37 in), blocked, not stretched" in checks.texts(SCENES["triangle"])
    assert "37 in (95 cm), blocked, not stretched" in checks.texts(SCENES["inches"])


def test_yarn_that_does_not_last_is_said_in_words() -> None:
    words = checks.texts(SCENES["too little yarn"])
    assert "Not enough yarn: 32 g short." in words
    assert not [text for text in words if "−" in text and "left" in text]
    assert not [text for text in words if "left over" in text]


def test_a_mark_beyond_the_end_is_a_note() -> None:
    scene = SCENES["mark beyond the end"]
    assert not [text for text in checks.texts(scene) if text.startswith("bind off")]
    assert "Enough yarn for 10 more garter rows." in checks.texts(scene)


def marks_of(scene: Scene) -> set[str]:
    return {item.name for item in checks.group(scene, "marks").items if isinstance(item, Group)}


def test_an_end_says_once_and_quietly_what_is_left_over() -> None:
    """The plan's last row is no row to bind off by: no red line there, nothing on the skein."""
    scene = SCENES["triangle"]
    (words,) = [text for text in checks.texts(scene) if "left over" in text]
    assert words == "ends after row 120 and the bind-off, 18 g left over"
    (flag,) = [label for label in labels(scene) if label.text == words]
    assert flag.fill == SOFT and marks_of(scene) == {"mark-half"}


@pytest.mark.parametrize(("spare_rows", "inside"), [(1, False), (2, True), (20, True)])
def test_a_row_to_bind_off_after_is_marked_inside_the_fabric_alone(spare_rows: int, inside: bool) -> None:
    scene = draw_schematic(shawl_of(PIECES["triangle"], spare_rows=spare_rows))
    assert ("mark-bind-off" in marks_of(scene)) == inside
    words = f"bind off after row {120 - spare_rows} at the latest, "
    assert any(text.startswith(words) for text in checks.texts(scene)) == inside
    assert any("left over" in text for text in checks.texts(scene)) != inside


def test_the_designers_name_stays_together() -> None:
    summary = "triangle from the neck, pinned to 160 cm by 55 cm, elastic bind-off, by Nell Ottershaw-Quill"
    shawl = shawl_of(PIECES["triangle"])._replace(summary=summary)
    items = checks.group(draw_schematic(shawl, Options(scale=10)), "heading").items[1:]
    lines = [item.text for item in items if isinstance(item, Label)]
    assert lines[-1] == "by Nell Ottershaw-Quill" and " ".join(lines) == summary


def test_each_fabric_has_a_texture_of_its_own() -> None:
    patterns = textures_of(shawl_of(PIECES["rectangle"]))
    assert len(set(patterns.values())) == len(patterns) == 4
    assert {pattern.kind for pattern in patterns.values()} == {"plain", "openwork", "drop"}


def labels(scene: Scene) -> list[Label]:
    return [item for item in checks.leaves(scene.items) if isinstance(item, Label)]


def test_ruler_shows_the_grams_left() -> None:
    """Ticks lie where the skein's grams say, from its left end to its right."""
    scene = SCENES["triangle"]
    ticks = [item for item in labels(scene) if item in checks.group(scene, "ticks").items]
    assert [tick.text for tick in sorted(ticks, key=lambda t: t.x)] == [
        "100 g", "90", "80", "70", "60", "50", "40", "30", "20", "10", "0",
    ]  # fmt: skip


def test_thin_parts_share_a_number_above_the_skein() -> None:
    """The bracket reaches over their yarn: from the first part's start to the last one's end."""
    scene = SCENES["thin parts"]
    assert "1–6" in checks.texts(scene)
    badges = checks.group(scene, "ruler-badges").items
    bracket = next(checks.points_of(item) for item in badges if isinstance(item, Path))
    shawl = shawl_of(PIECES["thin parts"])
    width = scene.width - 2 * MARGIN
    wanted = [MARGIN, MARGIN + width * (1 - shawl.parts[5].left_g / shawl.yarn.skein_g)]
    assert [bracket[0][0], bracket[3][0]] == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize(("width", "name"), [(60, "body, rows 33–112"), (80, "body"), (108, "body, rows 33–112")])
def test_names_are_whole_in_a_narrow_column(width: float, name: str) -> None:
    """Rows have a column of their own, where there is room for it, else they stand behind the names."""
    words = checks.texts(draw_schematic(shawl_of(PIECES["triangle"]), Options(width_mm=width)))
    assert {name, "cast-on of 8 sts"} <= set(words)
    assert ("rows" in words) == (name == "body")


def test_every_length_is_told_once() -> None:
    """Drawn as a dimension or said in words: wingspan, depth, side, bind-off edge."""
    words = "\n".join(checks.texts(SCENES["triangle"]))
    given = ("95 cm (37 in), blocked, not stretched", "depth 47 cm (19 in)", "side 67 cm (26 in)")
    for told in (*given, "nd-off edge 134 cm (53 in)"):
        assert words.count(told) == 1, told


def test_table_sums_to_all_of_the_yarn() -> None:
    from halfhank.renderer.schematic.table.table_words import table_lines

    lines = table_lines(shawl_of(PIECES["triangle"]))
    assert sum(float(line.cells[2]) for line in lines) == pytest.approx(82, abs=0.3)


def test_what_is_short_is_said_as_short_in_the_table() -> None:
    from halfhank.renderer.schematic.table.table_words import table_lines

    shawl = shawl_of(PIECES["triangle"])
    short = shawl._replace(yarn=shawl.yarn._replace(left_g=-2.6))
    assert [line.cells[4] for line in table_lines(short)][-1] == "2.6 short"
    assert not any("−" in line.cells[4] for line in table_lines(short))
    assert [line.cells[4] for line in table_lines(shawl._replace(yarn=shawl.yarn._replace(left_g=-0.04)))][-1] == "0.0"


@pytest.mark.parametrize("parts", [(1, 1, 1), (0.4, 33.2, 33.2, 33.2), (0.3, 0.6, 12.5, 86.6), (2, 5, 0), (999, 1)])
def test_shares_add_up_to_what_the_smallest_leave(parts: tuple[float, ...]) -> None:
    """Each is one of the two whole numbers beside its share; below a hundredth it is only less than that."""
    from halfhank.renderer.schematic.table.table_words import shares

    exact = [100 * part / sum(parts) for part in parts]
    words = shares([share / 100 for share in exact])
    whole = [float(said.removesuffix(" %")) for said, share in zip(words, exact, strict=True) if share >= 1]
    assert sum(whole) == round(sum(share for share in exact if share >= 1))
    for said, share in zip(words, exact, strict=True):
        assert said == ("0 %" if share == 0 else "<1 %") if share < 1 else abs(float(said[:-2]) - share) < 1


@pytest.mark.parametrize(
    ("unit", "used_g", "said"),
    [("g", 0.03, "<0.1"), ("g", 0.06, "0.1"), ("g", 0.0, "0.0"), ("oz", 0.12, "<0.01"), ("oz", 0.15, "0.01")],
)
def test_a_mass_that_would_round_to_nothing_is_less_than_the_smallest(unit: str, used_g: float, said: str) -> None:
    from halfhank.renderer.schematic.table.table_words import table_lines

    shawl = shawl_of(PIECES["triangle"])
    shawl = shawl._replace(yarn=shawl.yarn._replace(start_g=used_g), skein=shawl.skein._replace(unit=unit))
    assert table_lines(shawl)[0].cells[2] == said


def test_the_total_is_all_rows_and_all_yarn() -> None:
    """82 g of 3.8 m a gram are 312 m; the chance and its range stand below."""
    words = checks.texts(SCENES["triangle"])
    assert "total, 312 m (341 yd)" in words
    place = words.index("total, 312 m (341 yd)")
    assert words[place + 1 : place + 5] == ["120", "82.0", "100 %", "18.0"]
    place = words.index("Chance of enough yarn if the margin is used too: 98 %.")
    assert words[place + 1] == "Yarn measured on a swatch, 90 % range 74 to 90 g. Figures are rounded."
    without = checks.texts(draw_schematic(shawl_of(PIECES["triangle"], keep_g=0.0), Options(width_mm=200)))
    (chance,) = [text for text in without if text.startswith("Chance of enough yarn: 98 %")]
    assert chance.endswith(". Yarn measured on a swatch, 90 % range 74 to 90 g. Figures are rounded.")


def test_weighings_are_said_to_have_corrected_it() -> None:
    shawl = shawl_of(PIECES["triangle"])
    logged = shawl._replace(yarn=shawl.yarn._replace(basis="weighed"))
    assert "a piece made by hand, corrected by weighings" in checks.texts(draw_schematic(logged))
    assert "corrected" not in " ".join(checks.texts(draw_schematic(shawl)))


def test_nothing_is_said_twice() -> None:
    """The bind-off and the last count stand in the table alone, and a spine within 5 % of the depth nowhere."""
    shawl = shawl_of(PIECES["triangle"])._replace(summary="triangle, standard bind-off, by Nell")
    size = shawl.outline.size
    for spine_cm, said in ((0.96 * size.depth_cm, False), (0.94 * size.depth_cm, True)):
        shawl.outline.size = size._replace(spine_cm=spine_cm)
        words = " ".join(checks.texts(draw_schematic(shawl))).lower()
        assert words.count("standard bind-off") == 1 and words.count(str(shawl.rows.stitches[-1])) == 1
        assert ("spine" in words) == said


def test_an_assumed_gauge_is_no_more_precise_than_it_is() -> None:
    shawl = shawl_of(PIECES["triangle"])
    assumed = shawl.fabrics[0]._replace(gauge=(20.0, 26.666), gauge_assumed=True)
    drawn = draw_schematic(shawl._replace(fabrics=(assumed, *shawl.fabrics[1:])))
    assert any(text.endswith("≈ 20 × 27") for text in checks.texts(drawn))


def test_inches_count_over_four_of_them() -> None:
    assert any("over 4 in (10 cm)" in text for text in checks.texts(SCENES["inches"]))
    assert any("over 10 cm" in text for text in checks.texts(SCENES["triangle"]))
