"""Figures as the terminal shows them: rounded like those of the drawings, halves up."""

import pytest
from halfhank.cli.report.figures import chance, grams, length, metres
from halfhank.renderer.paper.measure_words import exact


@pytest.mark.parametrize(
    ("value", "words"), [(2.25, "2.3 g"), (0.05, "0.1 g"), (-0.04, "0.0 g"), (1234.56, "1,234.6 g")]
)
def test_masses(value: float, words: str) -> None:
    assert grams(value) == (words, value, "g")
    assert str(grams(value)).replace(",", "") == f"{exact(value, 'g')} g".replace(",", "")


def test_lengths_and_yarn() -> None:
    assert [str(length(cm, unit)) for cm, unit in ((8.25, "cm"), (2.54 * 8.25, "in"))] == ["8.3 cm", "8.3 in"]
    assert str(metres(380.5)) == "381 m (416 yd)"


def test_no_chance_is_a_certainty() -> None:
    assert [str(chance(share)) for share in (1.0, 0.5, 0.0)] == ["over 99.9 %", "50.0 %", "under 0.1 %"]
