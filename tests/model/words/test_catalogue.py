"""Keys, fields and templates agree, in each language: what the code asks for is read from its syntax trees."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from halfhank.grammar.items import ITEMS
from halfhank.model.report_tree import Value, words_of
from halfhank.model.words.catalogue import amount, ordinal, said, say, say_one_of
from halfhank.model.words.drawn_words import phrase, phrase_of
from halfhank.model.words.english import ENGLISH
from halfhank.model.words.templates import Forms, Language, fields, forms, pieces

ROOT = Path(__file__).parents[3]
LANGUAGES = [ENGLISH]
"""A new language is added here."""
SAYING = {"say", "said", "amount", "phrase"}
NAMING = {"say_one_of", "phrase_of"}
"""These put the name of a thing behind a subject."""
FOLDERS = ("model", "renderer", "cli")


def _calls() -> Iterator[tuple[str, ast.Call]]:
    for folder in FOLDERS:
        for path in sorted((ROOT / folder).rglob("*.py")):
            if path.parent == ROOT / "model/words" or "/build/" in str(path):
                continue
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                    yield f"{path.relative_to(ROOT)}:{node.lineno}", node


def _keys(argument: ast.expr) -> list[str]:
    """The keys that an argument can be: a text, or one of two by a condition."""
    if isinstance(argument, ast.IfExp):
        return [*_keys(argument.body), *_keys(argument.orelse)]
    return [argument.value] if isinstance(argument, ast.Constant) and isinstance(argument.value, str) else []


def _function(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else ""


def _fields(call: ast.Call) -> set[str]:
    return {"count"} if _function(call) == "amount" else {str(word.arg) for word in call.keywords}


USED = [
    (place, key, _fields(call)) for place, call in _calls() if _function(call) in SAYING for key in _keys(call.args[0])
]
SUBJECTS = {key for _, call in _calls() if _function(call) in NAMING for key in _keys(call.args[0])}


def test_keys_stand_in_the_code_as_they_are() -> None:
    """A key put together from pieces would be seen by no test: `say_one_of` is for those."""
    asked = [(place, call) for place, call in _calls() if _function(call) in SAYING | NAMING]
    assert asked
    assert [place for place, call in asked if not _keys(call.args[0])] == []


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_every_key_of_the_code_exists(language: Language) -> None:
    assert [(place, key) for place, key, _ in USED if key not in language.templates] == []
    subjects = {key.partition(".")[0] for key in language.templates}
    assert subjects >= SUBJECTS


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_every_key_is_used(language: Language) -> None:
    used = {key for _, key, _ in USED}
    assert [key for key in language.templates if key not in used and key.partition(".")[0] not in SUBJECTS] == []


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_the_fields_of_calls_and_templates_agree(language: Language) -> None:
    wrong = [
        (place, key, sorted(given), sorted(fields(language.templates[key])))
        for place, key, given in USED
        if given != fields(language.templates[key])
    ]
    assert wrong == []


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_all_phrases_of_a_subject_have_the_fields_of_its_calls(language: Language) -> None:
    calls = [
        (key, _fields(call)) for _, call in _calls() if _function(call) == "phrase_of" for key in _keys(call.args[0])
    ]
    assert calls
    for subject, given in calls:
        own = {key: fields(one) for key, one in language.templates.items() if key.partition(".")[0] == subject}
        assert own and {key: found for key, found in own.items() if found != given} == {}


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_every_form_of_a_language_is_there(language: Language) -> None:
    wrong = [
        key
        for key, template in language.templates.items()
        if isinstance(template, Forms) and set(template.by_category) != set(language.categories)
    ]
    assert wrong == []


@pytest.mark.parametrize("language", LANGUAGES, ids=lambda one: one.code)
def test_all_languages_have_the_fields_of_the_first(language: Language) -> None:
    first = LANGUAGES[0].templates
    assert {key: fields(template) for key, template in language.templates.items()} == {
        key: fields(template) for key, template in first.items()
    }


def test_english_counts_one_and_others() -> None:
    assert [said("count.stitches", count=count) for count in (0, 1, 2, 1200)] == ["0 sts", "1 st", "2 sts", "1,200 sts"]


def test_chart_keys_say_of_items_what_the_language_says() -> None:
    assert {kind: words_of(say_one_of("key-item", kind)) for kind in ITEMS} == {
        kind: one.words for kind, one in ITEMS.items()
    }


def test_places_are_counted() -> None:
    assert [ordinal(number) for number in (1, 2, 3, 4, 11, 12, 13, 21, 1112)] == (
        ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "1,112th"]
    )


def test_numbers_stay_numbers() -> None:
    said_so = say("start.cast-on", stitches=amount("count.stitches", 9, "sts"))
    assert said_so == ("Cast on ", Value("9 sts", 9, "sts"), ".")
    assert words_of(said_so) == "Cast on 9 sts."


def test_a_form_follows_a_value_as_well() -> None:
    assert words_of(say("start.tab", stitches="3 sts", rows=Value("one", 1, "rows"))) == "Cast on 3 sts. Knit 1 row."


def test_a_wrong_key_or_field_is_an_error() -> None:
    with pytest.raises(KeyError):
        say_one_of("start", "nowhere")
    with pytest.raises(ValueError, match="stitches"):
        say("start.cast-on", sts="9 sts")
    with pytest.raises(ValueError, match="no number"):
        say("count.stitches", count="two")


def test_the_fields_of_a_template() -> None:
    assert pieces("{a} of {b}.") == [("", "a"), (" of ", "b"), (".", None)]
    assert fields(forms("n", one="once, {place}", other="{n} times")) == {"n", "place"}


def test_phrases_are_words_alone() -> None:
    assert [phrase("count.row", count=count) for count in (0, 1, 1200)] == ["0 rows", "1 row", "1,200 rows"]
    assert phrase("rows.range", first=1, last=1200) == "rows 1–1,200"
    assert phrase_of("measure", "oz", number="3.5") == "3.5 oz"
    for wrong in (lambda: phrase("rows.one"), lambda: phrase_of("measure", "ell", number="3")):
        with pytest.raises(KeyError):
            wrong()
