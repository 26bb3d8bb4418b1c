"""Reports: any tree is written in lines and as data, and what commands print carries its numbers."""

import json
import math
import re
from pathlib import Path

import pytest
from halfhank.cli.report.json_writer import read_report, report_json
from halfhank.cli.report.terminal_writer import (
    FILE_LAYOUT,
    UNBROKEN,
    WIDEST_TABLE,
    report_text,
    text_layout,
)
from halfhank.cli.terminal import width
from halfhank.grammar.problems.problem import ADVICE, Problem, Span
from halfhank.model.instructions.counts import stitches
from halfhank.model.report_tree import (
    UNITS,
    Figure,
    ListBlock,
    ListItem,
    Paragraph,
    ProblemNote,
    Report,
    ReportSection,
    Table,
    Value,
    Verbatim,
    cells,
    content,
    figures_column,
    joined,
    row_number,
    words_column,
    words_of,
)
from hypothesis import given

from tests.cli.report.reports import DEMOS, REPORTS, fabric_reports, reports_of, values_in
from tests.cli.running import GOOD

TABLE = Table((words_column("part"), figures_column("used")), (cells("body", Value("6.2 g", 6.21, "g")),))
REPORT = Report(
    "Fern",
    (
        Paragraph(("a triangle",)),
        Paragraph(("100 g",), "yarn"),
        Paragraph(("4 mm",), "needles"),
        Figure("schematic", ("the shawl to scale",)),
        ReportSection("Parts", (TABLE,)),
        ReportSection("Start", (ListBlock((ListItem(("Cast on 3 sts:",), (ListItem(("knit",), lead="k"),)),)),)),
        Verbatim(("stitch fern", "  multiple of 8")),
    ),
)


def test_blocks_stand_apart_and_facts_together() -> None:
    assert report_text(REPORT, UNBROKEN).split("\n") == [
        "Fern",
        "a triangle",
        "",
        "yarn     100 g",
        "needles  4 mm",
        "",
        "[the shawl to scale]",
        "",
        "Parts",
        "part   used",
        "body  6.2 g",
        "",
        "Start",
        "  Cast on 3 sts:",
        "    k: knit",
        "",
        "stitch fern",
        "  multiple of 8",
        "",
    ]


def test_headings_are_bold_in_colour() -> None:
    lines = report_text(REPORT, text_layout(None, colour=True)).split("\n")
    assert lines[0] == "\x1b[1mFern\x1b[0m" and "\x1b[1mParts\x1b[0m" in lines and "\x1b[2mpart   used\x1b[0m" in lines


def test_problems_stand_close_above_their_count() -> None:
    note = ProblemNote(Problem("odd-gauge", ADVICE, Span(1, 3, 6), "Odd."), "a.shawl", "a gauge")
    whole = ProblemNote(Problem("not-flat", ADVICE, None, "It ruffles."), "a.shawl", None)
    assert report_text(Report(None, (note, whole, Paragraph(("two",)))), UNBROKEN).split("\n") == [
        "a.shawl:1:3: advice [odd-gauge]",
        "    a gauge",
        "      ^^^",
        "  Odd.",
        "a.shawl: advice [not-flat]",
        "  It ruffles.",
        "two",
        "",
    ]


def test_texts_are_broken_and_titles_of_wide_tables_are_not() -> None:
    report = Report("one two three four five six", (Paragraph(("one two three four five six",)),))
    assert report_text(report, text_layout(10)).splitlines()[:2] == ["one two three four five", "six"]
    wide = report_text(report, text_layout(24, WIDEST_TABLE)).splitlines()
    assert wide == ["one two three four five six", "one two three four five", "six"]
    assert report_text(Report(None, (Paragraph(("x " * 90,)),)), text_layout(None)).index("\n") <= 100


def test_only_a_file_gets_what_a_description_holds() -> None:
    report = Report("\x1b[1m", (Paragraph(("\x1b",)), ReportSection("\x1b", (Verbatim(("\x1b",)),))))
    assert report_text(report, FILE_LAYOUT).count("\x1b") == 4
    assert report_text(report, UNBROKEN).split("\n") == ["\\x1b[1m", "\\x1b", "", "\\x1b", "\\x1b", ""]


