"""Twenty mistakes planted in a shawl with lace, each named at its place by the whole pipe, and nothing else with it."""

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import Problem
from halfhank.model.planning.planning import plan_parsed

SHAWL = """shawl "Sluice"
  by "the sample room"
yarn "Sample room fingering"
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch fern
  multiple of 8 sts + 1
  gauge 19 sts 28 rows over 10 cm
  row 1: k1, *k1, yo, k1, s2kp, k1, yo, k2*
  rows 2, 4, 6, 8, 10, 12: purl
  row 3: k1, *k2, yo, s2kp, yo, k3*
  row 5: k1, *k1, yo, ssk, k1, k2tog, yo, k2*
  row 7: k1, *k1, k2tog, yo, k1, yo, ssk, k2*
  row 9: k1, *k2tog, yo, k3, yo, ssk, k1*
  row 11: k1, *k3, yo, ssk, k3*
shape triangle
  garter tab 3 sts 6 rows
  edge 3 sts garter
  spine 1 st
  increase 1 at each edge and 1 at spine every 2 rows
part "neck"
  garter 16 ridges
part "fern"
  fern 48 rows
part "rim"
  garter 3 ridges
"""


def problems(text: str) -> list[Problem]:
    return list(plan_parsed(parse(text)).problems)


def test_the_shawl_itself_is_only_advised_on_its_gain() -> None:
    """33 in each wing are 4 x 8 + 1. Each side gains 6 in 12 rows against a multiple of 8: in step every 48 rows."""
    assert [one.code for one in problems(SHAWL)] == ["growth-out-of-step"]
    assert "6 sts" in problems(SHAWL)[0].message and "every 48 rows" in problems(SHAWL)[0].message


def test_a_stitch_after_one_with_the_same_rows_is_checked_too() -> None:
    """Moss is worked over 2 + 1 stitches; the stitch before it has the rows of fern, which are checked already."""
    blocks = "stitch frond\n  as fern\nstitch odd\n  as moss\n  multiple of 3 sts\nshape triangle"
    worked = SHAWL.replace("3 ridges\n", "3 ridges\n  frond 2 rows\n  odd 2 rows\n")
    found = [one.code for one in problems(worked.replace("shape triangle", blocks))]
    assert "wrong-multiple" in found, found


