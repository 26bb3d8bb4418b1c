"""Colours against the published formulas and for even steps."""

import math
from itertools import pairwise

import pytest
from halfhank.renderer.paper.house_style import INK, LIGHT, RED, SOFT
from halfhank.renderer.paper.ramp import RAMPS, channels, contrast, hex_colour, ink_on


def oklab(colour: str) -> tuple[float, float, float]:
    """sRGB to OKLab by the forward matrices of Ottosson's article of 2020 (the renderer uses the inverse ones)."""
    r, g, b = channels(colour)
    long = math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b)
    medium = math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b)
    short = math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b)
    return (
        0.2104542553 * long + 0.7936177850 * medium - 0.0040720468 * short,
        1.9779984951 * long - 2.4285922050 * medium + 0.4505937099 * short,
        0.0259040371 * long + 0.7827717662 * medium - 0.8086757660 * short,
    )


def test_tide_runs_from_sand_to_deep_sea() -> None:
    assert RAMPS["tide"].start == (0.955, 0.004, 0.042)
    assert RAMPS["tide"].end == (0.38, -0.046, -0.062)


@pytest.mark.parametrize("name", RAMPS)
def test_lightness_falls_steadily(name: str) -> None:
    """In every hundredth of the yarn, and in as many equal steps as eight bits of colour can hold."""
    ramp = RAMPS[name]
    lightness = [oklab(ramp.colour(k / 100))[0] for k in range(101)]
    assert all(after < before for before, after in pairwise(lightness))
    step = (lightness[0] - lightness[-1]) / 100
    assert all(before - after == pytest.approx(step, abs=0.0035) for before, after in pairwise(lightness))


@pytest.mark.parametrize("name", RAMPS)
def test_colours_are_the_ramps_own(name: str) -> None:
    for k in range(21):
        assert oklab(RAMPS[name].colour(k / 20)) == pytest.approx(RAMPS[name].lab(k / 20), abs=0.012)


def test_shares_outside_the_shawl_are_kept_to_its_ends() -> None:
    ramp = RAMPS["tide"]
    assert (ramp.colour(-1), ramp.colour(7)) == (ramp.colour(0), ramp.colour(1))


def test_haze_takes_little_ink() -> None:
    """Over the whole skein it covers the paper less than half as much as the other ramp."""

    def cover(colour: str) -> int:
        return sum(255 - int(colour[k : k + 2], 16) for k in (1, 3, 5))

    ink = {name: sum(cover(ramp.colour(k / 20)) for k in range(21)) for name, ramp in RAMPS.items()}
    assert ink["haze"] < 0.5 * ink["tide"]
    assert all(part > 0.3 for part in channels(RAMPS["haze"].colour(1.0)))


def test_contrast_of_black_on_white_is_21() -> None:
    """WCAG 2.2, contrast ratio: the definition's own extremes."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#777777") == 1


@pytest.mark.parametrize("ink", [RED, INK, SOFT])
def test_inks_are_legible_on_white(ink: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5:1 for text."""
    assert contrast(ink, LIGHT) >= 4.5


@pytest.mark.parametrize("name", RAMPS)
def test_texture_inks_are_dark_on_light_and_light_on_dark(name: str) -> None:
    for k in range(21):
        lab = RAMPS[name].lab(k / 20)
        ink = oklab(ink_on(lab, 0.3))[0]
        assert abs(ink - lab[0]) > 0.25
        assert (ink < lab[0]) == (lab[0] > 0.6)


def test_colours_outside_the_gamut_are_clipped() -> None:
    assert hex_colour((1.2, 0.0, 0.0)) == "#ffffff"
    assert hex_colour((-0.1, 0.0, 0.0)) == "#000000"
