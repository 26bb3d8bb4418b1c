"""What drawings say to people stands in the catalogue of words: the renderer's own texts are names for programs."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2] / "renderer"
TABLES = {"paper/advances.py", "paper/scripts/more_advances.py", "paper/scripts/fonts.py"}
TABLES |= {"charts/symbols/__init__.py", "schematic/options.py"}
"""Letters with their widths, names of fonts, names of a chart's signs, and what the caller may choose."""
SEVERAL = re.compile(r"[A-Za-z]+[,;:.]? [A-Za-z(]")
NAME = re.compile(r"[a-z]*(-[a-z]*)*")
"""A group's name, or a piece of one."""
FOR_PROGRAMS = {
    "draw through": "a method of the language",
    "measured each": "a method of the model",
    "Helvetica, Arial, 'Liberation Sans', sans-serif": "fonts",
    "Times, 'Times New Roman', 'Liberation Serif', serif": "fonts",
    "graphics-document document": "a role of SVG",
    "{}mm": "a length of SVG",
    "rotate({} {} {})": "a transform of SVG",
    "url(#{})": "a reference of SVG",
    "path('{}') view-box": "a shape of CSS",
    "no font on this machine has the {} letters of this drawing": "a warning to the caller",
    ", or ask for the drawing alone (--only drawing)": "an error of the command",
    "the page needs about {} mm of height at this width{}": "an error of the command",
}
SOURCES = [path for path in sorted(ROOT.rglob("*.py")) if path.relative_to(ROOT).as_posix() not in TABLES]


def literals(tree: ast.AST) -> Iterator[tuple[int, str, bool]]:
    """The texts of a module with their lines, and whether each is filled in; not docstrings and what is raised."""
    left_out: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Raise) or (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)):
            left_out |= {id(one) for one in ast.walk(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr) and id(node) not in left_out:
            left_out |= {id(one) for one in ast.walk(node) if not isinstance(one, ast.FormattedValue)}
            pieces = [one.value if isinstance(one, ast.Constant) else "{}" for one in node.values]
            yield node.lineno, "".join(map(str, pieces)), True
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in left_out:
            yield node.lineno, node.value, False


def has_words(text: str, filled: bool) -> bool:
    """Whether a text is more than a name: several words, or a word around what is filled in."""
    if text in FOR_PROGRAMS:
        return False
    own = text.replace("{}", "")
    return SEVERAL.search(own) is not None or (
        filled and re.search("[A-Za-z]{2}", own) is not None and not NAME.fullmatch(own)
    )


def spoken(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Words that are written into a label as they are."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Label":
            for argument in node.args[2:3]:
                if isinstance(argument, ast.Constant) and re.search("[A-Za-z]", str(argument.value)):
                    yield node.lineno, str(argument.value)


def found_in(source: str) -> list[str]:
    tree = ast.parse(source)
    texts = [(line, text) for line, text, filled in literals(tree) if has_words(text, filled)]
    return [f"{line}: {text}" for line, text in sorted({*texts, *spoken(tree)})]


def test_words_would_be_found() -> None:
    source = '''
"""A docstring of words."""
def f(row):
    """Another one."""
    if row < 0:
        raise ValueError(f"row {row} is before the start")
    return Group("edge-behind", (Label(0, 0, "row", 3), f"after row {row:,}", f"band-{row}", "at the latest", f"{row}"))
'''
    assert found_in(source) == ["7: after row {}", "7: at the latest", "7: row"]


def test_the_renderer_has_no_words_of_its_own() -> None:
    assert len(SOURCES) > 60
    found = {str(path.relative_to(ROOT)): found_in(path.read_text(encoding="utf-8")) for path in SOURCES}
    assert {name: words for name, words in found.items() if words} == {}


def test_what_is_for_programs_is_there() -> None:
    texts = {text for path in SOURCES for _, text, _ in literals(ast.parse(path.read_text(encoding="utf-8")))}
    assert set(FOR_PROGRAMS) <= texts


def test_the_renderer_counts_by_phrases() -> None:
    """`counted` puts an English s behind a word."""
    imported = re.compile(r"^from halfhank\.model\.number_words import .*\bcounted\b", re.MULTILINE)
    assert not [path for path in SOURCES if imported.search(path.read_text(encoding="utf-8"))]
