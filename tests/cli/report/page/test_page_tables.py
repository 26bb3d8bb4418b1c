"""The tables of a page: parts that add up, weighings that fit a sheet, skeins of the label's mass."""

from pathlib import Path

import pytest
from halfhank.cli.report.html.html_text import NO_BREAK, set_words
from halfhank.cli.report.page.table_sections import parts_block, skein_section
from halfhank.cli.report.page.weighing_table import MOST_LINES, page_points
from halfhank.model.instructions.ending.weigh_points import deciding_rows
from halfhank.model.report_tree import Table, Value, words_of

from tests.cli.report.page.pages import DEMOS, plan_of

each_demo = pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
BY_NAME = {path.stem: path for path in DEMOS}


def skeins_of(name: str) -> list[list[str]]:
    section = skein_section(plan_of(BY_NAME[name]), large=False)
    table = next(block for block in section.blocks if isinstance(block, Table))
    return [[column.heading for column in table.columns], *([words_of(cell) for cell in row] for row in table.rows)]


@each_demo
def test_the_parts_add_up_to_the_whole_shawl(path: Path) -> None:
    table = parts_block(plan_of(path))
    used, share = (
        next(k for k, one in enumerate(table.columns) if one.heading == name) for name in ("yarn used", "share")
    )
    for column in (used, share):
        *lines, whole = (one.number for row in table.rows for one in row[column] if isinstance(one, Value))
        assert sum(lines) == pytest.approx(whole, abs=0.11)


@each_demo
def test_weighings_are_few_and_have_all_that_decide(path: Path) -> None:
    plan = plan_of(path)
    rows = [point.row for point in page_points(plan)]
    assert rows == sorted(set(rows)) and len(rows) <= MOST_LINES
    assert {0, plan.rows.count, *(part.last_row for part in plan.shawl.parts), *deciding_rows(plan)} <= set(rows)


def test_skeins_have_the_mass_of_the_label_and_the_patterns_own_is_marked() -> None:
    heads, *lines = skeins_of("kite-store")
    assert heads[0] == "length of a skein of 50 g"
    assert [line[0] for line in lines if "this pattern" in line[0]] == ["400 m (this pattern)"]


def test_a_shortage_has_no_size_and_too_little_is_marked() -> None:
    heads, *lines = skeins_of("lintel")
    size = heads.index("wingspan × depth")
    for line in lines:
        assert (line[size] == "not enough yarn") == line[-1].endswith(" short")
    assert lines[0][-1].endswith("short") and lines[1][-1].endswith("below the margin")


def test_a_pinned_shawl_has_no_sizes_from_other_skeins() -> None:
    assert "wingspan × depth" not in skeins_of("kite-store")[0] and "wingspan × depth" in skeins_of("lintel")[0]


@pytest.mark.parametrize("whole", ["[k2, M1]", "(2, 3)", "(4 sts more)", "row 27", "rep from *", "2 wraps", "14 times"])
def test_what_belongs_together_is_not_cut(whole: str) -> None:
    assert whole[whole.find("from") if "from" in whole else 0 :].replace(" ", NO_BREAK) in set_words(f"then {whole} so")
