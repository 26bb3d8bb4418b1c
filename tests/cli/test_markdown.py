"""Fenced blocks in Markdown: drawings, lists of problems, and nothing else changed."""

import re
import subprocess
import sys
import tomllib
from html import unescape
from html.parser import HTMLParser
from importlib import import_module
from pathlib import Path
from typing import Any

import halfhank
import pytest
from halfhank.cli.commands.draw import command
from halfhank.markdown import FENCE_OPTIONS, fence_html, fence_options, shawl_plugin
from halfhank.model.plan import Plan
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree
from markdown_it import MarkdownIt

from tests.cli.running import GOOD

ROOT = Path(__file__).parents[2]
BLOCK = re.compile(r"```(\w+)\n(.*?)```", re.DOTALL)
WRONG = GOOD.replace("needles", "nedles")


def fenced(text: str, options: str = "", mark: str = "```") -> str:
    return f"{mark}shawl {options}\n{text}\n{mark}\n"


def rendered(text: str, **defaults: Any) -> str:
    found: str = MarkdownIt().use(shawl_plugin, **defaults).render(text)
    return found


def drawn(**options: Any) -> str:
    return halfhank.draw(GOOD, embed=True, **options).decode()


def test_a_fence_is_the_drawing_to_embed() -> None:
    assert rendered(f"# One\n\n{fenced(GOOD)}") == f"<h1>One</h1>\n{drawn()}"
    assert rendered(fenced(GOOD, mark="~~~~")) == drawn()


def test_options_are_those_of_the_command() -> None:
    assert rendered(fenced(GOOD, "--width 80 --only drawing --transparent")) == drawn(
        width_mm=80, only="drawing", transparent=True
    )
    assert rendered(fenced(GOOD, "--scale=1:12.5 --units=in --as-planned")) == drawn(
        scale=12.5, units="in", as_planned=True
    )
    assert fence_options(["--height", "90mm", "--ramp", "haze", "--contours", "--without", "table"]) == {
        "height_mm": 90.0,
        "ramp": "haze",
        "contours": True,
        "without": "table",
    }
    taken = {option.removeprefix("--") for one in command.params for option in one.opts if option.startswith("--")}
    assert taken - {"output", "embed", "help"} == set(FENCE_OPTIONS)


def test_defaults_are_for_all_fences_and_a_fence_has_the_last_word() -> None:
    assert rendered(fenced(GOOD), width_mm=80, ramp="haze") == drawn(width_mm=80, ramp="haze")
    assert rendered(fenced(GOOD, "--ramp tide"), width_mm=80, ramp="haze") == drawn(width_mm=80)
    with pytest.raises(TypeError, match="'colour'"):
        MarkdownIt().use(shawl_plugin, colour="red")


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ("--foo", "--foo is no option"),
        ("width 80", "width is no option"),
        ("--width", "--width needs a value"),
        ("--width eighty", "eighty is not a number for --width"),
        ("--width nan", "60 to 5,000 mm wide"),
        ("--only cat", "only the drawing can be asked for"),
        ("--ramp <b>", "no ramp is called '<b>'"),
        ("--<script>", "--<script> is no option"),
        ("--width 80 --height 40", "the page needs about"),
    ],
)
def test_an_option_that_cannot_be_followed_is_said_in_place_of_the_drawing(options: str, said: str) -> None:
    found = rendered(fenced(GOOD, options))
    assert said in unescape(found) and "<svg" not in found
    check_html(found)


def test_mistakes_are_listed_with_the_lines_of_the_fence() -> None:
    found = rendered(f"text\n\n{fenced(WRONG)}\nmore\n")
    line = WRONG[: WRONG.index("nedles")].count("\n") + 1
    assert f"<li>line {line}, <code>nedles 4 mm</code>: <code>nedles</code> does not fit here." in found
    assert "<em>try: write <code>needles</code></em>" in found
    assert "<svg" not in found and found.endswith("<p>more</p>\n")
    check_html(found)


def test_advice_is_no_reason_not_to_draw() -> None:
    assert "<svg" in rendered(fenced(GOOD.replace("gauge 20 sts 40 rows", "gauge 20 sts 60 rows")))


