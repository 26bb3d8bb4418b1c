"""A weighing goes into the text at its place and changes no other character."""

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.source_text.log_lines import LogLine, with_weighing

HEAD = """shawl "Sluice"
yarn "plain"
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
shape triangle
  garter tab 3 sts 6 rows
  increase 1 at each edge and 1 at spine every 2 rows
part "all"
  garter 60 ridges
bind off picot
"""
LOG = (
    HEAD
    + """
weighed   # scale of 0.1 g
  before cast on 101.2 g
  # after the first film
  after row 32 94.7 g left  # hm
  after row 64 20 g used
"""
)


def put(text: str, line: LogLine) -> str:
    parsed = parse(text)
    assert parsed.description is not None and not parsed.problems
    return with_weighing(text, parsed.description, line)


def log(text: str) -> list[tuple[int, float, bool]]:
    parsed = parse(text)
    assert parsed.description is not None and not parsed.problems
    return [(w.row, w.mass.g, w.used) for w in parsed.description.log]


def test_the_first_weighing_opens_a_log() -> None:
    assert put(HEAD, LogLine(32, "94.7 g")) == HEAD + "\nweighed\n  after row 32 94.7 g left\n"


def test_a_missing_last_newline_stays_missing() -> None:
    assert put(HEAD[:-1], LogLine(0, "101 g")) == HEAD + "\nweighed\n  before cast on 101 g"
    assert put(LOG[:-1], LogLine(80, "50 g")) == LOG + "  after row 80 50 g left"


def test_crlf_and_a_byte_order_mark_stay() -> None:
    text = "\ufeff" + HEAD.replace("\n", "\r\n")
    opened = put(text, LogLine(32, "94.7 g"))
    assert opened == text + "\r\nweighed\r\n  after row 32 94.7 g left\r\n"
    assert put(opened, LogLine(40, "93 g")) == opened + "  after row 40 93 g left\r\n"
    assert put(text[:-2], LogLine(32, "94.7 g")) == text + "\r\nweighed\r\n  after row 32 94.7 g left"


def test_blank_lines_and_comments_at_the_end_stay_at_the_end() -> None:
    assert put(HEAD + "# the end\n\n \n", LogLine(2, "9 g", used=True)) == (
        HEAD + "# the end\n\nweighed\n  after row 2 9 g used\n\n \n"
    )


@pytest.mark.parametrize(
    "row, mass, after",
    [(10, "97 g", "  before cast on 101.2 g\n"), (40, "90 g", "left  # hm\n"), (90, "70 g", "20 g used\n")],
)
def test_rows_keep_their_order(row: int, mass: str, after: str) -> None:
    text = put(LOG, LogLine(row, mass))
    assert text == LOG.replace(after, after + f"  after row {row} {mass} left\n")
    assert [r for r, _, _ in log(text)] == sorted([0, 32, 64, row])


def test_a_start_comes_before_all_rows() -> None:
    text = LOG.replace("  before cast on 101.2 g\n", "")
    assert put(text, LogLine(0, "101.2 g")) == LOG


def test_the_same_row_is_replaced_and_its_comment_stays() -> None:
    assert put(LOG, LogLine(32, "94.5 g")) == LOG.replace("94.7 g left", "94.5 g left")
    assert put(LOG, LogLine(0, "3.5 oz")) == LOG.replace("101.2 g", "3.5 oz")
    assert put(LOG, LogLine(64, "80 g")) == LOG.replace("20 g used", "80 g left")


def test_the_logs_own_indentation_is_taken() -> None:
    text = LOG.replace("\n  before", "\n      before").replace("\n  after", "\n      after")
    assert put(text, LogLine(40, "90 g")) == text.replace("# hm\n", "# hm\n      after row 40 90 g left\n")


def test_what_is_put_in_is_read_back() -> None:
    assert log(put(LOG, LogLine(33, "3.25 oz")))[2] == (33, pytest.approx(3.25 * 28.349523125), False)
