"""The texts that drawings show of a plan."""

import pytest
from halfhank.model.phrases import going_on

from tests.model.test_plan import shawl


@pytest.mark.parametrize(
    ("bands", "words"),
    [
        ("garter 4 rows\nmoss 4 rows", "moss"),
        ("moss 4 rows\ngarter 4 rows", "garter"),
        ("garter 4 rows\ndrop 2 wraps", "drop stitch"),
    ],
)
def test_rows_past_the_end_are_in_the_fabric_of_the_last_band(bands: str, words: str) -> None:
    assert going_on(shawl(bands, shape="rectangle", start="cast on 20 sts")) == words
