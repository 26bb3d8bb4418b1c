"""English: all its templates."""

from halfhank.model.words.english_instructions import INSTRUCTIONS
from halfhank.model.words.english_items import ITEMS
from halfhank.model.words.english_rows import ROWS
from halfhank.model.words.templates import Language


def _category(number: float) -> str:
    """CLDR's rule for whole numbers."""
    return "one" if number == 1 else "other"


ENGLISH = Language("en", {**INSTRUCTIONS, **ITEMS, **ROWS}, _category, ("one", "other"))
