"""Numbers as the drawings say them."""

import pytest
from halfhank.renderer.paper import measure_words


@pytest.mark.parametrize(
    ("cm", "units", "told"),
    [
        (105.0, "cm", "105 cm (41 in)"),
        (105.0, "in", "41 in (105 cm)"),
        (5.08, "cm", "5.1 cm (2 in)"),
        (9.94, "cm", "9.9 cm (3.9 in)"),
        (9.96, "cm", "10 cm (4 in)"),
        (20.5, "cm", "21 cm (8 in)"),
        (20.5, "in", "8 in (21 cm)"),
        (0.04, "cm", "0 cm (0 in)"),
    ],
)
def test_lengths(cm: float, units: str, told: str) -> None:
    """The inch is 2.54 cm (international agreement of 1959)."""
    assert measure_words.length_words(cm, units) == told


@pytest.mark.parametrize("mm", range(100, 400, 7))
def test_no_decimal_of_an_inch_stands_beside_a_whole_number_of_centimetres(mm: int) -> None:
    assert "." not in measure_words.length_words(mm / 10, "cm")


@pytest.mark.parametrize("value", [25.5, 25.5 - 1e-9, 25.5 + 1e-9, 24.5 + 1])
def test_a_half_is_rounded_up_however_it_was_reckoned(value: float) -> None:
    assert measure_words.rounded(value) == "26"
    assert measure_words.rounded(-value) == "−26"
    assert measure_words.rounded(value / 10) == "2.6"
    assert measure_words.exact(value / 10, "g") == "2.6"


def test_yarn() -> None:
    """The yard is 0.9144 m (international agreement of 1959): 380 m are 415.6 yd."""
    assert measure_words.yarn_words(380, "cm") == "380 m (416 yd)"
    assert measure_words.yarn_words(380, "in") == "416 yd (380 m)"


@pytest.mark.parametrize(
    ("value", "told"),
    [(55.2, "55 g"), (7.94, "7.9 g"), (5.0, "5 g"), (-0.01, "0 g"), (-30.4, "−30 g"), (-3.04, "−3 g")],
)
def test_grams(value: float, told: str) -> None:
    assert measure_words.mass(value, "g") == told


@pytest.mark.parametrize(
    ("grams", "words", "short"),
    [(100.0, "3.53 oz", "3.53 oz"), (99.2233, "3.50 oz", "3.5 oz"), (56.699, "2.00 oz", "2 oz")],
)
def test_ounces(grams: float, words: str, short: str) -> None:
    """An ounce is 28.349523125 g (international yard and pound agreement, 1959)."""
    assert measure_words.mass(grams, "oz") == words and measure_words.plain_mass(grams, "oz") == short
    assert measure_words.on_scale_words(grams, "oz") == f"{words} on the scale"
    assert measure_words.on_scale_words(-grams, "oz") == f"{words} short"
    assert measure_words.exact(-grams, "oz") == "−" + words.removesuffix(" oz")


@pytest.mark.parametrize(("value", "told"), [(6.15, "6.2"), (-0.04, "0.0"), (-2.5, "−2.5"), (93.7266, "93.7")])
def test_tenths_of_a_gram(value: float, told: str) -> None:
    assert measure_words.exact(value, "g") == told


def test_counts_and_rows() -> None:
    assert (measure_words.stitches(1), measure_words.stitches(73), measure_words.stitches(12345)) == (
        "1 st",
        "73 sts",
        "12,345 sts",
    )
    assert (measure_words.row_range(5, 5), measure_words.row_range(5, 12)) == ("row 5", "rows 5–12")
    assert measure_words.row_range(995, 1010) == "rows 995–1,010"


def test_thousands_are_set_off_in_one_way() -> None:
    assert measure_words.exact(1234.56, "g") == "1,234.6" and measure_words.exact(-1234.56, "g") == "−1,234.6"
    assert measure_words.yarn_words(1234, "cm") == "1,234 m (1,350 yd)"
    assert measure_words.plain_mass(1234.0, "g") == "1,234 g"
    assert measure_words.length_words(3000, "cm") == "3,000 cm (1,181 in)"
    assert [measure_words.scale_words(scale) for scale in (8, 12.5, 1200)] == ["1:8", "1:12.5", "1:1,200"]
