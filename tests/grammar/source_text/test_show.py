"""Problems in words."""

from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import ADVICE, MISTAKE, Problem, Span
from halfhank.grammar.source_text.excerpt import safe, show_problem, show_problems


def test_a_problem_shows_its_line_caret_and_mend() -> None:
    text = "yarn\n  skein 100 g 380 yards\n"
    problem = next(p for p in parse(text).problems if p.code == "unknown-word")
    assert show_problems([problem], text, "a.shawl") == (
        "a.shawl:2:19: mistake [unknown-word]\n"
        "      skein 100 g 380 yards\n"
        "                      ^^^^^\n"
        "  `yards` does not fit here.\n"
        "  try: write `yd`\n"
    )


def test_a_problem_without_a_place() -> None:
    shown = show_problem(Problem("not-flat", ADVICE, None, "It ruffles."), ["x"], "a.shawl")
    assert shown == "a.shawl: advice [not-flat]\n  It ruffles.\n"


def test_the_caret_lines_up_under_tabs_wide_and_combining_characters() -> None:
    line = '\t"編み物" e\u0301 = x'
    column = line.index("x") + 1
    shown = show_problem(Problem("c", MISTAKE, Span(1, column, column + 1), "m"), [line], "f").split("\n")
    assert shown[1] == '        "編み物" e\u0301 = x'
    # 4 for the tab, 2 quotes, 6 for three wide characters, blank, e, blank, =, blank
    assert shown[2] == "    " + " " * (4 + 2 + 6 + 5) + "^"


def test_nothing_unsafe_reaches_the_terminal() -> None:
    line = 'by "\x1b[31m\u202e\u200bx" y'
    column = line.index("y", 5) + 1
    shown = show_problem(Problem("c", MISTAKE, Span(1, column, column + 1), "`\x1b`"), [line], "a\x07")
    assert "\x1b" not in shown and "\u202e" not in shown and "\x07" not in shown
    lines = shown.split("\n")
    assert lines[1].index("y", 8) == lines[2].index("^")
    assert safe("a\U000e0001") == "a\\U000e0001"


def test_a_long_line_is_cut_around_the_place() -> None:
    line = "k1, " * 900 + "foo"
    shown = show_problem(Problem("c", MISTAKE, Span(1, 3601, 3604), "m"), [line], "f").split("\n")
    assert len(shown[1]) < 120
    assert shown[1].index("foo") == shown[2].index("^^^")


def test_colour_only_where_asked() -> None:
    problem = Problem("c", MISTAKE, Span(1, 1, 2), "m", "h")
    assert "\x1b[31m" in show_problem(problem, ["x"], "f", colour=True)
    assert "\x1b" not in show_problem(problem, ["x"], "f")
