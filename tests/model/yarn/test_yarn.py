"""Yarn: fabrics, start, rows, bind-off, marks, and how well it is known."""

import math
from itertools import accumulate

import numpy as np
import pytest
from halfhank.model.design.design import Design
from halfhank.model.rows.shaping import last_stitch
from halfhank.model.rows.worked import work
from halfhank.model.stitch_counts.loops import draw
from halfhank.model.yarn.ledger import STITCH, hanging_m, ledger_of, part_amounts
from halfhank.model.yarn.row_yarn import RowYarn, bind_off_m, start_m
from halfhank.model.yarn.stitch_table import StitchTable
from halfhank.model.yarn.supply import supply_of
from halfhank.model.yarn.totals import yarn_plan
from halfhank.model.yarn.uncertainty import chance_enough, sd_of
from halfhank.model.yarn.working import Working
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.model.texts import GARTER, described

WINGS = ("increase 1 at each edge and 1 at spine every 2 rows",)
SWATCH_G = 11.2 / (40 * (60 + 1.5 + 1.12))
METRES = 3.8  # in a gram: 100 g 380 m


def room_of(stitches: str, *parts: str, **more: object) -> StitchTable:
    return StitchTable(described(*(parts or ("garter 2 rows",)), stitches=stitches, **more))


def working_of(design: Design, allowed: int = 0) -> Working:
    parts, problem = work(design, allowed)
    assert problem is None, problem
    yarn = RowYarn(StitchTable(design))
    return Working(yarn, parts, ledger_of(yarn, parts), supply_of(design))


def stitch_metres(working: Working) -> dict[str, float]:
    """Metres of the rows by stitch, without what is bound off on the way."""
    metres = dict[str, float]()
    for amounts in working.ledger.rows:
        for use, used in amounts.items():
            if use.kind == STITCH:
                metres[use.stitch] = metres.get(use.stitch, 0.0) + used
    return metres


# What a stitch measures.


def test_stockinette_by_garter() -> None:
    """One yarn, one needle: stockinette 17 x 22, garter 17 x 33 in 10 cm (DROPS 253-28)."""
    garter = room_of("stitch garter\n  gauge 17 sts 33 rows over 10 cm")["stockinette"].fabric
    stockinette = room_of("stitch stockinette\n  gauge 17 sts 22 rows over 10 cm")["garter"].fabric
    assert (garter.gauge, stockinette.gauge) == ((17, 22), (17, 33))
    assert garter.row_cm == pytest.approx(10 / 22) and stockinette.row_cm == pytest.approx(10 / 33)
    assert garter.gauge_assumed and stockinette.gauge_assumed


def test_garter_takes_the_only_gauge_there_is() -> None:
    room = room_of("stitch moss\n  gauge 18 sts 30 rows over 10 cm")
    assert room["garter"].fabric.gauge == (18, 30)
    assert room["stockinette"].fabric.gauge == (18, 20)


def test_as_takes_what_is_not_given() -> None:
    room = room_of(f"{GARTER}\nstitch rib\n  as stockinette\nstitch rib2\n  as rib\n  gauge 25 sts 30 rows over 10 cm")
    assert room["rib"].fabric.gauge == room["stockinette"].fabric.gauge
    assert room["rib2"].fabric.gauge == (25, 30)


def test_an_elongated_row_is_taller_by_half_of_each_extra_wrap() -> None:
    """The yarn is a cylinder of 0.15 g/cm3 (common practice): 100 g 380 m are 0.1495 cm thick."""
    room = StitchTable(described("drop 3 wraps"))
    yarn_cm = math.sqrt(4 * (100 / 38_000) / (math.pi * 0.15))
    assert yarn_cm == pytest.approx(0.1495, abs=5e-5)
    wrap_cm = math.pi * (0.4 + yarn_cm)
    assert room.wrap_m * 100 == pytest.approx(wrap_cm)
    assert room.measures.heights_cm("drop", 2, 3) == pytest.approx([0.25 + wrap_cm, 0.25])


def test_drop_stitch_as_measured_holds_for_its_two_rows_together() -> None:
    room = StitchTable(described("drop 2 wraps", stitches=f"{GARTER}\nstitch drop\n  gauge 18 sts 14 rows over 10 cm"))
    assert sum(room.measures.heights_cm("drop", 2, 2)) == pytest.approx(20 / 14)
    assert room.measures.heights_cm("drop", 2, 2)[1] == pytest.approx(0.25)


