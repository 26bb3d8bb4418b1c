"""The largest numbers that are read, and the first that are not."""

import pytest
from halfhank.grammar.parse import parse

TEXT = """shawl "Border"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch net
  row 1: knit
shape triangle
  cast on 9 sts
part "all"
  garter 8 rows
"""


def codes(old: str, new: str) -> list[str]:
    assert old in TEXT
    return [problem.code for problem in parse(TEXT.replace(old, new)).problems]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("400 m", "1000000000 m", ""),
        ("400 m", "1000000001 m", "number-too-large"),
        ("cast on 9", "cast on 1000000000", ""),
        ("cast on 9", "cast on 1000000001", "number-too-large"),
        ("400 m", "400 m\n  keep 99.9%", ""),
        ("400 m", "400 m\n  keep 100%", "keep-too-large"),
        ("400 m", "400 m\n  keep 99.9 g", ""),
        ("400 m", "400 m\n  keep 100 g", "keep-too-large"),
        ("400 m", "400 m\n  keep 0.001 g", ""),
        ("400 m", "400 m\n  keep 0.0009 g", "number-too-small"),
        ("row 1: knit", "row 1: k999999999", ""),
        ("row 1: knit", "row 1: k1000000000", "number-too-large"),
        ("row 1: knit", "rows 1-20000: knit", ""),
        ("row 1: knit", "rows 1-20001: knit", "row-too-high"),
    ],
)
def test_the_largest_number_is_read_and_the_next_is_not(old: str, new: str, code: str) -> None:
    assert codes(old, new) == ([code] if code else [])


@pytest.mark.parametrize(
    ("log", "code"),
    [
        ("before cast on 125 g", ""),
        ("before cast on 125.1 g", "log-mass"),
        ("before cast on 104 g\n  after row 4 105 g left", ""),
        ("before cast on 104 g\n  after row 4 105.04 g left", "log-mass"),
        ("after row 2 90 g left\n  after row 4 91 g left", ""),
        ("after row 2 90 g left\n  after row 4 91.04 g left", "log-mass"),
        ("after row 2 9 g used\n  after row 4 8 g used", ""),
        ("after row 2 9 g used\n  after row 4 7.96 g used", "log-mass"),
    ],
)
def test_a_skein_is_a_quarter_over_its_label_and_a_scale_a_gram_off(log: str, code: str) -> None:
    assert [problem.code for problem in parse(f"{TEXT}weighed\n  {log}\n").problems] == ([code] if code else [])
