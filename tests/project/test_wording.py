"""Phrases that stand nowhere: in sources' texts, on pages, in starters, and in what commands print and draw."""

import ast
import html
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from halfhank.cli.commands.charts.chart import CHARTS
from halfhank.cli.commands.new import SHAPES
from halfhank.cli.group import COMMANDS
from halfhank.grammar.builtin.stitch_patterns import STITCH_PATTERNS

from tests.cli.running import halfhank, shawl_of
from tests.project.test_docs import PAGES

ROOT = Path(__file__).parents[2]
STARTERS = sorted((ROOT / "cli/starters").glob("*.shawl"))
DESCRIPTIONS = [*sorted((ROOT / "gallery_demo").glob("*.shawl")), *STARTERS]
SOURCES = [path for folder in ("cli", "grammar", "model", "renderer") for path in sorted((ROOT / folder).rglob("*.py"))]

# In place of each stands the word that is used for the same thing everywhere else.
PHRASES = (
    # The yarn: on the scale, left over, margin, spare yarn, chance of enough yarn, 90 % range, weighing.
    *("g left", "oz left", "grams left", "ounces left", "kept back", "give or take", "nine times in ten"),
    *("readings in ten", "foretold", "90 % band", "scale reading", "would be missing", "yarn lasts", "yarn pays for"),
    *("likely (by", "more than there is", "yarn a stitch", "over 99.9 %", "under 0.1 %", "is gone", "into the margin"),
    # The piece: blocked, edges by their rows, mirrored second half, drop stitch, bind-off edge, repeats.
    *("as knitted", "left side", "last edge", "saw teeth", "set off from row to row", "top edge droops", "edge lifts"),
    *(
        "bind off by row",
        "turn back by row",
        "half the yarn: row",
        "past the planned end",
        "yarn to knit on",
        "way back",
    ),
    *("ridges by turns", "quarter to the right", "as yarn allows comes to", "each multiple", "wraps of the needle for"),
    # The command and its problems.
    *("working text", "makes no sense", "out of reach", "all well", "built-in fabric", "may not stand", "passed over"),
    *("is no weight", "is no length", "is no scale", "put out", "command line that", "written in another way here"),
    *("true-to-scale", "hardly follows", "tension drifts", "invented knits", "may end after any repeat"),
)
_PHRASE = re.compile("|".join(rf"(?<!\w){re.escape(one)}(?!\w| over)" for one in PHRASES), re.IGNORECASE)
_LOG_LINE = re.compile(r"after row [\d,]+:? [\d.,]+ ?(g|oz) left")
"""A line of the log, whose words are the language's own."""


def phrases_in(text: str) -> list[str]:
    """The phrases in a text, wherever its lines break, with what stands around them."""
    words = _LOG_LINE.sub("", re.sub(r"\s+", " ", text))
    return [words[max(found.start() - 30, 0) : found.end() + 20] for found in _PHRASE.finditer(words)]


def test_phrases_are_found_over_the_ends_of_lines_and_the_log_has_its_own() -> None:
    assert phrases_in("five g\n  left") and phrases_in("Kept back.") and phrases_in("half the yarn: row 37, 116 g left")
    assert not phrases_in("  after row 20 94.7 g left\n") and not phrases_in("fog left, keeping back")