def test_two_dropped_rows_add_more_than_half_an_inch() -> None:
    """Common practice, no source; needle not said: held for 2 wraps at 4.5 mm and up."""
    text = described("drop 2 wraps")
    room = StitchTable(text._replace(needles_cm=0.45))
    assert sum(room.measures.heights_cm("drop", 2, 2)) > 1.27


# Yarn of one stitch.


def test_a_swatch_weighed_whole() -> None:
    fabric = room_of(GARTER)["garter"].fabric
    assert (fabric.yarn_m, fabric.basis, fabric.parent) == (pytest.approx(SWATCH_G * METRES), "swatch", None)


def test_a_swatch_unravelled_in_yards() -> None:
    """International yard of 1959: 0.9144 m."""
    room = room_of("stitch garter\n  gauge 20 sts 40 rows over 10 cm\n  swatch 40 sts 60 rows takes 50 yd")
    assert room["garter"].fabric.yarn_m == pytest.approx(50 * 0.9144 / (40 * 62.62))


def test_a_swatch_of_drop_stitch_holds_a_wrap_in_every_other_row() -> None:
    """20 stitches, 10 rows: five elongated rows of two wraps and their releases, cast-on and bind-off plain."""
    swatch = "stitch drop\n  swatch 20 sts 10 rows weighs 1 g"
    room = room_of(f"stitch garter\n  gauge 20 sts 40 rows over 10 cm\n{swatch}", "drop 2 wraps")
    rows = RowYarn(room)
    plain_m, long_m = rows.row_m("drop", 1, 20), rows.row_m("drop", 2, 20)
    assert 5 * (plain_m + long_m) + (1.5 + 1.12) * plain_m == pytest.approx(METRES)
    assert long_m - plain_m == pytest.approx(20 * room.wrap_m)
    assert room["garter"].fabric.yarn_m == pytest.approx(plain_m / 20)


def test_a_swatch_too_light_for_its_wraps_leaves_something_for_the_stitch() -> None:
    room = room_of(f"{GARTER}\nstitch drop\n  swatch 20 sts 10 rows weighs 0.1 g", "drop 2 wraps")
    assert room["drop"].fabric.yarn_m == pytest.approx(0.1 * METRES / (20 * 12.62))


def test_ounces_are_grams() -> None:
    """International ounce of 1959: 28.349523125 g."""
    working = working_of(described("garter 2 rows", skein="4 oz 400 m"))
    assert working.supply.skein_g == pytest.approx(4 * 28.349523125)


@pytest.mark.parametrize(
    ("extra", "width_cm"),
    [("", 0.5 / 1.05), ("\n  before blocking 22 sts 44 rows over 10 cm", 10 / 22)],
)
def test_yarn_by_gauge_is_mundens(extra: str, width_cm: float) -> None:
    """Kw = 4.1 over the width before blocking (Munden 1959, from memory)."""
    fabric = room_of(f"stitch garter\n  gauge 20 sts 40 rows over 10 cm{extra}")["garter"].fabric
    assert (fabric.yarn_m, fabric.basis) == (pytest.approx(4.1 * width_cm / 100), "gauge")


def test_openwork_is_blocked_wider() -> None:
    lace = "stitch lace\n  gauge 16 sts 24 rows over 10 cm\n  multiple of 2 sts\n  row 1: *yo, k2tog*\n  row 2: purl"
    assert room_of(lace)["lace"].fabric.yarn_m == pytest.approx(4.1 * 10 / 16 / 1.15 / 100)


ROWS = {
    "row 1: *k1, sl1*\n  row 2: purl": 0.75,
    "row 1: *yo, k2tog*\n  row 2: purl": 1.0,
    "row 1: *2/2 rc*\n  row 2: purl": 1.05,
    "row 1: k1, *yo, s2kp, yo, k1*\n  row 2: purl": 1.0,
    "row 1: *[k1, yo, k1] in 1, sk2p*\n  row 2: purl": 1.0,
    "row 1: *k1 tbl, p1*\n  rows 2-4: *k1, p1*": 1.0,
    "row 1: *sl1 wyif, [k1, sl1] 3 times, k1*\n  row 2: knit": 0.75,
}


@pytest.mark.parametrize("rows", ROWS)
def test_loops_decide_the_ratio(rows: str) -> None:
    room = room_of(f"{GARTER}\nstitch own\n  multiple of 8 sts + 1\n  {rows}")
    assert room["own"].fabric.yarn_m == pytest.approx(ROWS[rows] * room["garter"].fabric.yarn_m)
    assert (room["own"].fabric.basis, room["own"].fabric.parent) == ("ratio", "garter")


