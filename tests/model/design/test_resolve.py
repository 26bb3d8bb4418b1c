"""What a description means hangs on what it says, not on how: every default written out gives the same design."""

import pytest

from tests.model.texts import GARTER, described

MESH = "stitch mesh\n  gauge 19 sts 30 rows over 10 cm\n  multiple of 6 sts + 1"
PART = "garter 20 rows"


@pytest.mark.parametrize(
    ("silent", "written"),
    [
        ({"keep": ""}, {"keep": "keep 5 %"}),
        ({"keep": "", "tail": "turn back"}, {"keep": "keep 10 %", "tail": "turn back"}),
        ({}, {"tail": "bind off standard"}),
        ({"tail": "bind off picot"}, {"tail": "bind off picot cast on 2 bind off 4"}),
        ({"lines": ("edge 3 sts",)}, {"lines": ("edge 3 sts garter",)}),
        ({}, {"lines": ("spine 1 st",)}),
        ({"shape": "crescent"}, {"shape": "crescent", "keep": "keep 5.0 %"}),
    ],
)
def test_a_default_is_what_it_would_be_if_written(silent: dict[str, object], written: dict[str, object]) -> None:
    assert described(PART, **silent) == described(PART, **written)


@pytest.mark.parametrize(
    "other",
    [
        {"keep": "keep 5.1 %"},
        {"keep": "keep 5 g"},
        {"tail": "bind off elastic"},
        {"lines": ("spine 2 sts",)},
        {"lines": ("edge 3 sts",)},
        {"skein": "100 g 381 m"},
        {"shape": "crescent"},
    ],
)
def test_what_means_something_else_is_another_design(other: dict[str, object]) -> None:
    assert described(PART) != described(PART, **other)


def test_the_margin_is_larger_with_a_way_back() -> None:
    assert described(PART, keep="").yarn.margin[:2] == (5.0, None)
    assert described(PART, keep="", tail="turn back").yarn.margin[:2] == (10.0, None)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({"skein": "100 g 457.2 m"}, {"skein": "100 g 500 yd"}),
        ({"stitches": GARTER}, {"stitches": GARTER.replace("20 sts 40 rows over 10 cm", "20 sts 40 rows over 100 mm")}),
    ],
)
def test_units_do_not_matter(one: dict[str, object], other: dict[str, object]) -> None:
    first, second = described(PART, **one), described(PART, **other)
    assert first.yarn.metres_per_gram == pytest.approx(second.yarn.metres_per_gram, rel=1e-12)
    assert first.stitches[0].gauge is not None and second.stitches[0].gauge is not None
    assert first.stitches[0].gauge.stitch_cm == pytest.approx(second.stitches[0].gauge.stitch_cm, rel=1e-12)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("garter 10 ridges", "garter 20 rows"),
        ("garter 10 ridges", "garter 10 ridges   # a remark"),
        ("repeat 2 times\n  garter 4 ridges", "repeat 2 times\n  garter 8 rows"),
    ],
)
def test_bands_are_counted_in_rows(one: str, other: str) -> None:
    assert described(one) == described(other)


@pytest.mark.parametrize(
    ("left", "step_g"),
    [("90 g", 1.0), ("90.4 g", 0.1), ("3 oz", 28.349523), ("3.2 oz", 2.8349523), ("3.25 oz", 0.28349523)],
)
def test_a_scale_is_as_fine_as_its_last_figure(left: str, step_g: float) -> None:
    """An ounce is 28.349523125 g (international pound of 1959)."""
    assert described(PART, tail=f"weighed\n  after row 4 {left} left").log[0].step_g == pytest.approx(step_g)


def test_comments_and_places_mean_nothing_but_are_kept() -> None:
    plain, spread = described(PART), described(f"# one\n\n{PART}   # two")
    assert plain == spread
    assert plain.parts[0].bands[0].span != spread.parts[0].bands[0].span


def test_a_stitch_of_ones_own_is_not_garter() -> None:
    assert described(PART, stitches=f"{GARTER}\n{MESH}") != described(PART)
    assert described("mesh 6 rows", stitches=f"{GARTER}\n{MESH}").stitches[1].multiple == (6, 1)


@pytest.mark.parametrize(
    ("mass", "step_g"),
    [("100 g", 1.0), ("100.0 g", 0.1), ("100.25 g", 0.1), ("4 oz", 28.349523125), ("3.5 oz", 2.8349523125),
     ("3.53 oz", 0.28349523125)],
)  # fmt: skip
def test_a_scale_shows_what_its_figures_show(mass: str, step_g: float) -> None:
    """Grams whole or in tenths; ounces to their last figure (International ounce of 1959)."""
    (weighing,) = described(PART, tail=f"weighed\n  before cast on {mass}").log
    assert weighing.step_g == pytest.approx(step_g)
