"""The multiple that rows imply where none is written, by the numbers that the stars of each row take."""

import pytest
from halfhank.model.stitches.pattern import pattern_of

from tests.model.stitches.writing import stitch


@pytest.mark.parametrize(
    ("rows", "multiple"),
    [
        ("row 1: *k2tog, yo*\nrow 2: purl", (2, 0)),
        ("row 1: *k2tog, yo*\nrow 2: *k3*", (6, 0)),
        ("row 1: *k2tog, yo*\nrow 2: *k4*", (4, 0)),
        ("row 1: k1, *k2tog, yo*\nrow 2: *k3*, k1", (6, 1)),
        ("row 1: *k4, yo*\nrow 2: *k5*\nrow 3: *k3, k2tog*", (4, 0)),
    ],
)
def test_the_multiple_is_what_all_rows_fit(rows: str, multiple: tuple[int, int]) -> None:
    """Of 2 and 3 it is 6, of 2 and 4 it is 4; where each row takes what the one before left it is the first row's."""
    found = pattern_of(stitch(rows))
    assert found and tuple(found.multiple)[:2] == multiple
