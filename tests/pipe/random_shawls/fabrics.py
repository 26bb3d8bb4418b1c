"""Random yarns and fabrics: gauges, swatches and working notation, as a swatching knitter would note them."""

from random import Random
from typing import NamedTuple

from tests.pipe.random_shawls.spec import CM, GRAMS, Fabric, Pattern, Swatch, Tension, Written

NAMES = ("lattice", "fil-2", "Spitze", "кружево", "メッシュ", "weft", "ajour", "ziczac", "γαζί", "tela7")

# Counted by hand: loops and stitches made over one multiple and all rows, wraps beyond the first.
PATTERNS = (
    Pattern(2, 1, ("k1, *yo, k2tog*", "purl"), 4, 4, 0, True),
    Pattern(4, 1, ("k1, *yo, s2kp, yo, k1*", "purl"), 8, 8, 0, True),
    Pattern(4, 0, ("*k2tog, yo twice, ssk*", "purl", "knit", "purl"), 16, 16, 0, True),
    Pattern(4, 0, ("*[k1, yo, k1] in 1, p3tog*", "purl"), 8, 8, 0, True),
    Pattern(3, 0, ("*kfb, k2tog*", "purl", "*k2tog, kfb; rep from * to end", "knit"), 12, 12, 0, False),
    Pattern(2, 0, ("*k1, sl1 wyif*", "purl"), 3, 4, 0, False),
    Pattern(2, 1, ("*k1, sl1*, k1", "*p1 tbl, k1*, p1"), 3, 4, 0, False),
    Pattern(1, 0, ("*k1 with 3 wraps*", "knit"), 2, 2, 2, False),
    Pattern(6, 0, ("*p1, 2/2 rc, p1*", "*k1, p4, k1*", "*p1, k4, p1*", "*k1, p4, k1*"), 24.4, 24, 0, False),
    Pattern(5, 2, ("k1, *[k1, p1] 2 times, k1*, k1", "purl"), 10, 10, 0, False),
)


class Stash(NamedTuple):
    """What the needles hold: fabrics, metres of yarn in a gram and the needles' size."""

    fabrics: tuple[Fabric, ...]
    metres_per_gram: float
    needles: Written


def figure(value: float, decimals: int) -> str:
    """The value as the language writes numbers: no sign, no exponent."""
    out = f"{value:.{decimals}f}"
    return out.rstrip("0").rstrip(".") if "." in out else out


def mass(pick: Random, grams: float, decimals: int = 1) -> Written:
    unit = pick.choice(("g", "g", "oz"))
    return Written(figure(grams / GRAMS[unit], decimals + (unit == "oz") * 2), unit)


def length(pick: Random, cm: float, units: tuple[str, ...] = ("m", "m", "yd")) -> Written:
    unit = pick.choice(units)
    return Written(figure(cm / CM[unit], 1), unit)


def tension(pick: Random, stitches: float, rows: float) -> Tension:
    """A gauge near the one given over 10 cm, over some other length."""
    over = pick.choice(
        (Written("10", "cm"), Written("10", "cm"), Written("4", "in"), Written("100", "mm"), Written("5", "cm"))
    )
    decimals = pick.choice((0, 0, 1))
    return Tension(
        figure(max(4, stitches * over.cm / 10), decimals), figure(max(4, rows * over.cm / 10), decimals), over
    )


def swatch(pick: Random, gauge: Tension, metres_per_gram: float, loops: float = 1.0) -> Swatch:
    """A swatch whose stitches take about Munden's yarn, give or take a tenth."""
    stitches, rows = pick.randint(20, 60), pick.randint(20, 80)
    metres = 4.1 * gauge.stitch_cm / 1.05 / 100 * pick.uniform(0.9, 1.1) * loops * stitches * (rows + 2.62)
    if pick.random() < 0.7:
        return Swatch(stitches, rows, mass(pick, metres / metres_per_gram, 1))
    return Swatch(stitches, rows, length(pick, metres * 100))


def patterned(pick: Random, name: str, stitches: float, metres_per_gram: float) -> Fabric:
    """A stitch with working notation, now and then with a swatch of its own."""
    pattern = pick.choice(PATTERNS)
    gauge = tension(pick, stitches * pick.uniform(0.85, 1.1), stitches * pick.uniform(1.2, 1.8))
    loops = pattern.loops / pattern.made
    own = swatch(pick, gauge, metres_per_gram, loops) if pick.random() < 0.2 else None
    before = tension(pick, stitches * 1.15, stitches * 1.7) if pick.random() < 0.15 else None
    fill = pick.choice(("garter", "stockinette")) if pick.random() < 0.3 else None
    return Fabric(name, gauge if pick.random() < 0.8 or own else None, before, own, pattern, fill)


def first_fabric(pick: Random, metres_per_gram: float, stitches: float, rows: float) -> Fabric:
    """The fabric with the gauge: garter, stockinette or a stitch of the designer's, with a swatch or without."""
    kind = pick.randint(0, 9)
    if kind <= 5:
        gauge = tension(pick, stitches, rows)
        block = Fabric("garter", gauge)
    elif kind <= 7:
        gauge = tension(pick, stitches, rows / 1.45)
        block = Fabric("stockinette", gauge)
    else:
        gauge = tension(pick, stitches, rows)
        block = Fabric(NAMES[0], gauge, pattern=pick.choice((None, *PATTERNS)))
    loops = block.pattern.loops / block.pattern.made if block.pattern else 1.0
    return block._replace(swatch=swatch(pick, gauge, metres_per_gram, loops)) if pick.random() < 0.55 else block


def other_fabric(pick: Random, name: str, first: Fabric, metres_per_gram: float, stitches: float) -> Fabric:
    """A further stitch: a pattern, or one that takes what it lacks from the first."""
    if pick.random() < 0.75:
        return patterned(pick, name, stitches, metres_per_gram)
    gauge = tension(pick, stitches * 0.95, stitches * 1.7) if pick.random() < 0.5 else None
    return Fabric(name, gauge, base=first.name if gauge is None or pick.random() < 0.6 else None)


def fabrics(pick: Random, metres_per_gram: float, stitches: float) -> tuple[Fabric, ...]:
    """The fabric with the gauge and up to four more."""
    rows = stitches * pick.uniform(1.8, 2.1)
    first = first_fabric(pick, metres_per_gram, stitches, rows)
    blocks = [first]
    if first.name == "garter" and pick.random() < 0.4:
        before = tension(pick, stitches * 1.06, rows / 1.4) if pick.random() < 0.4 else None
        blocks.append(Fabric("stockinette", tension(pick, stitches, rows / 1.45), before))
    if pick.random() < 0.1:
        gauge = tension(pick, stitches * 0.9, rows * 0.8)
        blocks.append(
            Fabric("drop", gauge, swatch=swatch(pick, gauge, metres_per_gram) if pick.random() < 0.5 else None)
        )
    for name in pick.sample(NAMES[1:], pick.randint(0, 2)):
        blocks.append(other_fabric(pick, name, first, metres_per_gram, stitches))
    return tuple(blocks)


def stash(pick: Random) -> Stash:
    """A yarn from lace to aran, its needles, and what was swatched in it."""
    stitches = pick.uniform(13, 30)
    metres_per_gram = 4.0 * (stitches / 22) ** 2 * pick.uniform(0.8, 1.25)
    needles = pick.choice(("2.25", "2.75", "3.25", "3.75", "4", "4.5", "5", "5.5", "6", "8"))
    return Stash(fabrics(pick, metres_per_gram, stitches), metres_per_gram, Written(needles, "mm"))
