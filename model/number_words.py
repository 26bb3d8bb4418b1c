"""Numbers as they are said everywhere: counts with their units, halves rounded away from zero."""

import math

from halfhank.grammar.description import GRAMS_IN
from halfhank.model.words.drawn_words import phrase, phrase_of


def half_up(value: float, digits: int) -> float:
    """The number rounded to so many decimals, a half away from zero however its last bits fall."""
    step = 10.0**digits
    units = abs(value) * step + 0.5 + 1e-6
    return math.copysign(math.floor(units) / step if units < 1e15 else abs(value), value)


def counted(number: int, unit: str, many: str | None = None) -> str:
    """A count with its unit, in the plural where due: `many`, or the unit with an s."""
    return f"{number:,} {unit}" if number == 1 else f"{number:,} {many or unit + 's'}"


def chance_words(chance: float) -> str:
    """A chance in whole per cent, never a certainty that nobody has."""
    if chance > 0.99:
        return phrase("per-cent.over", number=99)
    if chance < 0.01:
        return phrase("per-cent.under", number=1)
    return phrase("per-cent.of", number=f"{half_up(100 * chance, 0):.0f}")


def mass_digits(unit: str) -> int:
    """How many decimals a mass is given with: 0.1 g, 0.01 oz."""
    return 1 if unit == "g" else 2


def mass_figure(value_g: float, unit: str) -> str:
    """A mass without its unit, halves rounded up as in the drawings, never `-0.0`."""
    digits = mass_digits(unit)
    return f"{half_up(value_g / GRAMS_IN[unit], digits) + 0.0:,.{digits}f}"


def mass_words(value_g: float, unit: str) -> str:
    """A mass with its unit."""
    return phrase_of("measure", unit, number=mass_figure(value_g, unit))
