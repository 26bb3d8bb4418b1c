"""Mends that are a change of the text: made, they leave nothing of the problem and add no mistake."""

import pytest
from halfhank.grammar.parse import parse
from halfhank.grammar.problems.problem import MISTAKE, Edit, Problem
from halfhank.model.planning.planning import plan_parsed

from tests.model.texts import text
from tests.project.registry import kinds

GAUGE = "stitch garter\n  gauge 20 sts 40 rows over 10 cm"
SPINE = "increase 1 at each edge and 1 at spine every 2 rows"
REPEAT = "repeat as yarn allows\n  garter {}\n  stockinette 2 rows  # plain"

# Each code with descriptions that have the problem, and what stands in the line once it is mended.
CASES = [
    (
        "narrow-start",
        text("garter 4 rows", start="cast on 6 sts  # few", lines=("edge 3 sts", SPINE)),
        "  cast on 7 sts  # few",
    ),
    (
        "pinned-in-vain",
        text("garter 4 rows", lines=(SPINE.partition(" and")[0] + " every 2 rows", "pinned straight")),
        "  ",
    ),
    (
        "fan-not-straight",
        text(
            "garter 80 rows",
            lines=("decrease 1 at each edge every 2 rows", "increase 2 at spine every 2 rows", "pinned straight"),
        ),
        "  ",
    ),
    (
        "odd-with-method",
        text("garter 4 rows", start="cast on 40 sts", lines=("decrease 3 k3tog at each edge every 4 rows  # deep",)),
        "  decrease 4 k3tog at each edge every 4 rows  # deep",
    ),
    (
        "more-than-centred",
        text("garter 4 rows", start="cast on 41 sts", lines=("decrease 4 s2kp at spine every 2 rows",)),
        "  decrease 2 s2kp at spine every 2 rows",
    ),
    ("even-sequence", text(REPEAT.format("8 rows"), lines=(SPINE,)), "    garter 6, 10, 8 rows"),
    ("even-sequence", text(REPEAT.format('2, 2 ridges "x"'), lines=(SPINE,)), '    garter 1, 3, 2 ridges "x"'),
    (
        "measures-only",
        text("moss 4 rows", stitches=f"{GAUGE}\nstitch moss  # a swatch\n    gauge 20 sts 32 rows over 10 cm  # wet"),
        "    as moss",
    ),
    (
        "measures-only",
        text("moss 4 rows", stitches=f"{GAUGE}\nstitch moss\n  swatch 20 sts 30 rows weighs 4 g"),
        "  as moss",
    ),
    (
        "unknown-word",
        text("moss 4 rows", stitches=f"{GAUGE}\nstitch lace\n  Row 1 (RS): *K2, yo, k2tog; rep from * to end.  # p. 3"),
        "  row 1: *k2, yo, k2tog*  # p. 3",
    ),
    (
        "wrong-multiple",
        text(
            "lace 4 rows",
            stitches=f"{GAUGE}\nstitch lace\n  multiple of 6 sts + 2  # so\n"
            "  row 1: *k2, yo, k2tog*, k1\n  row 2: *p4*, p1",
        ),
        "  multiple of 4 sts + 1  # so",
    ),
]


def _found(described: str) -> tuple[Problem, ...]:
    return plan_parsed(parse(described)).problems


def edited(described: str, edit: Edit) -> str:
    """The text with the change made."""
    lines = described.split("\n")
    at, column, end = edit.span.line - 1, edit.span.column, edit.span.end
    lines[at] = lines[at][: column - 1] + edit.text + lines[at][end - 1 :]
    return "\n".join(lines)


@pytest.mark.parametrize(("code", "described", "line"), CASES, ids=[case[0] for case in CASES])
def test_an_edit_mends(code: str, described: str, line: str) -> None:
    problem = next(one for one in _found(described) if one.code == code)
    assert problem.edit
    mended = edited(described, problem.edit)
    left = _found(mended)
    assert code not in {one.code for one in left}
    assert not [one for one in left if one.severity == MISTAKE]
    assert line == mended.split("\n")[problem.edit.span.line - 1]


def test_every_kind_of_edit_is_made_here() -> None:
    assert {kind.code for kind in kinds().values() if kind.edit is not None} == {code for code, *_ in CASES}


def test_a_mend_that_is_no_exact_change_is_words_alone() -> None:
    tab = text("garter 4 rows", start="garter tab 2 sts 4 rows", lines=("edge 3 sts", SPINE))
    (problem,) = [one for one in _found(tab) if one.code == "narrow-start"]
    assert problem.hint and problem.edit is None
    short = text("repeat as yarn allows\n  garter 1 row\n  stockinette 1 row", lines=(SPINE,))
    (problem,) = [one for one in _found(short) if one.code == "even-sequence"]
    assert problem.hint is None and problem.edit is None
