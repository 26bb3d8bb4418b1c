"""Names in other scripts as a browser shows them: in which order, how wide, and whether our own numbers stay whole."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from halfhank.renderer.paper.scene import Label, Scene
from halfhank.renderer.paper.scripts.directions import MARKS, isolated, visual, with_isolates
from halfhank.renderer.paper.svg import to_svg
from halfhank.renderer.paper.text_widths import text_width

from tests.browser.chromium import HERE

if TYPE_CHECKING:
    from playwright.sync_api import Browser

pytestmark = HERE

ARABIC = "\u0635\u0648\u0641 \u0623\u0632\u0631\u0642"
HEBREW = "\u05e6\u05de\u05e8 \u05db\u05d7\u05d5\u05dc"
RUSSIAN = "\u0448\u0435\u0440\u0441\u0442\u044c \u0434\u043e\u0436\u0434\u044f"
GREEK = "\u039c\u03b1\u03bb\u03bb\u03af \u03bd\u03b5\u03c1\u03bf\u03cd"
HAN = "\u7f8a\u6bdb\u7ebf"
NAMES = (ARABIC, HEBREW, RUSSIAN, GREEK, HAN)
TEXTS = (
    *[f"yarn {name}, 100 g, 380 m (416 yd)" for name in NAMES],
    *[f"{name}, 3.5 oz" for name in NAMES],
    *[isolated(f"{name} 4-ply (2)") for name in NAMES],
    *[isolated(f"{name} (x {name}) [7] ab (12)") for name in NAMES],
    f"{HEBREW} 12 {HEBREW}, 50 g",
    f"{isolated(f'{ARABIC} 50')}, 50 g",
)
# Where each character lies: the middle of its extent.
PLACES = """() => [...document.querySelectorAll("text")].map(text => ({
  words: text.textContent, width: text.getComputedTextLength(),
  middles: [...text.textContent].map((_, i) => { const box = text.getExtentOfChar(i); return box.x + box.width / 2; })
}))"""


@pytest.fixture(scope="module")
def shown(browser: "Browser", tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """All texts on one page."""
    labels = tuple(Label(5, 8.0 * (k + 1), text, 5, "#000000") for k, text in enumerate(TEXTS))
    path: Path = tmp_path_factory.mktemp("scripts") / "page.svg"
    path.write_bytes(to_svg(Scene(200.0, 200.0, "t", "d", labels)))
    page = browser.new_page()
    page.goto(path.as_uri())
    found: list[dict[str, Any]] = page.evaluate(PLACES)
    return found


def seen(one: dict[str, Any]) -> str:
    """The characters in the order in which the browser shows them."""
    placed = zip(one["middles"], one["words"], strict=True)
    return "".join(c for _, c in sorted(placed, key=lambda pair: pair[0]) if c not in MARKS)


def test_letters_stand_in_the_order_that_png_and_pdf_have(shown: list[dict[str, Any]]) -> None:
    swapped = str.maketrans("()[]", "(([[")  # a mirrored bracket is the same character in the file
    for one, text in zip(shown, TEXTS, strict=True):
        assert seen(one).translate(swapped) == visual(with_isolates(text)).translate(swapped), ascii(text)


def test_our_own_numbers_stay_whole_and_behind_the_name(shown: list[dict[str, Any]]) -> None:
    for one, text in zip(shown, TEXTS, strict=True):
        own = text[text.rindex(", ", 0, len(text)) :] if ", " in text else ""
        assert seen(one).endswith(own), ascii(text)


def test_greek_and_cyrillic_are_as_wide_as_measured(shown: list[dict[str, Any]]) -> None:
    for one, text in zip(shown, TEXTS, strict=True):
        measured = text_width(text, 5)
        assert one["width"] <= measured * 1.02 + 0.1, ascii(text)
        if RUSSIAN in text or GREEK in text:
            assert one["width"] >= measured * 0.96 - 0.1, ascii(text)
