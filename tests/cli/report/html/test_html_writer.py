"""Any report as HTML: its blocks as the elements they are, and nothing that its texts hold becomes one."""

from halfhank.cli.report.html.elements import Element, new_element
from halfhank.cli.report.html.html_page import PageForm, PageNames, html_bytes, html_page
from halfhank.cli.report.html.html_text import html_text, set_words
from halfhank.cli.report.html.html_writer import report_elements
from halfhank.grammar.problems.problem import ADVICE, Problem, Span
from halfhank.model.report_tree import (
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    ProblemNote,
    Report,
    ReportBlock,
    ReportSection,
    Table,
    Value,
    cells,
    content,
    figures_column,
    row_number,
    ticks_column,
    words_column,
)
from hypothesis import given
from lxml import etree

from tests.cli.report.html.html_checks import faults, name_of, parsed, texts
from tests.cli.report.reports import REPORTS


class AnyDrawing(dict[str, object]):
    """A drawing for every name."""

    def __missing__(self, _: str) -> object:
        return lambda: new_element("span", "drawn")


def written(*blocks: ReportBlock, title: str | None = None) -> str:
    """Blocks as the text of their elements."""
    found = report_elements(Report(title, blocks), AnyDrawing())  # type: ignore[arg-type]
    return "".join(etree.tostring(one, encoding="unicode") for one in found)


def page_of(report: Report) -> bytes:
    content_ = report_elements(report, AnyDrawing())  # type: ignore[arg-type]
    return html_bytes(html_page(PageNames(report.title or "-", report.title), content_, PageForm()))


@given(REPORTS)
def test_any_report_becomes_a_valid_page(report: Report) -> None:
    root = parsed(page_of(report))
    assert faults(root) == []
    names = {name_of(element) for element in root.iter()}
    assert names.isdisjoint({"script", "b", "img"})


def test_texts_stay_texts() -> None:
    hostile = '</style><script>alert(1)</script> & ]]> " \x00 \x1b[1m \ud800'
    column = words_column(hostile)
    report = Report(
        hostile,
        (
            Paragraph((hostile,)),
            Paragraph((hostile,), hostile),
            ListBlock((ListItem((hostile,)),)),
            Table((column,), (cells(hostile),), (hostile,)),
            Figure("x", (hostile,)),
            ReportSection(hostile, (ProblemNote(Problem("x", ADVICE, Span(1, 1, 2), hostile), hostile, hostile),)),
        ),
    )
    root = parsed(page_of(report))
    assert faults(root) == []
    assert texts(root).count("<script>alert(1)</script>") >= 10


def test_headings_have_the_levels_of_their_sections() -> None:
    inner = ReportSection("c", (ReportSection("d", (Paragraph(("e",)),)),))
    found = parsed(page_of(Report("a", (ReportSection("b", (inner,)),))))
    headings = [(name_of(one), one.text) for one in found.iter() if name_of(one) in ("h1", "h2", "h3", "h4")]
    assert headings == [("h1", "a"), ("h2", "b"), ("h3", "c"), ("h4", "d")]


def test_neighbouring_facts_are_one_list() -> None:
    text = written(Paragraph(("100 g",), "yarn"), Paragraph(("4 mm",), "needles"), Paragraph(("blocked",)))
    assert text.count("<dl") == 1 and "<dt>yarn</dt><dd>100\u00a0g</dd>" in text and text.endswith("<p>blocked</p>")


def test_terms_and_steps_are_lists_of_their_own() -> None:
    terms = ListBlock((ListItem(("knit",), lead="k"), ListItem(("purl",), lead="p")))
    assert '<dl class="terms"><div><dt>k</dt><dd>knit</dd></div>' in written(terms)
    steps = ListBlock((ListItem(("Work:",), (ListItem(("k1",), lead="first"),)), ListItem(("Turn.",))))
    assert '<li class="steps">Work:<dl class="terms">' in written(steps) and "<li>Turn.</li>" in written(steps)


def test_tables_have_captions_and_headers_with_their_scope() -> None:
    columns = (words_column("part"), figures_column("used"), words_column(""), ticks_column("done"))
    table = Table(columns, (cells("body", Value("6.2 g", 6.2, "g"), "", "[x]"), cells("", "", "", "[ ]")), ("Yarn",))
    text = written(table)
    assert '<caption id="table-1">Yarn</caption>' in text and 'aria-labelledby="table-1"' in text
    assert '<th scope="col" class="figures">used</th><td class="words"/>' in text
    assert '<th scope="row" class="words">body</th><td class="figures">6.2\u00a0g</td>' in text
    assert text.count('scope="row"') == 1, "an empty cell heads no row"
    assert text.count("<path") == 1 and text.count("<rect") == 2, "one of two boxes is ticked"


def test_a_table_without_a_caption_is_called_what_stands_before_it() -> None:
    table = Table((words_column("part"),), (cells("body"),))
    text = written(ReportSection("Repeats", (ListBlock((ListItem(("On these rows:",)),)), table)))
    assert '<ul id="words-3"><li>On these rows:</li></ul>' in text and 'role="group" aria-labelledby="words-3"' in text
    assert 'role="group" aria-labelledby="section-1"' in written(ReportSection("Parts", (table,)))


def test_figures_have_their_drawing_and_words() -> None:
    made: list[str] = []

    def drawing() -> Element:
        made.append("x")
        return new_element("span", "drawn")

    (figure,) = report_elements(Report(None, (Figure("x", ("What it shows",)),)), {"x": drawing})
    assert made == ["x"] and [name_of(one) for one in figure] == ["div", "figcaption"]
    assert figure[0].get("aria-labelledby") == figure[1].get("id")


def test_signs_between_values_are_set() -> None:
    wide, deep = Value("112.9", 112.9, "cm"), Value("57.0 cm", 57, "cm")
    assert html_text(content(wide, " x ", deep)) == "112.9\u00a0× 57.0\u00a0cm"
    assert html_text(content(row_number(29), "-", row_number(124))) == "29–124"
    assert html_text(content("a x b - ", wide)) == "a x b - 112.9"
    assert set_words("this shawl's") == "this shawl’s"


def test_directions_of_others_words_end_with_them() -> None:
    assert set_words("a\u202eb") == "ab"
    assert set_words("\u05d0\u05d1 12") == "\u2068\u05d0\u05d1\u2069 12"
