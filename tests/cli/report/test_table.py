"""Tables fit their room: texts are cut first, then the lightest columns go."""

from halfhank.cli.report.table_lines import cut, paragraph, table_lines
from halfhank.cli.terminal import Emphasis, width
from halfhank.model.report_tree import Table, cells, figures_column, words_column
from hypothesis import given
from hypothesis import strategies as st

PLAIN = Emphasis(False)
COLUMNS = (
    words_column("part"),
    figures_column("rows"),
    figures_column("used", weight=2),
    figures_column("share", weight=1),
)
ROWS = (("a long name of a part", "1-32", "6.2 g", "7.6%"), ("b", "33-128", "74.6 g", "92.4%"))
TABLE = Table(COLUMNS, tuple(cells(*row) for row in ROWS))


def test_without_a_width_nothing_is_cut() -> None:
    assert table_lines(TABLE, None, PLAIN) == [
        "part                     rows    used  share",
        "a long name of a part    1-32   6.2 g   7.6%",
        "b                      33-128  74.6 g  92.4%",
    ]


def test_texts_are_cut_first() -> None:
    assert table_lines(TABLE, 37, PLAIN) == [
        "part              rows    used  share",
        "a long name o…    1-32   6.2 g   7.6%",
        "b               33-128  74.6 g  92.4%",
    ]


def test_then_the_lightest_columns_go() -> None:
    assert table_lines(TABLE, 30, PLAIN)[0] == "part              rows    used"
    assert table_lines(TABLE, 24, PLAIN) == [
        "part                rows",
        "a long name of …    1-32",
        "b                 33-128",
    ]


def test_what_must_stay_is_cut_further() -> None:
    assert table_lines(TABLE, 16, PLAIN)[1] == "a long …    1-32"


@given(
    st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=30), min_size=1, max_size=4),
    st.integers(16, 90),
)
def test_a_table_fits_whatever_its_texts(names: list[str], room: int) -> None:
    table = Table(COLUMNS, tuple(cells(name, "1-32", "6.2 g", "7.6%") for name in names))
    lines = table_lines(table, room, PLAIN)
    assert len(lines) == len(names) + 1
    assert all(width(line) <= room and line.isprintable() for line in lines)


@given(st.text(st.characters(categories=["L", "N", "P"]), max_size=30), st.integers(1, 40))
def test_what_is_cut_ends_in_an_ellipsis(text: str, room: int) -> None:
    shown = cut(text, room)
    assert width(shown) <= room
    assert shown == text or (shown.endswith("…") and text.startswith(shown[:-1]))


def test_wide_and_combining_characters_take_their_columns() -> None:
    assert [width(text) for text in ("abc", "編み", "e\u0301")] == [3, 4, 1]


def test_paragraphs_hang() -> None:
    assert paragraph("yarn", "one two three four", 6, 15) == ["yarn  one two", "      three", "      four"]
    assert paragraph("yarn", "one two", 6, None) == ["yarn  one two"]
    assert paragraph("spare yarn", "one two", 10, 15) == ["spare yarn one", "          two"], (
        "a lead that fills its room"
    )
    assert paragraph("spare yarns", "one", 10, 20) == ["spare yarns one"]
    assert paragraph("  ", "one two", 2, 6) == ["  one", "  two"]


def test_a_number_stays_with_its_unit() -> None:
    assert paragraph("yarn", "it takes 100 g, or more", 6, 18) == ["yarn  it takes", "      100 g, or", "      more"]
