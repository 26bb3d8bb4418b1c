"""Figures as the terminal shows them."""

from halfhank.grammar.description import CM_IN
from halfhank.model.number_words import half_up

CM_IN_INCH = CM_IN["in"]
M_IN_YARD = CM_IN["yd"] / 100


def count(number: int) -> str:
    """A count with its thousands set off."""
    return f"{number:,}"


def span(first: int, last: int) -> str:
    """Rows from first to last."""
    return count(first) if first == last else f"{count(first)}-{count(last)}"


def tenths(value: float) -> str:
    """A number to a tenth, halves rounded up as in the drawings, never `-0.0`."""
    return f"{half_up(value, 1) + 0.0:,.1f}"


def grams(value: float) -> str:
    """A mass to 0.1 g, never `-0.0 g`."""
    return f"{tenths(value)} g"


def metres(value: float) -> str:
    """A length of yarn, in metres and yards."""
    return f"{half_up(value, 0):,.0f} m ({half_up(value / M_IN_YARD, 0):,.0f} yd)"


def length(cm: float, units: str) -> str:
    """A length in the leading unit."""
    return f"{tenths(cm / CM_IN_INCH)} in" if units == "in" else f"{tenths(cm)} cm"


def length_in_both(cm: float, units: str) -> str:
    """A length in the leading unit, in brackets in the other."""
    return f"{length(cm, units)} ({length(cm, 'cm' if units == 'in' else 'in')})"


def swatched(cm: float) -> str:
    """A length over which stitches were counted: of cm and inches the one that it is a round number of."""
    metric, imperial = f"{cm:.4g}", f"{cm / CM_IN_INCH:.4g}"
    return f"{imperial} in" if len(imperial) < len(metric) else f"{metric} cm"


def chance(value: float) -> str:
    """A chance in per cent, never a certainty that nobody has."""
    if value > 0.999:
        return "over 99.9 %"
    return "under 0.1 %" if value < 0.001 else f"{tenths(100 * value)} %"


def stitch_words(stitch: str, wraps: int) -> str:
    """A stitch, with its wraps where it is elongated."""
    return f"{stitch}, {wraps} wraps" if wraps > 1 else stitch
