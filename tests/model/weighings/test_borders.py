"""Where the log's words change: two deviations, four deviations, and how fine a scale is taken to be."""

import math
from itertools import pairwise

import pytest
from halfhank.model.shawl import Shawl
from halfhank.model.weighings.checkpoints import checkpoints
from halfhank.model.weighings.forecast import forecast

from tests.model.texts import text
from tests.model.weighings.knits import PLAIN, codes, logged, plan_of, planned

NOISE_G = math.hypot(0.45, 0.1 / math.sqrt(12))
START = "before cast on 100.0 g"


def swatch_sd_g(shawl: Shawl, row: int) -> float:
    """What swatch and drift together make of the yarn used by a row."""
    used, total = [*shawl.used_g, shawl.yarn.total_g], shawl.yarn.total_g
    takes = [after - before for before, after in pairwise([0.0, *used])]

    def walked(entries: int) -> float:
        by_level = [0.0] * 8
        for grams, end in list(zip(takes, used, strict=True))[:entries]:
            by_level[int(8 * (end - grams / 2) / total)] += grams
        pairs = ((i, j) for i in range(8) for j in range(8))
        return sum(by_level[i] * by_level[j] * 0.04**2 * (min(i, j) + 0.5) / 8 for i, j in pairs)

    constant = 0.07**2 - walked(len(takes)) / total**2
    return math.sqrt(constant * used[row] ** 2 + walked(row + 1))


@pytest.mark.parametrize(("deviations", "told"), [(-2.01, 1), (-1.99, 0), (1.99, 0), (2.01, 1)])
def test_a_weighing_disagrees_from_two_deviations_on(deviations: float, told: int) -> None:
    """All of the yarn is by one swatch (7 %), the start is known to 15 % besides; both weighings have their noise.

    Of the 7 % a random walk of 4 % in eight levels is a part, as large for the whole as it is.
    """
    shawl = plan_of(logged(PLAIN, START)).shawl
    sd = math.hypot(swatch_sd_g(shawl, 64), 0.15 * shawl.yarn.start_g, NOISE_G, NOISE_G)
    left_g = 100 - shawl.used_g[64] + deviations * sd
    found = planned(logged(PLAIN, START, f"after row 64 {left_g:.6f} g left"))
    assert [code for code, _ in codes(found)].count("log-disagrees") == told


def test_no_row_is_believed_that_four_deviations_do_not_reach() -> None:
    """Rows of 50 stitches: what is left has 2 % of the label, 7 % of all yarn used, 15 % of the start in its error."""
    stitch_g = 11.2 / (40 * 62.62)
    start_g = 1.5 * 50 * stitch_g

    def believed(row: int) -> bool:
        used_g = start_g + row * 50 * stitch_g
        return 100 - used_g + 4 * math.hypot(0.02 * 100, 0.07 * used_g, 0.15 * start_g) > 0

    last = max(row for row in range(1, 1000) if believed(row))
    strip = text("garter as yarn allows", shape="rectangle", start="cast on 50 sts")
    found = [planned(logged(strip, f"after row {row} 1.0 g left")).problems for row in (last, last + 1)]
    assert ["no-such-row" in [one.code for one in problems] for problems in found] == [False, True]


def test_a_scale_of_which_nothing_is_said_shows_tenths_of_a_gram() -> None:
    plan = plan_of(PLAIN)
    for row in checkpoints(plan):
        sd = math.hypot(forecast(plan).rows[row.row].sd, NOISE_G)
        assert (row.reading.high - row.reading.low) / 2 == pytest.approx(1.6448536269514722 * sd)
