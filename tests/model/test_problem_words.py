"""What problems say: their words, their numbers, and every place that has one."""

import pytest
from halfhank.model.planning.planning import plan_design

from tests.model.test_plan import LEAN, PLAIN, WINGS
from tests.model.texts import described


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("increase evenly to 5 sts", "Row 1 is worked on 9 stitches already; to 5 is not an increase."),
        ("decrease evenly to 15 sts", "Row 1 is worked on 9 stitches only; to 15 is not a decrease."),
    ],
)
def test_the_wrong_way_is_said_as_what_it_is(line: str, words: str) -> None:
    found = plan_design(described(f"{line}\ngarter 20 rows"))
    assert [problem.message for problem in found.problems if problem.code == "wrong-way"] == [words]


def test_a_start_that_cannot_be_halved_is_mended_by_one_stitch() -> None:
    """8 less 6 of the edges and 1 of the spine is 1."""
    found = plan_design(described("garter 4 rows", start="cast on 8 sts", lines=("edge 3 sts", *WINGS)))
    assert [problem.hint for problem in found.problems if problem.code == "uneven-start"] == ["start with 7 or 9"]


@pytest.mark.parametrize(
    ("bands", "names"),
    [
        ("moss 4 rows\nopen-mesh 4 rows", ["moss", "open-mesh"]),
        ("own 4 rows\nstockinette 2 rows", ["own"]),
    ],
)
def test_every_stitch_whose_gauge_is_assumed_is_named(bands: str, names: list[str]) -> None:
    stitches = f"{PLAIN}\nstitch own\n  swatch 40 sts 60 rows weighs 11.2 g"
    found = plan_design(described(bands, stitches=stitches, start="cast on 9 sts", lines=WINGS))
    told = [problem.message.split("`")[1] for problem in found.problems if problem.code == "assumed-gauge"]
    assert told == names


def test_a_line_moved_onto_wrong_side_rows_is_told_whatever_the_others_do() -> None:
    """The second line acts on rows 1, 7 and 13 of 13; on the way back only rows 1, 7 and 13 have room for it."""
    lines = f"{LEAN} 2 rows from row 2\ndecrease 1 at upper edge every 6 rows\ngarter 13 rows"
    found = plan_design(described(lines, shape="tip-to-tip", start="cast on 20 sts", tail="turn back"))
    told = [problem.message for problem in found.problems if problem.code == "wrong-side-start"]
    assert told == ["On the way back this line first acts on row 14, a wrong-side row."]
