"""Counts and measures of the written instructions, each a number in its words."""

from halfhank.grammar.description import CM_IN
from halfhank.model.number_words import half_up, mass_words
from halfhank.model.report_tree import Content, Value
from halfhank.model.words.catalogue import amount, say
from halfhank.model.words.drawn_words import phrase_of

_M_IN_YARD = CM_IN["yd"] / 100


def stitches(count: int) -> Value:
    """A count of stitches."""
    return amount("count.stitches", count, "sts")


def grams(mass_g: float) -> Value:
    """A mass to 0.1 g."""
    return Value(mass_words(mass_g, "g"), mass_g, "g")


def metres(length_m: float) -> Content:
    """A length of yarn in whole metres and yards."""
    return say(
        "count.yarn-length",
        metres=Value(f"{half_up(length_m, 0):,.0f}", length_m, "m"),
        yards=Value(f"{half_up(length_m / _M_IN_YARD, 0):,.0f}", length_m / _M_IN_YARD, "yd"),
    )


def centimetres(length_cm: float) -> Value:
    """A length in whole centimetres."""
    return Value(phrase_of("measure", "cm", number=f"{half_up(length_cm, 0):,.0f}"), length_cm, "cm")


def inches(length_cm: float) -> Value:
    """A length in whole inches."""
    number = length_cm / CM_IN["in"]
    return Value(phrase_of("measure", "in", number=f"{half_up(number, 0):,.0f}"), number, "in")
