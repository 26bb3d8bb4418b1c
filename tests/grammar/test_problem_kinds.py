"""A kind of problem filled with values: pieces, alternatives and edits, with and without what is not there."""

import pytest
from halfhank.grammar.problems.problem import ADVICE, Edit, ProblemKind, Span

HERE, THERE = Span(3, 5, 9), Span(4, 1, 2)
KIND = ProblemKind(
    "some-code", ADVICE, ("Row {row:,} of `{name:.4}`", " in {part}", "."), ("write `{name}`", "use {other}"), "{name}"
)


def test_values_are_written_into_the_templates() -> None:
    problem = KIND.at(HERE, row=1200, name="abcdef", part="this {row}", other="that")
    assert (problem.code, problem.severity, problem.span, problem.count) == ("some-code", ADVICE, HERE, 1)
    assert problem.message == "Row 1,200 of `abcd` in this {row}."
    assert problem.hint == "write `abcdef` or use that"
    assert problem.edit == Edit(HERE, "abcdef")


def test_what_names_a_value_that_is_not_there_is_left_out() -> None:
    problem = KIND.at(HERE, row=1, name="x", part=None, other=None)
    assert (problem.message, problem.hint) == ("Row 1 of `x`.", "write `x`")
    bare = ProblemKind("some-code", ADVICE, "It is.", "write `{name:.9}`", "{name:.9}").at(HERE, name=None)
    assert (bare.message, bare.hint, bare.edit) == ("It is.", None, None)


def test_a_value_whose_name_only_begins_alike_changes_nothing() -> None:
    problem = ProblemKind("some-code", ADVICE, "It is {rows}.").at(HERE, row=None, rows=3)
    assert problem.message == "It is 3."


def test_an_edit_may_stand_elsewhere_and_may_be_empty() -> None:
    kind = ProblemKind("some-code", ADVICE, "It is.", "leave it out", "")
    assert kind.at(HERE).edit == Edit(HERE, "")
    assert kind.at(HERE, THERE).edit == Edit(THERE, "")
    assert kind.at(None).edit is None
    assert ProblemKind("some-code", ADVICE, "It is.").at(HERE, THERE).edit is None


def test_a_value_that_is_not_given_is_an_error() -> None:
    with pytest.raises(KeyError):
        KIND.at(HERE, row=1)
