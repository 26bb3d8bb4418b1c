"""The words of drawings by their keys: a look-up and a filling, with nothing imported that reports need.

They are words alone, as every drawing waits for them; numbers with decimals come as words already.
"""

from halfhank.model.words.in_force import drawn_templates, form
from halfhank.model.words.templates import Forms


def phrase(key: str, /, **values: str | int) -> str:
    """The words of that key, its fields filled: a whole number with its thousands separated.

    Raises `KeyError` for a key that the language does not have, and for a field that is not given.
    """
    template = drawn_templates()[key]
    text = form(template, int(values[template.by])) if isinstance(template, Forms) else template
    return text.format_map({name: f"{value:,}" if isinstance(value, int) else value for name, value in values.items()})


def phrase_of(subject: str, name: str, /, **values: str | int) -> str:
    """The words of `subject.name`, where the name is that of a thing (a unit, a source of figures) that a plan has."""
    return phrase(f"{subject}.{name}", **values)
