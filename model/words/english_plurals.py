"""Which form of an English template goes with a number, and how places are counted."""

CATEGORIES = ("one", "other")


def ordinal(number: int) -> str:
    """`4th`, `21st`."""
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number:,}{ending}"


def category(number: float) -> str:
    """CLDR's rule for whole numbers."""
    return "one" if number == 1 else "other"
