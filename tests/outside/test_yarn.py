"""Yarn against published measures, and against the definitions of yarn counts and units."""

import math

import pint
import pytest
from halfhank.grammar.description import CM_IN, GRAMS_IN
from halfhank.grammar.parse import parse
from halfhank.model.design.design import Design
from halfhank.model.design.resolve import resolve
from halfhank.model.design.stitch_measures import wrap_m
from halfhank.model.shawl import Shawl

from tests.outside.pieces import part, piece
from tests.whole import shawl

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
YARD_M = 0.9144  # international yard and pound agreement, 1959


def fabric_m(found: Shawl, name: str = "garter") -> float:
    """Metres of yarn in one stitch."""
    return next(f.yarn_m for f in found.fabrics if f.name == name)


def knitted_m(found: Shawl) -> float:
    return (found.used_g[-1] - found.used_g[0]) * found.yarn.skein_m / found.yarn.skein_g


def square(gauge: str, **more: str) -> str:
    return piece(
        shape="rectangle",
        start="cast on 50 sts",
        fabric=f"stitch garter\n  {gauge}",
        parts=part("garter 50 ridges"),
        **more,
    )


# Loop lengths. Munden, Journal of the Textile Institute 50, 1959 (from memory): courses and wales to the cm are Kc / l
# and Kw / l for a loop of l cm; wet-relaxed plain wool Kc 5.3, Kw 4.1; fully relaxed 5.5 and 4.2 (Knapton 1968, from
# memory).


def test_mundens_constants_against_a_published_loop_count() -> None:
    """GATE textile paper, 2015: Kc 5.5, Kw 4.2 and l = 0.5 cm make 92.4 loops to the square cm. A fabric of these
    courses and wales must be given a loop of about 0.5 cm (ours is Munden's wet-relaxed Kw)."""
    courses, wales = 5.5 / 0.5, 4.2 / 0.5
    assert courses * wales == pytest.approx(92.4)
    gauge = f"gauge {wales * 10:.0f} sts {courses * 10:.0f} rows over 10 cm"
    found = shawl(square(f"{gauge}\n  before blocking {wales * 10:.0f} sts {courses * 10:.0f} rows over 10 cm"))
    assert fabric_m(found) * 100 == pytest.approx(0.5, rel=0.03)


@pytest.mark.parametrize("loop_cm", [0.5, 1.0, 2.0])
def test_gauge_gives_mundens_loop_back(loop_cm: float) -> None:
    """Kw = 4.1: a fabric of 4.1 / l wales to the cm before blocking has loops of l."""
    measured = f"{41 / loop_cm:.1f} sts {53 / loop_cm:.1f} rows over 10 cm"
    found = shawl(square(f"gauge {measured}\n  before blocking {measured}"))
    assert fabric_m(found) * 100 == pytest.approx(loop_cm)


def test_bias_scarf_from_gauge_alone() -> None:
    """Patons PAK0125-001028M: garter 19 sts 36 rows in 10 cm, +1 every 2 rows, 374 m used up. By arithmetic from
    2 sts that is about 264 rows, 134 sts, 18,084 stitches and 20.7 mm a stitch.
    """
    found = shawl(
        piece(
            shape="asymmetric",
            start="cast on 2 sts",
            shaping="increase 1 at upper edge every 2 rows",
            fabric="stitch garter\n  gauge 19 sts 36 rows over 10 cm",
            skein="200 g 374 m",
            parts=part("garter 264 rows"),
        )
    )
    assert found.rows.stitches[-1] == 134
    assert sum(found.rows.stitches[1:]) == 18_084
    assert fabric_m(found) * 1000 == pytest.approx(20.7, rel=0.02)
    assert found.yarn.total_m == pytest.approx(374, rel=0.03)


def test_bias_scarf_ends_where_the_pattern_ends() -> None:
    """The same, asked the other way round: 374 m pay for about 264 rows."""
    found = shawl(
        piece(
            shape="asymmetric",
            start="cast on 2 sts",
            shaping="increase 1 at upper edge every 2 rows",
            fabric="stitch garter\n  gauge 19 sts 36 rows over 10 cm",
            skein="200 g 374 m",
            parts=part("garter as yarn allows"),
        )
    )
    assert found.rows.count == pytest.approx(264, abs=6)


def test_hat_yarn_arithmetic() -> None:
    """craftingenclave.blogspot.com, February 2011: 92 stitches from a yard of sock yarn, 420 m about 42,250 stitches.
    The gauge is not given, so this checks sums of yarn only."""
    per_yard = "swatch 92 sts 100 rows takes 102.62 yd"  # 100 rows, cast-on and bind-off as the model counts them
    found = shawl(
        piece(
            shape="rectangle",
            start="cast on 65 sts",
            fabric=f"stitch garter\n  gauge 32 sts 64 rows over 10 cm\n  {per_yard}",
            parts=part("garter 650 rows"),
        )
    )
    assert sum(found.rows.stitches[1:]) == 42_250
    assert fabric_m(found) * 1000 == pytest.approx(9.94, abs=0.005)
    assert knitted_m(found) == pytest.approx(420, rel=0.003)