def test_pieces_of_text_are_put_together() -> None:
    three, row = stitches(3), row_number(1200)
    assert content("a", "b", "", three, (" ", "c"), row) == ("ab", three, " c", row)
    assert words_of(joined(", ", [("a",), (stitches(1),), ()])) == "a, 1 st, "
    assert joined(", ", []) == ()


@given(REPORTS)
def test_any_report_comes_back_from_data(report: Report) -> None:
    data = json.loads(json.dumps(report_json(report), allow_nan=False))
    assert read_report(data) == report


def test_data_of_another_kind_is_refused() -> None:
    assert read_report(report_json(REPORT)) == REPORT
    with pytest.raises(ValueError, match="format 2"):
        read_report({"format": 2, "title": None, "blocks": []})
    with pytest.raises(ValueError, match="'hologram'"):
        read_report({"format": 1, "title": None, "blocks": [{"kind": "hologram"}]})


def test_the_page_names_all_units() -> None:
    page = (Path(__file__).parents[3] / "cli/report/README.md").read_text(encoding="utf-8")
    (line,) = [line for line in page.split("\n") if line.startswith("`g` ·")]
    assert tuple(re.findall("`(.+?)`", line)) == UNITS


def test_what_is_no_number_in_data_is_null() -> None:
    data = report_json(Report(None, (Paragraph((Value("much", math.inf, "g"),)),)))
    assert data["blocks"][0]["text"] == [{"words": "much", "number": None, "unit": "g"}]
    (value,) = values_in(read_report(data))
    assert math.isnan(value.number)


@given(REPORTS)
def test_any_report_is_written_safely(report: Report) -> None:
    for room in (None, 30):
        lines = report_text(report, text_layout(room)).split("\n")
        assert all(line.isprintable() for line in lines)


@pytest.mark.parametrize("demo", DEMOS, ids=lambda path: path.stem)
def test_the_reports_of_a_shawl(demo: Path) -> None:
    reports = list(reports_of(demo))
    for report in reports:
        _shows_its_numbers(report)
    assert all(list(values_in(report)) for report in reports[:5])


def test_the_reports_of_built_ins() -> None:
    for report in fabric_reports():
        _shows_its_numbers(report)


def _shows_its_numbers(report: Report) -> None:
    """It comes back from data, and every number in it is the one that is shown."""
    assert read_report(json.loads(json.dumps(report_json(report)))) == report
    text = report_text(report, UNBROKEN)
    for value in values_in(report):
        _shows_its_number(value)
        assert value.words in text
        assert value.unit in UNITS


@pytest.mark.parametrize(
    "log", ["before cast on 97 g", "after row 20 92 g left", "after row 20 0.2 oz used", "after row 20 60 g left"]
)
def test_the_report_of_a_weighing(good: Path, log: str) -> None:
    good.write_text(f"{GOOD}weighed\n  {log}\n")
    *_, report = reports_of(good)
    _shows_its_numbers(report)
    (numbers,) = [[value.number for value in values_in(item)] for item in report.blocks if isinstance(item, ListBlock)]
    assert float(re.findall(r"[\d.]+", log)[-1]) in numbers


@pytest.mark.parametrize("demo", DEMOS[:3], ids=lambda path: path.stem)
def test_tables_and_texts_keep_to_the_terminal(demo: Path) -> None:
    plan, *_ = reports_of(demo)
    assert max(map(width, report_text(plan, text_layout(40)).split("\n"))) <= 40


SHOWN = re.compile(r"(?P<figure>[-+]?[\d,]+(?:\.\d+)?)(?: ?(?P<unit>[a-z%]+))?")
WRITTEN = {"st": "sts", "row": "rows", "times": "repeats"}


def _shows_its_number(value: Value) -> None:
    """The first figure of the words is the number, as rounded as it is shown, and the unit behind it is its unit."""
    found = SHOWN.match(value.words)
    if found is None:
        assert value.words in ("once", "twice") or value.words.startswith(("over ", "under ")), value
        return
    figure, unit = found["figure"].replace(",", ""), found["unit"]
    half_place = 0.5001 * 10.0 ** -len(figure.partition(".")[2])
    assert float(figure) == pytest.approx(value.number, abs=half_place), value
    assert unit is None or WRITTEN.get(unit, unit) == value.unit, value
