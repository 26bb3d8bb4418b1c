"""Whole pages: what they have and in which order, and that each is valid HTML that can be read without seeing it."""

from itertools import pairwise
from pathlib import Path

import pytest
from halfhank.cli.report.html.html_page import html_bytes
from halfhank.cli.report.html.html_text import html_text
from halfhank.cli.report.page.page_parts import ON_REQUEST, PARTS
from halfhank.cli.report.page.pattern_page import PageOptions, page_report, pattern_page
from halfhank.model.report_tree import TICKED, UNTICKED, ReportSection, Table, words_of
from lxml import etree

from tests.cli.report.html.html_checks import faults, name_of, parsed, texts
from tests.cli.report.page.pages import DEMOS, FIRST, LARGE, WHOLE, page_of, plan_of
from tests.pipe.random_shawls.making import seeded_plan

HEADINGS = {
    "notes": "Notes",
    "construction": "Construction",
    "schematic": "Schematic",
    "instructions": "Instructions",
    "charts": "Stitch patterns",
    "abbreviations": "Abbreviations",
    "checkpoints": "Weighings to expect",
    "skeins": "Other skeins",
    "yarn-chart": "Yarn chart",
}
LEADS = {"size": "Size", "yarn": "Yarn", "needles": "Needles", "gauge": "Gauge"}
SVG = "{http://www.w3.org/2000/svg}"


def headings(root: etree._Element) -> list[tuple[int, str]]:
    """Levels and words."""
    return [
        (int(name[1]), one.text or "")
        for one in root.iter()
        if (name := name_of(one))[:1] == "h" and name[1:].isdigit()
    ]


@pytest.mark.parametrize("options", [WHOLE, LARGE], ids=["standard", "large"])
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_page_is_valid_and_whole(path: Path, options: PageOptions) -> None:
    root = parsed(page_of(path, options))
    assert faults(root) == []
    assert root.get("lang") == "en"
    levels = [level for level, _ in headings(root)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels)), "no level is left out"
    for table in (one for one in root.iter() if name_of(one) == "table"):
        heads = [one for one in table.iter() if name_of(one) == "th"]
        assert heads and all(one.get("scope") in ("col", "row") and one.text for one in heads)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_page_says_what_its_report_says(path: Path) -> None:
    report, scenes = page_report(plan_of(path), WHOLE)
    words = texts(parsed(page_of(path)))
    sections = [block for block in report.blocks if isinstance(block, ReportSection)]
    for section in sections:
        assert section.heading in words
        for table in (block for block in section.blocks if isinstance(block, Table)):
            for row in table.rows:
                said = (" ".join(html_text(cell).split()) for cell in row if words_of(cell) not in (TICKED, UNTICKED))
                assert all(one in words for one in said)
    assert next(iter(scenes)) == "schematic" and [*scenes][-1] == "yarn-chart"


def test_the_parts_stand_in_their_order() -> None:
    root = parsed(page_of(FIRST))
    assert [words for level, words in headings(root) if level == 2] == list(HEADINGS.values())
    assert [one.text for one in root.iter() if name_of(one) == "dt"][:5] == [
        "Size",
        "Yarn",
        "Yarn used",
        "Needles",
        "Gauge",
    ]
    assert [*LEADS, *HEADINGS] == list(PARTS)


@pytest.mark.parametrize("part", PARTS)
def test_any_part_can_be_left_out(part: str) -> None:
    root = parsed(page_of(FIRST, PageOptions(frozenset(PARTS) - {part})))
    assert [words for level, words in headings(root) if level == 2] == [
        words for name, words in HEADINGS.items() if name != part
    ]
    leads = {one.text for one in root.iter() if name_of(one) == "dt"}
    assert {name for name, words in LEADS.items() if words not in leads} == {part} & set(LEADS)


def test_a_page_can_be_a_title_alone() -> None:
    root = parsed(page_of(FIRST, PageOptions(frozenset())))
    assert texts(root) == "Hedge and Ditch by the sample room"


def test_the_yarn_chart_is_there_on_request() -> None:
    assert {"yarn-chart"} == ON_REQUEST


def test_the_schematic_is_described() -> None:
    """Shape, wingspan and depth, half of the yarn, yarn; the title and the table are the page's."""
    root = parsed(page_of(FIRST))
    drawing = next(one for one in root.iter(f"{SVG}svg") if one.get("class") == "drawing wide")
    described = drawing.findtext(f"{SVG}desc", "")
    for words in (
        "Triangle from the neck",
        "113 cm (44 in) wide",
        "57 cm (22 in) deep",
        "after row 93",
        "92.7 g of 100",
    ):
        assert words in described
    assert drawing.findtext(f"{SVG}title") == "Hedge and Ditch"
    drawn = [one.text for one in drawing.iter(f"{SVG}text")]
    assert "The skein" in drawn and "Hedge and Ditch" not in drawn and "sts at end" not in drawn


def test_each_pattern_has_its_chart_and_rows_and_its_mirror_image_too() -> None:
    root = parsed(page_of(FIRST))
    captions = [" ".join((one.text or "").split()) for one in root.iter() if name_of(one) == "figcaption"]
    assert [words for words in captions if words.startswith("Chart")] == ["Charts of eyelets for both wings"]
    words = texts(root)
    assert words.count("repeat the boxed stitches") == 1 and words.count("Read from the bottom up") == 1
    assert "*Ssk, yo; rep from * to last st, k1." in texts(root)


def test_large_print_has_fewer_columns_and_says_as_much() -> None:
    columns = [
        sum(1 for one in head.iter() if name_of(one) in ("th", "td"))
        for head in parsed(page_of(FIRST, LARGE)).iter()
        if name_of(head) == "thead"
    ]
    assert max(columns) <= 6
    standard, large = texts(parsed(page_of(FIRST))), texts(parsed(page_of(FIRST, LARGE)))
    skeins = standard[standard.index("Other skeins") :]
    for words in ("470 m", "140", "21,140", "11.2 g"):
        assert words in skeins and words in large[large.index("Other skeins") :]


def test_the_same_page_is_the_same_bytes() -> None:
    assert page_of.__wrapped__(FIRST) == page_of(FIRST)


def test_haze_is_another_shading() -> None:
    assert page_of(FIRST, WHOLE._replace(ramp="haze")) != page_of(FIRST)


def test_the_yarn_chart_has_no_title_of_its_own() -> None:
    root = parsed(page_of(FIRST))
    *_, chart = (one for one in root.iter(f"{SVG}svg") if "drawing" in (one.get("class") or ""))
    drawn = [one.text or "" for one in chart.iter(f"{SVG}text")]
    assert any(words.startswith("the yarn, row by row") for words in drawn) and "Hedge and Ditch" not in drawn


@pytest.mark.parametrize("seed", range(8))
def test_random_shawls_have_valid_pages(seed: int) -> None:
    plan = seeded_plan(seed).plan
    if plan is None:
        pytest.skip("this one has mistakes")
    for options in (WHOLE, LARGE):
        assert faults(parsed(html_bytes(pattern_page(plan, options)))) == []
