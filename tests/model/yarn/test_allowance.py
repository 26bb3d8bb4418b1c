"""`as yarn allows` against the plainest search: one count after the other, each worked out whole."""

from random import Random

import pytest
from halfhank.grammar.problems.problem import ADVICE, MISTAKE, Problem
from halfhank.model.design.band_walk import total_rows
from halfhank.model.design.design import Design
from halfhank.model.rows.sections import MAX_ROWS
from halfhank.model.rows.worked import work
from halfhank.model.yarn.allowance import allowance, step_of
from halfhank.model.yarn.ledger import ledger_of
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import supply_of
from halfhank.model.yarn.trials import Trials

from tests.model.texts import GARTER, described

MESH = "stitch mesh\n  multiple of 6 sts + 1\n  gauge 19 sts 30 rows over 10 cm"
MOST = 45
SLOW = "increase 1 at each edge and 1 at spine every 6 rows"


def found(design: Design) -> int:
    return allowance(RowYarn(StitchTable(design)), supply_of(design))[0]


def total_m(room: StitchTable, count: int) -> float | None:
    """The whole shawl row by row; None where it cannot be worked."""
    if total_rows(room.design, count) > MAX_ROWS:
        return None
    parts, problem = work(room.design, count)
    if problem:
        return None
    return sum(sum(amounts.values()) for amounts in ledger_of(RowYarn(room), parts).entries)


def brute(design: Design, most: int = MAX_ROWS) -> int:
    room, skein = StitchTable(design), supply_of(design)
    count = 0
    while count < most and (total := total_m(room, count + 1)) is not None and total <= skein.budget_m * (1 + 1e-9):
        count += 1
    return count


GROWING = [
    "garter as yarn allows",
    "garter 3 rows\ngarter as yarn allows\nmesh 5 rows",
    "repeat as yarn allows\n  mesh 3 rows\n  drop 3 wraps\n  garter 3, 5, 4 ridges",
    "repeat 3 times\n  garter 1, 2 ridges\n  mesh as yarn allows",
    "repeat 2 times\n  repeat as yarn allows\n    garter 1, 4 rows\n    repeat 2 times\n      mesh 1, 2, 3 rows",
]
SHAPINGS = [
    (),
    ("increase 1 at each edge and 1 at spine every 2 rows",),
    ("increase 2 at each edge every 6 rows until 140 sts", "increase 5 at spine every 14 rows from row 9"),
    ("increase 3 at upper edge every row until 90 sts", "decrease 1 at lower edge every 3 rows from row 12"),
    ("increase 30 evenly from row 25", "increase 1 at each edge every 4 rows"),
    ("increase evenly to 150 sts from row 31", "increase 1 at each edge every 8 rows"),
    ("decrease 1 at each edge every 4 rows",),
]
OWN = [
    "",
    "even",
    "increase 1 at each edge every 3 rows",
    "increase 2 at each edge every 4 rows until 120 sts",
    "increase evenly to 130 sts",
    "decrease evenly to 40 sts from row 3",
    "decrease 2 at each edge every 2 rows until 30 sts",
    "increase 4 evenly every row until 90 sts\ndecrease 1 at each edge every 5 rows",
]


def random_shawl(pick: Random) -> Design:
    """A growing part among others, each with shaping of its own or without."""
    parts = [f"{pick.choice(OWN)}\n{pick.choice(GROWING)}".strip()]
    for _ in range(pick.randrange(3)):
        before = f"{pick.choice(OWN)}\ngarter {pick.randrange(1, 30)} rows".strip()
        parts.insert(pick.randrange(len(parts) + 1), before)
    tail = pick.choice(["", "", "turn back", f'turn back around "{len(parts)}"', "bind off picot", "bind off i-cord"])
    return described(
        *parts,
        shape="triangle",
        start=f"cast on {pick.choice([3, 9, 40, 200])} sts",
        lines=(*pick.choice(SHAPINGS), f"edge {pick.randrange(4)} sts"),
        skein=f"{pick.choice([15, 40, 70])} g 500 m",
        stitches=f"{GARTER}\n{MESH}\n  fill garter",
        tail=tail,
    )


@pytest.mark.parametrize("first", range(0, 150, 10))
def test_any_count_is_the_one_found_by_trying_all(first: int) -> None:
    for seed in range(first, first + 10):
        design = random_shawl(Random(seed))
        assert min(found(design), MOST) == brute(design, MOST), seed


def test_counts_are_found_that_are_large() -> None:
    """The comparison above must reach counts worth passing over."""
    counts = [found(random_shawl(Random(seed))) for seed in range(40)]
    assert sum(count > 20 for count in counts) > 10


def test_ten_thousand_rows_take_few_trials(monkeypatch: pytest.MonkeyPatch) -> None:
    from halfhank.model.yarn import trials

    calls: list[int] = []
    try_count = trials.Trials.try_count

    def counting(self: trials.Trials, count: int) -> "trials.Trial | Problem":
        calls.append(count)
        return try_count(self, count)

    monkeypatch.setattr(trials.Trials, "try_count", counting)
    for tail in ("", "turn back"):
        count = found(described("garter as yarn allows", lines=(SLOW,), skein="300000 g 450000 m", tail=tail))
        assert count > 2_500
    assert len(calls) < 150


def told(*parts: str, **more: object) -> tuple[int, list[Problem]]:
    design = described(*parts, **more)
    return allowance(RowYarn(StitchTable(design)), supply_of(design))


def test_not_even_once_is_a_mistake() -> None:
    count, problems = told("garter 60 ridges", "garter as yarn allows", lines=(SLOW,), skein="3 g 12 m")
    assert count == 0
    assert [(p.code, p.severity) for p in problems] == [("yarn-too-short", MISTAKE)]


def test_the_row_cap_is_advice() -> None:
    count, problems = told("garter as yarn allows", skein="1000000 g 1000000 m")
    assert count == MAX_ROWS // 2
    assert [(p.code, p.severity) for p in problems] == [("not-by-yarn", ADVICE)]


def test_shaping_that_runs_out_of_stitches_is_advice() -> None:
    """40 stitches less 4 every 2 rows from row 1: 9 acts leave 4, the tenth none; 9 pairs of rows can be worked."""
    count, problems = told(
        "garter as yarn allows", start="cast on 40 sts", lines=("decrease 2 at each edge every 2 rows",)
    )
    assert count == 9
    assert [(p.code, p.severity) for p in problems] == [("not-by-yarn", ADVICE)]


def test_rows_are_counted_in_repeats_where_the_stitch_has_rows() -> None:
    rows = f"{GARTER}\nstitch rib\n  multiple of 2 sts\n  rows 1-6: *k1, p1*"
    design = described("rib as yarn allows", start="cast on 60 sts", stitches=rows)
    assert total_rows(design, found(design)) == 6 * found(design)
    assert found(design) == brute(design)


def test_one_count_serves_all_passes_of_an_outer_repeat() -> None:
    design = described("repeat 4 times\n  garter as yarn allows\n  garter 1 row", start="cast on 60 sts")
    count = found(design)
    assert total_rows(design, count) == 4 * (2 * count + 1)
    assert count == brute(design)


def test_no_count_is_passed_over_while_a_row_that_counts_evenly_may_still_move() -> None:
    """10 rows and 2 for each count: the line on row 50 is done within 30 counts, not within 10."""
    lines = ("increase evenly to 60 sts from row 50",)
    trials = Trials(RowYarn(StitchTable(described("garter 10 rows", "garter as yarn allows", lines=lines))))
    assert [step_of(trials, count).sure for count in (1, 10, 30)] == [False, False, True]
