"""Spare yarn in words, each figure by the plan of the larger shawl itself."""

import re
from pathlib import Path

import pytest

from tests.cli.report.plan_tables.test_band_tables import HEAD, RECTANGLE, planned
from tests.cli.running import halfhank, shawl_of

REPEAT = "  repeat {} times\n    garter 6 rows\n    stockinette 4 rows\n"


def spare(text: str) -> str:
    """What the plan says of spare yarn, in one line; empty where it says nothing."""
    found = re.search(r"\nspare yarn +(.*?)\n(?=\S|\n)", planned(text), re.DOTALL)
    return " ".join(found[1].split()) if found else ""


def left_over(path: Path, bands: str) -> float:
    path.write_text(HEAD + RECTANGLE + bands)
    return shawl_of(path).yarn.left_g


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (20, r"enough for \d+ more rows and for one more repeat \({left:.1f} g left over\)"),
        (57, r"not enough for one more repeat \({short:.1f} g short\)"),
        (54, r"enough for \d+ more rows; with one more repeat {left:.1f} g would be left over, less than the margin"),
    ],
)
def test_enough_for_rows_and_for_a_repeat(tmp_path: Path, times: int, words: str) -> None:
    left = left_over(tmp_path / "x.shawl", REPEAT.format(times + 1))
    said = spare(RECTANGLE + REPEAT.format(times))
    assert re.fullmatch(words.format(left=left, short=-left), said), (said, left)


@pytest.mark.parametrize(
    ("spare_g", "rows"),
    [(3.0, r"enough for [1-9]\d* more rows, not"), (0.1, "not enough for one more row .* used, nor")],
)
def test_rows_without_a_repeat(tmp_path: Path, spare_g: float, rows: str) -> None:
    """Beside the margin there is so much yarn; each repeat takes 23 g, a row of garter 0.2 g."""
    repeat = "  repeat {} times\n    stockinette 66 rows\n    garter 66 rows\n"
    short = -left_over(tmp_path / "x.shawl", repeat.format(5))
    keep = f"  keep {left_over(tmp_path / 'x.shawl', repeat.format(4)) - spare_g:.2f} g\n"
    text = HEAD.replace("400 m\n", f"400 m\n{keep}") + RECTANGLE + repeat.format(4)
    out = " ".join(halfhank("plan", "-", stdin=text.encode()).out.decode().split())
    assert re.search(rf"spare yarn {rows} for one more repeat \({short:.1f} g short\) Marks", out), (out, short)


def test_where_no_row_more_is_safe_the_margin_is_named() -> None:
    assert spare(RECTANGLE + "  garter as yarn allows\n").startswith(
        "not enough for one more row unless the margin is used; with two more rows "
    )


def test_a_piece_that_ends_itself_has_no_spare_rows() -> None:
    triangle = "shape tip-to-tip\n  cast on 3 sts\n  increase 1 at lower edge every 4 rows\n\n"
    text = planned(f'{triangle}part "walk"\n  garter 40 rows\n\nturn back\n')
    assert "spare yarn" not in text and "\nturn back  " in text and "turn back at the latest" not in text