# Bind-offs.


@pytest.mark.parametrize(
    ("method", "width_cm", "yarn_cm"),
    [
        ("standard", 12, 4.6 * 12),  # nimble-needles.com, how much yarn for a bind-off: 4.6 times the width, on 12 cm
        ("picot cast on 2 bind off 4", 12.5, 193),  # bloodraynebetrayal.com: 193 cm, 15.5 times the width
    ],
)
def test_measured_bind_offs(method: str, width_cm: float, yarn_cm: float) -> None:
    """An unblocked edge of that width takes that much yarn."""
    gauge = "gauge 20 sts 40 rows over 10 cm\n  before blocking 20 sts 40 rows over 10 cm"
    found = shawl(square(gauge, end=f"bind off {method}"))
    assert found.bind_off.stitches == 50
    assert found.bind_off.yarn_m * 100 / 25 == pytest.approx(yarn_cm / width_cm, rel=0.02)


@pytest.mark.parametrize(("times", "method"), [("4.6", "standard"), ("15.5", "picot")])
def test_bind_off_by_width_agrees_with_its_stitches(times: str, method: str) -> None:
    """The same measures written as `takes X times the width`."""
    gauge = "gauge 20 sts 40 rows over 10 cm"
    by_width = shawl(square(gauge, end=f"bind off takes {times} times the width"))
    by_stitch = shawl(square(gauge, end=f"bind off {method}"))
    assert by_width.bind_off.yarn_m == pytest.approx(by_stitch.bind_off.yarn_m, rel=0.02)


@pytest.mark.parametrize(
    ("method", "least", "most"),
    [
        ("picot cast on 2 bind off 4", 3.0, 3.75),  # published measures: 3.0 to 3.74 stitches for each live stitch
        ("takes 2.5 sts each", 2.5, 2.5),  # a very loose bind-off: common practice
    ],
)
def test_bind_offs_lie_in_the_range_of_published_measures(method: str, least: float, most: float) -> None:
    found = shawl(square("gauge 20 sts 40 rows over 10 cm", end=f"bind off {method}"))
    plain_m = next(one for one in found.fabrics if one.name == "garter").yarn_m
    each = found.bind_off.yarn_m / found.bind_off.stitches / plain_m
    assert least - 1e-9 <= each <= most + 1e-9


@pytest.mark.parametrize(
    ("method", "stitches", "within"), [("standard", 1, 0.15), ("elastic", 2, 0.001), ("i-cord", 3, 0.001)]
)
def test_bind_offs_in_stitches(method: str, stitches: float, within: float) -> None:
    """mathemaknitter.com, November 2018: standard 1, k2tog tbl 2, three-stitch i-cord 3 stitches for each one."""
    found = shawl(square("gauge 20 sts 40 rows over 10 cm", end=f"bind off {method}"))
    assert found.bind_off.yarn_m / 50 / fabric_m(found) == pytest.approx(stitches, rel=within)


def test_kept_yarn_of_a_published_bias_shawl() -> None:
    """PattyCakes: 8 to 10 yd of 462 yd are kept for a plain bind-off. A bias shawl of all of it must bind off
    within that, and not with so little that the advice would be idle. Its gauge is not given: garter of fingering
    yarn is assumed.
    """
    found = shawl(
        piece(
            shape="asymmetric",
            start="cast on 3 sts",
            shaping="increase 1 at upper edge every row",
            skein="100 g 462 yd",
            parts=part("garter as yarn allows"),
        )
    )
    assert 4 < found.bind_off.yarn_m / YARD_M < 10


# Turning points.


@pytest.mark.parametrize(("keep", "turned_at_g"), [(None, 45), ("6 g", 47)])
def test_turning_points_of_a_100_g_skein(keep: str | None, turned_at_g: float) -> None:
    """Common practice, no source: worked tip to tip, turned at 45 g, by the bold at 47 g (10 g or 6 g kept in all)."""
    text = piece(
        shape="tip-to-tip",
        start="cast on 3 sts",
        shaping="increase 1 at lower edge every 4 rows",
        skein="100 g 400 m",
        keep=keep or "10%",
        parts=part("garter as yarn allows"),
        end="turn back\nbind off draw through",
    )
    found = shawl(text if keep else text.replace("  keep 10%\n", ""))
    assert found.marks.turn_back is not None
    assert found.marks.turn_back.used_g == pytest.approx(turned_at_g, abs=0.5)
    widest_g = max(after - before for before, after in zip(found.used_g, found.used_g[2:], strict=False))
    assert 2 * (turned_at_g - widest_g) < found.yarn.total_g <= 2 * turned_at_g


