"""Stitch and row counts against published patterns, and against sums that can be done on paper."""

import pytest

from tests.outside.pieces import part, piece
from tests.whole import shawl

FOUR_IN_TWO = "increase 1 at each edge and 1 at spine every 2 rows"


@pytest.mark.parametrize("ridges", [1, 2, 16, 64, 200])
def test_triangle_from_nine_stitches(ridges: int) -> None:
    """By arithmetic: 13, 13, 17, 17 …, in all 2 (9 k + 2 k (k + 1)) over k ridges."""
    found = shawl(
        piece(
            shape="triangle",
            start="garter tab 3 sts 6 rows",
            shaping=FOUR_IN_TWO,
            parts=part(f"garter {ridges} ridges"),
        )
    )
    assert found.rows.stitches[1:] == tuple(9 + 4 * (row // 2 + 1) for row in range(2 * ridges))
    assert sum(found.rows.stitches[1:]) == 2 * (9 * ridges + 2 * ridges * (ridges + 1))


def test_garter_tab_of_three_and_six_makes_nine() -> None:
    """Several pattern pages: 3 stitches, 6 rows, 3 picked up along the tab and 3 from the cast-on."""
    found = shawl(
        piece(shape="triangle", start="garter tab 3 sts 6 rows", shaping=FOUR_IN_TWO, parts=part("garter 1 ridge"))
    )
    assert found.start.stitches == 9


def test_crescent_gains_six_in_two_rows() -> None:
    """ponderosaguild.org and craftsy.com, shawls worked down: +6 every 2 rows, 4 on the right side, 2 on the wrong."""
    lines = "increase 2 at each edge every 2 rows\nincrease 1 at each edge every 2 rows from row 2"
    found = shawl(piece(shape="crescent", start="cast on 9 sts", shaping=lines, parts=part("garter 3 ridges")))
    assert found.rows.stitches == (9, 13, 15, 19, 21, 25, 27)


def test_half_circle_by_doublings() -> None:
    """rhyflowerknits.com: increases of 8, 12, 24, 48, 96, 192 with 3, 7, 15, 31, 63 plain rows between; counts
    follow.
    """
    steps = [(8, 4), (12, 8), (24, 16), (48, 32), (96, 64), (192, 2)]
    parts = "\n".join(part(f"increase {more} evenly", f"garter {rows} rows", name=str(more)) for more, rows in steps)
    found = shawl(piece(shape="half-circle", start="cast on 9 sts", parts=parts))
    assert [p.stitches_at_end for p in found.parts] == [17, 29, 53, 101, 197, 389]
    assert found.rows.count == 126


def test_rounds_that_grow_by_eight() -> None:
    """cromulentknitter, October 2006: 8, 8, 16, 16 … 64, 64 are 576 stitches; half the rows about a quarter of the
    work, 70 % of the rows about half."""
    found = shawl(
        piece(
            shape="half-circle",
            start="cast on 8 sts",
            shaping="increase 8 evenly every 2 rows from row 3",
            parts=part("garter 8 ridges"),
        )
    )
    stitches = found.rows.stitches[1:]
    assert stitches == tuple(8 * (row // 2 + 1) for row in range(16))
    assert sum(stitches) == 576
    knitted = [used - found.used_g[0] for used in found.used_g]
    assert knitted[8] / knitted[-1] == pytest.approx(0.25, abs=0.04)
    assert knitted[11] / knitted[-1] == pytest.approx(0.5, abs=0.01)


def test_crescent_of_72_inches() -> None:
    """rhyflowerknits.com: 72 in along the last row at 5.5 sts an inch are 396 sts; from 9, +2 a row, 194 rows end
    at 397.
    """
    found = shawl(
        piece(
            shape="crescent",
            start="cast on 9 sts",
            shaping="increase 1 at each edge every row",
            fabric="stitch garter\n  gauge 22 sts 44 rows over 4 in",
            parts=part("garter 97 ridges"),
        )
    )
    assert found.rows.stitches[-1] == 397
    assert found.outline.size.last_row_cm / 2.54 == pytest.approx(72, rel=0.015)


TIP = """part "out"
  garter 192 rows
part "middle"
  even
  garter 53 rows
part "home"
  decrease 1 at lower edge every 4 rows from row 1
  garter 192 rows
"""


def test_tip_to_tip_scarf() -> None:
    """Gruendl, Perla Color 20181: 12 sts 23 rows in 10 cm, 3 cast on, +1 every 4 rows: 19 sts after row 64, 51 after
    row 192; finished 190 by 43 cm. The plain rows in the middle are not printed: 53 make up the 437 of 190 cm."""
    found = shawl(
        piece(
            shape="tip-to-tip",
            start="cast on 3 sts",
            shaping="increase 1 at lower edge every 4 rows from row 4",
            fabric="stitch garter\n  gauge 12 sts 23 rows over 10 cm",
            parts=TIP,
        )
    )
    assert found.rows.stitches[64] == 19
    assert found.rows.stitches[192] == 51
    assert found.rows.stitches[-1] == 3
    assert found.outline.size.wingspan_cm == pytest.approx(190, rel=0.08)
    assert found.outline.size.depth_cm == pytest.approx(43, rel=0.08)


def test_triangle_from_its_long_edge() -> None:
    """Gruendl, Cotton Quick Print: 20 sts 22 rows in 10 cm, 334 cast on, -4 every 2 rows from row 5, ends at 6 sts;
    finished 168 by 75 cm. The width follows from the cast-on: 167 cm."""
    found = shawl(
        piece(
            shape="triangle",
            start="cast on 334 sts",
            shaping="spine 0 sts\ndecrease 2 at each edge every 2 rows from row 5 until 6 sts",
            fabric="stitch plain\n  gauge 20 sts 22 rows over 10 cm",
            parts=part("plain 168 rows"),
            end="bind off draw through",
        )
    )
    assert found.rows.stitches[4:7] == (334, 330, 330)
    assert found.rows.stitches[166:] == (10, 6, 6)
    assert found.outline.size.wingspan_cm == pytest.approx(168, rel=0.02)
    assert found.outline.size.depth_cm == pytest.approx(75, rel=0.03)


def steady(rows: int) -> str:
    return piece(
        shape="asymmetric",
        start="cast on 1 st",
        shaping="increase 1 at upper edge every row",
        parts=part(f"garter {rows} rows"),
    )


def test_half_of_the_work_at_seven_tenths_of_the_rows() -> None:
    """By arithmetic, for a piece that grows steadily from nothing: half of it lies at sqrt(1/2) of its rows, and
    the last tenth of the rows takes 1 - 0.9^2 = 19 %.
    """
    found = shawl(steady(1000))
    knitted = [used - found.used_g[0] for used in found.used_g]
    half = next(row for row, grams in enumerate(knitted) if grams >= knitted[-1] / 2)
    assert half / 1000 == pytest.approx(0.5**0.5, abs=0.002)
    assert 1 - knitted[900] / knitted[-1] == pytest.approx(0.19, abs=0.001)
