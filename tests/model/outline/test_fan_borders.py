"""The fans at which README's words change: within 3 degrees of 180 straight, pinned straight from 100 to 260 degrees.

Shaped by one stitch every other row at each side of the spine and at each edge, a triangle's fan is four times the
angle whose tangent is half a stitch's width over a row's height: the row gauge sets it to any value.
"""

import math

import pytest
from halfhank.grammar.problems.problem import MISTAKE

from tests.whole import planned, shawl

LINE = "increase 1 at each edge and 1 at spine every 2 rows"


def text(fan: float, pinned: bool = False) -> str:
    rows = 20 * 2 * math.tan(math.radians(fan) / 4)
    gauge = f"gauge 20 sts {rows:.6f} rows over 10 cm"
    head = f'shawl "Fan"\nyarn\n  skein 100 g 400 m\nneedles 4 mm\nstitch garter\n  {gauge}\n'
    straight = "  pinned straight\n" if pinned else ""
    return f'{head}shape triangle\n  cast on 9 sts\n  {LINE}\n{straight}part "all"\n  garter 40 rows\n'


@pytest.mark.parametrize(("fan", "word"), [(176.9, "hang"), (177.1, "straight"), (182.9, "straight"), (183.1, "rise")])
def test_straight_is_within_three_degrees(fan: float, word: str) -> None:
    outline = shawl(text(fan)).outline
    assert outline.fan_degrees == pytest.approx(fan, abs=0.01)
    assert outline.fan_words is not None and word in outline.fan_words


@pytest.mark.parametrize(("fan", "pinned"), [(99.9, False), (100.1, True), (259.9, True), (260.1, False)])
def test_pinned_straight_from_100_to_260_degrees(fan: float, pinned: bool) -> None:
    found, problems = planned(text(fan, pinned=True))
    mistakes = [problem.code for problem in problems if problem.severity == MISTAKE]
    assert mistakes == ([] if pinned else ["fan-not-straight"])
    assert (found is not None) == pinned