@pytest.mark.parametrize("rows", ["row 1: *k1, sl1*\n  row 2: purl", "row 1: *k1 with 3 wraps, k1*\n  row 2: knit"])
def test_what_the_swatched_stitch_draws_itself_is_taken_off(rows: str) -> None:
    gauge = "gauge 20 sts 40 rows over 10 cm"
    swatched = f"stitch one\n  {gauge}\n  swatch 40 sts 60 rows weighs 11.2 g\n  multiple of 2 sts\n  {rows}"
    other = f"stitch other\n  {gauge}\n  multiple of 4 sts\n  {rows}"
    room = room_of(f"{swatched}\n{other}", "garter 2 rows")
    one, same, plain = (room[name].fabric.yarn_m for name in ("one", "other", "garter"))
    assert same == pytest.approx(one)
    drawn = draw(room.measures.rows("one"))
    assert drawn.loops * plain + drawn.wraps * room.wrap_m == pytest.approx(one)
    assert plain != pytest.approx(one)


def test_extra_wraps_add_their_yarn() -> None:
    room = room_of(f"{GARTER}\nstitch own\n  multiple of 4 sts\n  row 1: *k1, k1 with 3 wraps, k2*\n  row 2: purl")
    assert room["own"].fabric.yarn_m == pytest.approx(room["garter"].fabric.yarn_m + room.wrap_m * 2 / 8)


def test_huge_counts_in_notation_stay_finite() -> None:
    nest = "k1"
    for _ in range(40):
        nest = f"[{nest}] 999999999 times"
    room = room_of(f"{GARTER}\nstitch own\n  row 1: {nest}\n  row 2: sl1, k1")
    assert 0.5 <= draw(room.measures.rows("own")).loops <= 1


@pytest.mark.parametrize("name", ["garter", "stockinette", "drop", "ground"])
def test_plain_stitches_take_as_much_as_the_swatched_one(name: str) -> None:
    swatched = "  gauge 20 sts 30 rows over 10 cm\n  swatch 30 sts 30 rows weighs 6 g"
    stitches = f"stitch net\n{swatched}\n  multiple of 4 sts\n  fill ground"
    room = room_of(f"{stitches}\nstitch ground\n  gauge 21 sts 31 rows over 10 cm")
    assert room[name].fabric.yarn_m == room["net"].fabric.yarn_m
    assert (room[name].fabric.basis, room[name].fabric.parent) == ("ratio", "net")


def test_a_stitch_that_nothing_ties_to_the_swatch_goes_by_gauge() -> None:
    fabric = room_of(f"{GARTER}\nstitch moss\n  gauge 18 sts 30 rows over 10 cm")["moss"].fabric
    assert (fabric.basis, fabric.yarn_m) == ("gauge", pytest.approx(4.1 * 10 / 18 / 1.05 / 100))


# Start, rows, bind-off.


def test_start_of_a_tab_and_of_a_cast_on() -> None:
    assert start_m(StitchTable(described("garter 2 rows", start="garter tab 3 sts 6 rows"))) / METRES == pytest.approx(
        (3 * 6 + 9) * SWATCH_G
    )
    assert start_m(StitchTable(described("garter 2 rows", start="cast on 50 sts"))) / METRES == pytest.approx(
        75 * SWATCH_G
    )


@pytest.mark.parametrize(
    ("method", "stitches"),
    [
        ("standard", 1.12),
        ("elastic", 2.0),
        ("i-cord", 3.0),
        ("draw through", 0.3),
        ("picot", 3.74),
        ("picot cast on 1 bind off 5", (1.5 + 5.6) / 4),
        ("takes 2.5 sts each", 2.5),
        ("takes 1 st each", 1),
    ],
)
def test_bind_offs(method: str, stitches: float) -> None:
    room = StitchTable(described("garter 2 rows", tail=f"bind off {method}"))
    assert bind_off_m(room, "garter") == pytest.approx(stitches * room["garter"].fabric.yarn_m)


def test_a_bind_off_by_the_width_of_the_last_row() -> None:
    room = StitchTable(described("garter 2 rows", tail="bind off takes 5 times the width"))
    assert bind_off_m(room, "garter") == pytest.approx(5 * 0.005 / 1.05)


