"""Measuring and cutting texts."""

import pytest
from halfhank.renderer.paper import advances
from halfhank.renderer.paper.text_widths import ELLIPSIS, fit, text_width, wrap
from hypothesis import given
from hypothesis import strategies as st

from tests.renderer.paper import advance_tables

WORDS = st.text(alphabet=st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=60)


@pytest.mark.parametrize(("table", "font"), advance_tables.FACES.items())
def test_bundled_widths_are_the_fonts_own(table: str, font: str) -> None:
    bundled = {c: width for width, characters in getattr(advances, table).items() for c in characters}
    assert bundled == advance_tables.advances(font)


def test_bundled_module_is_what_the_script_writes() -> None:
    assert advance_tables.TARGET.read_text(encoding="utf-8") == advance_tables.source()


def test_a_character_outside_the_tables_is_one_em() -> None:
    assert text_width("メ", 4) == 4
    assert text_width("aメ", 4) == pytest.approx(4 * 1.556)


def test_a_text_that_fits_is_left_alone() -> None:
    assert fit("garter", text_width("garter", 3), 3) == "garter"


@given(WORDS, st.floats(0, 80))
def test_a_cut_text_fits_and_is_a_beginning(text: str, width: float) -> None:
    cut = fit(text, width, 3)
    assert text_width(cut, 3) <= width or cut == text
    assert cut in (text, "") or (cut.endswith(ELLIPSIS) and text.startswith(cut[:-1]))


def test_a_cut_text_is_as_long_as_it_can_be() -> None:
    text = "stockinette"
    cut = fit(text, 10, 3)
    longer = text[: len(cut)] + ELLIPSIS
    assert text_width(longer, 3) > 10


@given(WORDS, st.floats(4, 60), st.integers(1, 4))
def test_wrapped_lines_fit_and_keep_the_words(text: str, width: float, lines: int) -> None:
    wrapped = wrap(text, width, 3, lines)
    assert len(wrapped) <= lines
    assert all(text_width(line, 3) <= max(width, 3 * 8) for line in wrapped)
    joined = "".join(wrapped).replace(" ", "")
    whole = "".join(text.split())
    assert joined == whole or (ELLIPSIS in joined and whole.startswith(joined[: joined.rindex(ELLIPSIS)]))


def test_lines_break_at_spaces() -> None:
    assert wrap("half the yarn", text_width("half the", 3) + 0.1, 3, 3) == ["half the", "yarn"]
