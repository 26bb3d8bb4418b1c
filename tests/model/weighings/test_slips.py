"""The likely slip behind a weighing that cannot be true."""

import pytest
from halfhank.model.weighings.posterior import Estimate
from halfhank.model.weighings.slips import Slip, likely_slip

USED = Estimate(48.0, 0.8)


@pytest.mark.parametrize(
    ("figure", "expected_g", "meant"),
    [
        ("5.2", 52.0, "52"),
        ("1013", 101.3, "101.3"),
        ("520", 52.0, "52"),
        ("25", 52.0, "52"),
        ("25.1", 52.0, "52.1"),
        ("51.2", 15.3, "15.2"),
        ("522.1", 52.1, "52.1"),
        ("0.5", 52.0, "50"),
        ("85.0", 58.3, "58"),
    ],
)
def test_the_figure_that_was_meant(figure: str, expected_g: float, meant: str) -> None:
    """A decimal point missing or moved, two digits swapped, a digit written twice."""
    assert likely_slip(figure, "g", Estimate(expected_g, 1.0), USED) == Slip(f"{meant} g", False, False)


def test_of_several_the_nearest_is_meant() -> None:
    assert likely_slip("4.12", "g", Estimate(41.0, 1.0), USED) == Slip("41.2 g", False, False)


def test_left_and_used_mixed_up() -> None:
    assert likely_slip("47.3", "g", Estimate(52.0, 0.8), USED) == Slip(None, True, False)


def test_something_on_the_scale() -> None:
    assert likely_slip("61.8", "g", Estimate(52.0, 0.8), USED) == Slip(None, False, True)


@pytest.mark.parametrize("figure", ["33.3", "96.6"])
def test_no_usual_slip(figure: str) -> None:
    assert likely_slip(figure, "g", Estimate(52.0, 0.8), USED) is None


def test_ounces_are_figures_of_their_own() -> None:
    assert likely_slip("18.3", "oz", Estimate(51.9, 1.0), Estimate(49.0, 1.0)) == Slip("1.83 oz", False, False)


def test_mixed_up_comes_before_a_digit() -> None:
    """89.5 g are just what is left; that 8.9 g are used would be near, too."""
    assert likely_slip("89.5", "g", Estimate(9.0, 0.8), Estimate(91.0, 2.0)) == Slip(None, True, False)
    assert likely_slip("89.5", "g", Estimate(9.0, 0.8), Estimate(50.0, 2.0)) == Slip("8.9 g", False, False)


def test_grams_and_ounces_mixed_up() -> None:
    """3.45 oz are 97.8 g."""
    for figure, unit, meant in (("3.45", "g", "3.45 oz"), ("97.8", "oz", "97.8 g")):
        assert likely_slip(figure, unit, Estimate(98.0, 0.8), USED) == Slip(meant, False, False)


def test_a_whole_skein_cannot_be_what_is_used() -> None:
    assert likely_slip("52", "g", Estimate(100.0, 2.0), None) is None