def test_other_fences_are_left_alone_whatever_they_are_rendered_by() -> None:
    others = "```py\n1 < 2\n```\n\n~~~\nshawl\n~~~\n\n```shawls\nx\n```\n\n    shawl\n\n`shawl`\n"
    assert rendered(others) == MarkdownIt().render(others)
    md = MarkdownIt("commonmark", {"highlight": lambda code, name, rest: f"<pre>{name}!"}).use(shawl_plugin)
    assert md.render("```py\nx\n```\n") == "<pre>py!\n"


def test_a_fence_may_be_inside_lists_and_quotations() -> None:
    inside = "".join(f"> {line}\n" for line in fenced(GOOD, "--width 80").splitlines())
    assert drawn(width_mm=80).strip() in rendered(inside)


def test_twice_the_same_fence_has_no_id_twice() -> None:
    assert 'id="' not in rendered(fenced(GOOD) * 2)


HOSTILE = [
    'shawl "</code></li></ul><script>alert(1)</script>"\nnedles <img src=x onerror=alert(1)> `<b>`',
    'shawl "a\u202eb\x07\x1b[31m"\nx\u2066y "\'"',
    "&lt;script&gt; &amp;amp;",
    GOOD.replace("My triangle", "</title><script>alert(1)</script><style>p{color:red}</style>"),
]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_escaped(text: str) -> None:
    found = rendered(fenced(text))
    check_html(found)
    assert not re.search("<(script|style|img|b)[ >]", found)
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u202e\u2066]", found)


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=60), st.lists(st.text(min_size=1, max_size=12), max_size=3))
def test_nothing_raises(text: str, words: list[str]) -> None:
    check_html(fence_html(text, words))


def test_a_fault_of_our_own_costs_one_drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> Plan:
        raise ZeroDivisionError("<b>")

    monkeypatch.setattr(halfhank.interface, "draw", broken)
    found = rendered(f"{fenced(GOOD)}\nafter\n")
    assert "Halfhank itself has failed here" in found and "<p>after</p>" in found and "<b>" not in found


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.open.append(tag)
        self.seen.add(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        self.seen.add(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open.pop() == tag


def check_html(text: str) -> None:
    """Every tag is closed, and there are none but those of a list, or those of a drawing."""
    tags = _Tags()
    tags.feed(text)
    tags.close()
    assert not tags.open
    svg = {"svg", "title", "desc", "g", "path", "circle", "rect", "text"}
    assert tags.seen <= {"div", "p", "ul", "li", "code", "em"} | svg


def test_the_library_is_not_imported_by_the_plugin() -> None:
    code = "import sys, halfhank.markdown as m; m.fence_html('x'); print(*sys.modules)"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert "halfhank.markdown" in found and not [
        one for one in found if one.startswith(("markdown_it", "click", "cairosvg.s"))
    ]


def test_the_entry_point_is_the_plugin() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    module, _, name = project["entry-points"]["markdown_it.plugins"]["shawl"].partition(":")
    assert getattr(import_module(module), name) is shawl_plugin
    assert "markdown-it-py" in project["optional-dependencies"]["markdown"][0]


def readme_blocks() -> dict[str, list[str]]:
    """The fenced blocks of the README by language."""
    found: dict[str, list[str]] = {}
    for language, text in BLOCK.findall((ROOT / "README.md").read_text(encoding="utf-8")):
        found.setdefault(language, []).append(text)
    return found


def readme_example(folder: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """What the README's example makes of the README's page."""
    blocks = readme_blocks()
    (page,) = blocks["markdown"]
    (code,) = [one for one in blocks["python"] if "shawl_plugin" in one]
    (folder / "page.md").write_text(page, encoding="utf-8")
    monkeypatch.chdir(folder)
    names: dict[str, Any] = {}
    exec(compile(code, "README.md", "exec"), names)
    return str(names["html"])


def test_the_readmes_example_is_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    heading, svg = readme_example(tmp_path, monkeypatch).split("\n", 1)
    assert heading == "<h1>A first try</h1>"
    root = etree.fromstring(svg)
    words = "".join(str(text) for text in root.itertext())
    assert root.get("class") == "halfhank" and "A first try" in words
    assert "currentColor" in svg and "sts at end" not in words