def test_edges_take_their_own_yarn_but_not_in_an_elongated_row() -> None:
    stitches = f"{GARTER}\nstitch moss\n  gauge 18 sts 30 rows over 10 cm\n  swatch 30 sts 30 rows weighs 9 g"
    design = described(
        "moss 1 row\ndrop 3 wraps", start="cast on 20 sts", lines=("edge 3 sts moss",), stitches=stitches
    )
    room = StitchTable(design)
    moss, garter = room["moss"].fabric.yarn_m, room["garter"].fabric.yarn_m
    working = working_of(design)
    rows = [after - before for before, after in zip(working.used_m, working.used_m[1:], strict=False)]
    assert rows == pytest.approx([20 * moss, 20 * (garter + 2 * room.wrap_m), 14 * garter + 6 * moss])


def test_edges_wider_than_the_row_are_cut_to_it() -> None:
    stitches = f"{GARTER}\nstitch moss\n  gauge 18 sts 30 rows over 10 cm\n  swatch 30 sts 30 rows weighs 9 g"
    design = described("garter 1 row", start="cast on 4 sts", lines=("edge 3 sts moss",), stitches=stitches)
    working = working_of(design)
    assert working.used_m[1] - working.used_m[0] == pytest.approx(4 * working.table["moss"].fabric.yarn_m)


@pytest.mark.parametrize(("live", "filled"), [(23, 4), (25, 6), (9, 4), (8, 3), (31, 0)])
def test_stitches_short_of_the_multiple_are_filled(live: int, filled: int) -> None:
    """Edges of 2, a spine of 1, two wings of 6 k + 1: 31 is 2 x 13 and them; 23 has wings of 9, 25 of 10."""
    net = "stitch net\n  gauge 20 sts 30 rows over 10 cm\n  multiple of 6 sts + 1\n  swatch 30 sts 30 rows weighs 9 g"
    yarn = RowYarn(StitchTable(described("net 1 row", lines=("edge 2 sts",), stitches=f"{GARTER}\n{net}")))
    assert yarn.split("net", 1, live) == (live - 4 - filled, 4, filled)


def test_saw_teeth_are_paid_for_as_they_come() -> None:
    lines = ("bind off 5 at lower edge from row 2",)
    working = working_of(described("garter 2 rows", start="cast on 20 sts", lines=lines, shape="asymmetric"))
    assert (working.used_m[2] - working.used_m[1]) / METRES == pytest.approx((15 + 5 * 1.12) * SWATCH_G)


MIXED = "garter 3 rows\nrepeat 3 times\n  net 5 rows\n  drop 2 wraps\n  garter 1, 2 ridges"
NET = "stitch net\n  gauge 20 sts 30 rows over 10 cm\n  multiple of 6 sts + 1\n  swatch 30 sts 30 rows weighs 9 g"


@settings(max_examples=60)
@given(st.integers(1, 60), st.integers(0, 8))
def test_parts_add_up_to_their_rows(start: int, edges: int) -> None:
    lines = (*WINGS, f"edge {edges} sts net")
    working = working_of(described(MIXED, start=f"cast on {start} sts", lines=lines, stitches=f"{GARTER}\n{NET}"))
    for part in working.parts:
        assert working.yarn.total_m(part) == pytest.approx(
            sum(sum(amounts.values()) for amounts in part_amounts(working.yarn, part)), rel=1e-12
        )
    assert working.used_m == sorted(set(working.used_m))
    assert sum(stitch_metres(working).values()) == pytest.approx(working.used_m[-1] - working.used_m[0], rel=1e-12)


# How well it is known.


def covariance_sd(working: Working) -> float:
    """The total's standard deviation in m by an explicit covariance of all that it is the sum of."""
    table, metres = working.table, stitch_metres(working)
    kinds = {"swatch": 0.07, "ratio": 0.08, "gauge": 0.12}
    amounts = [*metres.values(), working.used_m[0], working.total_m - working.used_m[-1]]
    stitches = [*metres, "garter", "garter"]
    errors = sorted({error for name in stitches for error in table[name].errors})
    loads = np.array([[kinds[e.kind] * (e in table[name].errors) for e in errors] for name in stitches])
    own = np.diag([0.0] * len(metres) + [0.15**2] * 2)
    vector = np.array(amounts)
    return float(np.sqrt(vector @ (loads @ loads.T + own) @ vector))


