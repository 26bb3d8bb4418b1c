"""The count of `as yarn allows` in words, each unit by the rows that it comes to."""

import re

import pytest
from halfhank.model.planning.planning import plan_design

from tests.model.texts import GARTER, described

RIB = f"{GARTER}\nstitch rib\n  as garter\n  multiple of 2 sts\n  rows 1-4: *k1, p1*"


@pytest.mark.parametrize(
    ("band", "said", "rows_each"),
    [
        ("garter as yarn allows", r"([\d,]+) rows", 1),
        ("rib as yarn allows", r"([\d,]+) repeats of rib", 4),
        ("repeat as yarn allows\n  garter 3 ridges", r"([\d,]+) repeats?", 6),
    ],
)
def test_the_count_has_its_unit(band: str, said: str, rows_each: int) -> None:
    shawl = plan_design(described(band, shape="rectangle", start="cast on 40 sts", stitches=RIB)).shawl
    assert shawl is not None
    found = re.fullmatch(said, shawl.allowance_words)
    assert found is not None
    assert int(found[1].replace(",", "")) * rows_each == shawl.rows.count


def test_a_plan_without_such_a_count_says_nothing() -> None:
    shawl = plan_design(described("garter 8 rows", shape="rectangle", start="cast on 40 sts")).shawl
    assert shawl is not None and shawl.allowance_words == ""
