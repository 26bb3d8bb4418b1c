"""English: all its templates."""

from halfhank.model.words.english_drawings import DRAWINGS
from halfhank.model.words.english_instructions import INSTRUCTIONS
from halfhank.model.words.english_items import ITEMS
from halfhank.model.words.english_opening import OPENING
from halfhank.model.words.english_page import PAGE, TABLES
from halfhank.model.words.english_plurals import CATEGORIES, category, ordinal
from halfhank.model.words.english_rows import ROWS
from halfhank.model.words.templates import Language

_TEMPLATES = {**INSTRUCTIONS, **DRAWINGS, **ITEMS, **OPENING, **PAGE, **ROWS, **TABLES}
ENGLISH = Language("en", _TEMPLATES, category, CATEGORIES, ordinal)
