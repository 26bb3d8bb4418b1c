"""Figures as reports show them, each with the number that it stands for."""

from halfhank.grammar.description import CM_IN, GRAMS_IN
from halfhank.model.number_words import chance_words, half_up, mass_digits, mass_figure, mass_words
from halfhank.model.phrases import stitch_name
from halfhank.model.report_tree import Content, Report, Value, row_number, with_values
from halfhank.model.words.catalogue import said, say
from halfhank.model.words.drawn_words import phrase, phrase_of

CM_IN_INCH = CM_IN["in"]
M_IN_YARD = CM_IN["yd"] / 100


def row_range(first: int, last: int) -> Content:
    """Rows from first to last."""
    return (row_number(first),) if first == last else (row_number(first), "-", row_number(last))


def number_of(number: int, unit: str) -> Value:
    """How many there are, without the unit, where a heading or the words after it name it."""
    return Value(f"{number:,}", number, unit)


def stitches(number: int) -> Value:
    """A count of stitches, always in the plural."""
    return Value(f"{number:,} sts", number, "sts")


def rows(number: int) -> Value:
    """A count of rows."""
    return Value(phrase("count.row", count=number), number, "rows")


def tenths(value: float) -> str:
    """A number to a tenth, halves rounded up as in the drawings, never `-0.0`."""
    return f"{half_up(value, 1) + 0.0:,.1f}"


def grams(value: float) -> Value:
    """A mass to 0.1 g, never `-0.0 g`."""
    return Value(mass_words(value, "g"), value, "g")


def shown_mass(value: float, unit: str) -> float:
    """A mass in g as it is shown in `unit`: rounded to 0.1 g or 0.01 oz, in g again."""
    return half_up(value / GRAMS_IN[unit], mass_digits(unit)) * GRAMS_IN[unit]


def masses_in(unit: str, report: Report) -> Report:
    """The report with its masses in g, as they were, or in oz, to 0.01 oz."""
    return report if unit == "g" else with_values(report, _in_ounces)


def _in_ounces(value: Value) -> Value:
    if value.unit != "g":
        return value
    words = mass_figure if value.words == mass_figure(value.number, "g") else mass_words
    return Value(words(value.number, "oz"), value.number / GRAMS_IN["oz"], "oz")


def grams_left(value: float) -> Content:
    """What is left, or how much is short where it is less than nothing."""
    return (grams(value),) if half_up(value, 1) >= 0 else say("size.short", mass=grams(-value))


def range_left(low: float, high: float) -> Content:
    """From one mass that may be left to another."""
    if half_up(low, 1) >= 0:
        return gram_range(low, high)
    return say("figure.range", low=grams_left(low), high=grams_left(high))


def gram_range(low: float, high: float) -> Content:
    """From one mass to another, the unit said once."""
    return say("figure.range", low=Value(tenths(low), low, "g"), high=grams(high))


def metres(value: float) -> Value:
    """A length of yarn, in metres and yards."""
    words = said("count.yarn-length", metres=f"{half_up(value, 0):,.0f}", yards=f"{half_up(value / M_IN_YARD, 0):,.0f}")
    return Value(words, value, "m")


def length(cm: float, units: str) -> Value:
    """A length in the leading unit."""
    number = _in_unit(cm, units)
    return Value(phrase_of("measure", units, number=tenths(number)), number, units)


def length_in_both(cm: float, units: str) -> Value:
    """A length in the leading unit, in brackets in the other."""
    first, second = length(cm, units), length(cm, _other(units))
    return first._replace(words=phrase("size.both", first=first.words, second=second.words))


def size(wide_cm: float, deep_cm: float, units: str) -> Content:
    """Wingspan and depth in the leading unit, which is said once."""
    wide = _in_unit(wide_cm, units)
    return say("figure.size", wide=Value(tenths(wide), wide, units), deep=length(deep_cm, units))


def size_in_both(wide_cm: float, deep_cm: float, units: str) -> Content:
    """Wingspan and depth in the leading unit, in brackets in the other."""
    return say("size.both", first=size(wide_cm, deep_cm, units), second=size(wide_cm, deep_cm, _other(units)))


def _in_unit(cm: float, units: str) -> float:
    return cm / CM_IN_INCH if units == "in" else cm


def _other(units: str) -> str:
    return "cm" if units == "in" else "in"


def swatch_length(cm: float) -> Value:
    """A length over which stitches were counted: of cm and inches the one that it is a round number of."""
    metric, imperial = f"{cm:.4g}", f"{cm / CM_IN_INCH:.4g}"
    if len(imperial) < len(metric):
        return Value(phrase_of("measure", "in", number=imperial), cm / CM_IN_INCH, "in")
    return Value(phrase_of("measure", "cm", number=metric), cm, "cm")


def chance(value: float) -> Value:
    """A chance in whole per cent, never a certainty that nobody has."""
    return Value(chance_words(value), 100 * value, "%")


def share(value: float) -> Value:
    """A share in per cent, to a tenth."""
    return Value(f"{tenths(100 * value)} %", 100 * value, "%")


def stitch_words(stitch: str, wraps: int) -> str:
    """A stitch, with its wraps where it is elongated."""
    name = stitch_name(stitch)
    return phrase("band.wraps", stitch=name, wraps=wraps) if wraps > 1 else name
