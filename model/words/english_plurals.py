"""Which form of an English template goes with a number."""

CATEGORIES = ("one", "other")


def category(number: float) -> str:
    """CLDR's rule for whole numbers."""
    return "one" if number == 1 else "other"
