"""A sentence by its key, filled with words and numbers.

The words of people stand in the language's templates, not in the code: the code says which sentence and with what.
"""

from halfhank.model.report_tree import Content, Value, content, words_of
from halfhank.model.words.in_force import form, language
from halfhank.model.words.templates import Forms, fields, pieces

Filling = str | int | Value | Content
"""What a field takes: a whole number is written with its thousands separated."""


def say(key: str, **values: Filling) -> Content:
    """The sentence of that key, its fields filled.

    Raises `KeyError` for a key that the language does not have, `ValueError` where the fields are not the template's.
    """
    template = language().templates[key]
    if set(values) != fields(template):
        raise ValueError(f"{key} takes {sorted(fields(template))}, not {sorted(values)}")
    text = _form(template, values) if isinstance(template, Forms) else template
    found: list[str | Value | Content] = []
    for words, field in pieces(text):
        found += [words] if field is None else [words, _filled(values[field])]
    return content(*found)


def say_one_of(subject: str, name: str, **values: Filling) -> Content:
    """The sentence of `subject.name`, where the name is that of a thing (an abbreviation, a shape) that a plan has."""
    return say(f"{subject}.{name}", **values)


def said(key: str, **values: Filling) -> str:
    """The same as `say`, as words alone: for headings, and for words inside a value."""
    return words_of(say(key, **values))


def has(subject: str, name: str) -> bool:
    """Whether there is such a sentence."""
    return f"{subject}.{name}" in language().templates


def amount(key: str, count: int, unit: str) -> Value:
    """A whole number as its template shows it in the field `count` (`3 sts`), counted in one of the report's units."""
    return Value(said(key, count=count), count, unit)


def ordinal(number: int) -> str:
    """Which one of several: `4th`."""
    return language().ordinal(number)


def _form(template: Forms, values: dict[str, Filling]) -> str:
    number = values[template.by]
    if not isinstance(number, int | Value):
        raise ValueError(f"{template.by} is no number")
    return form(template, number.number if isinstance(number, Value) else number)


def _filled(value: Filling) -> str | Value | Content:
    return f"{value:,}" if isinstance(value, int) else value