# Elongated rows and yarn diameters.


def test_yarn_count_of_a_common_sock_yarn() -> None:
    """ISO 1144 and ISO 2947: tex x Nm = 1000, denier = 9 tex, tex x Ne = 590.5; 400 m to 100 g are 250 tex, Nm 4.
    The extra wrap of a drop stitch is a turn round needle and yarn; the yarn's diameter follows from its tex and
    0.15 g to the cm3 (wool yarn that nothing presses, common practice).
    """
    tex = (100 * UNITS.gram / (400 * UNITS.meter)).to(UNITS.tex).magnitude
    assert tex == pytest.approx(250)
    assert 1000 / tex == pytest.approx(4)
    assert (tex * UNITS.tex).to(UNITS.denier).magnitude == pytest.approx(9 * tex)
    yarn_cm = math.sqrt(4 * tex * 1e-5 / (math.pi * 0.15))
    wrap_cm = math.pi * (0.4 + yarn_cm)
    found = shawl(
        square("gauge 20 sts 40 rows over 10 cm", skein="100 g 400 m").replace("50 ridges", "2 ridges\n  drop 3 wraps")
    )
    assert found.rows.height_cm[5] == pytest.approx(0.25 + 2 * wrap_cm / 2)
    assert found.rows.height_cm[6] == pytest.approx(0.25)
    metres = [grams * found.yarn.skein_m / found.yarn.skein_g for grams in found.used_g]
    assert metres[5] - metres[4] == pytest.approx(50 * (fabric_m(found) + 2 * wrap_cm / 100))


@pytest.mark.parametrize(
    ("skein", "least", "most"),
    [("100 g 400 m", 14, 18), ("100 g 200 m", 9, 13), ("100 g 800 m", 18, 30)],
    ids=["fingering", "worsted", "lace"],
)
def test_wraps_to_the_inch(skein: str, least: int, most: int) -> None:
    """Common practice, no source: so often yarn of these weights goes round a ruler's inch, turn beside turn. A wrap of
    the needle is pi times needle and yarn, so the yarn's diameter is that of a wrap less the needle's."""
    diameter_cm = wrap_m(design_of(skein)) * 100 / math.pi - 0.4
    assert least <= 2.54 / diameter_cm <= most


def design_of(skein: str) -> Design:
    """The design of a square with that skein, on needles of 4 mm."""
    described = parse(square("gauge 20 sts 40 rows over 10 cm", skein=skein)).description
    assert described
    return resolve(described)


@pytest.mark.parametrize("needles", ["4 mm", "4.5 mm", "5 mm", "6 mm"])
def test_drop_rows_add_more_than_half_an_inch(needles: str) -> None:
    """Common practice, no source: two rows of drop stitch add more than half an inch. The needle is not said;
    held for 2 wraps at 4 mm and up.
    """
    text = square("gauge 20 sts 40 rows over 10 cm", skein="100 g 400 m", needles=needles)
    plain = shawl(text.replace("50 ridges", "4 ridges"))
    dropped = shawl(text.replace("50 ridges", "4 ridges\n  drop 2 wraps"))
    added = sum(dropped.rows.height_cm) - sum(plain.rows.height_cm)
    assert added > 0.5 * 2.54


# Units.


@pytest.mark.parametrize("unit", ["mm", "cm", "m", "in", "yd"])
def test_lengths_against_pint(unit: str) -> None:
    """International yard and pound agreement, 1959, as pint has it."""
    name = {"in": "inch", "yd": "yard"}.get(unit, unit)
    assert CM_IN[unit] == pytest.approx(UNITS.Quantity(1, name).to("cm").magnitude, rel=1e-12)


@pytest.mark.parametrize("unit", ["g", "oz"])
def test_masses_against_pint(unit: str) -> None:
    """The avoirdupois ounce of 1959, as pint has it."""
    assert GRAMS_IN[unit] == pytest.approx(UNITS.Quantity(1, unit).to("g").magnitude, rel=1e-12)


def test_a_description_in_inches_is_the_same_shawl() -> None:
    """The same piece in both systems, converted by pint."""
    ounces = UNITS.Quantity(113.398092500, "g").to("oz").magnitude
    yards = UNITS.Quantity(411.48, "m").to("yd").magnitude
    metric = square("gauge 20 sts 40 rows over 10.16 cm", skein="113.3980925 g 411.48 m")
    imperial = square("gauge 20 sts 40 rows over 4 in", skein=f"{ounces:.9f} oz {yards:.9f} yd")
    one, two = shawl(metric), shawl(imperial)
    assert one.yarn.total_g == pytest.approx(two.yarn.total_g)
    assert one.outline.size.area_cm2 == pytest.approx(two.outline.size.area_cm2)
