"""The order of letters, held against examples of the standard and against properties; the forms of Arabic letters."""

import unicodedata

import pytest
from halfhank.renderer.paper.scripts.directions import MARKS, closed, isolated, runs_leftwards, visual, with_isolates
from halfhank.renderer.paper.scripts.joining import joined
from hypothesis import given
from hypothesis import strategies as st

HEBREW, ARABIC = "\u05d0\u05d1\u05d2", "\u0627\u0628\u062c"
LETTERS = st.text(alphabet=st.sampled_from("ab 12,.%()-" + HEBREW + ARABIC + "\u05b8"), max_size=14)


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("abc, 100 g", "abc, 100 g"),
        (f"abc {HEBREW} def", "abc \u05d2\u05d1\u05d0 def"),
        (f"{HEBREW}, 100 g", "100 ,\u05d2\u05d1\u05d0 g"),
        (f"\u2068{HEBREW}\u2069, 100 g", "\u05d2\u05d1\u05d0, 100 g"),
        (f"{HEBREW} 12 {HEBREW}", "\u05d2\u05d1\u05d0 12 \u05d2\u05d1\u05d0"),
        (f"\u2068{HEBREW} (ab)\u2069 c", "(ab) \u05d2\u05d1\u05d0 c"),
        (f"\u2068{ARABIC} 5\u2069 c", "5 \u062c\u0628\u0627 c"),
    ],
)
def test_letters_are_seen_in_the_order_of_the_standard(text: str, seen: str) -> None:
    """The third is what happens without an isolate: the number stands on the other side of the name."""
    assert visual(text) == seen


@given(LETTERS)
def test_the_order_loses_no_letter(text: str) -> None:
    plain = [unicodedata.normalize("NFC", c) for c in text]
    mirrored = str.maketrans("()", "((")
    assert sorted("".join(plain).translate(mirrored)) == sorted(visual(text).translate(mirrored))


@given(LETTERS, LETTERS)
def test_what_stands_behind_an_isolated_word_stays_there(name: str, tail: str) -> None:
    if not runs_leftwards(tail):
        assert visual(f"{isolated(name)}, {tail}").endswith(visual(f", {tail}"))


@given(LETTERS)
def test_isolates_come_in_pairs_and_change_no_letter(text: str) -> None:
    whole = with_isolates(text)
    assert "".join(c for c in whole if c not in MARKS) == text
    assert whole.count("\u2068") == whole.count("\u2069")
    assert with_isolates(whole) == whole


def test_our_own_numbers_stay_out_of_the_isolate() -> None:
    assert with_isolates(f"yarn, {HEBREW} {HEBREW}, 100 g") == f"yarn, \u2068{HEBREW} {HEBREW}\u2069, 100 g"
    assert with_isolates("yarn, 100 g") == "yarn, 100 g"


def test_a_broken_isolate_is_closed() -> None:
    assert closed(["a \u2068b", "c\u2069 d"]) == ["a \u2068b\u2069", "\u2068c\u2069 d"]


@pytest.mark.parametrize(
    ("word", "forms"),
    [
        ("\u0633\u0644\u0627\u0645", "initial final isolated"),
        ("\u0628\u0628\u0628", "initial medial final"),
        ("\u0628", "isolated"),
        ("\u062f\u0628", "isolated isolated"),
        ("\u0628\u064e\u0628", "initial - final"),
        ("\u0628\u0640", "initial -"),
        ("\u06a9\u06cc", "initial final"),
    ],
)
def test_arabic_letters_take_the_form_of_their_place(word: str, forms: str) -> None:
    """The first is salam: seen joins lam-alef, which is one form; meem stands alone."""
    found = [unicodedata.decomposition(c).split()[:1] for c in joined(word)]
    assert [form[0].strip("<>") if form else "-" for form in found] == forms.split()


def test_other_letters_are_left_as_they_are() -> None:
    assert joined(f"abc {HEBREW}") == f"abc {HEBREW}"
