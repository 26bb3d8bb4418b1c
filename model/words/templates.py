"""What a language is: its templates by key, and which of a template's forms goes with a number."""

from collections.abc import Callable, Mapping
from string import Formatter

from halfhank.grammar.record import NamedTuple


class Forms(NamedTuple):
    """A template that depends on the number in the field called `by`.

    `by_category` has the template for each of the language's plural categories, as the Unicode CLDR names them: `one`
    and `other` in English.
    """

    by: str
    by_category: Mapping[str, str]


Template = str | Forms


class Language(NamedTuple):
    """A language by its BCP 47 `code`.

    `category` gives the plural category of a number, and `categories` all that there are. `ordinal` says which one of
    several (`4th`).
    """

    code: str
    templates: Mapping[str, Template]
    category: Callable[[float], str]
    categories: tuple[str, ...]
    ordinal: Callable[[int], str]


def forms(by: str, **by_category: str) -> Forms:
    """The forms of a template, by the category of the number in that field."""
    return Forms(by, by_category)


def pieces(text: str) -> list[tuple[str, str | None]]:
    """The template in its order: words, and the field after them (None after the last words)."""
    return [(words, field) for words, field, _, _ in Formatter().parse(text)]


def fields(template: Template) -> set[str]:
    """The fields that a template needs, in whichever of its forms."""
    texts = [template] if isinstance(template, str) else list(template.by_category.values())
    found = {field for text in texts for _, field in pieces(text) if field is not None}
    return found if isinstance(template, str) else found | {template.by}
