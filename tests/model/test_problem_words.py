"""What problems say: their words, their numbers, and every place that has one."""

import pytest
from halfhank.model.planning.planning import plan_design

from tests.model.test_plan import LEAN, PLAIN, WINGS
from tests.model.texts import described


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("increase evenly to 5 sts", "Row 1 has 9 stitches already; 5 is not an increase."),
        ("decrease evenly to 15 sts", "Row 1 has only 9 stitches; 15 is not a decrease."),
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
    assert told == ["In the mirrored second half this line first acts on row 14, a wrong-side row."]


@pytest.mark.parametrize(("line", "found"), [("", True), (" from row 1", False), (" every 2 rows", False)])
def test_a_line_of_the_shape_that_acts_once_has_its_row(line: str, found: bool) -> None:
    design = described("garter 40 rows", start="cast on 40 sts", lines=(*WINGS, f"increase 2 at each edge{line}"))
    assert [problem.code for problem in plan_design(design).problems if problem.code == "acts-once"] == [
        "acts-once"
    ] * found


def test_a_line_of_a_part_and_an_even_increase_to_a_count_may_act_once() -> None:
    design = described("increase 2 at each edge\ngarter 40 rows", lines=("increase evenly to 40 sts",))
    assert "acts-once" not in [problem.code for problem in plan_design(design).problems]


@pytest.mark.parametrize(("line", "asked"), [("", True), (" from row 40", False), (" every 40 rows", False)])
def test_stitches_bound_off_at_once_are_given_a_row(line: str, asked: bool) -> None:
    """There are 9 stitches in row 1, and 49 in row 40."""
    design = described(
        "garter 40 rows", shape="crescent", lines=(f"bind off 10 at upper edge{line}", WINGS_OF_CRESCENT)
    )
    hints = [problem.hint or "" for problem in plan_design(design).problems if problem.code == "too-few-stitches"]
    assert any("add `from row …`" in hint for hint in hints) == asked


WINGS_OF_CRESCENT = "increase 1 at each edge every 2 rows"


@pytest.mark.parametrize(("bind_off", "rows", "found"), [("draw through", 40, True), ("draw through", 80, False)])
def test_many_stitches_are_not_drawn_together(bind_off: str, rows: int, found: bool) -> None:
    """100 less 2 in two rows: 60 are left after 40 rows, 20 after 80."""
    lines = ("decrease 1 at each edge every 2 rows",)
    more = {"start": "cast on 100 sts", "lines": lines, "tail": f"bind off {bind_off}"}
    messages = [
        one.message for one in plan_design(described(f"garter {rows} rows", **more)).problems if one.code == CODE
    ]
    assert bool(messages) == found
    assert all(said.startswith("60 sts are drawn together") and "common practice" in said for said in messages)


CODE = "many-drawn-together"