# What stands there, what is planted in its place, code, the words pointed at, what must be said.
PLANTED = [
    (
        "missing yarn over",
        "k1, yo, k1, s2kp, k1, yo, k2*\n",
        "k1, yo, k1, s2kp, k1, k2*\n",
        "row-unbalanced",
        "s2kp",
        "leaves 7",
    ),
    ("yarn over too many", "k2, yo, s2kp, yo, k3*", "k2, yo, s2kp, yo, k3, yo*", "row-unbalanced", "yo", "leaves 9"),
    ("missing decrease", "ssk, k1, k2tog, yo, k2*", "ssk, k3, yo, k2*", "row-unbalanced", "yo", "leaves 9"),
    ("decrease of the wrong size", "k2, yo, s2kp, yo", "k3, yo, k2tog, yo", "row-unbalanced", "yo", "leaves 9"),
    (
        "stitch missing between the stars",
        "row 7: k1, *k1, k2tog",
        "row 7: k1, *k2tog",
        "row-count",
        "*k2tog, yo, k1, yo, ssk, k2*",
        "7 sts + 1",
    ),
    ("stitch too many between the stars", "ssk, k3*\n", "ssk, k4*\n", "row-count", "*k3, yo, ssk, k4*", "9 sts + 1"),
    ("stitch too many before the stars", "row 9: k1, *", "row 9: k2, *", "row-count", "k2", "8 sts + 2"),
    (
        "stitch missing at the row's end",
        "row 3: k1, *k2",
        "row 3: *k2",
        "row-count",
        "row 3: *k2, yo, s2kp, yo, k3*",
        "8 sts",
    ),
    (
        "wrong multiple",
        "multiple of 8 sts + 1",
        "multiple of 10 sts + 1",
        "wrong-multiple",
        "multiple of 10 sts + 1",
        "8 sts + 1",
    ),
    (
        "wrong extra",
        "multiple of 8 sts + 1",
        "multiple of 8 sts + 3",
        "wrong-multiple",
        "multiple of 8 sts + 3",
        "8 sts + 3",
    ),
    (
        "no stars",
        "row 5: k1, *k1, yo, ssk, k1, k2tog, yo, k2*",
        "row 5: k2, yo, ssk, k1, k2tog, yo, k2",
        "no-stars",
        "k2, yo, ssk, k1, k2tog, yo, k2",
        "takes only 9",
    ),
    ("stars that take nothing", "*k3, yo, ssk, k3*", "*yo*, k8", "stars-take-nothing", "*yo*", "never reach"),
    ("a decrease in one stitch", "s2kp, yo, k3*", "[k1, k3tog] in 3, yo, k3*", "in-one-item", "k3tog", "into the same"),
    (
        "a multiple that does not fit",
        "garter 16 ridges",
        "garter 15 ridges",
        "multiple-over",
        "fern 48 rows",
        "6 sts over",
    ),
    (
        "a wing too narrow for one multiple",
        "garter 16 ridges",
        "garter 3 ridges",
        "no-multiple-fits",
        "fern 48 rows",
        "at least 9 sts",
    ),
    (
        "a band that ends inside its repeat",
        "fern 48 rows",
        "fern 40 rows",
        "ends-inside-repeat",
        "fern 40 rows",
        "row 4",
    ),
    (
        "wings that do not mirror",
        "garter tab 3 sts 6 rows",
        "cast on 10 sts",
        "uneven-wings",
        "fern 48 rows",
        "33 and 34",
    ),
    (
        "a yarn over beside the increase",
        "*k1, yo, k1, s2kp, k1, yo, k2*",
        "*k2, yo, k1, s2kp, k2, yo*",
        "yarn-over-beside-increase",
        "fern 48 rows",
        "at the spine",
    ),
    (
        "a double yarn over purled alike",
        "k2, yo, s2kp, yo, k3*",
        "k2, k2tog, yo twice, ssk, k2*",
        "double-yarn-over",
        "yo twice",
        "double yarn over of row 3",
    ),
    (
        "a decrease astride the box",
        "row 9: k1, *k2tog, yo, k3, yo, ssk, k1*",
        "row 9: ssk, *yo, k5, yo, s2kp*, yo, k5, yo, k2tog",
        "astride-the-line",
        "ssk",
        "Row 9",
    ),
    (
        "a repeat of an odd number of rows",
        "row 11: k1, *k3, yo, ssk, k3*",
        "row 11: k1, *k3, yo, ssk, k3*\n  row 13: knit",
        "odd-repeat",
        "fern 48 rows",
        "13 rows",
    ),
    (
        "yarn overs that meet",
        "*k2, yo, s2kp, yo, k3*",
        "*yo, k2, s2kp, k3, yo*",
        "yarn-overs-meet",
        "yo",
        "side by side",
    ),
]


@pytest.mark.parametrize(
    ("good", "bad", "code", "words", "said"), [one[1:] for one in PLANTED], ids=[one[0] for one in PLANTED]
)
def test_a_planted_mistake_is_named_at_its_place(good: str, bad: str, code: str, words: str, said: str) -> None:
    text = SHAWL.replace(good, bad, 1)
    assert text != SHAWL
    found = [one for one in problems(text) if one.code == code]
    assert len(found) == 1, problems(text)
    span = found[0].span
    assert span and text.splitlines()[span.line - 1][span.column - 1 : span.end - 1] == words
    assert said in found[0].message, found[0].message


@pytest.mark.parametrize(
    ("good", "bad", "code"), [one[1:4] for one in PLANTED[:13]], ids=[one[0] for one in PLANTED[:13]]
)
def test_a_mistake_of_the_rows_brings_no_others_with_it(good: str, bad: str, code: str) -> None:
    assert [one.code for one in problems(SHAWL.replace(good, bad, 1))] == [code]