@pytest.mark.parametrize(
    "stitches",
    [
        GARTER,
        "stitch garter\n  gauge 20 sts 40 rows over 10 cm",
        f"{GARTER}\nstitch net\n  gauge 20 sts 30 rows over 10 cm\n  row 1: *yo, k2tog*\n  row 2: purl",
        f"{GARTER}\nstitch net\n  gauge 20 sts 30 rows over 10 cm",
        f"stitch garter\n  gauge 20 sts 40 rows over 10 cm\n{NET}",
    ],
)
def test_errors_are_shared_by_what_hangs_on_them(stitches: str) -> None:
    bands = "net 20 rows\ngarter 20 rows" if "net" in stitches else "garter 40 rows"
    working = working_of(described(bands, start="cast on 60 sts", lines=(*WINGS, "edge 3 sts"), stitches=stitches))
    assert sd_of(hanging_m(working.table, working.ledger.by_use())) == pytest.approx(covariance_sd(working), rel=1e-12)


def test_chance_is_a_normal_tail() -> None:
    """Normal tails from tables: 0.8413 at one standard deviation, 0.9772 at two."""
    assert chance_enough(90, 10, 100, skein_sd=0.0) == pytest.approx(0.8413, abs=5e-5)
    assert chance_enough(80, math.sqrt(96), 100, skein_sd=0.02) == pytest.approx(0.9772, abs=5e-5)
    assert chance_enough(100, 5, 100, skein_sd=0.02) == 0.5


@pytest.mark.parametrize(
    ("stitches", "bands", "basis"),
    [
        (GARTER, "garter 4 rows", "swatch"),
        (GARTER, "stockinette 4 rows", "ratio"),
        (GARTER, "garter 2 rows\ndrop 2 wraps", "ratio"),
        (f"{GARTER}\nstitch moss\n  gauge 18 sts 30 rows over 10 cm", "moss 2 rows\ndrop 2 wraps", "gauge"),
    ],
)
def test_the_basis_is_the_weakest(stitches: str, bands: str, basis: str) -> None:
    assert yarn_plan(working_of(described(bands, stitches=stitches))).basis == basis


def test_a_weighed_start_replaces_the_label() -> None:
    tail = "weighed\n  before cast on 104 g"
    yarn = yarn_plan(working_of(described("garter 60 rows", lines=WINGS, tail=tail)))
    plain = yarn_plan(working_of(described("garter 60 rows", lines=WINGS)))
    assert (yarn.skein_g, yarn.skein_m, yarn.keep_g) == (104, pytest.approx(104 * 3.8), pytest.approx(5.2))
    assert yarn.total_g == plain.total_g


def test_defaults_of_the_margin() -> None:
    assert supply_of(described("garter 2 rows", keep="")).margin_g == 5
    assert supply_of(described("garter 2 rows", keep="", tail="turn back")).margin_g == 10
    assert supply_of(described("garter 2 rows", keep="keep 8 g")).margin_g == 8


def test_stitches_from_a_yard() -> None:
    """92 stitches from a yard of sock yarn, 420 m about 42,250 stitches: 9.94 mm each (craftingenclave.blogspot.com
    2011/02; by arithmetic)."""
    swatch = "swatch 92 sts 10 rows takes 12.62 yd"
    design = described(
        "garter 845 rows",
        start="cast on 50 sts",
        stitches=f"stitch garter\n  gauge 32 sts 64 rows over 10 cm\n  {swatch}",
    )
    working = working_of(design)
    assert working.table["garter"].fabric.yarn_m * 1000 == pytest.approx(9.94, abs=0.005)
    assert list(accumulate(working.parts[0].counts))[-1] == 42_250
    assert working.used_m[-1] - working.used_m[0] == pytest.approx(420, rel=0.001)
    assert last_stitch(working.parts) == "garter"


def test_bias_scarf() -> None:
    """Garter 19/36, +1 every 2 rows, 374 m used up: about 264 rows, 134 stitches, 18,084 in all, 20.7 mm each (Patons
    PAK0125-001028M; counts by arithmetic)."""
    lines = ("increase 1 at upper edge every 2 rows",)
    working = working_of(described("garter 264 rows", start="cast on 2 sts", lines=lines, shape="asymmetric"))
    assert working.parts[0].end == 134 and sum(working.parts[0].counts) == 18_084
    assert pytest.approx(374 / 18_084 * 1000, abs=0.05) == 20.7


def test_a_skein_pays_for_all_of_its_budget_and_no_more() -> None:
    """To a millionth of it: rounding may not cost a row, nor give one away."""
    skein = supply_of(described("garter 2 rows", skein="100 g 300 m", keep="keep 7 g"))
    assert skein.budget_m == pytest.approx(279)
    assert skein.pays(279 * (1 + 1e-12)) and not skein.pays(279 * (1 + 1e-6))
