"""Figures as the terminal shows them: rounded like those of the drawings, halves up."""

import pytest
from halfhank.cli.report.figures import chance, gram_range, grams, length, masses_in, metres, share
from halfhank.model.report_tree import (
    Content,
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    Report,
    ReportSection,
    Table,
    Value,
    Verbatim,
    cells,
    content,
    figures_column,
)
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
    shares = (1.0, 0.991, 0.99, 0.945, 0.5, 0.01, 0.009, 0.0)
    words = ["over 99 %", "over 99 %", "99 %", "95 %", "50 %", "1 %", "under 1 %", "under 1 %"]
    assert [str(chance(part)) for part in shares] == words


def test_shares_have_one_decimal() -> None:
    assert [str(share(part)) for part in (0.05, 0.144, 0.0001, 1.0)] == ["5.0 %", "14.4 %", "0.0 %", "100.0 %"]


def _everywhere(mass: Value, pair: Content) -> Report:
    """A report with a mass in every kind of block."""
    item = ListItem(content("a ", mass), (ListItem(content(mass)),))
    table = Table((figures_column("used"),), (cells(mass), cells(pair)))
    section = ReportSection("below", (Paragraph(content(mass, ", ", length(5, "cm"))), Verbatim(("10 g",))))
    return Report(
        "all", (Paragraph(content(pair), "size"), ListBlock((item,)), table, Figure("x", content(mass)), section)
    )


def test_every_mass_of_a_report_is_in_ounces_where_they_are_asked_for() -> None:
    """An ounce is 28.349523125 g (international yard and pound agreement, 1959)."""
    g_per_oz = 28.349523125
    report = _everywhere(grams(g_per_oz), gram_range(2 * g_per_oz, 100))
    ounce = Value("1.00 oz", 1.0, "oz")
    assert masses_in("g", report) is report
    assert masses_in("oz", report) == _everywhere(
        ounce, content(Value("2.00", 2.0, "oz"), " to ", Value("3.53 oz", 100 / g_per_oz, "oz"))
    )
