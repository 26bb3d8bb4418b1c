"""The ledger has every metre once: its sums are those of the rows, in closed form and one by one."""

from itertools import accumulate
from pathlib import Path

import pytest
from halfhank.model.plan import Plan
from halfhank.model.yarn.ledger import BOUND_OFF, BOUND_OFF_BY_WIDTH, START, STITCH, YarnUse, hanging_m
from halfhank.model.yarn.row_yarn import RowYarn
from halfhank.model.yarn.uncertainty import BIND_OFF_ERROR, START_ERROR

from tests.whole import plan_of

GALLERY = Path(__file__).parents[3] / "gallery_demo"
SHAWL = """shawl "Ledger"
yarn
  skein 100 g 400 m
needles 4 mm
stitch garter
  gauge 20 sts 40 rows over 10 cm
stitch rib
  gauge 24 sts 36 rows over 10 cm
  multiple of 4 sts + 1
shape triangle
  cast on 3 sts
  edge 3 sts
  increase 2 at each edge every 2 rows
  bind off 9 at upper edge every 40 rows from row 40
part "body"
  garter 10 ridges
  rib 11 rows
  drop 3 wraps
  rib 30 rows
"""
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(GALLERY.glob("*.shawl"))]
TEXTS += [
    SHAWL,
    SHAWL + "bind off picot\n",
    SHAWL + "bind off takes 5 times the width\n",
    SHAWL + "bind off takes 2.5 sts each\n",
]


@pytest.fixture(params=TEXTS, ids=lambda text: text.split('"')[1])
def plan(request: pytest.FixtureRequest) -> Plan:
    return plan_of(request.param)


def test_its_sums_are_the_yarn_used(plan: Plan) -> None:
    working = plan.working
    sums = [sum(amounts.values()) for amounts in working.ledger.entries]
    used = list(accumulate(sums[:-1]))
    assert used == pytest.approx(working.used_m, rel=1e-12)
    assert used[-1] + sums[-1] == pytest.approx(working.total_m, rel=1e-12)
    assert sum(working.ledger.by_use().values()) == pytest.approx(working.total_m, rel=1e-12)


def test_a_part_in_closed_form_is_the_sum_of_its_rows(plan: Plan) -> None:
    yarn = plan.working.yarn
    for part in plan.parts:
        assert yarn.total_m(part) == pytest.approx(sum(yarn.rows_m(part)), rel=1e-12)


def test_what_is_worked_by_row_and_stitch() -> None:
    """The first row of rib: edges, whole repeats in each wing, and fill for what is short of one."""
    plan = plan_of(SHAWL)
    yarn = RowYarn(plan.table)
    live = plan.rows.stitches[21]
    inside = live - 6
    wing = (inside - 1) // 2
    repeats = (wing - 1) // 4
    left = wing - (4 * repeats + 1)
    other = inside - 1 - wing
    left += other - (4 * ((other - 1) // 4) + 1)
    row = plan.ledger.rows[20]
    garter, rib = (plan.table[name].fabric.yarn_m for name in ("garter", "rib"))
    fill = plan.table["stockinette"].fabric.yarn_m
    assert row[YarnUse(STITCH, "garter")] == pytest.approx(6 * garter)
    assert row.get(YarnUse(STITCH, "stockinette"), 0.0) == pytest.approx(left * fill)
    assert row[YarnUse(STITCH, "rib")] == pytest.approx((inside - left) * rib)
    assert sum(row.values()) == pytest.approx(yarn.row_m("rib", 1, live))


def test_the_ends_are_uses_of_their_own() -> None:
    plain, wide = plan_of(SHAWL), plan_of(SHAWL + "bind off takes 5 times the width\n")
    assert set(plain.ledger.start) == {YarnUse(START)}
    assert set(plain.ledger.bind_off) == {YarnUse(BOUND_OFF)}
    assert set(wide.ledger.bind_off) == {YarnUse(BOUND_OFF_BY_WIDTH)}
    assert YarnUse(BOUND_OFF) in plain.ledger.rows[39], "stitches bound off on the way"
    hanging = hanging_m(plain.table, plain.ledger.by_use())
    assert hanging[START_ERROR] == pytest.approx(sum(plain.ledger.start.values()))
    off = sum(entry.get(YarnUse(BOUND_OFF), 0.0) for entry in plain.ledger.entries)
    assert hanging[BIND_OFF_ERROR] == pytest.approx(off)


def test_a_yarn_by_name_is_another_use() -> None:
    assert len({YarnUse(STITCH, "garter"), YarnUse(STITCH, "garter", "second"), YarnUse(STITCH, "garter", "")}) == 2


def test_scaled_by_use() -> None:
    ledger = plan_of(SHAWL).ledger
    scaled = ledger.scaled(lambda use: 2.0 if use.stitch == "rib" else 1.0)
    rib = YarnUse(STITCH, "rib")
    assert scaled.by_use()[rib] == pytest.approx(2 * ledger.by_use()[rib])
    others = {use: metres for use, metres in ledger.by_use().items() if use != rib}
    assert {use: metres for use, metres in scaled.by_use().items() if use != rib} == pytest.approx(others)
