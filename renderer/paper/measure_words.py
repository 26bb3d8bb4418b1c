"""Numbers as the drawings say them: rounded as a knitter measures, with units, the other system in brackets."""

from halfhank.grammar.description import CM_IN, GRAMS_IN
from halfhank.model.number_words import half_up, mass_digits
from halfhank.model.words.drawn_words import phrase, phrase_of

CM_PER_INCH = CM_IN["in"]
M_PER_YARD = CM_IN["yd"] / 100
MINUS = "−"
WHOLE_FROM = 9.95
"""From here on a figure is given without a decimal."""


def signed(text: str) -> str:
    """A formatted number with a true minus sign, and none before zero."""
    return text.replace("-", MINUS if text.strip("-0.,") else "")


def fixed(value: float, digits: int) -> str:
    """The number with so many decimals, a half rounded away from zero, thousands set off: `1,234.5`."""
    return f"{half_up(value, digits):,.{digits}f}"


def rounded(value: float) -> str:
    """Whole from ten on, below it to a tenth: `105`, `7.5`, `5`."""
    if abs(value) >= WHOLE_FROM:
        return signed(fixed(value, 0))
    return plain_number(value)


def length_words(cm: float, units: str) -> str:
    """A length with the leading unit first: `105 cm (41 in)`, or the reverse where `units` is `in`.

    From 10 cm on both are whole; below it both are given to a tenth.
    """
    inches = fixed(cm / CM_PER_INCH, 0) if abs(cm) >= WHOLE_FROM else rounded(cm / CM_PER_INCH)
    return _both(phrase("measure.cm", number=rounded(cm)), phrase("measure.in", number=inches), units)


def _both(metric: str, imperial: str, units: str) -> str:
    first, second = (imperial, metric) if units == "in" else (metric, imperial)
    return phrase("size.both", first=first, second=second)


def yarn_words(metres: float, units: str) -> str:
    """A length of yarn: `380 m (416 yd)` or the reverse."""
    yards = phrase("measure.yd", number=fixed(metres / M_PER_YARD, 0))
    return _both(phrase("measure.m", number=fixed(metres, 0)), yards, units)


def mass(value_g: float, unit: str) -> str:
    """A scale reading: `55 g`, `7.9 g`, `1.94 oz`."""
    return phrase("measure.g", number=rounded(value_g)) if unit == "g" else exact_mass(value_g, unit)


def plain_mass(value_g: float, unit: str) -> str:
    """A mass as short as it can be written to 0.1 g or 0.01 oz: `100 g`, `101.2 g`, `3.5 oz`."""
    number = plain_number(value_g) if unit == "g" else exact(value_g, unit).rstrip("0").rstrip(".")
    return phrase_of("measure", unit, number=number)


def on_scale_words(value_g: float, unit: str) -> str:
    """What the scale shows, `8 g on the scale`; where the yarn is used up before, what is missing: `110 g short`."""
    if value_g > -0.05:
        return phrase("size.on-scale", mass=mass(value_g, unit))
    return phrase("size.short", mass=mass(-value_g, unit))


def exact(value_g: float, unit: str) -> str:
    """A mass to 0.1 g or 0.01 oz without its unit, never `-0.0`."""
    return signed(fixed(value_g / GRAMS_IN[unit], mass_digits(unit)))


def exact_mass(value_g: float, unit: str) -> str:
    """The same with its unit."""
    return phrase_of("measure", unit, number=exact(value_g, unit))


def scale_words(scale: float) -> str:
    """A scale: `1:8`, `1:12.5`, `1:1,200`."""
    return f"1:{scale:.4g}" if scale < 1000 else f"1:{scale:,.0f}"


def stitches(count: int) -> str:
    """`1 st`, `73 sts`."""
    return phrase("count.st", count=count)


def row_range(first: int, last: int) -> str:
    """`row 5` or `rows 5–12`."""
    return phrase("rows.one", row=first) if first == last else phrase("rows.range", first=first, last=last)


def plain_number(value: float) -> str:
    """A number as short as it can be written to a tenth: `20`, `22.5`."""
    return signed(fixed(value, 1).removesuffix(".0"))