def _texts(path: Path) -> Iterator[str]:
    """The string literals of a source, its docstrings and comments left out; of an f-string its words as one text."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    aside = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            aside |= {id(value) for value in node.values}
            yield "".join(str(value.value) if isinstance(value, ast.Constant) else "1" for value in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in aside:
            yield node.value


def test_no_source_says_them() -> None:
    assert any("chance of enough yarn" in text for path in SOURCES for text in _texts(path))
    found = {
        str(path.relative_to(ROOT)): [one for text in _texts(path) for one in phrases_in(text)] for path in SOURCES
    }
    assert {path: phrases for path, phrases in found.items() if phrases} == {}


@pytest.mark.parametrize("page", [*PAGES, *DESCRIPTIONS], ids=lambda page: str(page.relative_to(ROOT)))
def test_no_page_and_no_description_says_them(page: Path) -> None:
    assert phrases_in(page.read_text(encoding="utf-8")) == []


COMMAND_LINES = [*((name,) for name in COMMANDS), *(("chart", name) for name in CHARTS)]


@pytest.mark.parametrize("name", [(), *COMMAND_LINES], ids=" ".join)
def test_no_help_says_them(name: tuple[str, ...]) -> None:
    assert phrases_in(halfhank(*name, "--help").out.decode()) == []


def test_no_listing_and_no_refusal_says_them(tmp_path: Path) -> None:
    lines = [["stitches"], ["stitches", "moss"], *(["new", shape] for shape in SHAPES)]
    wrong = [
        ["draw"],
        ["plann"],
        ["plan", tmp_path / "x"],
        ["new", "hat"],
        ["stitches", "x"],
        ["draw", "x", "-o", "x.gif"],
        ["page", "x", "-o", "x.svg"],
        ["page", "x", "--without", "hat"],
    ]
    wrong += [
        ["skeins", "x", "long"],
        ["weigh", "x", "3", "much"],
        ["draw", "x", "--scale", "10"],
        ["draw", "x", "--width", "a"],
    ]
    for line in [*lines, *wrong]:
        result = halfhank(*line)
        assert result.status == (0 if line in lines else 2)
        assert phrases_in(result.out.decode() + result.err) == [], line


def _weighings(path: Path) -> Iterator[list[str]]:
    """A true weighing, left and used, one that is a little off, one that cannot be, and the skein's own."""
    shawl = shawl_of(path)
    row = shawl.rows.count // 2
    left_g = shawl.yarn.skein_g - shawl.used_g[row]
    yield from (["weigh", "--dry-run", str(path), str(row), f"{left_g * share:.1f}"] for share in (1.0, 0.93, 0.2))
    yield ["weigh", "--dry-run", "--used", str(path), str(row), f"{shawl.used_g[row]:.1f}"]
    yield ["weigh", "--dry-run", "--sure", str(path), str(row), f"{left_g * 0.2:.1f}"]
    yield ["weigh", "--dry-run", str(path), "0", f"{1.01 * shawl.yarn.skein_g:.1f}"]


def _drawn(text: str) -> str:
    """The words of a drawing: its texts, titles and descriptions."""
    return " ".join(html.unescape(words) for words in re.findall(r">([^<>]+)<", text))


@pytest.mark.parametrize("name", STITCH_PATTERNS)
def test_no_chart_of_a_stitch_says_them(name: str) -> None:
    drawn = _drawn(halfhank("chart", "stitch", name, "-o", "-").out.decode())
    assert name in drawn and phrases_in(drawn) == []


@pytest.mark.parametrize("path", DESCRIPTIONS, ids=lambda path: path.stem)
def test_no_command_prints_or_draws_them(path: Path) -> None:
    file = str(path)
    printed = [["plan", file], ["plan", file, "--checkpoints"], ["stops", file], ["skeins", file, "200m", "500m"]]
    printed += [["check", file], ["instructions", file], *_weighings(path)]
    drawn = [["draw", file, "-o", "-"], ["chart", "yarn", file, "-o", "-"], ["skeins", file, "380m", "-o", "-"]]
    drawn += [["page", file, "-o", "-"]]
    results = [(halfhank(*line), line in drawn) for line in [*printed, *drawn]]
    texts = [(_drawn(one.out.decode()) if is_drawn else one.out.decode()) + one.err for one, is_drawn in results]
    found = [
        " ".join([line[0], phrase])
        for line, text in zip([*printed, *drawn], texts, strict=True)
        for phrase in phrases_in(text)
    ]
    assert found == []
    assert all(texts) and not [text for text in texts[: len(printed)] if re.search(r"\d%", text)], "5 %, not 5%"
