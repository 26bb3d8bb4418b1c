"""Measuring and cutting texts."""

import pytest
from halfhank.renderer.paper import advances
from halfhank.renderer.paper.page_block import text_lines
from halfhank.renderer.paper.scripts import more_advances
from halfhank.renderer.paper.text_widths import ELLIPSIS, fit, text_width, title_lines, wrap
from hypothesis import example, given
from hypothesis import strategies as st

from tests.renderer.paper import advance_tables

WORDS = st.text(alphabet=st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=60)


@pytest.mark.parametrize(("table", "font"), advance_tables.FACES.items())
def test_bundled_widths_are_the_fonts_own(table: str, font: str) -> None:
    bundled = {c: width for width, characters in getattr(advances, table).items() for c in characters}
    assert bundled == advance_tables.advances(font)


def test_bundled_module_is_what_the_script_writes() -> None:
    assert advance_tables.TARGET.read_text(encoding="utf-8") == advance_tables.source()


LIBERATION = pytest.mark.skipif(not advance_tables.LIBERATION.exists(), reason="the Liberation fonts are not here")


@LIBERATION
@pytest.mark.parametrize("name", advance_tables.FACES)
def test_widths_of_more_alphabets_are_the_fonts_own(name: str) -> None:
    bundled = {c: width for width, characters in getattr(more_advances, name).items() for c in characters}
    assert bundled == advance_tables.more_advances(name)
    assert advance_tables.MORE_TARGET.read_text(encoding="utf-8") == advance_tables.more_source()


def test_greek_and_cyrillic_have_widths_of_their_own() -> None:
    """Arial's: zhe is 923 units of 1000 wide, iota 222, Gamma 551 (by the font's own table)."""
    assert [text_width(c, 1000) for c in "Жι"] == [923, 222]
    assert text_width("шаль", 4) < 0.75 * 4 * len("шаль")


def test_a_mark_on_a_letter_counts_little_and_an_isolate_nothing() -> None:
    assert text_width("e", 3) <= text_width("e\u0301", 3) <= text_width("e", 3) + 0.3 * 3
    assert text_width("\u2068e\u2069", 3) == text_width("e", 3)


TITLES = ["Шаль из тумана над рекой " * 3, "A title of very many words " * 8, "W" * 300, "披肩" * 60, "short"]


@pytest.mark.parametrize("title", TITLES)
@pytest.mark.parametrize("width", [60.0, 160.0])
def test_a_title_is_never_cut(title: str, width: float) -> None:
    lines, size = title_lines(title, width, 8)
    assert all(text_width(line, size, "serif") <= width for line in lines)
    assert 4 <= size <= 8
    assert "".join(lines).replace(" ", "").replace("-", "") == title.replace(" ", "")


def test_a_title_is_set_smaller_before_it_takes_a_third_line() -> None:
    words = "words " * 10
    two = text_width(words.strip(), 8, "serif") / 2 * 0.95
    lines, size = title_lines(words, two, 8)
    assert len(lines) == 2 and size < 8
    assert len(title_lines(words * 2, two, 8)[0]) == 3


def test_a_word_that_is_too_long_has_a_hyphen() -> None:
    lines, _ = title_lines("pneumono" * 12, 60, 8)
    assert len(lines) > 1 and all(line.endswith("-") for line in lines[:-1])


def test_lines_of_a_broken_isolate_are_closed_and_begin_anew() -> None:
    lines = wrap("\u2068" + "\u05e6\u05de\u05e8 " * 12 + "\u2069", 30, 3, 9)
    assert len(lines) > 1 and all(line[0] == "\u2068" and line[-1] == "\u2069" for line in lines)


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


def _letters(text: str) -> str:
    """A text without spaces, hyphens and marks of direction, which are closed in each line."""
    return "".join(letter for letter in text if not letter.isspace() and letter not in "-\u2066\u2067\u2068\u2069")


@given(WORDS, st.floats(4, 60), st.integers(1, 4))
@example("\u2066", 4.0, 1)
def test_wrapped_lines_fit_and_keep_the_words(text: str, width: float, lines: int) -> None:
    wrapped = wrap(text, width, 3, lines)
    assert len(wrapped) <= lines
    assert all(text_width(line, 3) <= max(width, 3 * 8) for line in wrapped)
    joined, whole = _letters("".join(wrapped)), _letters(text)
    assert joined == whole or (ELLIPSIS in joined and whole.startswith(joined[: joined.rindex(ELLIPSIS)]))


def test_lines_break_at_spaces() -> None:
    assert wrap("half the yarn", text_width("half the", 3) + 0.1, 3, 3) == ["half the", "yarn"]


def test_lines_are_not_broken_between_a_figure_and_its_unit() -> None:
    text = "depth 32 cm (13 in), rows 12 to 97 g, 5 sts at 40 % and row 7"
    for width in range(22, 120, 3):
        lines = text_lines(text, width, 3)
        assert " ".join(lines) == text
        starts, ends = ({line.split()[place] for line in lines} for place in (0, -1))
        assert not starts & {"cm", "in),", "g,", "sts", "%"} and not ends & {"rows", "row"}, width
    assert text_lines("a · b", 100, 3) == ["a · b"]


GAUGE = "Gauge: sts × rows over 10 cm, blocked; 4 mm needles"


@pytest.mark.parametrize("text", [GAUGE, "Chance of enough yarn: 85 %, estimated from another stitch's swatch"])
def test_no_single_word_is_left_for_the_last_line(text: str) -> None:
    """Where as many lines hold the same words otherwise; no line is wider for that."""
    for width in range(30, 90):
        lines, greedy = text_lines(text, width, 3), wrap(text, width, 3, 99)
        assert " ".join(lines) == text and all(text_width(line, 3) <= width for line in lines)
        assert len(greedy) <= len(lines) <= len(greedy) + 1 and (len(lines) == 1 or " " in lines[-1])
    assert wrap(GAUGE, 68, 3, 99)[-1] == "needles"
